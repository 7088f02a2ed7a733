#pragma once
#include "body/step/kidney.h"

namespace cistern::body::CISTERN_UNIT {

// albumin' = made - broken - loss - bleeding x plasma part + healthy level x given
// albuminPlasma' = made - escape (healthy plasma x level x dilution)(1 + e daily) + returning
// (albumin -
//     albuminPlasma) - broken - loss - bleeding x plasma part + healthy level x given
// made = made0 eased(1 + demand (1 - level / healthy), reserve x liver work)(1 - i daily);
// loss = (kidney + gut loss) level / healthy. `given` is the volume that red cells, dying, leave to
// plasma of ordinary protein. Globulin alike, made more in lasting inflammation.
// crp' = rate (crp0 (1 + gain daily) - crp); saa and fibrinogen alike, fibrinogen by the liver.
// factor7' = rate (liver work - factor7) - bleeding factor7; the other factors alike, slower.
// PT = PT0 [1 + k (1 / factor7 - 1)], aPTT alike of the others.

/// Proteins of plasma over one step.
struct Protein {
    Track albumin, albuminPlasma, globulin, globulinPlasma;
    Track crp, saa, fibrinogen, factor7, factors;

    void end(ProteinState<Lane>& y) const {
        y = {albumin.end, albuminPlasma.end, globulin.end, globulinPlasma.end, crp.end,
             saa.end,     fibrinogen.end,    factor7.end,  factors.end};
    }
};

/// What a pool of protein loses and gains beside its making: folds of its exchange.
struct Leaving {
    Track whole;    ///< share of the plasma part lost for good [1/h]
    Track escaping; ///< share of the plasma part that escapes into tissue [1/h]
};

/// A whole pool and its plasma part: the whole is made, broken down and lost; the plasma part also
/// exchanges with tissue. Each is a lag whose target holds the other; two passes, for they bear on
/// one another weakly.
inline void exchanging(const Track& made, const Leaving& out, const Track& given, Lane returning,
                       Lane time, Lane exchangeTime, const Lag& lag, const Lag& exchange,
                       Track& whole, Track& plasma) {
    const Lane rest = 1.0 / exchangeTime - returning - 1.0 / time; // healthy escape
    for (int pass = 0; pass < 2; ++pass) {
        Track target, own;
        for (int i = 0; i < 3; ++i)
            target[i] = (made[i] + given[i] - out.whole[i] * plasma[i]) * time;
        whole = chase(whole.start, target, lag);
        for (int i = 0; i < 3; ++i) {
            target[i] = (made[i] + returning * whole[i] + given[i]) * exchangeTime;
            own[i] = (rest - out.escaping[i] - out.whole[i]) * exchangeTime;
        }
        plasma = chase(plasma.start, target, own, exchange);
    }
}

inline Protein protein(const Step& s, const ProteinState<Lane>& y, const Hormones& hormones,
                       const Liver& liver, const RedCells& blood) {
    const auto& c = s.c.protein;
    const auto& lag = s.lag.protein;
    const Lane bleeding = s.drive[Drive::bleeding];
    const Lane byKidney = s.drive[Drive::kidneyProteinLoss], byGut = s.drive[Drive::gutProteinLoss];
    Protein out;
    out.albumin = still(y.albumin);
    out.albuminPlasma = still(y.albuminPlasma);
    out.globulin = still(y.globulin);
    out.globulinPlasma = still(y.globulinPlasma);
    Track perPlasma, given, globulinGiven, made, globulinMade;
    Leaving albumin, globulin;
    const Lane lost = (byKidney + byGut) * c.perLevel;
    const Lane globulinLost =
        (c.globulinLostByKidney * byKidney + c.globulinLostByGut * byGut) * c.perLevel;
    for (int i = 0; i < 3; ++i) {
        perPlasma[i] = 1.0 / blood.plasma[i];
        given[i] = c.level * blood.given[i];
        globulinGiven[i] = c.globulinLevel * blood.given[i];
        // Tissue fluid dries out with plasma, so that water alone moves no protein.
        const Lane fromLevel = s.c.water.plasma / blood.undiluted[i];
        albumin.whole[i] = lost * perPlasma[i] + bleeding;
        albumin.escaping[i] =
            c.escape * fromLevel * (1.0 + c.escapeOfInflammation * hormones.daily[i]);
        globulin.whole[i] = globulinLost * perPlasma[i] + bleeding;
        globulin.escaping[i] = c.globulinEscape * fromLevel;
        globulinMade[i] = c.globulinMade * (1.0 + c.globulinOfInflammation * hormones.chronic[i]);
    }
    for (int pass = 0; pass < 2; ++pass) {
        for (int i = 0; i < 3; ++i) {
            const Lane level = out.albuminPlasma[i] * perPlasma[i];
            const Lane wanted = 1.0 + c.demandGain * (1.0 - level * c.perLevel);
            made[i] = c.made * eased(wanted, c.reserve * liver.work[i]) *
                      (1.0 - c.ofInflammation * hormones.daily[i]);
        }
        exchanging(made, albumin, given, c.returning, c.time, c.exchangeTime, lag.albumin,
                   lag.albuminExchange, out.albumin, out.albuminPlasma);
    }
    exchanging(globulinMade, globulin, globulinGiven, c.globulinReturning, c.globulinTime,
               c.globulinExchangeTime, lag.globulin, lag.globulinExchange, out.globulin,
               out.globulinPlasma);

    Track crp, saa, fibrinogen;
    for (int i = 0; i < 3; ++i) {
        crp[i] = c.crp * (1.0 + c.crpGain * hormones.daily[i]);
        saa[i] = c.saa * (1.0 + c.saaGain * hormones.daily[i]);
        fibrinogen[i] = c.fibrinogen * (1.0 + c.fibrinogenGain * hormones.daily[i]) * liver.made[i];
    }
    const auto bled = [&](Lane rate) { return still(-bleeding / rate); };
    const auto& rate = s.c.rate.protein;
    out.crp = chase(y.crp, crp, lag.crp);
    out.saa = chase(y.saa, saa, lag.saa);
    out.fibrinogen = chase(y.fibrinogen, fibrinogen, bled(rate.fibrinogen), lag.fibrinogen);
    out.factor7 = chase(y.factor7, liver.work, bled(rate.factor7), lag.factor7);
    out.factors = chase(y.factors, liver.work, bled(rate.factors), lag.factors);
    return out;
}

inline void read(const Step& s, const Protein& p, const RedCells& blood, Readings& out) {
    const auto& c = s.c.protein;
    const Lane per = 1.0 / blood.plasma.end, perFilling = 1.0 / blood.filling.end;
    // A plasma that has lost all its albumin may lie a rounding below nothing.
    const Lane albumin = most(p.albuminPlasma.end * per, 0.0),
               globulin = p.globulinPlasma.end * per;
    const Lane fibrinogen = p.fibrinogen.end * perFilling;
    out.level(Analyte::albumin) = albumin;
    out.level(Analyte::globulin) = globulin;
    out.level(Analyte::protein) = albumin + globulin;
    out.level(Analyte::TP) = albumin + globulin + fibrinogen;
    out.level(Analyte::CRP) = p.crp.end * perFilling;
    out.level(Analyte::SAA) = p.saa.end * perFilling;
    out.level(Analyte::fibrinogen) = fibrinogen;
    out.level(Analyte::PT) = c.pt * (1.0 + c.ptGain * (1.0 / p.factor7.end - 1.0));
    out.level(Analyte::aPTT) = c.aptt * (1.0 + c.apttGain * (1.0 / p.factors.end - 1.0));
}

} // namespace cistern::body::CISTERN_UNIT
