#pragma once
#include "drawing/vessel.h"

#include <functional>
#include <string>
#include <vector>

/// What stands on the desk at one moment, as data: a picture, what on it can be worked, and what
/// moves above it. Nothing here needs a display.
namespace cistern::desk {

using drawing::Box;
using drawing::Point;

/// How far a pointer has come with something it holds.
enum class Grip { taken, moved, let };

/// Something on a page that can be worked. By keys alone all of it can be.
struct Control {
    enum class Kind { button, choice, handle, text };

    std::string id; ///< unique on its page, the same whenever the page is made anew
    Kind kind = Kind::button;
    std::string says;    ///< its name and state in words: "How much it leaks: 6 times as usual"
    Box area;            ///< where a pointer finds it [px of the window]
    bool on = false;     ///< of a choice: chosen
    bool glides = false; ///< its drag moves only what moves above the page
    std::string key{};   ///< a letter that works it from anywhere on the page; empty: none
    std::string text{};  ///< of a text: what it holds

    // What it does; any may be missing.
    std::function<void()> press{};                        ///< click, Enter, Space
    std::function<void(Point at, Grip grip)> drag{};      ///< held by a pointer
    std::function<void(int across, int up)> step{};       ///< arrows; ten steps with Shift
    std::function<void(double notches)> wheel{};          ///< of a wheel over it
    std::function<void(const std::string& text)> write{}; ///< a text that was finished
};

/// An organ whose drops fall while the page rests.
struct Dripping {
    std::string id;                 ///< the same organ whenever the page is made anew
    drawing::VesselPlaces places{}; ///< [px of the window]
    double falling = 0;             ///< drops a second from its pores
    double leaving = 0;             ///< drops a second from its spout
    Box seen;                       ///< nothing is drawn outside
};

/// Everything that is seen and can be done now.
struct Screen {
    drawing::Picture picture;
    std::vector<Control> controls; ///< in the order in which Tab visits them
    std::vector<Dripping> dripping;
    double scrolled = 0, furthest = 0; ///< how far the page is scrolled, and can be [px]
    Box room;                          ///< where the page itself is seen, between rail and foot
};

/// All words of the picture where they stand in the window, those scrolled out of sight included,
/// in the order drawn.
std::vector<drawing::Text> texts(const Screen& screen);
/// The same as plain text, a line each: the words of one text are not broken.
std::string words(const Screen& screen);

} // namespace cistern::desk
