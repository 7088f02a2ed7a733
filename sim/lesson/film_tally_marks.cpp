#include "base/statistics.h"
#include "base/text.h"
#include "lesson/film_pairs.h"
#include "lesson/film_tally.h"
#include "lesson/film_words.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lesson {

namespace {

// Scales of the marks, all chosen: what a fair reader loses is nothing, see the tests.
constexpr double confidence = 0.95;
constexpr double namingWeight = 0.5, countWeight = 0.3, areaWeight = 0.2;
/// Naming counts from the share that one name for all would get right, held to this range so that
/// a slip in a hundred costs between 2 and 10 points.
constexpr double leastGuess = 0.5, mostGuess = 0.9;
/// A class so many times less likely than what is still fair has no points left.
constexpr double hopeless = 100;
/// Expected or said cells from which on a class weighs in full.
constexpr double fullWeight = 4;
/// Share of cells outside the monolayer that costs nothing, and from which nothing is left.
constexpr double freeOutside = 0.05, mostOutside = 0.5;
/// Beyond this share, cells that were met by ill luck are the reader's own choice of place.
constexpr double ownChoice = 0.1;

std::size_t at(TallyClass kind) {
    return static_cast<std::size_t>(kind);
}

bool namedRightly(const Told& told, bool joined) {
    const auto said = classOf(told.said, joined), truly = classOf(told.truly, joined);
    const bool both = told.doubtful &&
                      (told.said == lab::FilmCell::segmented || told.said == lab::FilmCell::band);
    return both || (said ? said == truly : told.said == told.truly);
}

/// The chance of counts as far off, two-sided, where the true share may lie anywhere in a range.
struct Expected {
    double low = 0, high = 0; ///< share, 0..1

    Expected(double share, double unsure)
        : low(std::max(0., share - unsure)), high(std::min(1., share + unsure)) {}
    std::pair<int, int> fair(int n) const {
        return {base::binomialRange(n, low, confidence).first,
                base::binomialRange(n, high, confidence).second};
    }
    double chance(int k, int n) const {
        if (k < n * low) return base::binomialTwoSided(k, n, low);
        if (k > n * high) return base::binomialTwoSided(k, n, high);
        return 1;
    }
    /// -1 too few, 1 too many, 0 neither.
    int side(int k, int n) const { return k < n * low ? -1 : k > n * high ? 1 : 0; }
};

bool inside(int k, std::pair<int, int> range) {
    return range.first <= k && k <= range.second;
}

/// What all classes of one tally are held against.
struct Ground {
    int counted = 0, metCells = 0;
    bool joined = false, chosenPlace = false; ///< cells came from outside the monolayer
};

/// 100 inside what is fair. Beyond, points fall with the logarithm of the chance; the scale begins
/// at what the cells met make of it, where luck alone led them astray to the same side.
double countPoints(const ClassMark& mark, const Expected& expected, const Ground& ground) {
    if (mark.saidFair) return 100;
    double from = 1 - confidence;
    const bool sameSide =
        expected.side(mark.said, ground.counted) == expected.side(mark.met, ground.metCells);
    if (!mark.metFair && sameSide && !ground.chosenPlace)
        from = std::min(from, expected.chance(mark.met, ground.metCells));
    if (mark.chance >= from) return 100;
    if (!(mark.chance > 0)) return 0;
    return 100 * std::max(0., 1 - std::log(from / mark.chance) / std::log(hopeless));
}

std::string rangeWords(std::pair<int, int> range) {
    return range.first == range.second
               ? std::to_string(range.first)
               : std::to_string(range.first) + " to " + std::to_string(range.second);
}

/// What is to be made of a class, after the numbers.
std::string verdict(const ClassMark& mark, const Ground& ground) {
    const bool few = mark.said < mark.fair.first;
    if (mark.saidFair && mark.metFair) return "nothing to object to.";
    if (mark.saidFair)
        return "fair as it stands, though you truly met " +
               counted(mark.met, mark.kind, ground.joined) + ".";
    const std::string off = few ? "too few" : "too many";
    const bool metFew = mark.met < mark.fair.first;
    if (mark.metFair || metFew != few)
        return off + ", and by the naming: you truly met " +
               counted(mark.met, mark.kind, ground.joined) + ".";
    const std::string met = "those you truly met (" + std::to_string(mark.met) + ")";
    if (ground.chosenPlace)
        return off + ", and so were " + met + ": outside the monolayer cells gather otherwise.";
    if (mark.points < 100) return off + ", more so than " + met + ": the naming added to luck.";
    return off + ", but so were " + met + ": luck, which costs nothing. Count another hundred.";
}

ClassMark classMark(TallyClass kind, const FilmTally& tally, const TallyTruth& truth,
                    const Ground& ground) {
    ClassMark mark;
    mark.kind = kind;
    mark.said = tally.counts()[at(kind)];
    mark.met = tally.met()[at(kind)];
    const ClassShares share = ground.joined ? joinedUp(truth.share) : truth.share;
    mark.share = share[at(kind)];
    const Expected expected(mark.share, truth.unsure[at(kind)]);
    mark.fair = expected.fair(ground.counted);
    mark.chance = expected.chance(mark.said, ground.counted);
    mark.saidFair = inside(mark.said, mark.fair);
    mark.metFair = inside(mark.met, expected.fair(ground.metCells));
    mark.points = countPoints(mark, expected, ground);
    mark.sentence = "You said " + counted(mark.said, kind, ground.joined) + " of " +
                    std::to_string(ground.counted) + "; from " + shareWords(mark.share) +
                    " a fair count gives " + rangeWords(mark.fair) +
                    " in 19 of 20 tallies: " + verdict(mark, ground);
    return mark;
}

/// Half the mean of the classes, half the worst of them; rare ones weigh less.
double countMark(const std::vector<ClassMark>& classes, int cells) {
    double sum = 0, weights = 0, worst = 100;
    for (const ClassMark& mark : classes) {
        const double many = std::max(cells * mark.share, static_cast<double>(mark.said));
        const double weight = std::min(1., many / fullWeight);
        sum += weight * mark.points;
        weights += weight;
        worst = std::min(worst, 100 - weight * (100 - mark.points));
    }
    return weights > 0 ? (sum / weights + worst) / 2 : 100;
}

/// The share that the best single name would get right of all cells told.
double guessShare(const FilmTally& tally) {
    int best = 0;
    for (const lab::FilmCell said : tallyNames) {
        int right = 0;
        for (Told one : tally.told()) {
            one.said = said;
            right += namedRightly(one, tally.joined());
        }
        best = std::max(best, right);
    }
    return std::clamp(static_cast<double>(best) / static_cast<double>(tally.told().size()),
                      leastGuess, mostGuess);
}

double namingMark(const TallyMarks& marks, const FilmTally& tally) {
    const double guess = guessShare(tally);
    const double right = static_cast<double>(marks.right) / marks.told;
    return 100 * std::clamp((right - guess) / (1 - guess), 0., 1.);
}

double areaMark(double outside) {
    return 100 * std::clamp((mostOutside - outside) / (mostOutside - freeOutside), 0., 1.);
}

std::vector<Confusion> confusions(const FilmTally& tally, body::Kind kind) {
    std::vector<Confusion> found;
    for (const Told& one : tally.told()) {
        if (namedRightly(one, tally.joined())) continue;
        const auto known = std::find_if(found.begin(), found.end(), [&](const Confusion& pair) {
            return pair.said == one.said && pair.truly == one.truly;
        });
        if (known != found.end())
            ++known->times;
        else
            found.push_back({one.said, one.truly, 1, apart(one.said, one.truly, kind)});
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Confusion& a, const Confusion& b) { return a.times > b.times; });
    return found;
}

