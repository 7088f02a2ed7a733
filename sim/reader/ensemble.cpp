#include "reader/ensemble.h"

#include "lab/bench.h"

#include <algorithm>
#include <array>
#include <atomic>
#include <bit>
#include <cmath>

namespace cistern::reader {

namespace {

using body::Analyte;
using Index = Eigen::Index;

constexpr std::size_t animalsPerStory = 2;
constexpr std::size_t designs = 64; // of second animals
static_assert(body::analyteCount < designs);

/// Logarithm of how many times more there is; 0 where there is nothing to compare.
double logRatio(double of, double to) {
    return of > 0 && to > 0 ? std::log(of / to) : 0;
}

/// Everything that the animals of an ensemble have in common.
class Ensemble {
public:
    Ensemble(std::uint64_t seed, const Stories& how, const Question& question, const Wanted& wanted,
             const body::Species& species, Lived& out)
        : seed_(seed), how_(how), wanted_(wanted), species_(species), out_(out), seen_(out.size()) {
        for (const bool rich : {false, true}) {
            body::Signalment who = question.who;
            who.potassiumRichCells = rich;
            medians_[rich] = body::median(species, who);
            for (std::size_t i = 0; i < designs; ++i) {
                std::array<double, body::analyteCount> deviations{};
                for (const Analyte analyte : body::analytes())
                    deviations[static_cast<std::size_t>(analyte)] = side(i, analyte);
                others_[rich].push_back(body::raised(species, who, deviations));
            }
        }
        parts_ = wanted.analytes.empty() ? 0 : body::partsFor(wanted.analytes);
        for (const body::Tissue organ : wanted.organs) parts_ |= partsOf(organ);
        const auto came = std::find(wanted.hours.begin(), wanted.hours.end(), question.presented());
        presented_ = static_cast<std::size_t>(came - wanted.hours.begin());
        if (wanted.presented && came == wanted.hours.end())
            throw std::invalid_argument("the hour at which the animal came is none of the hours "
                                        "that are wanted of its story");
    }

    body::Plan plan(std::size_t number) const {
        const std::size_t row = number / animalsPerStory;
        const Story& story = out_.stories[row];
        body::Plan plan{number % animalsPerStory == 0
                            ? medians_[story.potassiumRich]
                            : others_[story.potassiumRich][story.number % designs],
                        how_.windows(story, species_),
                        wanted_.hours.front(),
                        wanted_.hours,
                        {},
                        parts_};
        coarsen(plan);
        body::drawHalfLives(plan.animal, species_.halfLifeSpread, seed_, story.number);
        double begins = wanted_.hours.back();
        for (const body::Window& window : plan.windows) begins = std::min(begins, window.from);
        lookOnceAtHealth(plan, begins);
        plan.from = std::min(begins, plan.looks.front());
        return plan;
    }

    /// A grown animal stands still until something happens: looks long before that come just before
    /// it, so that no time is spent on standing still.
    void lookOnceAtHealth(body::Plan& plan, double begins) const {
        constexpr double grown = 2 * 8766, apartBy = 0.01; // [h]
        if (plan.animal.who.age + plan.looks.front() < grown) return;
        auto early = static_cast<double>(
            std::lower_bound(plan.looks.begin(), plan.looks.end(), begins) - plan.looks.begin());
        for (double& look : plan.looks)
            if (early >= 1) look = std::max(look, begins - apartBy * early--);
    }

    // The second of the two to arrive finds what the first one left.
    void visit(std::size_t number, const body::Course& course) {
        const std::size_t row = number / animalsPerStory;
        if (number % animalsPerStory == 0)
            first(static_cast<Index>(row), course);
        else
            second(static_cast<Index>(row), course);
        if (++seen_[row] == animalsPerStory && out_.alive[row]) compare(static_cast<Index>(row));
    }

    void lost(std::size_t number) {
        const std::size_t row = number / animalsPerStory;
        std::atomic_ref(out_.alive[row]) = 0;
        ++seen_[row];
    }

private:
    std::uint64_t seed_;
    const Stories& how_;
    const Wanted& wanted_;
    const body::Species& species_;
    Lived& out_;
    std::vector<std::atomic<unsigned char>> seen_; ///< animals of a story that have arrived
    // By potassiumRich.
    std::array<body::Individual, 2> medians_;
    std::array<std::vector<body::Individual>, 2> others_; ///< by design
    body::Parts parts_ = 0;
    std::size_t presented_ = 0;

    static body::Parts partsOf(body::Tissue organ) {
        body::Parts parts = 0;
        for (int part = 0; part < body::partCount; ++part) {
            const body::Parts without = body::allParts & ~(1u << part);
            if (!body::known(body::reading::work + static_cast<int>(organ), without) ||
                !body::known(body::reading::leak + static_cast<int>(organ), without))
                parts |= 1u << part;
        }
        return parts;
    }

    template<class Put>
    void each(const body::Course& course, const Put& put) const {
        Index column = 0;
        for (std::size_t hour = 0; hour < wanted_.hours.size(); ++hour)
            for (const Analyte analyte : wanted_.analytes)
                put(column++, course.table()(static_cast<Index>(hour),
                                             body::reading::analyte + static_cast<int>(analyte)));
    }
    template<class Put>
    void eachOrgan(const body::Course& course, int reading, const Put& put) const {
        const Index last = static_cast<Index>(course.size()) - 1;
        for (std::size_t i = 0; i < wanted_.organs.size(); ++i)
            put(static_cast<Index>(i),
                course.table()(last, reading + static_cast<int>(wanted_.organs[i])));
    }

