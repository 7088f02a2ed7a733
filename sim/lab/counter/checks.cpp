#include "lab/counter/checks.h"

#include "base/text.h"
#include "lab/report.h"

#include <cmath>

namespace cistern::lab {

using body::Analyte;

std::vector<std::string> disagreements(const Report& report) {
    // Three standard deviations, as half-widths are 1.96; half a printed step of a spun volume.
    constexpr double beyondChance = 3 / 1.96, step = 0.005;
    // Red cells are a third hemoglobin, or nearly: three points of hematocrit are left to them.
    // Dacie and Lewis. Hemoglobin [g/L] times three is a hematocrit in thousandths.
    constexpr double third = 3e-3, allowed = 0.03;
    std::vector<std::string> lines;
    const Result* counted = report.find(Analyte::Hct);
    const Result* spun = report.find(Analyte::PCV);
    const Result* hemoglobin = report.find(Analyte::Hb);
    const auto exact = [](const Result* one) { return one && one->bound == Bound::exact; };
    const auto percent = [](double share) { return base::rounded(100 * share, 1) + " %"; };
    if (exact(counted) && exact(spun)) {
        const double chance = beyondChance * std::hypot(counted->halfWidth, spun->halfWidth) + step;
        if (std::abs(counted->value - spun->value) > chance)
            lines.push_back("The counter's hematocrit of " + percent(counted->value) +
                            " and the spun one of " + percent(spun->value) +
                            " disagree beyond chance: count and spin again.");
    }
    if (exact(counted) && exact(hemoglobin)) {
        const double expected = third * hemoglobin->value;
        const double chance =
            allowed + beyondChance * std::hypot(counted->halfWidth, third * hemoglobin->halfWidth);
        if (std::abs(counted->value - expected) > chance)
            lines.push_back("Hemoglobin times three, " + percent(expected) +
                            ", does not fit the hematocrit of " + percent(counted->value) +
                            ": look at the plasma and at the film.");
    }
    return lines;
}

} // namespace cistern::lab
