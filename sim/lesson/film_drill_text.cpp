#include "lesson/film_drill.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace cistern::lesson {

namespace {

constexpr std::string_view head = "film drill 1"; // with the version of this form
constexpr int topBox = 5;
// No card was asked and no drill lasted longer than this: a spoiled file, not a diligent person.
constexpr std::uint64_t mostQuestions = 100000000;

/// A text line by line; faults name the line.
class Lines {
public:
    explicit Lines(std::string_view text) : left_(text) {}

    bool done() const { return left_.empty(); }
    std::string_view next() {
        ++number_;
        const auto end = std::min(left_.find('\n'), left_.size());
        const std::string_view line = left_.substr(0, end);
        left_.remove_prefix(std::min(end + 1, left_.size()));
        return line;
    }
    [[noreturn]] void refuse(const std::string& what) const {
        throw std::invalid_argument("The kept drill cannot be read: line " +
                                    std::to_string(number_) + " " + what + ".");
    }

private:
    std::string_view left_;
    int number_ = 0;
};

/// What stands after a word and a blank at the beginning of a line.
std::string_view after(std::string_view word, std::string_view line, const Lines& lines) {
    if (!line.starts_with(word) || line.size() <= word.size() || line[word.size()] != ' ')
        lines.refuse("should begin with \"" + std::string(word) + "\"");
    return line.substr(word.size() + 1);
}

std::uint64_t number(std::string_view text, std::uint64_t most, const Lines& lines) {
    std::uint64_t value = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, value);
    if (text.empty() || error != std::errc{} || stop != end || value > most)
        lines.refuse("has \"" + std::string(text) + "\" where a number up to " +
                     std::to_string(most) + " should stand");
    return value;
}

DrillAnimals animalsFrom(std::string_view text, const Lines& lines) {
    for (const DrillAnimals one : {DrillAnimals::dog, DrillAnimals::cat, DrillAnimals::both})
        if (name(one) == text) return one;
    lines.refuse("should name dog, cat or both");
}

std::string_view word(std::string_view& rest) {
    const auto end = std::min(rest.find(' '), rest.size());
    const std::string_view out = rest.substr(0, end);
    rest.remove_prefix(std::min(end + 1, rest.size()));
    return out;
}

/// "dog 2 9 7 0 31 44 band neutrophil": box, seen, right, missed in a row, last, due, cell.
DrillCard cardFrom(std::string_view rest, std::uint64_t asked, const Lines& lines) {
    DrillCard card;
    const std::string_view kind = word(rest);
    if (kind != "dog" && kind != "cat") lines.refuse("should name a dog or a cat");
    card.kind = kind == "dog" ? body::Kind::dog : body::Kind::cat;
    const auto small = [&](std::uint64_t most) {
        return static_cast<int>(number(word(rest), most, lines));
    };
    card.box = small(topBox);
    card.seen = small(asked);
    card.right = small(static_cast<std::uint64_t>(card.seen));
    card.missedInRow = small(static_cast<std::uint64_t>(card.seen - card.right));
    card.last = number(word(rest), asked, lines);
    card.due = number(word(rest), 2 * mostQuestions, lines);
    const auto cell = lab::filmCellNamed(rest);
    if (!cell) lines.refuse("names no cell of a film: \"" + std::string(rest) + "\"");
    card.cell = *cell;
    if (card.seen == 0 || card.last == 0) lines.refuse("holds a card that was never asked");
    if (card.missedInRow > 0 && card.box > 0) lines.refuse("holds a missed card in a high box");
    return card;
}

} // namespace

std::string FilmDrill::text() const {
    std::string out = std::string(head) + "\nseed " + std::to_string(seed_) + "\nanimals " +
                      std::string(name(animals_)) + "\nasked " + std::to_string(asked_) + "\n";
    for (const DrillCard& card : cards_) {
        if (card.last == 0) continue;
        out += card.kind == body::Kind::dog ? "card dog" : "card cat";
        for (const std::uint64_t value :
             {static_cast<std::uint64_t>(card.box), static_cast<std::uint64_t>(card.seen),
              static_cast<std::uint64_t>(card.right), static_cast<std::uint64_t>(card.missedInRow),
              card.last, card.due})
            out += " " + std::to_string(value);
        out += " " + std::string(lab::name(card.cell)) + "\n";
    }
    return out;
}

FilmDrill FilmDrill::read(std::string_view text) {
    Lines lines(text);
    if (lines.next() != head) lines.refuse("should be \"" + std::string(head) + "\"");
    const auto seed = number(after("seed", lines.next(), lines), UINT64_MAX, lines);
    const DrillAnimals animals = animalsFrom(after("animals", lines.next(), lines), lines);
    FilmDrill drill(seed, animals);
    drill.asked_ = number(after("asked", lines.next(), lines), mostQuestions, lines);
    std::uint64_t seen = 0;
    while (!lines.done()) {
        const DrillCard card = cardFrom(after("card", lines.next(), lines), drill.asked_, lines);
        DrillCard* known = drill.find(card.cell, card.kind);
        if (!known) lines.refuse("holds a cell that is not asked of this animal");
        if (known->last > 0) lines.refuse("holds a card that stands above already");
        *known = card;
        seen += static_cast<std::uint64_t>(card.seen);
    }
    if (seen != drill.asked_) lines.refuse("ends cards that do not add up to the questions asked");
    return drill;
}

} // namespace cistern::lesson
