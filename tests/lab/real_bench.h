#pragma once
#include "hand_bench.h"
#include "scenario/assets.h"

/// The room as the assets have it, with its counter, and blood of healthy adults.
namespace real {

namespace base = cistern::base;
namespace body = cistern::body;
namespace lab = cistern::lab;
using body::Analyte;

inline const lab::Bench& bench() {
    static const cistern::scenario::Assets assets =
        cistern::scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    return assets.knowledge.bench;
}

/// The step to which an analyte is printed, in the model's unit.
inline double step(Analyte analyte) {
    const lab::Writing& writing = bench().method(analyte).conventional;
    return writing.step / writing.factor;
}

/// Middles of common intervals: Merck blood table, Schalm.
inline lab::Blood blood(body::Kind kind) {
    lab::Blood blood;
    blood.kind = kind;
    const bool dog = kind == body::Kind::dog;
    blood.red = dog ? 6.5 : 8;
    blood.volume = dog ? 69 : 46;
    blood.reticulocytes = dog ? 45 : 20;
    blood.white = dog ? std::array{7., 0.1, 2., 0.6, 0.4} : std::array{7., 0.1, 3.5, 0.3, 0.5};
    blood.platelets = dog ? 355 : 375;
    return blood;
}

/// The same as levels in an animal.
inline body::Snapshot truth(const lab::Blood& blood) {
    body::Snapshot truth = hand::healthyLevels();
    const auto set = [&](Analyte analyte, double value) { hand::level(truth, analyte) = value; };
    const double hct = blood.red * blood.volume / 1000;
    set(Analyte::RBC, blood.red);
    set(Analyte::MCV, blood.volume);
    set(Analyte::Hct, hct);
    set(Analyte::PCV, hct);
    set(Analyte::Hb, 333 * hct);
    set(Analyte::MCHC, 333);
    set(Analyte::reticulocytes, blood.reticulocytes);
    for (std::size_t i = 0; i < lab::whiteKindCount; ++i) set(lab::whiteKinds[i], blood.white[i]);
    set(Analyte::WBC, whiteCells(blood));
    set(Analyte::toxic, blood.toxic);
    set(Analyte::platelets, blood.platelets);
    set(Analyte::fibrinogen, 2);
    return truth;
}

inline body::Individual animal(body::Kind kind) {
    body::Individual one = hand::dog();
    one.who.kind = kind;
    return one;
}

} // namespace real
