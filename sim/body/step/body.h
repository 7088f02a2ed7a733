#pragma once
#include "body/part.h"
#include "body/step/bile.h"
#include "body/step/enzymes.h"
#include "body/step/platelets.h"
#include "body/step/portal.h"
#include "body/step/salts.h"
#include "body/step/white_cells.h"

namespace cistern::body::CISTERN_UNIT {

/// One step of the whole body, in the order in which things flow: each system finds what reaches it
/// known at the start, middle and end of the step, so nothing is solved twice. The parts at the end
/// are read by nothing before them and move only when asked for. `out`, if any, gets the readings
/// at the end of the step.
inline void advance(const Step& s, State<Lane>& y, Parts parts, Readings* out) {
    const Hormones signals = hormones(s, y.hormones);
    const Liver livers = liver(s, y.liver, signals);
    const Muscle muscles = muscle(s, y.muscle);
    const Digestion gut = digestion(s, y.digestion);
    const Water waters = water(s, y.water, signals);
    const Nephrons filters = nephrons(s, y.kidney);
    const RedCells blood = redCells(s, y.redCells, signals, waters, filters);
    const Kidney kidneys = kidney(s, y.kidney, signals, livers, waters, filters, blood);
    signals.end(y.hormones);
    livers.end(y.liver);
    muscles.end(y.muscle);
    gut.end(y.digestion);
    waters.end(y.water);
    filters.end(y.kidney);
    blood.end(y.redCells);
    kidneys.end(y.kidney);
    if (out) {
        read(s, signals, *out);
        read(livers, *out);
        read(s, muscles, *out);
        read(s, gut, *out);
        read(s, blood, *out);
        read(s, kidneys, filters, waters, *out);
    }
    if (has(parts, Part::enzymes)) {
        const Sources from{livers, muscles, gut, blood, signals};
        const Enzymes e = enzymes(s, y.enzymes, from, kidneys);
        e.end(y.enzymes);
        if (out) read(s, e, from, *out);
    }
    if (has(parts, Part::bile)) {
        const Bilirubin b = bilirubin(s, y.bile, livers, blood);
        b.end(y.bile);
        if (out) read(b, waters.dilution.end, *out);
    }
    if (has(parts, Part::portal)) {
        const Portal p = portal(s, y.portal, livers);
        p.end(y.portal);
        if (out) read(p, *out);
    }
    Protein proteins{};
    Sugar sugars{};
    if (has(parts, Part::protein)) {
        proteins = protein(s, y.protein, signals, livers, blood);
        proteins.end(y.protein);
        if (out) {
            read(s, proteins, blood, *out);
            readUrineProtein(s, kidneys, signals, out->level(Analyte::albumin), *out);
        }
    }
    if (has(parts, Part::sugar)) {
        sugars = sugar(s, y.sugar, signals, livers, kidneys);
        sugars.end(y.sugar);
        if (out) {
            read(sugars, waters, gut, *out);
            out->level(Analyte::USG) =
                1.0 + urineGravity(s, kidneys, filters, signals, waters, sugars.glucose);
        }
    }
    if (has(parts, Part::salts)) { // asked for only with protein and sugar, see partsFor()
        const Salts k = salts(s, y.salts, signals, waters, filters, kidneys);
        k.end(y.salts);
        if (out) read(s, k, signals, waters, kidneys, proteins, sugars, blood, *out);
    }
    if (has(parts, Part::whiteCells)) {
        const WhiteCells w = whiteCells(s, y.whiteCells, signals, blood.contraction);
        w.end(y.whiteCells);
        if (out) read(s, w, blood.blood.end, *out);
    }
    if (has(parts, Part::platelets)) {
        const Platelets p = platelets(s, y.platelets, signals, blood.contraction, blood.lack);
        p.end(y.platelets);
        if (out) read(s, p, blood.blood.end, *out);
    }
}

} // namespace cistern::body::CISTERN_UNIT
