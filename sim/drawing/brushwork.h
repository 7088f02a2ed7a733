#pragma once
#include "drawing/painter.h"

#include <string_view>
#include <vector>

/// Strokes, tints and fitting letters that several drawings share.
namespace cistern::drawing::brushwork {

void fill(Group& to, Path path, Color color);
void stroke(Group& to, Path path, Color color, double width, std::vector<double> dash = {});
void line(Group& to, Point from, Point end, Color color, double width,
          std::vector<double> dash = {});

/// The color with another alpha.
Color faded(Color color, double alpha);

/// `share` 0 gives the first color, 1 the second; as solid as the first.
Color mixed(const Color& first, const Color& second, double share);

/// The color seen through `layers` of a dye. The dye lets through each part in proportion to its
/// brightest, so a glance through it darkens nothing but what it dyes.
Color dyed(const Color& color, const Color& dye, double layers);

/// Both laid over each other as glazes: each takes away its share of light.
Color glazed(const Color& first, const Color& second);

/// The type at another size.
Type sized(Type type, double scale);

/// Width of the widest word, so that a text wrapped at least so wide is not cut inside a word.
double widestWord(std::string_view text, const Type& type);

/// Where a scale of letters starts and how far it may shrink to fit, each step a small part.
inline constexpr double leastScale = 0.5, shrink = 0.94;

} // namespace cistern::drawing::brushwork
