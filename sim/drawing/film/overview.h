#pragma once
#include "drawing/film/cell.h"
#include "drawing/picture.h"

namespace cistern::drawing::film {

/// The whole film as the bare eye sees it, the feathered edge at the left: so many pixels wide, and
/// as high as the film is. Too small for cells: each pixel shows what light their dye lets through.
Pixels overview(const Slide& slide, int width);

} // namespace cistern::drawing::film
