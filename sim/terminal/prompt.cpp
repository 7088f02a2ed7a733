#include "terminal/prompt.h"

#include "base/text.h"

#include <algorithm>
#include <charconv>
#include <istream>
#include <optional>
#include <ostream>
#include <set>

namespace cistern::terminal {

namespace {

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r");
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::optional<std::size_t> number(const std::string& text) {
    std::size_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (text.empty() || error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return value;
}

std::size_t indexOf(const std::string& text, const std::vector<std::string>& list) {
    if (const auto position = number(text)) {
        if (*position < 1 || *position > list.size())
            throw UsageError("There is no number " + text + " on the list; it goes from 1 to " +
                             std::to_string(list.size()) + ".");
        return *position - 1;
    }
    const std::string near = base::nearest(text, list);
    const auto at = std::find(list.begin(), list.end(), text);
    if (at != list.end()) return static_cast<std::size_t>(at - list.begin());
    throw UsageError(
        "\"" + text + "\" is not on the list" +
        (near.empty() ? "; answer with a number." : "; perhaps you mean \"" + near + "\"."));
}

/// Pieces between commas; pieces of nothing but numbers are parted at blanks too.
std::vector<std::string> pieces(const std::string& text) {
    std::vector<std::string> out;
    const auto add = [&](const std::string& piece) {
        if (!trimmed(piece).empty()) out.push_back(trimmed(piece));
    };
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        const std::string piece = text.substr(at, end - at);
        if (piece.find_first_not_of("0123456789- \t") == std::string::npos)
            for (std::size_t from = 0; from <= piece.size();) {
                const std::size_t to = std::min(piece.find_first_of(" \t", from), piece.size());
                add(piece.substr(from, to - from));
                from = to + 1;
            }
        else
            add(piece);
        at = end + 1;
    }
    return out;
}

} // namespace

std::vector<std::size_t> readChoices(const std::string& text,
                                     const std::vector<std::string>& list) {
    std::set<std::size_t> chosen;
    if (text == "all")
        for (std::size_t i = 0; i < list.size(); ++i) chosen.insert(i);
    else
        for (const std::string& piece : pieces(text)) {
            const auto dash = piece.find('-');
            const auto from = number(piece.substr(0, dash));
            if (dash != std::string::npos && from && number(piece.substr(dash + 1))) {
                const std::size_t last = indexOf(piece.substr(dash + 1), list);
                for (std::size_t i = indexOf(piece.substr(0, dash), list); i <= last; ++i)
                    chosen.insert(i);
            } else
                chosen.insert(indexOf(piece, list));
        }
    return {chosen.begin(), chosen.end()};
}

std::string Prompt::line(const std::string& shown) {
    world_.out << shown << std::flush;
    std::string text;
    if (!std::getline(world_.in, text)) {
        world_.out << "\n";
        throw Leave{false};
    }
    return trimmed(text);
}

bool Prompt::handled(const std::string& text, const std::string& help) {
    if (text == "q") throw Leave{true};
    if (text == "b") throw StepBack{};
    if (text == "?") {
        page_.prose(help, 2);
        std::string keys = "? explains, b goes back, q saves and leaves";
        for (const Side& side : sides_) keys += ", " + side.letter + " " + side.words;
        page_.paragraph(keys + "; an empty line takes what stands in brackets.", 2);
        return true;
    }
    for (const Side& side : sides_)
        if (text == side.letter) {
            side.act();
            return true;
        }
    return false;
}

std::string Prompt::ask(const std::string& question, const std::string& fallback,
                        const std::string& help) {
    for (;;) {
        const std::string text =
            line(question + (fallback.empty() ? "" : " [" + fallback + "]") + ": ");
        if (handled(text, help)) continue;
        if (!text.empty()) return text;
        if (!fallback.empty()) return fallback;
        object("An answer is needed; ? explains.");
    }
}

void Prompt::goOn(const std::string& help) {
    for (;;) {
        const std::string text = line("\nEnter goes on, ? explains: ");
        if (text.empty()) return;
        if (!handled(text, help)) object("Nothing is asked here; an empty line goes on.");
    }
}

std::size_t Prompt::choose(const std::vector<std::string>& list, int fallback,
                           const std::string& help) {
    for (std::size_t i = 0; i < list.size(); ++i)
        page_.hanging(base::padLeft(std::to_string(i + 1), 2), list[i], 6);
    for (;;) {
        const std::string text =
            ask("Number", fallback < 0 ? "" : std::to_string(fallback + 1), help);
        try {
            return indexOf(text, list);
        } catch (const UsageError& error) {
            object(error.what());
        }
    }
}

void Prompt::object(const std::string& sentence) {
    page_.paragraph(sentence, 2);
}

} // namespace cistern::terminal
