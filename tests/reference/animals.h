#pragma once
#include "base/file.h"
#include "body/course.h"
#include "reference/schedule.h"
#include "scenario/assets.h"

namespace reference {

/// Species and insults as the assets give them, loaded once.
inline const cistern::lesson::Knowledge& known() {
    static const cistern::scenario::Assets all =
        cistern::scenario::loadAssets(cistern::base::Disk(), CISTERN_SOURCE "/assets");
    return all.knowledge;
}

/// What random plans are made of: the assets' animals and insults.
inline Ground ground() {
    return {known().dog, known().cat, known().insults};
}

/// A median animal of eight years: growth is over to one part in a billion.
inline cistern::body::Individual adult(cistern::body::Kind kind) {
    cistern::body::Signalment who;
    who.kind = kind;
    who.age = 8 * 8766;
    return cistern::body::median(known().species(kind), who);
}

/// Hours 0, step, 2 step ... up to and with the last.
inline std::vector<double> every(double step, double last) {
    std::vector<double> hours;
    for (int i = 0; i * step <= last; ++i) hours.push_back(i * step);
    return hours;
}

inline cistern::body::Course course(const cistern::body::Individual& animal,
                                    std::vector<cistern::body::Window> windows,
                                    std::vector<double> looks) {
    return cistern::body::simulate({animal, std::move(windows), 0, std::move(looks), {}});
}

/// Death rate [1/h] that leaves 1 - share after so many hours.
inline double deathRate(double share, double hours) {
    return -std::log1p(-share) / hours;
}

inline constexpr int column(cistern::body::Analyte analyte) {
    return cistern::body::reading::analyte + static_cast<int>(analyte);
}
inline constexpr int poolColumn(cistern::body::Pool pool) {
    return cistern::body::reading::pool + static_cast<int>(pool);
}
inline constexpr int releaseColumn(cistern::body::Pool pool) {
    return cistern::body::reading::release + static_cast<int>(pool);
}

} // namespace reference
