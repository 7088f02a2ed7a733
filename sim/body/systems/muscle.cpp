#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

void eachParameter(MuscleParameters& p, const Visit& visit) {
    const Section muscle("muscle", visit);
    muscle("mass", "g/kg", p.mass, 50, 800);
    muscle("regrowth", "1/h", p.regrowth, 0, 0.1);
    muscle("lymph rate", "1/h", p.lymphRate, 0.001, 2);
    muscle("recovery", "1", p.recovery, 0.05, 1);
    muscle("direct share", "1", p.directShare, 0, 1);
    muscle("dying cytosol half-time", "h", p.dyingCytosol, 0.2, 100);
}

void eachParameter(HeartParameters& p, const Visit& visit) {
    const Section heart("heart", visit);
    heart("mass", "g/kg", p.mass, 1, 30);
    heart("dying cytosol half-time", "h", p.dyingCytosol, 0.2, 200);
    heart("recovery", "1", p.recovery, 0.001, 1);
}

/// Healthy shedding is no free number: the heart's follows from the level of troponin, which
/// nothing else holds; muscle's from the level of CK, less the heart's part.
void setMuscle(const Species& s, Constants<double>& c) {
    const double ln2 = std::log(2.0);
    const auto& m = s.muscle;
    const auto& h = s.heart;
    const auto pool = [&](Pool which) { return s.pool[static_cast<std::size_t>(which)]; };
    const auto inflow = [&](const EnzymePool& p) {
        return p.setPoint * p.volume * ln2 / p.halfLife;
    };
    const EnzymePool ck = pool(Pool::CK), troponin = pool(Pool::cTnI);
    auto& k = c.muscle;
    k.heartTime = h.dyingCytosol / ln2;
    k.heartRate = 1 / k.heartTime;
    k.heartShedding = inflow(troponin) / (h.recovery * h.mass * troponin.heartContent);
    k.regrowth = m.regrowth;
    k.cytosolTime = m.dyingCytosol / ln2;
    k.cytosolRate = 1 / k.cytosolTime;
    k.direct = m.directShare;
    k.lymphRate = m.lymphRate;
    k.lymphTime = 1 / m.lymphRate;
    k.shedding = (inflow(ck) - h.recovery * h.mass * ck.heartContent * k.heartShedding) /
                 (m.recovery * m.mass * ck.muscleContent);
    if (!(k.shedding > 0))
        throw std::invalid_argument("the set point of CK is below what the healthy heart sheds");
    c.rate.muscle = {k.cytosolRate, m.lymphRate, k.heartRate};
}

void restMuscle(const Species&, const Constants<double>& c, double, State<double>& y) {
    y.muscle = {};
    y.muscle.living = 1;
    y.muscle.heart = 1;
    y.muscle.fluid = (1 - c.muscle.direct) * c.muscle.shedding * c.muscle.lymphTime;
}

} // namespace cistern::body
