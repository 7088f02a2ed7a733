#pragma once
#include "body/step/hormones.h"

namespace cistern::body::CISTERN_UNIT {

// Cells. living' = g living (K - living - scar) - k living, K = 1 - portal growth x shunt; k is the
// death rate, with a trickle behind a blocked duct. scar' = (scarring part of k) living.
// dying' = k living - dying / lag, for cytosol and for mitochondria.
// Bile flow. ducts' = (block - ducts) / lag. ductal = join(ducts, scar cholestasis x scar^2).
// necrosis' = (max(canalicular block, 1 - exp(-k dyingMitochondria)) - necrosis) / lag.
// cholestasis = join(ductal, necrosis, fat). adaptation' = (ducts - adaptation) / lag.
// Blood flow. shunted = join(shunt, acquired x scar^3); reached = 1 - portal share x shunted.
// work = living x reached; made = work (1 + r) / (work + r).
// Leak. leak' = (called - leak) / lag, called by insults, obstruction, cholestasis, drugs,
// thyroxine.

/// The liver over one step, as the parts further down the flow see it.
struct Liver {
    Track living, scar, dying, dyingMitochondria;
    Track ducts;       ///< share of duct flow lost to a block: fills with a lag
    Track necrosis;    ///< share of flow lost by cells after death around them
    Track adaptation;  ///< to lasting obstruction, 0..1
    Track ductal;      ///< share of flow lost in the ducts: block and scar
    Track cholestasis; ///< share of flow lost in all
    Track shunted;     ///< share of portal flow that by-passes the cells
    Track reached;     ///< flow past the cells over healthy
    Track work;        ///< share of healthy function: living cells times the flow that reaches them
    Track made; ///< share of healthy output of what it makes with some to spare (urea, cholesterol)
    Track steroidFast, steroidMiddle, steroidSlow, phenobarbital;
    Track leak, alpResponse, ggtResponse;

