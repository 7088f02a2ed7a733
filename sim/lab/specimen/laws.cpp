#include "lab/specimen/laws.h"

namespace cistern::lab {

namespace {

using body::Section;
using body::Visit;

void each(NeedleLaws& l, const Visit& visit) {
    const Section needle("needle", visit);
    needle("hemolysis by a fast vein", "1", l.hemolysisFast, 0, 1);
    needle("hemolysis by a slow vein", "1", l.hemolysisSlow, 0, 1);
    needle("hemolysis of an attempt", "1", l.hemolysisOfAttempt, 0, 0.3);
    needle("size of hemolysis", "g/L", l.hemolysisSize, 0.01, 20);
    needle("spread of hemolysis", "1", l.hemolysisSpread, 0, 2);
    needle("clot by a slow vein", "1", l.clotSlow, 0, 1);
    needle("clot of an attempt", "1", l.clotOfAttempt, 0, 0.3);
    needle("size of clot", "1", l.clotSize, 0, 1);
}

void each(MixingLaws& l, const Visit& visit) {
    const Section mixing("mixing", visit);
    mixing("gentle turns", "1", l.gentle, 8, 40);
    mixing("broken by a turn", "1", l.broken, 0, 0.05);
    mixing("platelets caught", "1", l.platelets, 0, 1);
    mixing("white cells caught", "1", l.whiteCells, 0, 1);
    mixing("red cells caught", "1", l.redCells, 0, 0.5);
    mixing("platelets in clumps", "1", l.clumped, 0, 1);
    mixing("platelets in a clump", "1", l.clumpSize, 2, 1000);
    mixing("clot seen from", "1", l.clotVisibleFrom, 0, 1);
}

void each(CellLaws& l, const Visit& visit) {
    const Section cells("red cells", visit);
    cells("potassium", "mmol/L", l.potassium, 1, 150);
    cells("potassium where it is kept", "mmol/L", l.richPotassium, 20, 150);
    cells("LDH", "U/g", l.LDH, 0, 500);
    cells("AST", "U/g", l.AST, 0, 100);
    cells("phosphate", "mmol/g", l.phosphate, 0, 1);
}

void each(TubeLaws& l, const Visit& visit) {
    const Section tubes("tubes", visit);
    tubes("EDTA", "g/L", l.edta, 1, 3);
    tubes("molar mass of EDTA", "g/mol", l.edtaMass, 200, 600);
    tubes("particles of EDTA", "mmol/g", l.edtaOsmoles, 0, 20);
    tubes("particles of plasma", "mmol/L", l.osmolality, 250, 350);
    tubes("rigid share of a red cell", "1", l.rigid, 0, 1);
    tubes("swollen back in the counter", "1", l.swollenBack, 0, 1.5);
    tubes("EDTA read as protein", "1", l.refraction, 0, 3);
    tubes("carried over", "1", l.carriedOver, 0, 0.1);
    tubes("topped up", "1", l.toppedUp, 0, 0.9);
    tubes("half of calcium", "mmol/L", l.calciumHalf, 0.01, 50);
    tubes("half of magnesium", "mmol/L", l.magnesiumHalf, 0.01, 50);
    tubes("half of ALP", "mmol/L", l.alpHalf, 0.01, 50);
    tubes("steepness of chelation", "1", l.chelation, 0.5, 6);
    tubes("blood to citrate", "1", l.citrate, 1, 20);
    tubes("PT of dilution", "1", l.ptOfDilution, 0, 5);
    tubes("aPTT of dilution", "1", l.apttOfDilution, 0, 5);
    tubes("glucose shifted by fluoride", "1", l.fluorideShift, 0, 0.5);
    tubes("lag of fluoride", "h", l.fluorideLag, 0, 6);
}

void each(WaitLaws& l, const Visit& visit) {
    const Section wait("wait", visit);
    wait("warmth of cells", "1", l.q10, 1, 4);
    wait("glycolysis measured at", "Cel", l.glycolysisAt, 0, 40);
    wait("glucose of white cells", "1", l.ofWhiteCells, 0, 1);
    wait("leak of salts", "1/h", l.saltLeak, 0, 0.1);
    wait("leak of enzymes", "1/h", l.enzymeLeak, 0, 0.1);
    wait("bicarbonate of glucose", "1", l.acid, 0, 2);
    wait("ammonia formed in an hour", "umol/L", l.ammonia, 0, 200);
    wait("bilirubin in room light", "1/h", l.bilirubinRoom, 0, 1);
    wait("bilirubin in the sun", "1/h", l.bilirubinSun, 0, 2);
    wait("swelling of red cells", "1/h", l.swelling, 0, 0.1);
    wait("greatest swelling", "1", l.mostSwelling, 0, 1);
    wait("loss of platelets", "1/h", l.plateletLoss, 0, 0.5);
}

void each(SpinLaws& l, const Visit& visit) {
    const Section spin("spin", visit);
    spin("fibrin forms until", "h", l.fibrinUntil, 0.05, 0.5);
    spin("sample lost to fibrin", "1", l.fibrinLoss, 0, 0.9);
    spin("settling", "min", l.settling, 10, 100000);
    spin("loose cells", "1", l.loose, 0, 0.5);
    spin("haze of loose cells", "mmol/L", l.haze, 0, 100);
    spin("short sample from", "1", l.shortFrom, 0, 0.5);
}

void each(BloodLaws& l, const std::string& kind, const Visit& visit) {
    const Section blood(kind, visit);
    blood("glucose eaten in an hour", "1", l.glycolysis, 0, 0.5);
    blood("potassium of platelets", "mmol/L", l.plateletPotassium, 0, 0.05);
    blood("clumps by a fast vein", "1", l.clumpsFast, 0, 1);
    blood("clumps by a slow vein", "1", l.clumpsSlow, 0, 1);
    blood("clumps of no mixing", "1", l.clumpsUnmixed, 0, 1);
    blood("clumps of time", "1/h", l.clumpsOfTime, 0, 1);
}

} // namespace

void eachParameter(SpecimenLaws& laws, const Visit& visit) {
    each(laws.needle, visit);
    each(laws.mixing, visit);
    each(laws.cells, visit);
    each(laws.tubes, visit);
    each(laws.wait, visit);
    each(laws.spin, visit);
    each(laws.dog, "dog", visit);
    each(laws.cat, "cat", visit);
}

} // namespace cistern::lab
