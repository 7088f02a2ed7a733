#pragma once
#include "body/step/drives.h"

namespace cistern::body::CISTERN_UNIT {

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
};

/// Living cells: logistic regrowth against death. y' = y (pull - rate y) has the closed form
/// y0 e^A / (1 + rate y0 I) with A the integral of pull, `e` its exponential over the step and I
/// the integral of that, by Simpson's rule.
inline Track grown(Lane y, Lane rate, const Track& e, Lane hours) {
    const Track area = sum(0.0, e, hours);
    return {y, y * e.middle / (1.0 + rate * y * area.middle),
            y * e.end / (1.0 + rate * y * area.end)};
}

inline void liverCells(const Step& s, const State<Lane>& y, Liver& out) {
    const auto& c = s.c;
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
    out.dying = chase(y.dying, losing, s[Rate::cytosol]);
    for (int i = 0; i < 3; ++i) losing[i] = dead[i] * c.mitochondriaTime;
    out.dyingMitochondria = chase(y.dyingMitochondria, losing, s[Rate::mitochondria]);
}

/// How much bile flow is lost, and where: in the ducts (block, scar) or in the cells (after death,
/// drugs, fat).
inline void cholestasis(const Step& s, const State<Lane>& y, Liver& out) {
    const auto& c = s.c;
    Track blocked;
    for (int i = 0; i < 3; ++i)
        blocked[i] = most(s.drive[Drive::canalicularBlock],
                          1.0 - exponential(-c.necrosisCholestasis * out.dyingMitochondria[i]));
    out.necrosis = chase(y.necrosisCholestasis, blocked, s[Rate::necrosisCholestasis]);
    out.adaptation = chase(y.adaptation, out.ducts, s[Rate::adaptation]);
    Track ggt;
    for (int i = 0; i < 3; ++i) {
        const Lane scar = out.scar[i];
        out.ductal[i] = 1.0 - (1.0 - out.ducts[i]) * (1.0 - c.scarCholestasis * scar * scar);
        out.cholestasis[i] = 1.0 - (1.0 - out.ductal[i]) * (1.0 - out.necrosis[i]) *
                                       (1.0 - s.drive[Drive::liverFat]);
        ggt[i] = out.ductal[i] + c.ggtCanalicular * (out.cholestasis[i] - out.ductal[i]);
        out.shunted[i] =
            1.0 - (1.0 - s.drive[Drive::shunt]) * (1.0 - c.acquiredShunt * scar * scar * scar);
        out.reached[i] = 1.0 - c.acidPortal * out.shunted[i];
        out.work[i] = out.living[i] * out.reached[i];
        out.made[i] = out.work[i] * (1.0 + c.ureaLiver) / (out.work[i] + c.ureaLiver);
    }
    out.alpResponse = chase(y.alpResponse, out.cholestasis, s[Rate::response]);
    out.ggtResponse = chase(y.ggtResponse, ggt, s[Rate::response]);
}

inline Lane saturating(Lane dose, Lane half) {
    return dose / (dose + half);
}

inline Liver liver(const Step& s, const State<Lane>& y) {
    const auto& c = s.c;
    Liver out;
    out.ducts = chase(y.ducts, s.drive[Drive::bileBlock], s[Rate::ducts]);
    liverCells(s, y, out);
    cholestasis(s, y, out);
    out.steroidFast =
        chase(y.steroidFast, saturating(s.drive[Drive::steroidDose], c.steroidHalfDose),
              s[Rate::steroidFast]);
    out.steroidMiddle = chase(y.steroidMiddle, out.steroidFast, s[Rate::steroidMiddle]);
    out.steroidSlow = chase(y.steroidSlow, out.steroidMiddle, s[Rate::steroidSlow]);
    out.phenobarbital = chase(
        y.phenobarbital, saturating(s.drive[Drive::phenobarbitalDose], c.phenobarbitalHalfDose),
        s[Rate::phenobarbital]);
    Track called;
    for (int i = 0; i < 3; ++i) {
        const Lane calm = 1.0 - c.adaptationLeak * out.adaptation[i];
        const Lane canalicular = out.cholestasis[i] - out.ductal[i];
        called[i] = s.drive[Drive::liverLeak] +
                    (c.obstructionLeak * out.ducts[i] + c.canalicularLeak * canalicular) * calm +
                    c.steroidLeak * out.steroidFast[i] * out.steroidFast[i] +
                    c.phenobarbitalLeak * out.phenobarbital[i];
    }
    out.leak = chase(y.leak, called, s[Rate::leak]);
    return out;
}

} // namespace cistern::body::CISTERN_UNIT
