#include "base/units.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

namespace cistern::base {

namespace {

// The kinds of amount a unit counts. Enzyme units, pressures and voltages stand for themselves:
// this program never turns U into umol/min.
enum Dimension {
    mass,
    length,
    time,
    amount,
    activity,
    temperature,
    warming,
    pressure,
    voltage,
    dimensionCount
};
using Exponents = std::array<int, dimensionCount>;

constexpr Exponents of(Dimension dimension, int exponent = 1) {
    Exponents result{};
    result[dimension] = exponent;
    return result;
}

struct Atom {
    std::string_view code;
    double size; // in g, m, s, mol, U, Cel, m[Hg], V, times a power of ten kept apart
    int tens;
    Exponents exponents;
    bool prefixed; // takes a metric prefix
};

// Codes and sizes of UCUM; a month is a twelfth of the mean Julian year of 365.25 d.
constexpr std::array atoms{
    Atom{"1", 1, 0, {}, false},
    Atom{"fold", 1, 0, {}, false},
    Atom{"%", 1, -2, {}, false},
    Atom{"g", 1, 0, of(mass), true},
    Atom{"m", 1, 0, of(length), true},
    Atom{"L", 1, -3, of(length, 3), true},
    Atom{"mol", 1, 0, of(amount), true},
    Atom{"U", 1, 0, of(activity), true},
    Atom{"s", 1, 0, of(time), true},
    Atom{"min", 60, 0, of(time), false},
    Atom{"h", 3600, 0, of(time), false},
    Atom{"d", 86400, 0, of(time), false},
    Atom{"wk", 7 * 86400, 0, of(time), false},
    Atom{"mo", 30.4375 * 86400, 0, of(time), false},
    Atom{"a", 365.25 * 86400, 0, of(time), false},
    Atom{"y", 365.25 * 86400, 0, of(time), false},
    Atom{"Cel", 1, 0, of(temperature), false},
    Atom{"K", 1, 0, of(warming), false}, // a difference of temperatures; nothing here is absolute
    Atom{"m[Hg]", 1, 0, of(pressure), true},
    Atom{"V", 1, 0, of(voltage), true},
};

struct Prefix {
    char code;
    int tens;
};
constexpr std::array prefixes{Prefix{'f', -15}, Prefix{'p', -12}, Prefix{'n', -9}, Prefix{'u', -6},
                              Prefix{'m', -3},  Prefix{'c', -2},  Prefix{'d', -1}, Prefix{'k', 3}};

/// A unit taken apart. Numerator, denominator and power of ten are kept apart as whole numbers, so
/// that mg/dL to g/L is 1/100 to the last bit.
struct Measure {
    double above = 1, below = 1;
    int tens = 0;
    Exponents exponents{};
};

std::optional<Measure> atomNamed(std::string_view code) {
    for (const Atom& atom : atoms)
        if (atom.code == code) return Measure{atom.size, 1, atom.tens, atom.exponents};
    for (const Atom& atom : atoms)
        for (const Prefix& prefix : prefixes)
            if (atom.prefixed && code.front() == prefix.code && code.substr(1) == atom.code)
                return Measure{atom.size, 1, atom.tens + prefix.tens, atom.exponents};
    return std::nullopt;
}

bool digit(char c) {
    return c >= '0' && c <= '9';
}

/// Digits at the end of a text, taken off it; 1 if there are none, empty if there are too many.
std::optional<int> takeExponent(std::string_view& text) {
    std::size_t begin = text.size();
    while (begin > 0 && digit(text[begin - 1])) --begin;
    if (begin == 0 || begin == text.size()) return 1; // "1" is a unit, not an exponent
    const std::string_view digits = text.substr(begin);
    if (digits.size() > 2 || digits.front() == '0') return std::nullopt;
    text = text.substr(0, begin);
    int exponent = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), exponent);
    return exponent;
}

/// One factor of a unit: "mg", "m2", "10*9", "{ratio}", "mg{dry}".
std::optional<Measure> readFactor(std::string_view text) {
    if (const auto note = text.find('{'); note != std::string_view::npos) {
        if (text.find('}') != text.size() - 1) return std::nullopt;
        text = text.substr(0, note);
        if (text.empty()) return Measure{};
    }
    const std::optional<int> exponent = takeExponent(text);
    if (text.empty() || !exponent) return std::nullopt;
    if (text == "10*") return Measure{1, 1, *exponent, {}};
    std::optional<Measure> measure = atomNamed(text);
    // Only lengths are raised here (m2, cm3): higher powers of the rest mean a slip of the pen.
    if (*exponent != 1 && (!measure || measure->exponents != of(length) || *exponent > 3))
        return std::nullopt;
    if (!measure) return std::nullopt;
    measure->tens *= *exponent;
    measure->exponents[length] *= *exponent;
    return measure;
}

