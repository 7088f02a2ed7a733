#pragma once
#include "body/reading.h"
#include "body/step/bile.h"
#include "body/step/enzymes.h"
#include "body/step/kidney.h"
#include "body/step/plasma.h"

namespace cistern::body::CISTERN_UNIT {

/// Readings of several animals at the end of a step.
struct Readings {
    Lane value[reading::count];
    Lane& operator[](int which) { return value[which]; }
};

/// One step of the whole body, in the order in which things flow: each part finds what reaches it
/// known at the start, middle and end of the step, so no part is solved twice.
class Body {
public:
    Body(const Step& s, const State<Lane>& y)
        : s_(s),
          liver_(liver(s, y)),
          muscle_(muscle(s, y)),
          enzymes_(enzymes(s, y, liver_, muscle_)),
          bilirubin_(bilirubin(s, y, liver_)),
          acids_(bileAcids(s, y, liver_)),
          water_(water(s, y)),
          kidney_(kidney(s, y, liver_, water_)),
          protein_(protein(s, y, liver_, water_)),
          sugar_(sugar(s, y, liver_, kidney_)) {}

    State<Lane> end() const;
    Readings readings() const;

private:
    Step s_;
    Liver liver_;
    Muscle muscle_;
    Enzymes enzymes_;
    Bilirubin bilirubin_;
    BileAcids acids_;
    Water water_;
    Kidney kidney_;
    Protein protein_;
    Sugar sugar_;
};

inline State<Lane> Body::end() const {
    State<Lane> y;
    y.living = liver_.living.end;
    y.scar = liver_.scar.end;
    y.dying = liver_.dying.end;
    y.dyingMitochondria = liver_.dyingMitochondria.end;
    y.leak = liver_.leak.end;
    y.ducts = liver_.ducts.end;
    y.necrosisCholestasis = liver_.necrosis.end;
    y.adaptation = liver_.adaptation.end;
    y.alpResponse = liver_.alpResponse.end;
    y.ggtResponse = liver_.ggtResponse.end;
    y.steroidFast = liver_.steroidFast.end;
    y.steroidMiddle = liver_.steroidMiddle.end;
    y.steroidSlow = liver_.steroidSlow.end;
    y.phenobarbital = liver_.phenobarbital.end;
    y.muscle = muscle_.living.end;
    y.muscleDying = muscle_.dying.end;
    y.muscleFluid = muscle_.fluid.end;
    y.growth = enzymes_.growth.end;
    for (int pool = 0; pool < poolCount; ++pool) y.enzyme[pool] = enzymes_.level[pool].end;
    y.bilirubin = bilirubin_.pool.end;
    y.delta = bilirubin_.delta.end;
    y.heme = bilirubin_.heme.end;
    y.store = acids_.store;
    y.gut = acids_.gut;
    y.acids = acids_.plasma;
    y.water = water_.total.end;
    y.salt = water_.salt.end;
    y.plasma = water_.plasma.end;
    y.nephrons = kidney_.nephrons.end;
    y.stunned = kidney_.stunned.end;
    y.hyperfiltration = kidney_.hyperfiltration.end;
    y.outflow = kidney_.outflow.end;
    y.creatinine = kidney_.creatinine.end;
    y.urea = kidney_.urea.end;
    y.intake = kidney_.intake.end;
    y.muscleMass = kidney_.muscleMass.end;
    y.cortisol = kidney_.cortisol.end;
    y.albumin = protein_.whole.end;
    y.albuminPlasma = protein_.inPlasma.end;
    y.glucose = sugar_.glucose;
    y.cholesterol = sugar_.cholesterol.end;
    return y;
}

inline Readings Body::readings() const {
    const auto& c = s_.c;
    Readings out;
    const auto work = [&](Tissue t) -> Lane& { return out[reading::work + static_cast<int>(t)]; };
    const auto leak = [&](Tissue t) -> Lane& { return out[reading::leak + static_cast<int>(t)]; };
    const auto level = [&](Analyte a) -> Lane& {
        return out[reading::analyte + static_cast<int>(a)];
    };
    const auto pool = [&](Pool p) { return enzymes_.level[static_cast<int>(p)].end; };
    const auto held = [&](Pool p) { return enzymes_.held[static_cast<int>(p)].end; };
    const auto gain = [&](Pool p) -> const EnzymeGain<Lane>& {
        return c.gain[static_cast<int>(p)];
    };

    // Work: living share times the organ's own working factor. Leak: release per living gram over
    // healthy, counted on the enzyme that speaks for the organ (ALT, GGT, CK, bone ALP); the kidney
    // has none in blood.
    work(Tissue::liver) = liver_.work.end;
    work(Tissue::bileDucts) = 1.0 - liver_.ductal.end;
    work(Tissue::skeletalMuscle) = muscle_.living.end;
    work(Tissue::bone) = 1.0;
    work(Tissue::kidney) = kidney_.nephrons.end * (1.0 - kidney_.stunned.end) *
                           least(kidney_.perfusion.end, 1.0) * kidney_.outflow.end;
    const Lane fromLiver = held(Pool::ALT) - gain(Pool::ALT).muscle * muscle_.flow.end;
    leak(Tissue::liver) = fromLiver / (liver_.living.end * gain(Pool::ALT).living);
    leak(Tissue::bileDucts) = held(Pool::GGT) / (liver_.living.end * gain(Pool::GGT).living);
    leak(Tissue::skeletalMuscle) = muscle_.shed.end / (muscle_.living.end * c.muscleShedding);
    leak(Tissue::bone) = 1.0 + enzymes_.growth.end;
    leak(Tissue::kidney) = 1.0;

    level(Analyte::ALT) = pool(Pool::ALT);
    level(Analyte::AST) = pool(Pool::AST);
    level(Analyte::ALP) = pool(Pool::liverALP) + pool(Pool::steroidALP) + pool(Pool::boneALP);
    level(Analyte::GGT) = pool(Pool::GGT);
    level(Analyte::CK) = pool(Pool::CK);
    level(Analyte::bilirubin) = bilirubin_.pool.end + bilirubin_.delta.end;
    level(Analyte::bileAcids) = acids_.plasma;
    const Lane albumin = protein_.inPlasma.end / water_.plasma.end;
    const Lane globulin = c.globulinAmount / water_.plasma.end;
    level(Analyte::albumin) = albumin;
    level(Analyte::globulin) = globulin;
    level(Analyte::protein) = albumin + globulin;
    level(Analyte::glucose) = sugar_.glucose;
    level(Analyte::urea) = kidney_.urea.end / water_.total.end;
    level(Analyte::creatinine) = kidney_.creatinine.end / water_.total.end;
    level(Analyte::cholesterol) = sugar_.cholesterol.end;
    level(Analyte::USG) = 1.0 + urineGravity(s_, kidney_, water_.total.end, sugar_.glucose);

    out[reading::gfr] = kidney_.filtration.end * (1000.0 / 60);
    out[reading::hydration] = water_.total.end / c.water;
    out[reading::plasmaVolume] = water_.plasma.end * 1000.0;
    out[reading::conjugated] = bilirubin_.conjugated.end + bilirubin_.delta.end;
    out[reading::delta] = bilirubin_.delta.end;
    for (int p = 0; p < poolCount; ++p) {
        out[reading::pool + p] = enzymes_.level[p].end;
        out[reading::release + p] = enzymes_.held[p].end * c.clearance[p];
    }
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
