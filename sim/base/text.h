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

/// Bytes of the UTF-8 character with which a text begins, 1 to 4; 0 if it is empty or begins with
/// bytes that are not UTF-8 (overlong forms and surrogates count as such).
std::size_t characterLength(std::string_view text);

/// True if the whole text is UTF-8.
bool isUtf8(std::string_view text);

/// Number of character cells of a UTF-8 text (each code point counts one).
int width(std::string_view text);

/// Pads with blanks to a width in cells: left-aligned for padRight, right-aligned for padLeft.
std::string padRight(std::string_view text, int cells);
std::string padLeft(std::string_view text, int cells);

/// Breaks at blanks so that no line is wider than `cells`; a paragraph break (blank line) stays. A
/// word wider than a line is cut.
std::vector<std::string> wrapped(std::string_view text, int cells);

/// A number to a step: rounded(12.34, 0.1) is "12.3", rounded(1234, 10) is "1230". Never "-0".
/// Halves go away from zero. Throws std::invalid_argument for a value or step that is not finite,
/// or a step that is not above zero.
std::string rounded(double value, double step);

/// A number with so many significant digits, without exponent: significant(0.01234, 2) is "0.012",
/// significant(1234, 2) is "1200". Throws std::invalid_argument for a value that is not finite or
/// less than one digit.
std::string significant(double value, int digits);

} // namespace cistern::base
