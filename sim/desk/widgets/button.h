#pragma once
#include "desk/sheet.h"

#include <vector>

namespace cistern::desk {

/// Something to press. The chief one of a page stands out; one that cannot be pressed now stays
/// where it is, pale and with a broken edge.
struct Button {
    std::string id, words;
    std::function<void()> press; ///< none: not now
    std::string key{};           ///< a letter that presses it, shown beside its words
    bool chief = false;
    std::string says{}; ///< if the words alone do not tell
};

/// Buttons side by side, as many to a line as fit.
void buttons(Flow& flow, const std::vector<Button>& list);

/// One of several, or any of several: a filled dot or a tick says which, not color alone.
struct Choice {
    std::string id, words;
    bool on = false;
    std::function<void()> press;
    std::string note{}; ///< smaller, under the words
    std::string key{};
    std::string says{}; ///< if the words alone do not tell
};
enum class Choose { one, any };

/// Choices side by side, as many to a line as fit. Left and right arrows of the one with the focus
/// press its neighbors where one is to be chosen. `name` says what is chosen.
void choices(Flow& flow, const std::string& name, const std::vector<Choice>& list,
             Choose how = Choose::one);

/// Any of many, close together.
void ticks(Flow& flow, const std::string& name, const std::vector<Choice>& list);

/// Choices one under another, each as wide as the column, with their notes.
void choiceList(Flow& flow, const std::string& name, const std::vector<Choice>& list,
                Choose how = Choose::one);

/// One of many in little room: its name between two arrows. Enter and the right arrow take the
/// next, the left arrow the one before; a press on its left third takes the one before as well.
struct Picker {
    std::string id, name; ///< what is picked: "Chart of"
    std::vector<std::string> list;
    std::size_t at = 0;
    std::function<void(std::size_t)> pick;
};
void picker(Flow& flow, const Picker& one);

} // namespace cistern::desk
