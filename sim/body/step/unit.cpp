// The stepping code for one vector unit: built several times, see sim/CMakeLists.txt.
#include "body/unit.h"

#include "body/step/body.h"

namespace cistern::body::CISTERN_UNIT {
namespace {

/// Tables of lags are kept for so many different steps: the halvings of an hour that follow a
/// change.
constexpr int remembered = 8;
constexpr std::size_t rateCount = sizeof(Rates<Lane>) / sizeof(Lane);
static_assert(sizeof(Rates<Lag>) == rateCount * sizeof(Lag));

struct Table {
    double hours;
    Rates<Lag> lags;
};

struct Block {
    Constants<Lane> constants;
    State<Lane> state;
    Drives drives;
    Lane hours;
    Rates<Lag> mixed; ///< of lanes that step differently
    Lane mixedHours;  ///< the step of each lane that `mixed` was filled for
    Readings readings;
    int tables, oldest;
    Table table[remembered];
};

/// Copies one lane of an array of lanes from another.
void copyLane(Lane* to, const Lane* from, int count, int lane) {
    for (int i = 0; i < count; ++i) to[i].set(lane, from[i][lane]);
}

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
    b.mixedHours.set(lane, -1);
    b.tables = 0;
    b.oldest = 0;
}

void drive(void* memory, int lane, const double* values) {
    Block& b = blockOf(memory);
    for (int i = 0; i < driveCount; ++i) b.drives.value[i].set(lane, values[i]);
}

const Rates<Lag>& lagsFor(Block& b, double hours) {
    for (int i = 0; i < b.tables; ++i)
        if (b.table[i].hours == hours) return b.table[i].lags;
    const int slot = b.tables < remembered ? b.tables++ : b.oldest;
    if (b.tables == remembered) b.oldest = (b.oldest + 1) % remembered;
    b.table[slot].hours = hours;
    const Lane* rates = lanesOf(b.constants.rate);
    Lag* lags = reinterpret_cast<Lag*>(&b.table[slot].lags);
    for (std::size_t i = 0; i < rateCount; ++i) lags[i] = lag(rates[i] * hours);
    return b.table[slot].lags;
}

/// The lags of every lane's step: a table as it is where all lanes step alike, else their columns.
const Rates<Lag>& lagsNow(Block& b) {
    bool alike = true;
    for (int lane = 1; lane < CISTERN_LANES; ++lane) alike = alike && b.hours[lane] == b.hours[0];
    if (alike) return lagsFor(b, b.hours[0]);
    for (int lane = 0; lane < CISTERN_LANES; ++lane) {
        const double hours = b.hours[lane];
        if (b.mixedHours[lane] == hours) continue;
        copyLane(lanesOf(b.mixed), reinterpret_cast<const Lane*>(&lagsFor(b, hours)),
                 sizeof(Rates<Lag>) / sizeof(Lane), lane);
        b.mixedHours.set(lane, hours);
    }
    return b.mixed;
}

void pace(void* memory, int lane, double hours) {
    blockOf(memory).hours.set(lane, hours);
}

void step(void* memory, Parts parts, bool reading) {
    Block& b = blockOf(memory);
    advance({b.constants, b.drives, lagsNow(b), b.hours}, b.state, parts,
            reading ? &b.readings : nullptr);
}

void show(const void* memory, int lane, double* values) {
    const Block& b = *static_cast<const Block*>(memory);
    for (int i = 0; i < reading::count; ++i) values[i] = b.readings.value[i][lane];
}

} // namespace
} // namespace cistern::body::CISTERN_UNIT

namespace cistern::body {
extern const Unit CISTERN_UNIT_NAME;
const Unit CISTERN_UNIT_NAME{CISTERN_LANES,       sizeof(CISTERN_UNIT::Block), CISTERN_UNIT::load,
                             CISTERN_UNIT::drive, CISTERN_UNIT::pace,          CISTERN_UNIT::step,
                             CISTERN_UNIT::show};
} // namespace cistern::body
