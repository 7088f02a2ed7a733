#include "lab/film/laws.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

using body::Section;
using body::Visit;

void each(RedFilmLaws& l, const Visit& visit) {
    const Section red("red cells", visit);
    red("Howell-Jolly bodies of young cells", "1", l.howellJollyOfYoung, 0, 0.5);
    red("pale from", "1", l.paleFrom, 0, 0.5);
    red("all pale", "1", l.paleAll, 0.05, 0.9);
    red("schistocytes of pale cells", "1", l.schistocytesOfPale, 0, 0.3);
    red("keratocytes of pale cells", "1", l.keratocytesOfPale, 0, 0.3);
    red("acanthocytes of a lost liver", "1", l.acanthocytesOfLiver, 0, 0.5);
    red("target cells of cholesterol", "1", l.targetsOfCholesterol, 0, 0.5);
    red("target cells of young cells", "1", l.targetsOfYoung, 0, 1);
    red("target cells at most", "1", l.mostTargets, 0, 0.5);
    red("spread of young cells", "1", l.spreadOfYoung, 0, 1);
    red("spread of pale cells", "1", l.spreadOfPale, 0, 1);
    red("rouleaux of globulin", "1", l.rouleauxOfProtein, 0, 2);
    red("globulin of fibrinogen", "1", l.fibrinogenOfGlobulin, 1, 20);
    red("rouleaux at most", "1", l.mostRouleaux, 0, 0.95);
    red("crenated by EDTA", "1", l.crenatedOfEdta, 0, 1);
    red("crenated by standing", "1/h", l.crenatedOfHour, 0, 1);
    red("standing that crenates none", "h", l.crenatedAfter, 0, 48);
    red("crenated by urea", "L/mmol", l.crenatedOfUrea, 0, 0.1);
    red("urea that crenates none", "mmol/L", l.crenatedFromUrea, 0, 200);
    red("signs grow in", "h", l.signsGrow, 1, 500);
    red("signs fade by half in", "h", l.signsFadeHalf, 1, 2000);
}

void each(WhiteFilmLaws& l, const Visit& visit) {
    const Section white("white cells", visit);
    white("metamyelocytes from bands", "1", l.leftShiftFrom, 0, 1);
    white("most metamyelocytes at bands", "1", l.leftShiftAll, 0.1, 1);
    white("metamyelocytes", "1", l.metamyelocytes, 0, 0.6);
    white("grade of first toxic change", "1", l.toxicLeast, 0, 1);
    white("share of gravest toxic change", "1", l.toxicFull, 0.05, 1);
    white("reactive lymphocytes", "1", l.reactive, 0, 0.3);
    white("reactive of acute phase", "1", l.reactiveOfInflammation, 0, 0.5);
    white("reactive of youth", "1", l.reactiveOfYouth, 0, 0.5);
    white("youth", "h", l.youth, 0, 20000);
    white("reactive at most", "1", l.mostReactive, 0, 1);
    white("basophils of eosinophils", "1", l.basophils, 0, 0.5);
    white("hypersegmented", "1", l.hypersegmented, 0, 0.3);
    white("hypersegmented of long stay", "1", l.hypersegmentedOfStay, 0, 0.8);
    white("hypersegmented by standing", "1/h", l.hypersegmentedOfHour, 0, 0.2);
    white("hypersegmented at most", "1", l.mostHypersegmented, 0, 1);
    white("drumstick", "1", l.drumstick, 0, 0.3);
    white("doubtful", "1", l.doubtful, 0, 0.5);
    white("smudges", "1", l.smudges, 0, 0.3);
    white("smudges by standing", "1/h", l.smudgesOfHour, 0, 0.2);
    white("smudges of clot", "1", l.smudgesOfClot, 0, 0.8);
    white("standing that ages none", "h", l.agedAfter, 0, 24);
    white("ageing time", "h", l.agedTime, 0.5, 100);
}

void each(SlideLaws& l, const Visit& visit) {
    const Section slide("spreading and staining", visit);
    slide("thickness", "1", l.thickness, 0, 0.5);
    slide("least drag", "1", l.dragLeast, 0, 1);
    slide("most drag", "1", l.dragMost, 0, 1);
    slide("tone", "1", l.tone, 0, 0.2);
    slide("chance of a wrong tone", "1", l.toneChance, 0, 1);
    slide("red of too blue", "1", l.blueRed, 0.5, 1.5);
    slide("blue of too blue", "1", l.blueBlue, 0.3, 2);
    slide("nuclear of too blue", "1", l.blueNuclear, 0.5, 1.3);
    slide("red of too pink", "1", l.pinkRed, 0.5, 1.5);
    slide("blue of too pink", "1", l.pinkBlue, 0.3, 2);
    slide("nuclear of too pink", "1", l.pinkNuclear, 0.5, 1.3);
    slide("chance of holes by water", "1", l.waterChance, 0, 1);
    slide("least holes", "1", l.waterLeast, 0, 1);
    slide("most holes", "1", l.waterMost, 0, 1);
    slide("chance of precipitate", "1", l.precipitateChance, 0, 1);
    slide("precipitate", "1/mm2", l.precipitate, 0, 2000);
    slide("spread of precipitate", "1", l.precipitateSpread, 0, 2);
}

void each(KindFilmLaws& l, const Section& visit) {
    visit("Howell-Jolly bodies", "1", l.howellJolly, 0, 0.05);
    visit("Heinz bodies", "1", l.heinz, 0, 0.1);
    visit("spread of Heinz bodies", "1", l.heinzSpread, 0, 1);
    visit("rouleaux", "1", l.rouleaux, 0, 0.5);
    visit("large platelets", "1", l.largePlatelets, 0, 0.5);
    visit("large platelets of lack", "1", l.largeOfLack, 0, 0.6);
}

} // namespace

void eachParameter(FilmLaws& laws, const Visit& visit) {
    each(laws.red, visit);
    each(laws.white, visit);
    each(laws.slide, visit);
    each(laws.dog, {"dog", visit});
    each(laws.cat, {"cat", visit});
}

double signsShown(const RedFilmLaws& laws, double from, double to, double hour) {
    if (!(hour > from)) return 0;
    const double grown = -std::expm1(-(std::min(hour, to) - from) / laws.signsGrow);
    return grown * std::exp2(-std::max(0., hour - to) / laws.signsFadeHalf);
}

} // namespace cistern::lab