    void end(LiverState<Lane>& y) const;
};

/// Living cells: logistic regrowth against death. y' = y (pull - rate y) has the closed form
/// y0 e^A / (1 + rate y0 I) with A the integral of pull, `e` its exponential over the step and I
/// the integral of that, by Simpson's rule.
inline Track grown(Lane y, Lane rate, const Track& e, Lane hours) {
    const Track area = sum(0.0, e, hours);
    return {y, y * e.middle / (1.0 + rate * y * area.middle),
            y * e.end / (1.0 + rate * y * area.end)};
}

inline void liverCells(const Step& s, const LiverState<Lane>& y, Liver& out) {
    const auto& c = s.c.liver;
    const Lane capacity = 1.0 - c.portalGrowth * s.drive[Drive::shunt];
    Track death, scarring, pull;
    for (int i = 0; i < 3; ++i) {
        death[i] = s.drive[Drive::liverDeath] + c.obstructionDeath * out.ducts[i];
        scarring[i] = s.drive[Drive::liverScar] + c.obstructionDeath * out.ducts[i];
        // Scar ahead of the step, at its present pace: it slows regrowth a little.
        const Lane ahead = y.scar + scarring.start * y.living * s.hours * (0.5 * i);
        pull[i] = c.regrowth * (capacity - ahead) - death[i];
    }
    const Track integral = sum(0.0, pull, s.hours);
    out.living = grown(y.living, c.regrowth,
                       {1.0, exponential(integral.middle), exponential(integral.end)}, s.hours);
    Track scarred, dead;
    for (int i = 0; i < 3; ++i) {
        scarred[i] = scarring[i] * out.living[i];
        dead[i] = death[i] * out.living[i];
    }
    out.scar = sum(y.scar, scarred, s.hours);
    Track losing;
    for (int i = 0; i < 3; ++i) losing[i] = dead[i] * c.cytosolTime;
    out.dying = chase(y.dying, losing, s.lag.liver.cytosol);
    for (int i = 0; i < 3; ++i) losing[i] = dead[i] * c.mitochondriaTime;
    out.dyingMitochondria = chase(y.dyingMitochondria, losing, s.lag.liver.mitochondria);
}

/// How much bile flow is lost, and where: in the ducts (block, scar) or in the cells (after death,
/// drugs, fat).
inline void cholestasis(const Step& s, const LiverState<Lane>& y, Liver& out) {
    const auto& c = s.c.liver;
    Track blocked;
    for (int i = 0; i < 3; ++i)
        blocked[i] = most(s.drive[Drive::canalicularBlock],
                          1.0 - exponential(-c.necrosisCholestasis * out.dyingMitochondria[i]));
    out.necrosis = chase(y.necrosisCholestasis, blocked, s.lag.liver.necrosisCholestasis);
    out.adaptation = chase(y.adaptation, out.ducts, s.lag.liver.adaptation);
    Track ggt;
    for (int i = 0; i < 3; ++i) {
        const Lane scar = out.scar[i];
        out.ductal[i] = 1.0 - (1.0 - out.ducts[i]) * (1.0 - c.scarCholestasis * scar * scar);
        out.cholestasis[i] = 1.0 - (1.0 - out.ductal[i]) * (1.0 - out.necrosis[i]) *
                                       (1.0 - s.drive[Drive::liverFat]);
        ggt[i] = out.ductal[i] + c.ggtCanalicular * (out.cholestasis[i] - out.ductal[i]);
        out.shunted[i] =
            1.0 - (1.0 - s.drive[Drive::shunt]) * (1.0 - c.acquiredShunt * scar * scar * scar);
        out.reached[i] = 1.0 - c.portalShare * out.shunted[i];
        out.work[i] = out.living[i] * out.reached[i];
        out.made[i] = out.work[i] * (1.0 + c.reserve) / (out.work[i] + c.reserve);
    }
    out.alpResponse = chase(y.alpResponse, out.cholestasis, s.lag.liver.response);
    out.ggtResponse = chase(y.ggtResponse, ggt, s.lag.liver.response);
}

inline Lane saturating(Lane dose, Lane half) {
    return dose / (dose + half);
}

inline Liver liver(const Step& s, const LiverState<Lane>& y, const Hormones& hormones) {
    const auto& c = s.c.liver;
    Liver out;
    out.ducts = chase(y.ducts, s.drive[Drive::bileBlock], s.lag.liver.ducts);
    liverCells(s, y, out);
    cholestasis(s, y, out);
    out.steroidFast = chase(
        y.steroidFast,
        saturating(s.drive[Drive::steroidDose] + s.drive[Drive::ownSteroid], c.steroidHalfDose),
        s.lag.liver.steroidFast);
    out.steroidMiddle = chase(y.steroidMiddle, out.steroidFast, s.lag.liver.steroidMiddle);
    out.steroidSlow = chase(y.steroidSlow, out.steroidMiddle, s.lag.liver.steroidSlow);
    out.phenobarbital = chase(
        y.phenobarbital, saturating(s.drive[Drive::phenobarbitalDose], c.phenobarbitalHalfDose),
        s.lag.liver.phenobarbital);
    Track called;
    for (int i = 0; i < 3; ++i) {
        const Lane calm = 1.0 - c.adaptationLeak * out.adaptation[i];
        const Lane canalicular = out.cholestasis[i] - out.ductal[i];
        called[i] = s.drive[Drive::liverLeak] +
                    (c.obstructionLeak * out.ducts[i] + c.canalicularLeak * canalicular) * calm +
                    c.steroidLeak * out.steroidFast[i] * out.steroidFast[i] +
                    c.steroidSlowLeak * out.steroidSlow[i] * out.steroidSlow[i] +
                    c.phenobarbitalLeak * out.phenobarbital[i] +
                    c.thyroidLeak * onset(hormones.effect[i] - 1.0, 0.1);
    }
    out.leak = chase(y.leak, called, s.lag.liver.leak);
    return out;
}

inline void read(const Liver& liver, Readings& out) {
    out.work(Tissue::liver) = liver.work.end;
    out.work(Tissue::bileDucts) = 1.0 - liver.ductal.end;
    out.work(Tissue::bone) = 1.0;
}

inline void Liver::end(LiverState<Lane>& y) const {
    y = {living.end,      scar.end,         dying.end,       dyingMitochondria.end,
         leak.end,        ducts.end,        necrosis.end,    adaptation.end,
         alpResponse.end, ggtResponse.end,  steroidFast.end, steroidMiddle.end,
         steroidSlow.end, phenobarbital.end};
}

} // namespace cistern::body::CISTERN_UNIT
