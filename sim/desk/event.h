#pragma once
#include "desk/screen.h"

#include <variant>

namespace cistern::desk {

enum class Key {
    tab,
    enter,
    space,
    escape,
    left,
    right,
    up,
    down,
    home,
    end,
    pageUp,
    pageDown,
    back,
    erase
};

/// A key without a letter, or one held with Control.
struct Keystroke {
    Key key{};
    bool shift = false, control = false;
};
/// A letter, typed; UTF-8. With Control held it is a command and no letter.
struct Typed {
    std::string text;
    bool control = false;
};
struct Pointer {
    enum class What { moved, pressed, let } what{};
    Point at{};
};
struct Wheel {
    double notches = 0; ///< away from the person is above 0
};
struct Resized {
    double width = 0, height = 0;
};

/// What a person does at the desk.
using Event = std::variant<Keystroke, Typed, Pointer, Wheel, Resized>;

} // namespace cistern::desk
