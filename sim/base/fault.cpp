#include "base/fault.h"

#include "base/text.h"

#include <algorithm>
#include <tuple>

namespace cistern::base {

namespace {

constexpr int foundCells = 60;   // what was found is quoted up to this width
constexpr int excerptCells = 76; // an excerpt and its indent fit a terminal of 80 columns

/// What is said of the subject. No default: the compiler names a kind without its words.
std::string_view predicate(FaultKind kind) {
    switch (kind) {
    case FaultKind::unreadable:
        return "cannot be read";
    case FaultKind::tooLarge:
        return "is too large";
    case FaultKind::notText:
        return "is not UTF-8 text";
    case FaultKind::syntax:
        return "is not written as it should be";
    case FaultKind::unknownKey:
        return "is not a key known here";
    case FaultKind::duplicateKey:
        return "is given twice";
    case FaultKind::missingKey:
        return "is missing";
    case FaultKind::wrongShape:
        return "has the wrong shape";
    case FaultKind::notANumber:
        return "is not a number";
    case FaultKind::missingUnit:
        return "has no unit";
    case FaultKind::unknownUnit:
        return "has an unknown unit";
    case FaultKind::wrongDimension:
        return "has a unit of the wrong kind";
    case FaultKind::outOfRange:
        return "is out of range";
    case FaultKind::notABoolean:
        return "is neither true nor false";
    case FaultKind::unknownName:
        return "is not a name known here";
    case FaultKind::wrongOrder:
        return "is out of order";
    case FaultKind::contradiction:
        return "contradicts another statement";
    }
    return "is wrong";
}

/// The characters of a text, one string each, fit to be printed: tabs and control characters become
/// blanks, bytes that are not UTF-8 become "?". `starts` receives the byte at which each begins.
std::vector<std::string> printable(std::string_view text, std::vector<std::size_t>& starts) {
    std::vector<std::string> characters;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = characterLength(text.substr(at));
        const auto first = static_cast<unsigned char>(text[at]);
        const bool c1 =
            length == 2 && first == 0xC2 && static_cast<unsigned char>(text[at + 1]) < 0xA0;
        starts.push_back(at);
        if (length == 0)
            characters.push_back("?");
        else if (first < 0x20 || first == 0x7F || c1)
            characters.push_back(" ");
        else
            characters.emplace_back(text.substr(at, length));
        at += std::max<std::size_t>(length, 1);
    }
    return characters;
}

std::string quoted(std::string_view text) {
    std::vector<std::size_t> starts;
    std::vector<std::string> characters = printable(text, starts);
    if (characters.size() > foundCells) {
        characters.resize(foundCells - 1);
        characters.push_back("…");
    }
    std::string result = "\"";
    for (const std::string& character : characters) result += character;
    return result + "\"";
}

/// The place of a byte column among the characters of a line, from 0; one past the end at most.
std::size_t characterAt(const std::vector<std::size_t>& starts, std::size_t bytes, int column) {
    const auto byte = static_cast<std::size_t>(std::max(column, 1) - 1);
    if (byte >= bytes) return starts.size();
    const auto after = std::upper_bound(starts.begin(), starts.end(), byte);
    return static_cast<std::size_t>(after - starts.begin()) - 1;
}

/// The line, cut to a window about the place if it is long, and a caret under the place.
std::string excerpt(const std::vector<std::string>& characters, std::size_t at) {
    const std::size_t window = excerptCells;
    std::size_t begin = 0;
    if (characters.size() > window && at > window * 2 / 3)
        begin =
            std::min(at - window / 2, characters.size() - std::min(characters.size(), window / 2));
    const std::size_t end = std::min(characters.size(), begin + window);
    std::string text;
    for (std::size_t i = begin; i < end; ++i) {
        const bool cut = (i == begin && begin > 0) || (i + 1 == end && end < characters.size());
        text += cut ? "…" : characters[i];
    }
    return "    " + text + "\n    " + std::string(at - begin, ' ') + "^";
}

std::string everyMessage(const std::vector<Fault>& faults) {
    std::string text;
    for (const Fault& fault : faults) text += (text.empty() ? "" : "\n") + message(fault);
    return text;
}

std::vector<Fault> inOrder(std::vector<Fault> faults) {
    std::stable_sort(faults.begin(), faults.end(), [](const Fault& a, const Fault& b) {
        return std::tie(a.place.file, a.place.line, a.place.column) <
               std::tie(b.place.file, b.place.line, b.place.column);
    });
    return faults;
}

} // namespace

std::string sentence(const Fault& fault) {
    std::string text = fault.subject.empty() ? "this" : fault.subject;
    text += " ";
    text += predicate(fault.kind);
    if (!fault.found.empty())
        text += fault.kind == FaultKind::unreadable ? ": " + fault.found
                                                    : ": found " + quoted(fault.found);
    if (!fault.allowed.empty()) text += "; allowed: " + fault.allowed;
    if (text.back() != '.' && text.back() != '?') text += ".";
    return text;
}

std::string message(const Fault& fault) {
    std::string_view line = fault.line;
    if (line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3); // byte order mark
    while (line.ends_with('\n') || line.ends_with('\r')) line.remove_suffix(1);
    std::vector<std::size_t> starts;
    const std::vector<std::string> characters = printable(line, starts);
    const std::size_t at = characterAt(starts, line.size(), fault.place.column);

    std::string text = fault.place.file;
    if (fault.place.line > 0) {
        text += ":" + std::to_string(fault.place.line);
        if (fault.place.column > 0)
            text += ":" + std::to_string(line.empty() ? static_cast<std::size_t>(fault.place.column)
                                                      : at + 1);
    }
    text += (text.empty() ? "" : ": ") + sentence(fault);
    if (!line.empty() && fault.place.column > 0) text += "\n" + excerpt(characters, at);
    return text;
}

InputError::InputError(std::vector<Fault> faults)
    : std::runtime_error(everyMessage(inOrder(faults))), faults_(inOrder(std::move(faults))) {}

} // namespace cistern::base
