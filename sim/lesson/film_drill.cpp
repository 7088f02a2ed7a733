#include "lesson/film_drill.h"

#include "base/chance.h"
#include "lesson/film_pairs.h"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace cistern::lesson {

namespace {

using lab::FilmCell;

constexpr int topBox = 5, knownBox = 3, atOnceBox = 2;
/// Other questions before a card returns, by its box; box 0 is of a first miss. Chosen.
constexpr std::array<std::uint64_t, topBox + 1> waits{2, 5, 12, 30, 80, 200};
constexpr std::uint64_t waitMissedAgain = 5;
/// Each so manieth question is kept for cards that are not missed over and over.
constexpr std::uint64_t relief = 4;
/// Cards in the lowest two boxes above which no new one comes: as a rule, and at such a question.
constexpr int mostLearning = 6, mostLearningRelieved = 12;
/// Each so manieth question brings a new one whatever is in work, so that every card is reached.
constexpr std::uint64_t alwaysNew = 12;
/// Others that must lie between two questions of one card.
constexpr std::uint64_t apartBy = 2;
constexpr std::size_t mostWeak = 3, mostChoices = 6, fewestChoices = 4;

/// What is learned together, the daily bread first.
const std::vector<std::vector<FilmCell>>& groups() {
    static const std::vector<std::vector<FilmCell>> all{
        {FilmCell::segmented, FilmCell::band, FilmCell::lymphocyte},
        {FilmCell::discocyte, FilmCell::polychromatophil, FilmCell::nucleatedRed},
        {FilmCell::monocyte, FilmCell::metamyelocyte, FilmCell::reactiveLymphocyte},
        {FilmCell::eosinophil, FilmCell::basophil},
        {FilmCell::platelet, FilmCell::precipitate, FilmCell::plateletClump, FilmCell::smudge},
        {FilmCell::spherocyte, FilmCell::hypochromic, FilmCell::target},
        {FilmCell::echinocyte, FilmCell::acanthocyte},
        {FilmCell::schistocyte, FilmCell::keratocyte}};
    return all;
}

template<class T>
void shuffle(std::vector<T>& list, base::Chance& chance) {
    for (std::size_t left = list.size(); left > 1; --left) {
        const auto pick = static_cast<std::size_t>(chance.uniform() * static_cast<double>(left));
        std::swap(list[left - 1], list[pick]);
    }
}

template<class T>
bool has(const std::vector<T>& list, const T& item) {
    return std::find(list.begin(), list.end(), item) != list.end();
}

/// All cards, group by group; within one the order is the seed's.
std::vector<DrillCard> allCards(std::uint64_t seed) {
    base::Chance chance(seed, base::Purpose::drill);
    std::vector<DrillCard> cards;
    for (std::vector<FilmCell> group : groups()) {
        shuffle(group, chance);
        std::vector kinds{body::Kind::dog, body::Kind::cat};
        shuffle(kinds, chance);
        for (const FilmCell cell : group)
            for (const body::Kind kind : kinds)
                if (has(lab::askedOf(kind), cell)) {
                    DrillCard card;
                    card.cell = cell;
                    card.kind = kind;
                    cards.push_back(card);
                }
    }
    return cards;
}

std::uint64_t manyBits(base::Chance& chance) {
    constexpr double half = 4294967296.0; // 2^32
    const auto high = static_cast<std::uint64_t>(chance.uniform() * half);
    return high << 32 | static_cast<std::uint64_t>(chance.uniform() * half);
}

struct Carried {
    FilmCell cell;
    std::uint16_t marks;
    double share; // of the questions about this kind; chosen
    bool dogsOnly = false;
};
// Marks that a learner must see through, for they do not change the kind.
constexpr std::array carried{
    Carried{FilmCell::segmented, lab::mark::toxic, 0.2},
    Carried{FilmCell::segmented, lab::mark::toxic | lab::mark::doehle, 0.1},
    Carried{FilmCell::segmented, lab::mark::drumstick, 0.1},
    Carried{FilmCell::segmented, lab::mark::hypersegmented, 0.1},
    Carried{FilmCell::band, lab::mark::toxic, 0.3},
    Carried{FilmCell::band, lab::mark::toxic | lab::mark::doehle, 0.1},
    Carried{FilmCell::metamyelocyte, lab::mark::toxic, 0.3},
    Carried{FilmCell::monocyte, lab::mark::vacuoles, 0.6},
    Carried{FilmCell::eosinophil, lab::mark::emptyGranules, 0.2, true},
    Carried{FilmCell::discocyte, lab::mark::howellJolly, 0.15},
    Carried{FilmCell::discocyte, lab::mark::heinz, 0.15},
    Carried{FilmCell::discocyte, lab::mark::water, 0.15},
    Carried{FilmCell::platelet, lab::mark::large, 0.3}};

std::uint16_t marksOf(const DrillCard& card, base::Chance& chance) {
    double place = chance.uniform();
    for (const Carried& one : carried) {
        if (one.cell != card.cell || (one.dogsOnly && card.kind != body::Kind::dog)) continue;
        if (place < one.share) return one.marks;
        place -= one.share;
    }
    return 0;
}

/// The truth, its look-alikes, and theirs until there are enough; in the order of filmCells().
std::vector<FilmCell> choicesOf(const DrillCard& card, base::Chance& chance) {
    std::vector<FilmCell> choices{card.cell};
    const auto likes = lookAlikes(card.cell, card.kind);
    choices.insert(choices.end(), likes.begin(), likes.end());
    const std::size_t wanted =
        fewestChoices +
        static_cast<std::size_t>(chance.uniform() * (mostChoices - fewestChoices + 1));
    for (const FilmCell like : likes)
        for (const FilmCell other : lookAlikes(like, card.kind))
            if (choices.size() < wanted && !has(choices, other)) choices.push_back(other);
    choices.resize(std::min(choices.size(), wanted));
    std::sort(choices.begin(), choices.end());
    return choices;
}

bool learning(const DrillCard& card) {
    return card.last > 0 && card.box < atOnceBox;
}

double missedShare(const DrillCard& card) {
    return card.seen > 0 ? 1 - static_cast<double>(card.right) / card.seen : 0;
}

} // namespace

