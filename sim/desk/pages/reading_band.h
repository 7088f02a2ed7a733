#pragma once
#include "drawing/meaning.h"
#include "lesson/answers.h"

#include <optional>
#include <string_view>

namespace cistern::desk {

/// What is asked of an organ.
enum class Asked { leak, work };
inline constexpr Asked bothAsked[] = {Asked::leak, Asked::work};

/// The scale on which one is answered, cut into steps that pointer and arrows share: leak in equal
/// ratios, work in equal parts.
struct Measure {
    std::string_view name, title, unit; ///< "leak", "Leak", "fold"
    double least = 0, most = 1;
    int steps = 1; ///< from least to most
    bool ratios = false;
    lesson::Band wide; ///< reaches over most of the plane and says next to nothing
    drawing::Meaning meaning{};
    drawing::Color ink;
};
const Measure& measureOf(Asked asked);

/// How many steps a value lies above the least; need not be whole, nor inside the scale.
double position(const Measure& measure, double value);
/// The value at the nearest whole step of the scale.
double valueAt(const Measure& measure, double position);

/// The answer to one of the two questions.
std::optional<lesson::Band>& bandOf(lesson::OrganAnswer& answer, Asked asked);
const std::optional<lesson::Band>& bandOf(const lesson::OrganAnswer& answer, Asked asked);

enum class BandPart { low, best, high };
double valueOf(const lesson::Band& band, BandPart part);
/// One of the three set to a value; the others give way where it passes them.
lesson::Band moved(lesson::Band band, BandPart part, double to);
/// One of the three by so many steps.
lesson::Band stepped(const Measure& measure, const lesson::Band& band, BandPart part, double steps);
/// All three by so many steps, as far as both ends can go.
lesson::Band shifted(const Measure& measure, const lesson::Band& band, double steps);

} // namespace cistern::desk
