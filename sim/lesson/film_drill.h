#pragma once
#include "lab/film/cell.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lesson {

enum class DrillAnimals { dog, cat, both };
std::string_view name(DrillAnimals animals); ///< "dog", "cat", "both"

/// One cell to be named.
struct DrillQuestion {
    lab::FilmCell cell{}; ///< the truth
    body::Kind kind{};
    std::uint64_t seed = 0;             ///< of its looks
    std::uint16_t marks = 0;            ///< what it carries besides
    std::vector<lab::FilmCell> choices; ///< 4 to 6 names, look-alikes among them, in fixed order
    bool operator==(const DrillQuestion&) const = default;
};

/// What is said to an answer at once.
struct DrillReply {
    bool right = false;
    std::string explanation; ///< what decides the true kind, and what its marks are
    std::string apart;       ///< what parts it from what was said; empty if right
};

/// A kind in a species, and how well it is known.
struct DrillCard {
    lab::FilmCell cell{};
    body::Kind kind{};
    int box = 0;             ///< 0 new or missed .. 5; each box waits longer
    int seen = 0, right = 0; ///< times asked, answered rightly
    int missedInRow = 0;     ///< since the last right answer
    std::uint64_t last = 0;  ///< number of the question when asked last, from 1; 0: never
    std::uint64_t due = 0;   ///< number of the question from which it is to return
    bool operator==(const DrillCard&) const = default;
};

struct DrillProgress {
    int cards = 0, seen = 0;
    int known = 0; ///< in box 3 or higher
    std::uint64_t asked = 0, right = 0;
    std::vector<DrillCard> weakest; ///< at most three that were missed, most often missed first
};

/// Single cells to be named, spaced by what was missed. A card that is missed returns after exactly
/// 2 others; missed again, after 5 or a little more. It climbs a box for each right answer (from
/// new, two), and boxes wait 5, 12, 30, 80 and 200 questions. New cards come where none is due,
/// look-alikes near each other; every fourth question is kept for new or known ones, so that what
/// is missed over and over never keeps all others out. All chance from the seed (Purpose::drill):
/// the same seed and answers give the same questions.
class FilmDrill {
public:
    explicit FilmDrill(std::uint64_t seed, DrillAnimals animals = DrillAnimals::both);

    /// The question that is open; a new one once the last was answered.
    const DrillQuestion& next();
    /// Answers the open question. Throws std::logic_error if there is none.
    DrillReply answer(lab::FilmCell said);

    /// Which animals are asked for from the next question on; what is known of others is kept.
    void ask(DrillAnimals animals);
    DrillAnimals animals() const { return animals_; }
    std::uint64_t seed() const { return seed_; }
    DrillProgress progress() const;                                ///< of the animals asked for
    const std::vector<DrillCard>& cards() const { return cards_; } ///< in the order of coming in

    /// All that is to be kept between sessions; an open question is asked again.
    std::string text() const;
    /// The same read back. Throws std::invalid_argument with one sentence that names the line.
    static FilmDrill read(std::string_view text);

private:
    std::uint64_t seed_;
    DrillAnimals animals_;
    std::uint64_t asked_ = 0; ///< questions answered
    std::vector<DrillCard> cards_;
    std::optional<DrillQuestion> open_;

    bool wanted(const DrillCard& card) const;
    bool justAsked(const DrillCard& card) const;
    const DrillCard& chosen() const; ///< the card of the next question
    /// Of those wanted, the best of each sort; null if there is none.
    struct Standing {
        const DrillCard *missed = nullptr, *again = nullptr; ///< due, missed once, more often
        const DrillCard* due = nullptr;                      ///< likewise, not missed
        const DrillCard* fresh = nullptr;                    ///< the next to come in
        const DrillCard *known = nullptr, *any = nullptr;    ///< due next, or not yet
        int learning = 0;                                    ///< cards in the lowest two boxes
    };
    Standing standing() const;
    DrillCard* find(lab::FilmCell cell, body::Kind kind); ///< null if it is not asked
    void note(DrillCard& card, bool right);
};

} // namespace cistern::lesson
