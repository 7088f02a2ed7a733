#pragma once
#include "desk/desk.h"

#include <functional>
#include <stdexcept>
#include <string>
#include <vector>

namespace cistern::desk {

/// A script does at the desk what a person would, and takes pictures; it needs no display. One step
/// a line, `#` begins a comment:
///
///     size 1280 800           of the window [px]
///     text 150                letters [%]
///     open NAME [SEED]        a case of the shelf, begun anew
///     page Bench              turn to a page
///     focus ID                a control, by its name
///     press ID                work it
///     key Shift+Tab [TIMES]   Tab Enter Space Escape Left Right Up Down Home End PageUp PageDown
///                             Back Delete, or a letter
///     write ID WORDS          type into a line of text
///     drag ID ACROSS DOWN     pull it so far [px]
///     click X Y               [px]
///     wait SECONDS            let time pass
///     settle                  wait until nothing is worked out beside the page
///     shot NAME               keep a picture as NAME.png
///     expect WORDS            these must stand on the page
struct Step {
    int line = 0; ///< in the file, from 1
    std::string what;
    std::vector<std::string> words; ///< what follows
    std::string rest;               ///< the same in one piece
};

/// Throws base::InputError with every fault of the text: an unknown step, words missing or too
/// many, a number that is none.
std::vector<Step> readScript(const std::string& text, const std::string& file);

/// What went wrong while a script was played. what() is one sentence with file and line.
class ScriptStopped : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

/// Plays a script. `shot` takes a PNG under its name. Throws ScriptStopped at the first step that
/// cannot be done, or whose expectation does not hold.
void play(Desk& desk, const std::vector<Step>& steps, const std::string& file,
          const std::function<void(const std::string& name, const std::string& png)>& shot);

} // namespace cistern::desk
