#pragma once
#include "body/step/chain.h"
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// call' = (1 - all / healthy - call) / lag, all the sum of the platelets' stages
// answer = call + root(call^2 + 1) + k felt(call): 1 at rest, never 0 however many there are
// output = most eased(answer (1 + ki daily + kf iron lack) / most, 1) (1 - marrow block)
// megakaryocytes' = (output - megakaryocytes) / time, as fold of healthy
// platelets: made x megakaryocytes through 5 stages at pace 5 / life, each losing besides
// extra = platelet death + used fast^6 + bleeding x circulating share
// shown: all x circulating share (1 + kc (1 - positive(1 - contraction))) / blood volume

/// Platelets over one step: where they stand at its end.
struct Platelets {
    PlateletState<Lane> after;
    Lane all;  ///< those in the spleen too [10*9/kg]
    Lane lost; ///< [10*9/kg/h]
    Lane rise; ///< of the count by what the spleen gives, fold

    void end(PlateletState<Lane>& y) const { y = after; }
};

/// Width over which a lack of platelets comes to be felt, share. Assumed.
inline constexpr double fewPlatelets = 0.15;

namespace thrombopoiesis {

/// What the marrow is called for, given how many platelets there are.
inline Track called(const Step& s, const PlateletState<Lane>& y, const Track& all) {
    Track missing;
    for (int i = 0; i < 3; ++i) missing[i] = 1.0 - all[i] * s.c.platelets.perPlatelets;
    return chase(y.call, missing, s.lag.platelets.call);
}

/// How many there will be, as their balance at the start takes them: the call moves with half a
/// day's lag and reaches blood days later, so no more of this step needs to be known.
inline Track forecast(const Step& s, const PlateletState<Lane>& y, Lane extra) {
    const auto& c = s.c.platelets;
    const Lane last = y.platelets[plateletStages - 1], before = y.platelets[plateletStages - 2];
    Lane all = y.platelets[0];
    for (int k = 1; k < plateletStages; ++k) all += y.platelets[k];
    const Lane slope = c.made * y.megakaryocytes - c.ageing * last - extra * all;
    const Lane lastSlope = c.ageing * (before - last) - extra * last;
    const Lane bend = -(c.ageing * lastSlope + extra * slope) * s.hours;
    return {all, all + s.hours * (0.5 * slope + 0.125 * bend),
            all + s.hours * (slope + 0.5 * bend)};
}

/// Output that megakaryocytes begin on, fold of healthy.
inline Track output(const Step& s, const Track& call, const Hormones& h, const Track& ironLack) {
    const auto& c = s.c.platelets;
    Track out;
    for (int i = 0; i < 3; ++i) {
        const Lane answer =
            call[i] + root(call[i] * call[i] + 1.0) + c.callOfLack * felt(call[i], fewPlatelets);
        const Lane wanted =
            answer * (1.0 + c.callOfInflammation * h.daily[i] + c.callOfIronLack * ironLack[i]);
        out[i] = (1.0 - s.drive[Drive::marrowBlock]) * c.mostOutput *
                 eased(wanted * c.perMostOutput, 1.0);
    }
    return out;
}

} // namespace thrombopoiesis

/// `contraction` of the spleen, share of the greatest; `ironLack` as the marrow feels it, share.
inline Platelets platelets(const Step& s, const PlateletState<Lane>& y, const Hormones& h,
                           const Track& contraction, const Track& ironLack) {
    const auto& c = s.c.platelets;
    Platelets out;
    Track extra, loss;
    for (int i = 0; i < 3; ++i) {
        const Lane cube = h.fast[i] * h.fast[i] * h.fast[i];
        extra[i] = s.drive[Drive::plateletDeath] + c.usedInInflammation * cube * cube +
                   s.drive[Drive::bleeding] * c.circulating;
        loss[i] = c.ageing + extra[i];
    }
    const Track call = thrombopoiesis::called(s, y, thrombopoiesis::forecast(s, y, extra.start));
    Track flow = chase(y.megakaryocytes, thrombopoiesis::output(s, call, h, ironLack),
                       s.lag.platelets.megakaryocytes);
    out.after.megakaryocytes = flow.end;
    for (int i = 0; i < 3; ++i) flow[i] *= c.made;
    const Passage through = passage(loss, s.hours);
    Track all = still(0.0);
    for (int k = 0; k < plateletStages; ++k) {
        const Track now = through(y.platelets[k], flow);
        out.after.platelets[k] = now.end;
        for (int i = 0; i < 3; ++i) {
            flow[i] = c.ageing * now[i];
            all[i] += now[i];
        }
    }
    out.after.call = thrombopoiesis::called(s, y, all).end;
    out.all = all.end;
    out.lost = flow.end + extra.end * all.end;
    out.rise = 1.0 + c.ofContraction * (1.0 - positive(1.0 - contraction.end));
    return out;
}

/// `blood`: volume circulating at the end of the step [L/kg].
inline void read(const Step& s, const Platelets& p, Lane blood, Readings& out) {
    const auto& c = s.c.platelets;
    out.level(Analyte::platelets) = p.all * c.circulating * p.rise / blood;
    out.work(Tissue::platelets) = p.all * c.perPlatelets;
    out.leak(Tissue::platelets) = p.lost * c.life / p.all;
}

} // namespace cistern::body::CISTERN_UNIT