std::string_view name(DrillAnimals animals) {
    constexpr std::array<std::string_view, 3> names{"dog", "cat", "both"};
    return names.at(static_cast<std::size_t>(animals));
}

FilmDrill::FilmDrill(std::uint64_t seed, DrillAnimals animals)
    : seed_(seed), animals_(animals), cards_(allCards(seed)) {}

bool FilmDrill::wanted(const DrillCard& card) const {
    if (animals_ == DrillAnimals::both) return true;
    return (card.kind == body::Kind::dog) == (animals_ == DrillAnimals::dog);
}

bool FilmDrill::justAsked(const DrillCard& card) const {
    return card.last > 0 && asked_ + 1 - card.last <= apartBy;
}

FilmDrill::Standing FilmDrill::standing() const {
    const auto sooner = [](const DrillCard*& best, const DrillCard& card) {
        if (!best || card.due < best->due) best = &card;
    };
    Standing out;
    for (const DrillCard& card : cards_) {
        if (!wanted(card)) continue;
        out.learning += learning(card);
        if (card.last == 0) {
            if (!out.fresh) out.fresh = &card;
            continue;
        }
        if (justAsked(card)) continue;
        sooner(out.any, card);
        if (card.box >= atOnceBox) sooner(out.known, card);
        if (card.due > asked_ + 1) continue;
        sooner(card.missedInRow == 0   ? out.due
               : card.missedInRow == 1 ? out.missed
                                       : out.again,
               card);
    }
    return out;
}

const DrillCard& FilmDrill::chosen() const {
    const std::uint64_t number = asked_ + 1;
    const bool relieved = number % relief == 0;
    const Standing now = standing();
    const bool room =
        now.learning < (relieved ? mostLearningRelieved : mostLearning) || number % alwaysNew == 0;
    const DrillCard* fresh = room ? now.fresh : nullptr;
    const std::array order =
        relieved ? std::array{now.missed, fresh, now.due, now.again, now.known, now.fresh, now.any}
                 : std::array{now.missed, now.again, now.due, fresh, now.known, now.fresh, now.any};
    for (const DrillCard* card : order)
        if (card) return *card;
    throw std::logic_error("a drill holds more cards than were just asked");
}

const DrillQuestion& FilmDrill::next() {
    if (open_) return *open_;
    const DrillCard& card = chosen();
    base::Chance chance(seed_, base::Purpose::drill, asked_ + 1);
    DrillQuestion question;
    question.cell = card.cell;
    question.kind = card.kind;
    question.seed = manyBits(chance);
    question.marks = marksOf(card, chance);
    question.choices = choicesOf(card, chance);
    open_ = question;
    return *open_;
}

DrillReply FilmDrill::answer(FilmCell said) {
    if (!open_) throw std::logic_error("no question of the drill is open");
    const DrillQuestion question = *open_;
    open_.reset();
    ++asked_;
    DrillReply reply;
    reply.right = said == question.cell;
    reply.explanation = lab::telling(question.cell, question.kind);
    for (const std::uint16_t mark : lab::cellMarks)
        if (question.marks & mark) reply.explanation += " " + std::string(lab::markTelling(mark));
    if (!reply.right) reply.apart = apart(said, question.cell, question.kind);
    note(*find(question.cell, question.kind), reply.right);
    return reply;
}

DrillCard* FilmDrill::find(FilmCell cell, body::Kind kind) {
    const auto found = std::find_if(cards_.begin(), cards_.end(), [&](const DrillCard& card) {
        return card.cell == cell && card.kind == kind;
    });
    return found == cards_.end() ? nullptr : &*found;
}

void FilmDrill::note(DrillCard& card, bool right) {
    const bool first = card.last == 0;
    ++card.seen;
    card.last = asked_;
    if (right) {
        ++card.right;
        card.missedInRow = 0;
        card.box = first ? atOnceBox : std::min(card.box + 1, topBox);
    } else {
        ++card.missedInRow;
        card.box = 0;
    }
    const std::uint64_t wait =
        card.missedInRow > 1 ? waitMissedAgain : waits.at(static_cast<std::size_t>(card.box));
    card.due = asked_ + wait + 1;
}

void FilmDrill::ask(DrillAnimals animals) {
    animals_ = animals;
    open_.reset();
}

DrillProgress FilmDrill::progress() const {
    DrillProgress out;
    for (const DrillCard& card : cards_) {
        if (!wanted(card)) continue;
        ++out.cards;
        out.seen += card.seen > 0;
        out.known += card.box >= knownBox;
        out.asked += static_cast<std::uint64_t>(card.seen);
        out.right += static_cast<std::uint64_t>(card.right);
        if (card.right < card.seen) out.weakest.push_back(card);
    }
    std::stable_sort(
        out.weakest.begin(), out.weakest.end(),
        [](const DrillCard& a, const DrillCard& b) { return missedShare(a) > missedShare(b); });
    out.weakest.resize(std::min(out.weakest.size(), mostWeak));
    return out;
}

} // namespace cistern::lesson
