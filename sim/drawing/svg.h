#pragma once
#include "drawing/picture.h"

#include <string>

namespace cistern::drawing {

/// The picture as an SVG 1.1 document that people can search and a screen reader can read: letters
/// stay text, with the picture's title and description. Each line carries the width it was laid
/// out with, so that another typeface cannot make labels collide.
std::string svg(const Picture& picture);

} // namespace cistern::drawing
