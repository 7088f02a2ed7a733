#include "lab/film/making.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

using body::RedSign;

double share(double value) {
    return std::clamp(value, 0., 1.);
}

/// 0 up to `from`, 1 from `to` on, smooth between.
double rising(double x, double from, double to) {
    if (!(to > from)) return x >= to ? 1 : 0;
    const double t = share((x - from) / (to - from));
    return t * t * (3 - 2 * t);
}

/// Of two causes that know nothing of one another.
double either(double one, double other) {
    return 1 - (1 - one) * (1 - other);
}

/// Share that is reached at a pace per unit of the cause.
double saturating(double amount) {
    return -std::expm1(-std::max(0., amount));
}

/// Reticulocytes are the red cells that stain blue: in the cat the aggregate ones.
double youngOf(const Blood& blood) {
    constexpr double perMillion = 1000; // 10*9 in 10*12
    return blood.red > 0 ? share(blood.reticulocytes / perMillion / blood.red) : 0;
}

double crenated(const RedFilmLaws& laws, const FilmBlood& from) {
    const double edta = saturating(laws.crenatedOfEdta * from.edtaExcess);
    const double hours = from.blood.wear.hours - laws.crenatedAfter;
    const double urea = saturating(laws.crenatedOfUrea * (from.urea - laws.crenatedFromUrea));
    return either(either(edta, saturating(laws.crenatedOfHour * hours)), urea);
}

double targets(const RedFilmLaws& laws, const FilmBlood& from, double young) {
    return std::min(laws.mostTargets,
                    laws.targetsOfCholesterol * std::max(0., from.cholesterol - 1) +
                        laws.targetsOfYoung * young);
}

/// Forms that are not told by anything else, out of what the others leave.
void fitForms(Slide& slide) {
    const double young = slide.of(FilmCell::polychromatophil);
    double others = 0;
    for (const FilmCell cell : filmCells())
        if (isRed(cell)) others += slide.of(cell);
    others -= young;
    if (!(others > 1 - young)) return;
    for (const FilmCell cell : filmCells())
        if (isRed(cell) && cell != FilmCell::polychromatophil)
            slide.of(cell) *= (1 - young) / others;
}

void redForms(Slide& slide, const FilmLaws& laws, const FilmBlood& from) {
    const RedFilmLaws& red = laws.red;
    const double young = youngOf(from.blood);
    // Young cells are paler too: what they lack is none of the others' lack.
    const double pale = rising(1 - from.filling, red.paleFrom, red.paleAll) * (1 - young);
    const auto sign = [&](RedSign which) { return share(from.signs.of(which)); };
    slide.of(FilmCell::polychromatophil) = young;
    slide.of(FilmCell::spherocyte) = sign(RedSign::spherocytes);
    slide.of(FilmCell::echinocyte) = either(crenated(red, from), sign(RedSign::echinocytes));
    slide.of(FilmCell::acanthocyte) =
        either(red.acanthocytesOfLiver * share(1 - from.liverWork), sign(RedSign::acanthocytes));
    slide.of(FilmCell::target) = either(targets(red, from, young), sign(RedSign::targets));
    slide.of(FilmCell::schistocyte) =
        either(red.schistocytesOfPale * pale, sign(RedSign::schistocytes));
    slide.of(FilmCell::keratocyte) =
        either(red.keratocytesOfPale * pale, sign(RedSign::keratocytes));
    double changed = 0;
    for (const FilmCell cell : {FilmCell::spherocyte, FilmCell::echinocyte, FilmCell::acanthocyte,
                                FilmCell::target, FilmCell::schistocyte, FilmCell::keratocyte})
        changed += slide.of(cell);
    slide.of(FilmCell::hypochromic) = pale * std::max(0., 1 - changed); // of plain ones
    fitForms(slide);

    // A cell keeps its shape as it grows, so its width goes with the cube root of its volume.
    slide.redDiameter = std::cbrt(from.volume * from.blood.wear.packing);
    slide.redSpread = from.redVariation / 3 + red.spreadOfYoung * young + red.spreadOfPale * pale;
}

void redLoads(Slide& slide, const FilmLaws& laws, const FilmBlood& from, double heinz) {
    const RedFilmLaws& red = laws.red;
    const KindFilmLaws& own = laws.of(from.blood.kind);
    slide.howellJolly =
        either(share(own.howellJolly + red.howellJollyOfYoung * youngOf(from.blood)),
               share(from.signs.of(RedSign::howellJolly)));
    slide.heinz = either(share(heinz), share(from.signs.of(RedSign::heinz)));
    slide.agglutinated = share(from.signs.of(RedSign::agglutinated));
    const double rows =
        std::clamp(own.rouleaux + red.rouleauxOfProtein * std::max(0., from.proteinExcess), 0.,
                   red.mostRouleaux);
    slide.rouleaux = rows * (1 - slide.agglutinated);
}