    void first(Index row, const body::Course& course) {
        each(course, [&](Index c, double x) { out_.level(row, c) = x; });
        eachOrgan(course, body::reading::work, [&](Index c, double x) { out_.work(row, c) = x; });
        eachOrgan(course, body::reading::leak, [&](Index c, double x) { out_.leak(row, c) = x; });
        if (wanted_.presented)
            out_.presented[static_cast<std::size_t>(row)] = course.at(presented_);
    }
    void second(Index row, const body::Course& course) {
        each(course, [&](Index c, double x) { out_.own(row, c) = x; });
        eachOrgan(course, body::reading::leak,
                  [&](Index c, double x) { out_.leakOwn(row, c) = x; });
    }
    void compare(Index row) {
        const auto analytes = static_cast<Index>(wanted_.analytes.size());
        const std::uint64_t number = out_.stories[static_cast<std::size_t>(row)].number;
        for (Index c = 0; c < out_.own.cols(); ++c) {
            const Analyte analyte = wanted_.analytes[static_cast<std::size_t>(c % analytes)];
            const double zero = lab::origin(analyte);
            double& own = out_.own(row, c);
            own = side(number, analyte) * logRatio(own - zero, out_.level(row, c) - zero);
        }
        for (Index c = 0; c < out_.leakOwn.cols(); ++c) {
            const auto marker = markerOf(wanted_.organs[static_cast<std::size_t>(c)]);
            double& own = out_.leakOwn(row, c);
            own = (marker ? side(number, *marker) : 1) * logRatio(own, out_.leak(row, c));
        }
    }
};

void put(Table& table, const Table& more, std::size_t at) {
    const auto first = static_cast<Index>(at);
    if (table.rows() < first + more.rows())
        table.conservativeResize(first + more.rows(), more.cols());
    table.middleRows(first, more.rows()) = more;
}

template<class T>
void appendTo(std::vector<T>& all, const std::vector<T>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

} // namespace

int side(std::uint64_t number, Analyte analyte) {
    if (analyte == Analyte::bands) analyte = Analyte::neutrophils;
    const std::uint64_t column = static_cast<std::uint64_t>(analyte) + 1;
    return std::popcount(column & (number % designs)) % 2 == 0 ? 1 : -1;
}

std::optional<Analyte> markerOf(body::Tissue organ) {
    switch (organ) {
    case body::Tissue::liver:
        return Analyte::ALT;
    case body::Tissue::bileDucts:
        return Analyte::GGT;
    case body::Tissue::skeletalMuscle:
        return Analyte::CK;
    case body::Tissue::heart:
        return Analyte::cTnI;
    case body::Tissue::bone:
        return Analyte::ALP;
    case body::Tissue::kidney:
        return Analyte::UPC;
    case body::Tissue::platelets:
        return Analyte::platelets;
    default:
        return std::nullopt;
    }
}

std::optional<Eigen::Index> Wanted::column(std::size_t hour, Analyte analyte) const {
    const auto at = std::find(analytes.begin(), analytes.end(), analyte);
    if (at == analytes.end()) return std::nullopt;
    return static_cast<Index>(hour * analytes.size()) + (at - analytes.begin());
}

void Lived::reserve(std::size_t rows, const Wanted& wanted) {
    const auto count = static_cast<Index>(std::max(rows, size()));
    const auto levels = static_cast<Index>(wanted.hours.size() * wanted.analytes.size());
    const auto organs = static_cast<Index>(wanted.organs.size());
    for (Table* table : {&level, &own}) table->conservativeResize(count, levels);
    for (Table* table : {&work, &leak, &leakOwn}) table->conservativeResize(count, organs);
    stories.reserve(rows);
    if (wanted.presented) presented.reserve(rows);
    alive.reserve(rows);
}

void Lived::append(const Lived& more) {
    const std::size_t at = size();
    put(level, more.level, at);
    put(own, more.own, at);
    put(work, more.work, at);
    put(leak, more.leak, at);
    put(leakOwn, more.leakOwn, at);
    appendTo(stories, more.stories);
    appendTo(presented, more.presented);
    appendTo(alive, more.alive);
}

Lived live(std::vector<Story> stories, std::uint64_t seed, const Stories& how,
           const Question& question, const Wanted& wanted, const body::Species& species,
           int threads) {
    Lived out;
    out.stories = std::move(stories);
    out.reserve(out.size(), wanted);
    const std::array tables{&out.level, &out.own, &out.work, &out.leak, &out.leakOwn};
    for (Table* table : tables) table->setZero();
    if (wanted.presented) out.presented.resize(out.size());
    out.alive.assign(out.size(), 1);
    Ensemble ensemble(seed, how, question, wanted, species, out);
    body::simulate(
        animalsPerStory * out.size(), [&](std::size_t i) { return ensemble.plan(i); },
        [&](std::size_t i, const body::Course& course) { ensemble.visit(i, course); },
        [&](std::size_t i, const body::BeyondLife&) { ensemble.lost(i); }, threads);
    // Rows of the dead hold nothing of the one animal that may have lived.
    for (std::size_t row = 0; row < out.size(); ++row)
        if (!out.alive[row])
            for (Table* table : tables) table->row(static_cast<Index>(row)).setZero();
    return out;
}

void coarsen(body::Plan& plan) {
    plan.single = true;
    body::Steps& steps = plan.steps;
    // Hard inflammation turns the white cells' marrow over within half a day; the rest is slower.
    const bool marrow = body::has(plan.parts, body::Part::whiteCells);
    steps.longest = marrow ? 6 : 16;
    // All the others are halvings of it, or the longest would never be reached.
    steps.afterGentle = marrow ? 1.5 : 2;
    steps.shortest = steps.afterGentle / 4;
    steps.afterBleeding = steps.shortest / 4;
    steps.ofTimeSince = 1. / 2;
    steps.ofDeath = 1. / 4;
    steps.ofTimeLeft = 1. / 8;
}

} // namespace cistern::reader
