// Organs that no enzyme in the blood stands for: what their numbers follow, and how fast.
#include "base/text.h"
#include "lesson/organ.h"
#include "lesson/telling.h"

namespace cistern::lesson {

namespace {

using body::Analyte;
using Sentences = std::vector<std::string>;

constexpr double worth = 1.2; // a fold from which a change is worth a word
constexpr double high = 1.5;  // a fold from which a count is called high

/// "ALT 96 U/L (her own 40 U/L)": the truth at the last draw beside the healthy twin's. What was
/// printed may differ, so the sentence around it says "in truth".
std::string beside(const Telling& t, Analyte analyte) {
    return t.called(analyte) + " " + t.amount(t.was().level(analyte), analyte) + " (" + t.her() +
           " own " + t.amount(t.healthy().level(analyte), analyte) + ")";
}

double foldOf(const Telling& t, Analyte analyte) {
    return t.was().level(analyte) / t.healthy().level(analyte);
}

Sentences kidney(const Telling& t, const OrganTruth& truth) {
    const double now = t.was().at(body::reading::gfr), own = t.healthy().at(body::reading::gfr);
    std::string text = "Creatinine does not leak from the kidney: muscle makes it and the kidney "
                       "drains it. " +
                       capital(t.she()) + " filtered " + base::significant(now, 2) +
                       " mL/min/kg, " + percent(now / own) + " of " + t.her() + " healthy " +
                       base::significant(own, 2);
    if (now / own > t.was().work(body::Tissue::kidney) * worth)
        text += "; the nephrons that were left each did more than their share";
    const double hydration = t.was().at(body::reading::hydration);
    if (hydration < 0.97) text += ", with " + percent(hydration) + " of " + t.her() + " body water";
    Sentences out{text + "."};
    if (truth.leak > worth)
        out.push_back("What a kidney leaks is protein: in truth " + beside(t, Analyte::UPC) +
                      ". It says how tight the filter was, not how much of it was left.");
    return out;
}

Sentences gut(const Telling& t, const OrganTruth& truth) {
    Sentences out{"No number in the blood says what the gut takes in. What it loses is protein, "
                  "albumin and globulin alike: in truth " +
                  beside(t, Analyte::albumin) + ", " + beside(t, Analyte::globulin) + "."};
    if (truth.leak > worth)
        out.push_back("Without any more made, albumin would halve in " +
                      span(t.lesson.animal().own.protein.albuminHalfLife) +
                      "; a loss drains it faster, and a liver at work refills it.");
    return out;
}

Sentences redCells(const Telling& t, const OrganTruth& truth) {
    const double life = t.lesson.animal().own.redCells.life;
    const double answer = foldOf(t, Analyte::reticulocytes);
    Sentences out{"A red cell lives " + span(life) +
                  ", so a marrow that stops is slow to show; cells that die or bleed away show "
                  "within hours to days, once water has come after them."};
    std::string text = "The marrow's answer is counted in reticulocytes: in truth " +
                       beside(t, Analyte::reticulocytes);
    if (answer > high)
        text += ", so it was answering";
    else if (truth.work < 90)
        text += ", so it was not answering, or not yet: that takes some three days";
    out.push_back(text + ".");
    const double plasma =
        t.was().at(body::reading::plasmaVolume) / t.healthy().at(body::reading::plasmaVolume);
    if (plasma < 0.95 || plasma > 1.05)
        out.push_back("A hematocrit is a share of the blood, and " + t.her() + " plasma stood at " +
                      percent(plasma) + " of its healthy volume.");
    return out;
}

Sentences adrenalCortex(const Telling& t) {
    const auto ratio = [](const body::Snapshot& at) {
        return base::rounded(at.level(Analyte::Na) / at.level(Analyte::K), 1);
    };
    return {"A cortex keeps its output up until about nine tenths of it are gone: in truth " +
                beside(t, Analyte::cortisol) + ".",
            "Sodium stood to potassium as " + ratio(t.was()) + " to 1, in health as " +
                ratio(t.healthy()) + " to 1: that is the other hormone, which holds salt."};
}

Sentences thyroid(const Telling& t) {
    const body::HormoneParameters& hormones = t.lesson.animal().own.hormones;
    return {"T4 follows the gland closely, halving in " + span(hormones.thyroxineHalfLife) +
            ": in truth " + beside(t, Analyte::T4) +
            ". The rest of the body follows T4 late, over " + span(hormones.thyroidEffectLag) +
            " and more."};
}

Sentences whiteCells(const Telling& t, const OrganTruth& truth) {
    Sentences out{"A blood count shows who is passing by, and the marrow's store is what can still "
                  "be sent: in truth " +
                  beside(t, Analyte::neutrophils) + ", " + beside(t, Analyte::bands) + "."};
    if (truth.work < 75 && foldOf(t, Analyte::neutrophils) > 1 / worth)
        out.push_back(
            std::string(foldOf(t, Analyte::neutrophils) > high ? "A high" : "An ordinary") +
            " count came out of a store that was running low.");
    return out;
}

Sentences platelets(const Telling& t, const OrganTruth& truth) {
    std::string text = "A platelet lives " + span(t.lesson.animal().own.platelets.life) +
                       ", and every count is a balance of what the marrow makes and what is lost";
    if (truth.leak > worth)
        text += ": here they were lost early";
    else if (truth.work < 75)
        text += ": here they lived their time, and too few were made";
    return {text + "."};
}

} // namespace

Sentences functionSentences(const Telling& t, const OrganTruth& truth) {
    switch (truth.organ) {
    case body::Tissue::kidney:
        return kidney(t, truth);
    case body::Tissue::gut:
        return gut(t, truth);
    case body::Tissue::redCells:
        return redCells(t, truth);
    case body::Tissue::adrenalCortex:
        return adrenalCortex(t);
    case body::Tissue::thyroid:
        return thyroid(t);
    case body::Tissue::whiteCells:
        return whiteCells(t, truth);
    case body::Tissue::platelets:
        return platelets(t, truth);
    default:
        return {}; // has a marker
    }
}

} // namespace cistern::lesson