void whiteKindsOf(Slide& slide, const FilmLaws& laws, const FilmBlood& from) {
    const WhiteFilmLaws& law = laws.white;
    const Blood& blood = from.blood;
    const double all = whiteCells(blood);
    if (!(all > 0)) return;
    const auto [segmented, bands, lymphocytes, monocytes, eosinophils] = blood.white;
    const double neutrophils = segmented + bands;
    const double shift = neutrophils > 0 ? bands / neutrophils : 0;
    const double younger = law.metamyelocytes * rising(shift, law.leftShiftFrom, law.leftShiftAll);
    const double young = from.age < law.youth ? law.reactiveOfYouth : 0;
    const double reactive =
        std::min(law.mostReactive,
                 law.reactive + young + law.reactiveOfInflammation * std::max(0., from.acutePhase));
    const double old = saturating(law.smudgesOfHour * (blood.wear.hours - law.agedAfter));
    const double smudges =
        either(either(law.smudges, old), share(law.smudgesOfClot * blood.wear.whiteLost));
    const auto put = [&](FilmCell cell, double number) {
        slide.of(cell) = (1 - smudges) * number / all;
    };
    put(FilmCell::segmented, segmented);
    put(FilmCell::band, bands * (1 - younger));
    put(FilmCell::metamyelocyte, bands * younger);
    put(FilmCell::lymphocyte, lymphocytes * (1 - reactive));
    put(FilmCell::reactiveLymphocyte, lymphocytes * reactive);
    put(FilmCell::monocyte, monocytes);
    put(FilmCell::eosinophil, eosinophils * (1 - law.basophils));
    put(FilmCell::basophil, eosinophils * law.basophils);
    slide.of(FilmCell::smudge) = smudges;
}

void neutrophilMarks(Slide& slide, const FilmLaws& laws, const FilmBlood& from) {
    const WhiteFilmLaws& law = laws.white;
    const double toxic = from.blood.toxic;
    const auto& white = from.blood.white;
    const double neutrophils = white[0] + white[1];
    const double ripe = neutrophils > 0 ? white[0] / neutrophils : 0;
    const double older = std::max(0., from.blood.wear.hours - law.agedAfter);
    slide.toxic = toxic;
    slide.toxicGrade = law.toxicLeast + (1 - law.toxicLeast) * share(toxic / law.toxicFull);
    // Steroids push lymphocytes out of the blood and keep ripe neutrophils in it; inflammation
    // pushes lymphocytes too, but sends bands.
    const double stay = share(1 - from.lymphocytes) * ripe * ripe;
    slide.hypersegmented =
        std::min(law.mostHypersegmented, law.hypersegmented + law.hypersegmentedOfStay * stay +
                                             law.hypersegmentedOfHour * older);
    slide.drumstick = from.female ? law.drumstick : 0;
    slide.doubtful = law.doubtful;
    slide.aged = saturating(older / law.agedTime);
}

void plateletsOf(Slide& slide, const FilmLaws& laws, const FilmBlood& from) {
    const KindFilmLaws& own = laws.of(from.blood.kind);
    const Wear& wear = from.blood.wear;
    slide.platelets = from.blood.platelets * (1 - wear.plateletsLost) * (1 - wear.clumped);
    slide.clumps = plateletClumps(from.blood);
    slide.clumpSize = slide.clumps > 0 ? wear.clumpSize : 0;
    // A marrow that is called on sends large ones.
    slide.largePlatelets = either(
        from.blood.large, share(own.largePlatelets + own.largeOfLack * share(1 - from.platelets)));
}

/// The day's chance, always the same number of draws.
void spread(Slide& slide, const SlideLaws& laws, base::Chance& day) {
    constexpr double furthest = 2.5; // standard deviations: nobody keeps a film beyond that
    const auto normal = [&] { return std::clamp(day.normal(), -furthest, furthest); };
    slide.thickness = std::exp(laws.thickness * normal());
    slide.drag = laws.dragLeast + (laws.dragMost - laws.dragLeast) * day.uniform();
    const auto tone = [&] { return 1 + laws.tone * (2 * day.uniform() - 1); };
    slide.stain = {tone(), tone(), tone()};
    const double wrong = day.uniform();
    if (wrong < laws.toneChance / 2) {
        slide.stain.red *= laws.blueRed;
        slide.stain.blue *= laws.blueBlue;
        slide.stain.nuclear *= laws.blueNuclear;
    } else if (wrong < laws.toneChance) {
        slide.stain.red *= laws.pinkRed;
        slide.stain.blue *= laws.pinkBlue;
        slide.stain.nuclear *= laws.pinkNuclear;
    }
    const double wet = day.uniform(), holes = day.uniform();
    if (wet < laws.waterChance)
        slide.water = laws.waterLeast + (laws.waterMost - laws.waterLeast) * holes;
    const double dirty = day.uniform(), grains = normal();
    if (dirty < laws.precipitateChance)
        slide.precipitate = laws.precipitate * std::exp(laws.precipitateSpread * grains);
}

std::uint64_t seedFrom(base::Chance& day) {
    constexpr double bits = 4294967296.; // 2^32
    const auto high = static_cast<std::uint64_t>(bits * day.uniform());
    const auto low = static_cast<std::uint64_t>(bits * day.uniform());
    return high << 32 | low;
}

} // namespace

Slide made(const FilmLaws& laws, const FilmBlood& from, base::Chance& animal, base::Chance& day) {
    validate(from.blood);
    const KindFilmLaws& own = laws.of(from.blood.kind);
    const Wear& wear = from.blood.wear;
    Slide slide;
    slide.kind = from.blood.kind;
    slide.seed = seedFrom(day);
    slide.red = from.blood.red * (1 - wear.redLost);
    slide.nucleated = from.blood.nucleated;
    slide.white = whiteCells(from.blood) * (1 - wear.whiteLost);
    constexpr double furthest = 2;
    const double heinz =
        own.heinz * std::exp(own.heinzSpread * std::clamp(animal.normal(), -furthest, furthest));
    redForms(slide, laws, from);
    redLoads(slide, laws, from, heinz);
    whiteKindsOf(slide, laws, from);
    neutrophilMarks(slide, laws, from);
    plateletsOf(slide, laws, from);
    spread(slide, laws.slide, day);
    return slide;
}

} // namespace cistern::lab
