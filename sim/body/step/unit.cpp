// The stepping code for one vector unit: built several times, see sim/CMakeLists.txt.
#include "body/unit.h"

#include "body/step/body.h"

namespace cistern::body::CISTERN_UNIT {
namespace {

/// An animal's lags are kept for so many different steps: the halvings of an hour that follow a
/// change.
constexpr int remembered = 8;
constexpr std::size_t rateCount = sizeof(Rates<Lane>) / sizeof(Lane);
constexpr std::size_t weightCount = sizeof(Lag) / sizeof(Lane);
static_assert(sizeof(Rates<Lag>) == rateCount * sizeof(Lag));

constexpr Parts none = ~allParts;

/// The lags of one animal's rates for one step.
struct Table {
    double hours;
    Real weights[rateCount][weightCount];
};

struct Shelf {
    int filled, oldest;
    Table table[remembered];
};

struct Block {
    Constants<Lane> constants;
    State<Lane> state;
    Drives drives;
    Lane hours;
    Rates<Lag> lags;
    Readings readings;
    Parts lagging; ///< at single precision: parts that the lags were worked out for, or `none`
    Shelf shelf[single ? 1 : CISTERN_LANES]; ///< unused at single precision
};

template<class To>
Lane* lanesOf(To& whole) {
    static_assert(sizeof(To) % sizeof(Lane) == 0);
    return reinterpret_cast<Lane*>(&whole);
}
template<class From>
const double* doublesOf(const From& whole) {
    return reinterpret_cast<const double*>(&whole);
}

Block& blockOf(void* memory) {
    return *static_cast<Block*>(memory);
}

void load(void* memory, int lane, const Constants<double>& constants, const State<double>& state) {
    static_assert(sizeof(Constants<Lane>) / sizeof(Lane) ==
                  sizeof(Constants<double>) / sizeof(double));
    static_assert(sizeof(State<Lane>) / sizeof(Lane) == sizeof(State<double>) / sizeof(double));
    Block& b = blockOf(memory);
    constexpr int constantCount = sizeof(Constants<double>) / sizeof(double);
    constexpr int stateCount = sizeof(State<double>) / sizeof(double);
    for (int i = 0; i < constantCount; ++i)
        lanesOf(b.constants)[i].set(lane, doublesOf(constants)[i]);
    for (int i = 0; i < stateCount; ++i) lanesOf(b.state)[i].set(lane, doublesOf(state)[i]);
    if constexpr (single)
        b.lagging = none;
    else
        b.shelf[lane].filled = b.shelf[lane].oldest = 0;
    b.hours.set(lane, -1);
}

void drive(void* memory, int lane, const double* values) {
    Block& b = blockOf(memory);
    for (int i = 0; i < driveCount; ++i) b.drives.value[i].set(lane, values[i]);
}

/// Works a table out, as many rates side by side as there are lanes.
void fill(Table& table, const Lane* rates, int lane, double hours) {
    table.hours = hours;
    for (std::size_t first = 0; first < rateCount; first += CISTERN_LANES) {
        const std::size_t left = rateCount - first;
        const int count = left < CISTERN_LANES ? static_cast<int>(left) : CISTERN_LANES;
        Lane some = 0.0;
        for (int i = 0; i < count; ++i) some.set(i, rates[first + i][lane]);
        const Lag lags = lag(some * hours);
        for (int i = 0; i < count; ++i)
            for (std::size_t w = 0; w < weightCount; ++w)
                table.weights[first + static_cast<std::size_t>(i)][w] =
                    reinterpret_cast<const Lane*>(&lags)[w][i];
    }
}

const Table& tableFor(Block& b, int lane, double hours) {
    Shelf& shelf = b.shelf[lane];
    for (int i = 0; i < shelf.filled; ++i)
        if (shelf.table[i].hours == hours) return shelf.table[i];
    const bool full = shelf.filled == remembered;
    Table& table = shelf.table[full ? shelf.oldest : shelf.filled++];
    if (full) shelf.oldest = (shelf.oldest + 1) % remembered;
    fill(table, lanesOf(b.constants.rate), lane, hours);
    return table;
}

void pace(void* memory, int lane, double hours) {
    Block& b = blockOf(memory);
    b.hours.set(lane, hours);
    if constexpr (single) {
        b.lagging = none;
        return;
    }
    const Real* weights = &tableFor(b, lane, hours).weights[0][0];
    Lane* lags = lanesOf(b.lags);
    for (std::size_t i = 0; i < rateCount * weightCount; ++i) lags[i].v[lane] = weights[i];
}

/// Works the lags of these parts out for all lanes side by side: where there are many lanes and few
/// steps, some lane's pace changes nearly every time.
void lagAll(Block& b, Parts parts) {
    const auto work = [&](const auto& rates, auto& lags) {
        const Lane* rate = reinterpret_cast<const Lane*>(&rates);
        Lag* to = reinterpret_cast<Lag*>(&lags);
        for (std::size_t i = 0; i < sizeof rates / sizeof(Lane); ++i)
            to[i] = lag(rate[i] * b.hours);
    };
    const Rates<Lane>& rate = b.constants.rate;
    work(rate.hormones, b.lags.hormones);
    work(rate.liver, b.lags.liver);
    work(rate.muscle, b.lags.muscle);
    work(rate.digestion, b.lags.digestion);
    work(rate.water, b.lags.water);
    work(rate.kidney, b.lags.kidney);
    work(rate.redCells, b.lags.redCells);
    if (has(parts, Part::enzymes)) work(rate.enzymes, b.lags.enzymes);
    if (has(parts, Part::bile)) work(rate.bile, b.lags.bile);
    if (has(parts, Part::protein)) work(rate.protein, b.lags.protein);
    if (has(parts, Part::sugar)) work(rate.sugar, b.lags.sugar);
    if (has(parts, Part::salts)) work(rate.salts, b.lags.salts);
    if (has(parts, Part::whiteCells)) work(rate.whiteCells, b.lags.whiteCells);
    if (has(parts, Part::platelets)) work(rate.platelets, b.lags.platelets);
    b.lagging = parts;
}

void step(void* memory, Parts parts, bool reading) {
    Block& b = blockOf(memory);
    if (single && b.lagging != parts) lagAll(b, parts);
    advance({b.constants, b.drives, b.lags, b.hours}, b.state, parts,
            reading ? &b.readings : nullptr);
}

void show(const void* memory, int lane, double* values) {
    const Block& b = *static_cast<const Block*>(memory);
    for (int i = 0; i < reading::count; ++i)
        values[i] = static_cast<double>(b.readings.value[i][lane]);
}

} // namespace
} // namespace cistern::body::CISTERN_UNIT

namespace cistern::body {
extern const Unit CISTERN_UNIT_NAME;
const Unit CISTERN_UNIT_NAME{CISTERN_LANES,       sizeof(CISTERN_UNIT::Block), CISTERN_UNIT::load,
                             CISTERN_UNIT::drive, CISTERN_UNIT::pace,          CISTERN_UNIT::step,
                             CISTERN_UNIT::show};
} // namespace cistern::body