std::string cellsOf(int part, int whole, const std::string& what) {
    return std::to_string(part) + " of " + std::to_string(whole) + " " + what;
}

std::vector<std::string> sentences(const TallyMarks& marks, const FilmTally& tally,
                                   const TallyTruth& truth, const Ground& ground) {
    std::vector<std::string> said{
        "You named " + cellsOf(marks.right, marks.told, "cells rightly") +
        (marks.doubtful > 0 ? "; " + std::to_string(marks.doubtful) +
                                  " lay between segmented and band, where either is right."
                            : ".")};
    if (marks.outside > 0)
        said.push_back(cellsOf(marks.outside, ground.counted, "white cells") +
                       " were counted outside the monolayer, where large cells gather or shapes "
                       "cannot be told.");
    if (!tally.full())
        said.push_back("The tally ended at " + cellsOf(ground.counted, tally.end(), "white cells") +
                       ": its limits are wider than those of a whole one.");
    if (tally.nucleated() > 0 || truth.nucleated >= 1)
        said.push_back("Nucleated red cells: you counted " +
                       base::rounded(tally.nucleatedPer100(), 1) +
                       " per 100 white cells; the slide "
                       "holds " +
                       base::rounded(truth.nucleated, 1) + ".");
    return said;
}

} // namespace

TallyMarks marks(const FilmTally& tally, const TallyTruth& truth) {
    Ground ground;
    ground.counted = tally.counted();
    ground.joined = tally.joined();
    if (ground.counted == 0) throw std::invalid_argument("No white cell was counted yet.");
    for (const int met : tally.met()) ground.metCells += met;
    TallyMarks out;
    for (const Told& one : tally.told()) {
        ++out.told;
        out.right += namedRightly(one, ground.joined);
        out.doubtful += one.doubtful;
        const bool within = truth.monolayer.from <= one.x && one.x <= truth.monolayer.to;
        out.outside += classOf(one.said) && !within;
    }
    const double outside = static_cast<double>(out.outside) / ground.counted;
    ground.chosenPlace = outside > ownChoice;
    for (const TallyClass kind : tallyClasses(ground.joined))
        out.classes.push_back(classMark(kind, tally, truth, ground));
    out.naming = namingMark(out, tally);
    out.count = countMark(out.classes, ground.counted);
    out.area = areaMark(outside);
    out.total = namingWeight * out.naming + countWeight * out.count + areaWeight * out.area;
    out.confusions = confusions(tally, truth.kind);
    out.sentences = sentences(out, tally, truth, ground);
    return out;
}

} // namespace cistern::lesson
