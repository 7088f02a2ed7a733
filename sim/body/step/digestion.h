#pragma once
#include "body/step/drives.h"

namespace cistern::body::CISTERN_UNIT {

// acini' = -death x acini; acinarLeak' = (acinar leak drive - acinarLeak) / lag.
// gut' = (1 / (1 + loss / half) - gut) / lag: a lining that loses protein also takes up less.
// fat' = (fat of a meal x meal - fat) / lag.

/// Exocrine pancreas and gut over one step.
struct Digestion {
    Track acini, acinarLeak, gut, fat;

    void end(DigestionState<Lane>& y) const { y = {acini.end, acinarLeak.end, gut.end, fat.end}; }
};

inline Digestion digestion(const Step& s, const DigestionState<Lane>& y) {
    const auto& c = s.c.digestion;
    const auto& lag = s.lag.digestion;
    Digestion d;
    d.acini = decayed(y.acini, s.drive[Drive::acinarDeath], s.hours);
    d.acinarLeak = chase(y.acinarLeak, s.drive[Drive::acinarLeak], lag.acinarLeak);
    d.gut = chase(y.gut, 1.0 / (1.0 + s.drive[Drive::gutProteinLoss] * c.perHalfWorkLoss), lag.gut);
    d.fat = chase(y.fat, c.fatOfMeal * s.drive[Drive::meal], lag.fat);
    return d;
}

inline void read(const Step& s, const Digestion& d, Readings& out) {
    out.work(Tissue::pancreas) = d.acini.end;
    out.leak(Tissue::pancreas) = 1.0 + d.acinarLeak.end;
    out.work(Tissue::gut) = d.gut.end;
    out.leak(Tissue::gut) = 1.0 + s.drive[Drive::gutProteinLoss] * s.c.digestion.perHealthyLoss;
}

} // namespace cistern::body::CISTERN_UNIT
