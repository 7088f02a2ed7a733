#include "base/chance.h"
#include "base/statistics.h"
#include "lesson/film_tally.h"
#include "lesson/film_words.h"

#include <algorithm>
#include <numeric>
#include <stdexcept>

namespace cistern::lesson {

namespace {

constexpr int deals = 10000;          // error of a chance of 5 %: 0.2 points
constexpr std::uint64_t dealSeed = 1; // the same two counts get the same chance
constexpr double unusual = 0.05;

std::size_t at(TallyClass kind) {
    return static_cast<std::size_t>(kind);
}

int sum(const ClassCounts& counts) {
    return std::accumulate(counts.begin(), counts.end(), 0);
}

/// Pearson's chi-square of two rows, up to a factor and a constant that hang on the totals alone:
/// sum of first^2 / column.
double spread(const ClassCounts& first, const ClassCounts& both) {
    double out = 0;
    for (std::size_t i = 0; i < both.size(); ++i)
        if (both[i] > 0) out += static_cast<double>(first[i]) * first[i] / both[i];
    return out;
}

/// Deals `n` of all cells out anew, without putting back.
ClassCounts dealt(ClassCounts left, int n, base::Chance& chance) {
    ClassCounts hand{};
    for (int cells = sum(left); n > 0; --n, --cells) {
        double place = chance.uniform() * cells;
        std::size_t kind = 0;
        while (kind + 1 < left.size() && place >= left[kind]) place -= left[kind++];
        --left[kind];
        ++hand[kind];
    }
    return hand;
}

/// Chance that cells dealt out at random spread as far over the classes as these; the deal seen
/// counts as one of them (Davison and Hinkley 1997, 4.2).
double chanceOfAll(const ClassCounts& first, const ClassCounts& second) {
    constexpr double slack = 1e-9; // spreads that are equal but for their last bits
    ClassCounts both = first;
    for (std::size_t i = 0; i < both.size(); ++i) both[i] += second[i];
    const double seen = spread(first, both) - slack;
    base::Chance chance(dealSeed, base::Purpose::bootstrap);
    int asFar = 1;
    for (int deal = 0; deal < deals; ++deal)
        asFar += spread(dealt(both, sum(first), chance), both) >= seen;
    return static_cast<double>(asFar) / (deals + 1);
}

std::string countsOf(int first, int second) {
    return first == second
               ? "two counts of " + std::to_string(first)
               : "counts of " + std::to_string(first) + " and " + std::to_string(second);
}

ClassDifference difference(TallyClass kind, const ClassCounts& first, const ClassCounts& second,
                           bool joined) {
    ClassDifference out;
    out.kind = kind;
    out.first = first[at(kind)];
    out.second = second[at(kind)];
    out.chance = base::fisherExact(out.first, sum(first), out.second, sum(second));
    out.sentence = std::to_string(out.first) + " and " + std::to_string(out.second) + " " +
                   std::string(name(kind, joined)) + ": " + countsOf(sum(first), sum(second)) +
                   " cells differ so much " + howOften(out.chance, "pairs") + ".";
    return out;
}

} // namespace

TallyComparison compare(const ClassCounts& one, const ClassCounts& other, bool joined) {
    const ClassCounts first = joined ? joinedUp(one) : one;
    const ClassCounts second = joined ? joinedUp(other) : other;
    if (sum(first) <= 0 || sum(second) <= 0)
        throw std::invalid_argument("Two counts are compared once each holds a white cell.");
    TallyComparison out;
    for (const TallyClass kind : tallyClasses(joined))
        if (first[at(kind)] + second[at(kind)] > 0)
            out.classes.push_back(difference(kind, first, second, joined));
    out.chance = chanceOfAll(first, second);
    const std::string often = howOften(out.chance, "pairs of counts of one slide");
    out.sentence = out.chance < unusual
                       ? "The two counts differ by more than chance: so far apart " + often + "."
                       : "Chance alone makes two counts differ so much: " + often + ".";
    out.how = "Each class: Fisher's exact test. All classes at once: chi-square, its chance by "
              "dealing the same cells out anew 10,000 times.";
    return out;
}

TallyComparison compare(const FilmTally& first, const FilmTally& second) {
    return compare(first.counts(), second.counts(), first.joined() || second.joined());
}

const TallyColumn::Entry* TallyColumn::find(TallyClass kind) const {
    for (const Entry& entry : entries)
        if (entry.first <= kind && kind <= entry.last) return &entry;
    return nullptr;
}

TallyColumn column(std::string name, const FilmTally& tally) {
    TallyColumn out{std::move(name), tally.counted(), {}};
    if (tally.counted() == 0) return out;
    for (const TallyLine& line : tally.lines()) {
        const bool spans = tally.joined() && line.kind == TallyClass::band;
        out.entries.push_back({line.kind, spans ? TallyClass::metamyelocyte : line.kind,
                               line.percent / 100, line.count});
    }
    return out;
}

TallyColumn column(std::string name, const lab::Count& machine) {
    TallyColumn out{std::move(name), std::nullopt, {}};
    const double all =
        machine.neutrophils + machine.lymphocytes + machine.monocytes + machine.eosinophils;
    if (!(all > 0)) return out;
    const auto add = [&](TallyClass first, TallyClass last, double count) {
        out.entries.push_back({first, last, count / all, std::nullopt});
    };
    add(TallyClass::segmented, TallyClass::metamyelocyte, machine.neutrophils);
    add(TallyClass::lymphocyte, TallyClass::lymphocyte, machine.lymphocytes);
    add(TallyClass::monocyte, TallyClass::monocyte, machine.monocytes);
    add(TallyClass::eosinophil, TallyClass::eosinophil, machine.eosinophils);
    return out;
}

TallyColumn column(std::string name, const lab::Film& film) {
    TallyColumn out{std::move(name), film.cells, {}};
    if (film.cells == 0) return out;
    // by lab::whiteKinds: segmented neutrophils, bands and younger, ...
    constexpr std::array<std::pair<TallyClass, TallyClass>, lab::whiteKindCount> spans{
        std::pair{TallyClass::segmented, TallyClass::segmented},
        std::pair{TallyClass::band, TallyClass::metamyelocyte},
        std::pair{TallyClass::lymphocyte, TallyClass::lymphocyte},
        std::pair{TallyClass::monocyte, TallyClass::monocyte},
        std::pair{TallyClass::eosinophil, TallyClass::eosinophil}};
    for (std::size_t i = 0; i < spans.size(); ++i)
        out.entries.push_back({spans[i].first, spans[i].second,
                               static_cast<double>(film.kinds[i]) / film.cells, film.kinds[i]});
    return out;
}

TallyColumn column(std::string name, const TallyTruth& truth, bool joined) {
    TallyColumn out{std::move(name), std::nullopt, {}};
    const ClassShares shares = joined ? joinedUp(truth.share) : truth.share;
    for (const TallyClass kind : tallyClasses(joined)) {
        const bool spans = joined && kind == TallyClass::band;
        out.entries.push_back(
            {kind, spans ? TallyClass::metamyelocyte : kind, shares[at(kind)], std::nullopt});
    }
    return out;
}

} // namespace cistern::lesson
