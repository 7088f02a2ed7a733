#pragma once
#include "drawing/course.h"

namespace cistern::drawing {

/// What a course shows, in sentences, for those who cannot see it.
std::string described(const CourseView& view);

/// A level as the drawing prints it: "×3.2" as fold, else the number in its unit, three digits.
std::string levelWords(const CourseView& view, double value, double healthy);

/// "×0.5"; never an exponent.
std::string foldWords(double fold);

const std::string& meaningWords(const CourseWords& words, Meaning meaning);

} // namespace cistern::drawing