/// Factors joined by "/" and ".", read from left to right as UCUM does: "mg/kg/d" is (mg/kg)/d.
std::optional<Measure> readUnit(std::string_view unit) {
    if (unit.empty() || unit.size() > 64) return std::nullopt;
    Measure result;
    int sign = 1;
    if (unit.front() == '/') {
        sign = -1;
        unit.remove_prefix(1);
    }
    for (;;) {
        const std::size_t end = unit.find_first_of("/.");
        const std::optional<Measure> factor = readFactor(unit.substr(0, end));
        if (!factor) return std::nullopt;
        (sign > 0 ? result.above : result.below) *= factor->above;
        result.tens += sign * factor->tens;
        for (int i = 0; i < dimensionCount; ++i)
            result.exponents[static_cast<std::size_t>(i)] +=
                sign * factor->exponents[static_cast<std::size_t>(i)];
        if (end == std::string_view::npos) return result;
        sign = unit[end] == '/' ? -1 : 1;
        unit.remove_prefix(end + 1);
    }
}

/// Bytes of the decimal number with which a text begins; 0 if there is none.
std::size_t numberLength(std::string_view text) {
    const auto digitsFrom = [&](std::size_t at) {
        while (at < text.size() && digit(text[at])) ++at;
        return at;
    };
    const std::size_t begin = text.starts_with('-') || text.starts_with('+') ? 1 : 0;
    std::size_t end = digitsFrom(begin);
    if (end - begin > 1 && text[begin] == '0') return 0; // octal to some readers
    if (end < text.size() && text[end] == '.') {
        const std::size_t fraction = digitsFrom(end + 1);
        if (fraction == end + 1) return 0;
        end = fraction;
    }
    if (end == begin) return 0;
    if (end < text.size() && (text[end] == 'e' || text[end] == 'E')) {
        const bool sign = end + 1 < text.size() && (text[end + 1] == '-' || text[end + 1] == '+');
        const std::size_t power = end + (sign ? 2 : 1);
        if (digitsFrom(power) > power) end = digitsFrom(power);
    }
    return end;
}

/// What may follow a number without a blank between.
bool startsUnit(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%' || c == '/' || c == '{';
}

bool white(char c) {
    return c == ' ' || c == '\t';
}

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && white(text.front())) text.remove_prefix(1);
    while (!text.empty() && white(text.back())) text.remove_suffix(1);
    return text;
}

std::string raised(std::string_view digits) {
    static constexpr std::array<std::string_view, 10> signs{"⁰", "¹", "²", "³", "⁴",
                                                            "⁵", "⁶", "⁷", "⁸", "⁹"};
    std::string text;
    for (char c : digits) text += signs[static_cast<std::size_t>(c - '0')];
    return text;
}

std::string shownFactor(std::string_view factor) {
    factor = factor.substr(0, factor.find('{'));
    if (factor == "Cel") return "°C";
    if (factor == "a") return "y";
    if (factor.ends_with("m[Hg]")) return std::string(factor.substr(0, factor.find('['))) + "Hg";
    std::size_t digits = factor.size();
    while (digits > 1 && digit(factor[digits - 1])) --digits;
    std::string text(factor.substr(0, digits));
    if (text == "10*") text = "10";
    if (text.starts_with('u')) text.replace(0, 1, "µ");
    return text + raised(factor.substr(digits));
}

} // namespace

std::optional<Quantity> readQuantity(std::string_view text) {
    text = trimmed(text);
    const std::size_t length = numberLength(text);
    if (length == 0) return std::nullopt;
    std::string_view number = text.substr(0, length);
    if (number.starts_with('+')) number.remove_prefix(1);
    Quantity quantity;
    const auto read = std::from_chars(number.data(), number.data() + number.size(), quantity.value);
    if (read.ec != std::errc() || !std::isfinite(quantity.value)) return std::nullopt;
    const std::string_view rest = text.substr(length);
    if (number == "0" && (rest.starts_with('x') || rest.starts_with('X'))) return std::nullopt;
    if (!rest.empty() && !white(rest.front()) && !startsUnit(rest.front())) return std::nullopt;
    quantity.unit = trimmed(rest);
    return quantity;
}

bool knownUnit(std::string_view unit) {
    return readUnit(unit).has_value();
}

std::optional<double> conversion(std::string_view from, std::string_view to, double molarMass) {
    const std::optional<Measure> source = readUnit(from), target = readUnit(to);
    if (!source || !target) return std::nullopt;
    double above = source->above * target->below, below = source->below * target->above;
    Exponents wanted = target->exponents;
    // Mass above what the target has must be amount below it, or the reverse.
    const int moles = source->exponents[mass] - wanted[mass];
    if (molarMass > 0 && std::isfinite(molarMass) && (moles == 1 || moles == -1)) {
        wanted[mass] += moles;
        wanted[amount] -= moles;
        (moles > 0 ? below : above) *= molarMass;
    }
    if (source->exponents != wanted) return std::nullopt;
    const int tens = source->tens - target->tens;
    (tens < 0 ? below : above) *= std::pow(10.0, std::abs(tens));
    return above / below;
}

std::string shown(std::string_view unit) {
    std::string text;
    while (!unit.empty()) {
        const std::size_t end = unit.find_first_of("/.");
        text += shownFactor(unit.substr(0, end));
        if (end == std::string_view::npos) break;
        text += unit[end] == '/' ? "/" : "·";
        unit.remove_prefix(end + 1);
    }
    return text == "1" ? "" : text;
}

} // namespace cistern::base
