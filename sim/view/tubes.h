#pragma once
#include "drawing/tube.h"
#include "lesson/lesson.h"

#include <vector>

namespace cistern::view {

enum class Moment { drawn, spun };

/// The blood tubes of a draw in the order of filling, those that its tests need among them: full
/// and turned as they were handled, and their serum as the laboratory saw it. The share of cells is
/// what was measured, else the middle of the healthy. A draw that is not taken shows the tubes that
/// would be, with clear serum. EDTA blood is counted and never spun.
std::vector<drawing::TubeView> tubes(const lesson::Lesson& lesson, std::size_t draw, Moment moment);

} // namespace cistern::view
