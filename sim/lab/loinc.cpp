#include "lab/loinc.h"

#include <algorithm>

namespace cistern::lab {

bool isLoinc(std::string_view code) {
    const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
    const std::size_t hyphen = code.find('-');
    if (hyphen == 0 || hyphen == std::string_view::npos || hyphen + 2 != code.size()) return false;
    const std::string_view digits = code.substr(0, hyphen);
    if (!std::all_of(digits.begin(), digits.end(), isDigit) || !isDigit(code.back())) return false;
    // From the right, every other digit is doubled, and the digits of all are added up.
    int sum = 0;
    bool doubled = true;
    for (auto digit = digits.rbegin(); digit != digits.rend(); ++digit, doubled = !doubled) {
        const int value = (*digit - '0') * (doubled ? 2 : 1);
        sum += value / 10 + value % 10;
    }
    return (sum + code.back() - '0') % 10 == 0;
}

} // namespace cistern::lab
