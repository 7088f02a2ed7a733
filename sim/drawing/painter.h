#pragma once
#include "drawing/picture.h"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Turns pictures into pixels and measures their letters. The one place that knows Cairo and
/// Pango; needs no display. The same picture gives the same bytes every time on one machine; other
/// versions of Inter, Pango or Cairo may differ in the last pixel.
namespace cistern::drawing {

/// The typeface, and what stands in for letters it lacks, in order.
inline constexpr std::string_view typeface = "Inter, DejaVu Sans, sans-serif";

/// Room a line of text takes; ascent and descent are of the typeface, both positive.
struct Extent {
    double width = 0, ascent = 0, descent = 0;
    double height() const { return ascent + descent; }
};
Extent measure(std::string_view line, const Type& type);

/// Breaks text so that no line is wider than `width`: at blanks if it can, inside a word if it
/// must. A unit such as "mg/dL" stays whole where it fits a line.
std::vector<std::string> wrapped(std::string_view text, const Type& type, double width);

/// Text hung from its top edge; broken to `width` if above zero.
Text hung(std::string_view text, const Type& type, Align align, double x, double top,
          double width = 0);

/// Box around all lines of a text.
Box extent(const Text& text);

/// `scale` is output pixels per unit of the picture. Throws std::invalid_argument if the outcome
/// would be empty or wider or higher than 16,384 pixels, std::runtime_error if memory runs out.
Pixels pixels(const Picture& picture, double scale = 1);

/// The bytes of a PNG file. Throws as pixels() does.
std::string png(const Picture& picture, double scale = 1);

/// The same of pixels as they are.
std::string png(const Pixels& pixels);

/// What a PNG file holds. Throws std::runtime_error for bytes that are none.
Pixels readPng(const std::string& bytes);

} // namespace cistern::drawing
