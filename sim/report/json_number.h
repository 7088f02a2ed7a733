#pragma once
#include "report/table.h"

#include <nlohmann/json.hpp>

#include <charconv>
#include <cmath>
#include <cstdint>
#include <string>

namespace cistern::report {

/// A number for JSON, seven digits and not more than it has: 12, not 12.0.
inline nlohmann::ordered_json plain(double number) {
    constexpr double exactIntegers = 0x1p53;
    const double kept = sevenDigits(number);
    if (kept == std::floor(kept) && std::abs(kept) < exactIntegers)
        return static_cast<std::int64_t>(kept);
    return kept;
}

/// A printed number as the number it shows.
inline nlohmann::ordered_json printedValue(const std::string& printed) {
    double number = 0;
    std::from_chars(printed.data(), printed.data() + printed.size(), number);
    return plain(number);
}

} // namespace cistern::report
