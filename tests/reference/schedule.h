#pragma once
#include "body/course.h"

#include <cstdint>

namespace reference {

/// What random plans are made of.
struct Ground {
    const cistern::body::Species& dog;
    const cistern::body::Species& cat;
    const std::vector<cistern::body::InsultKind>& insults;
};

/// A random dog or cat with two to four random insults of any severity that its kind allows, and
/// perhaps meals and a fright, on a grid of quarter hours, looked at every hour for so many days.
/// The same number gives the same plan everywhere.
cistern::body::Plan randomPlan(const Ground& ground, std::uint64_t number, int days);

/// A dog or cat of any age with one to eight random insults that crowd upon it: any of them, the
/// same again and again, of any severity that its kind allows, a minute to sixty days long. Looked
/// at for sixty days, and about every start and end.
cistern::body::Plan crowdedPlan(const Ground& ground, std::uint64_t number);

/// What an error is counted against where a reading is small: 5 % of the animal's healthy reading,
/// or what is stated where that is about zero. body::reading::count values.
std::vector<double> floors(const cistern::body::Plan& plan);

/// The largest relative difference of two courses, and where it is.
struct Apart {
    double worst = 0;
    std::size_t look = 0, reading = 0;
};
/// Over all readings and looks of a plan. `rows` holds body::reading::count values a look, as
/// reference::course gives them.
Apart worstError(const cistern::body::Plan& plan, const cistern::body::Course& course,
                 const std::vector<double>& rows);
Apart worstError(const cistern::body::Plan& plan, const std::vector<double>& a,
                 const std::vector<double>& b);

} // namespace reference
