#pragma once
#include "body/course.h"
#include "drawing/course.h"
#include "lab/bench.h"
#include "lesson/case.h"

#include <vector>

namespace cistern::view {

/// The analytes whose true level strays furthest from the animal's own healthy one, most first.
std::vector<body::Analyte> mostMoved(const body::Course& course, const lab::Bench& bench,
                                     const body::Individual& animal, std::size_t count);

/// The course of a case: the levels of these analytes with what the laboratory measured at the
/// case's draws, the work of the organs asked for, and what happened. `course` must hold the parts
/// of the body that they need.
drawing::CourseView course(const lesson::Case& one, const lesson::Knowledge& knowledge,
                           const body::Course& course, lab::Units units,
                           const std::vector<body::Analyte>& analytes);

} // namespace cistern::view
