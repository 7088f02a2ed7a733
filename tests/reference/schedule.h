#pragma once
#include "body/course.h"

#include <cstdint>

namespace reference {

/// A random dog or cat with a random schedule of one to four insults and perhaps meals, on a grid
/// of quarter hours, looked at every hour for so many days. The same number gives the same plan
/// everywhere.
cistern::body::Plan randomPlan(const cistern::body::Species& dog, const cistern::body::Species& cat,
                               std::uint64_t number, int days);

/// Largest relative difference of two courses over all analytes and hours. `rows` holds
/// body::reading::gfr values a look, as reference::course gives them.
double worstError(const cistern::body::Course& course, const std::vector<double>& rows);
double worstError(const std::vector<double>& a, const std::vector<double>& b);

} // namespace reference
