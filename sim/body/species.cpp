#include "body/species.h"

namespace cistern::body {

void eachParameter(Species& s, const Visit& visit) {
    eachParameter(s.hormones, visit);
    eachParameter(s.liver, visit);
    eachParameter(s.steroid, visit);
    eachParameter(s.phenobarbital, visit);
    eachParameter(s.muscle, visit);
    eachParameter(s.heart, visit);
    eachParameter(s.digestion, visit);
    eachParameter(s.bone, visit);
    for (Pool which : pools()) eachParameter(s.pool[static_cast<std::size_t>(which)], which, visit);
    eachParameter(s.bilirubin, visit);
    eachParameter(s.bileAcids, visit);
    eachParameter(s.ammonia, visit);
    eachParameter(s.protein, visit);
    eachParameter(s.acutePhase, visit);
    eachParameter(s.clotting, visit);
    eachParameter(s.kidney, visit);
    eachParameter(s.water, visit);
    eachParameter(s.salts, visit);
    eachParameter(s.sugar, visit);
    eachParameter(s.redCells, visit);
    eachParameter(s.whiteCells, visit);
    eachParameter(s.platelets, visit);
    for (Analyte analyte : analytes()) {
        const Section variation("variation." + std::string(name(analyte)), visit);
        const auto i = static_cast<std::size_t>(analyte);
        variation("between", "1", s.between[i], 0, 3);
        variation("within", "1", s.within[i], 0, 3);
    }
    const Section variation("variation", visit);
    variation("half-lives", "1", s.halfLifeSpread, 0, 1);
}

} // namespace cistern::body
