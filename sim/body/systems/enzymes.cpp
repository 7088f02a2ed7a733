#include "body/constants.h"
#include "body/species.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::body {

namespace {

constexpr double monthHours = 30.4375 * 24;

/// Pools that no liver cell feeds.
bool fromElsewhere(Pool which) {
    return which == Pool::CK || which == Pool::boneALP || which == Pool::cTnI ||
           which == Pool::lipase || which == Pool::amylase || which == Pool::TLI;
}

} // namespace

void eachParameter(EnzymePool& p, Pool which, const Visit& visit) {
    const Section pool("pools." + std::string(name(which)), visit);
    const bool micrograms = which == Pool::TLI || which == Pool::cTnI;
    const char* level = micrograms ? "ug/L" : "U/L";
    const char* content = micrograms ? "ug/g" : "U/g";
    pool("set point", level, p.setPoint, 0, 10000);
    pool("half-life", "h", p.halfLife, 0.2, 500);
    pool("volume", "L/kg", p.volume, 0.02, 0.5);
    switch (which) {
    case Pool::lipase:
    case Pool::amylase:
    case Pool::TLI:
        pool("pancreatic share", "1", p.pancreaticShare, 0, 1);
        pool("gain of acinar leak", "1", p.acinarGain, 0, 100);
        pool("renal share", "1", p.renalShare, 0, 1);
        break;
    case Pool::cTnI:
        pool("heart content", content, p.heartContent, 0.001, 1e6);
        break;
    case Pool::boneALP:
        break;
    case Pool::CK:
        pool("muscle content", content, p.muscleContent, 0, 10000);
        pool("heart content", content, p.heartContent, 0, 10000);
        break;
    default:
        pool("liver content", content, p.liverContent, 0, 10000);
        pool("mitochondrial share", "1", p.mitochondrialShare, 0, 1);
        pool("cytosol yield", "1", p.cytosolYield, 0, 1);
        pool("mitochondrial yield", "1", p.mitochondrialYield, 0, 1);
    }
    if (which == Pool::ALT || which == Pool::AST || which == Pool::LDH) {
        pool("muscle content", content, p.muscleContent, 0, 10000);
        pool("heart content", content, p.heartContent, 0, 10000);
    }
    if (which == Pool::AST || which == Pool::LDH)
        pool("red cell content", "U/10*12", p.redCellContent, 0, 10000);
    if (which == Pool::LDH) pool("share from elsewhere", "1", p.otherShare, 0, 0.95);
}

void eachParameter(BoneParameters& p, const Visit& visit) {
    const Section bone("bone", visit);
    bone("growth at one month", "1", p.growthAtOneMonth, 0, 100);
    bone("growth lag", "h", p.growthLag, 100, 50000);
    bone("turnover of thyroxine", "1", p.turnoverOfThyroxine, 0, 10);
}

/// Healthy shedding of liver cells is no free number: it follows from the level that is left when
/// muscle, heart, red cells, pancreas and the rest have had their part.
void setEnzymes(const Species& s, Constants<double>& c) {
    const double ln2 = std::log(2.0);
    auto& e = c.enzymes;
    for (Pool which : pools()) {
        const EnzymePool& p = s.pool[static_cast<std::size_t>(which)];
        EnzymeGain<double>& g = e.gain[static_cast<int>(which)];
        g = {};
        g.clearance = p.volume * ln2 / p.halfLife;
        const double held = 1 / g.clearance; // level held by an inflow of 1 U/kg/h
        const double organ = s.liver.mass * p.liverContent;
        g.muscle = s.muscle.recovery * s.muscle.mass * p.muscleContent * held;
        g.heart = s.heart.recovery * s.heart.mass * p.heartContent * held;
        g.redCells = p.redCellContent * held;
        g.acini = p.pancreaticShare * p.setPoint;
        g.acinarLeak = p.acinarGain * g.acini;
        g.other = p.otherShare * p.setPoint;
        const double left = p.setPoint - g.muscle * c.muscle.shedding -
                            g.heart * c.muscle.heartShedding - g.acini - g.other;
        if (fromElsewhere(which)) {
            // What the pancreas does not give comes from tissues that never change.
            if (p.pancreaticShare > 0 || p.renalShare > 0) g.other = p.setPoint - g.acini;
        } else {
            if (!(left >= 0)) // a form that the species lacks has a level of 0
                throw std::invalid_argument("the set point of " + std::string(name(which)) +
                                            " is below what healthy muscle alone sheds");
            g.living = left;
        }
        g.leaking = (1 - p.mitochondrialShare) * g.living;
        g.cytosol =
            (1 - p.mitochondrialShare) * p.cytosolYield * organ * held * c.rate.liver.cytosol;
        g.mitochondria =
            p.mitochondrialShare * p.mitochondrialYield * organ * held * c.rate.liver.mitochondria;
        g.renal = p.renalShare;
        g.inPlasma = std::min(1.0, c.water.plasma / p.volume);
        c.rate.enzymes.pool[static_cast<int>(which)] = ln2 / p.halfLife;
    }
    e.boneLevel = s.pool[static_cast<std::size_t>(Pool::boneALP)].setPoint;
    e.boneOfThyroxine = s.bone.turnoverOfThyroxine;
    e.alpContent = s.liver.alpContentGain;
    e.alpWash = s.liver.alpWashGain;
    e.alpSteroid = s.steroid.liverAlpGain;
    e.alpPhenobarbital = s.phenobarbital.alpWashGain;
    e.steroidAlpContent = s.steroid.steroidAlpGain;
    e.ggtContent = s.liver.ggtContentGain;
    e.ggtWash = s.liver.ggtWashGain;
    e.ggtSteroid = s.steroid.ggtGain;
    c.rate.enzymes.growth = 1 / s.bone.growthLag;
}

void restEnzymes(const Species& s, const Constants<double>&, double age, State<double>& y) {
    y.enzymes.growth =
        s.bone.growthAtOneMonth * std::exp(-(std::max(age, 0.0) - monthHours) / s.bone.growthLag);
    for (Pool which : pools())
        y.enzymes.level[static_cast<int>(which)] = s.pool[static_cast<std::size_t>(which)].setPoint;
    y.enzymes.level[static_cast<int>(Pool::boneALP)] *= 1 + y.enzymes.growth;
}

} // namespace cistern::body
