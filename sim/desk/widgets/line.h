#pragma once
#include "desk/sheet.h"

namespace cistern::desk {

/// A line of text or a number that can be typed.
struct Line {
    std::string id, name;                          ///< the name stands before it
    std::string text;                              ///< what it holds
    std::string after{};                           ///< after it: a unit
    double width = 6;                              ///< of the field [em]
    std::function<void(const std::string&)> write; ///< Enter, or the focus moves on
    std::function<void(int steps)> step{};         ///< arrows up and down, if it is a number
};

/// In the flow, name and field on one line where they fit.
void line(Flow& flow, const Line& one);

/// The field alone, its left end at x and hung from top; gives its box. For tables.
Box field(Sheet& sheet, const Line& one, double x, double top);

} // namespace cistern::desk
