#pragma once
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::base {

/// The known name nearest to a misspelt one (fewest edits, at most a third of its length), or "".
std::string nearest(std::string_view name, std::span<const std::string> known);

/// "a, b or c".
std::string listed(std::span<const std::string> names, std::string_view last = "or");

/// Number of character cells of a UTF-8 text (each code point counts one).
int width(std::string_view text);

/// Pads with blanks to a width in cells: left-aligned for padRight, right-aligned for padLeft.
std::string padRight(std::string_view text, int cells);
std::string padLeft(std::string_view text, int cells);

/// Breaks at blanks so that no line is wider than `cells`; a paragraph break (blank line) stays.
std::vector<std::string> wrapped(std::string_view text, int cells);

/// A number to a step: rounded(12.34, 0.1) is "12.3", rounded(1234, 10) is "1230". Never "-0".
std::string rounded(double value, double step);

/// A number with so many significant digits, without exponent: significant(0.01234, 2) is "0.012".
std::string significant(double value, int digits);

} // namespace cistern::base
