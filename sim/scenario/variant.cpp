// Another animal of the same story: its numbers drawn within the ranges that the file gives.
#include "base/chance.h"
#include "base/file.h"
#include "base/units.h"
#include "scenario/case_reader.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace cistern::scenario {

namespace {

std::string trimmed(const std::string& text) {
    const std::size_t first = text.find_first_not_of(' ');
    return first == std::string::npos ? ""
                                      : text.substr(first, text.find_last_not_of(' ') + 1 - first);
}

bool whole(const std::string& text) {
    return !text.empty() && text.find_first_not_of("-0123456789") == std::string::npos;
}

/// A value within "60..85 %", in the unit that stands there; a whole number where `now`, the value
/// of the file, and both ends are.
std::string drawn(const std::string& span, const std::string& now, double uniform) {
    const std::size_t dots = span.find("..");
    const std::string first = span.substr(0, dots), rest = span.substr(dots + 2);
    char *ownUnit = nullptr, *unit = nullptr; // the first end may have a unit of its own
    double low = std::strtod(first.c_str(), &ownUnit);
    const double high = std::strtod(rest.c_str(), &unit);
    low *= base::conversion(trimmed(ownUnit), trimmed(unit)).value_or(1);
    if (whole(now) && whole(first) && whole(rest))
        return plain(low + std::floor(uniform * (high - low + 1)));
    const double value = low + uniform * (high - low);
    const double step = (high - low) / 1000; // digits that nobody would weigh or count are left out
    return plain(std::clamp(std::round(value / step) * step, low, high)) + unit;
}

} // namespace

void toVariant(Node& root, std::uint64_t seed) {
    const auto number = [&](const std::string& path) { return const_cast<Node*>(at(root, path)); };
    if (Node* own = number("patient.seed")) own->text = std::to_string(seed);
    const Node* vary = root.find("vary");
    if (!vary) return;
    std::uint32_t item = 0;
    for (const Node& range : vary->members) {
        base::Chance chance(seed, base::Purpose::variants, 0, item++);
        std::string& text = number(range.key)->text;
        text = drawn(range.text, text, chance.uniform());
    }
}

} // namespace cistern::scenario
