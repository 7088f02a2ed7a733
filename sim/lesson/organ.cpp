#include "lesson/organ.h"

#include <algorithm>
#include <array>

namespace cistern::lesson {

namespace {

using body::Analyte;
using body::Pool;
using body::Tissue;
constexpr WorkTest::Way up = WorkTest::Way::up, either = WorkTest::Way::either;

/// Of an organ that leaks by the gram and works as a whole.
OrganPhrases byGram(Tissue tissue) {
    const std::string name(body::name(tissue));
    return {"How much did each living gram of the " + name + " leak",
            "this animal's own healthy release",
            "How much of the " + name + " still worked",
            "the healthy organ",
            name + " worked",
            "each living gram leaked"};
}

/// Of an organ that loses protein.
OrganPhrases byProtein(Tissue tissue, const std::string& how, const std::string& where) {
    OrganPhrases phrases = byGram(tissue);
    phrases.leakAsked = "How much protein did the " + std::string(body::name(tissue)) + " " + how;
    phrases.leakWhole = "what it loses in health";
    phrases.leaked = "protein was lost " + where;
    return phrases;
}

std::vector<Organ> organs() {
    OrganPhrases redCells{"How fast did red cells die",
                          "their pace in health",
                          "How much hemoglobin circulated",
                          "what circulates in health",
                          "healthy hemoglobin circulated",
                          "red cells died",
                          "fast"};
    OrganPhrases platelets{"How fast were platelets lost",
                           "their pace in health",
                           "How many platelets were there",
                           "the healthy number",
                           "healthy number of platelets was there",
                           "platelets were lost",
                           "fast"};
    OrganPhrases thyroid = byGram(Tissue::thyroid);
    thyroid.workAsked = "How much hormone did the thyroid put out";
    thyroid.workWhole = "its healthy output";
    thyroid.worked = "healthy thyroid output was there";
    OrganPhrases bone = byGram(Tissue::bone); // which leaks as it grows: held against one grown up
    bone.leakWhole = "a grown animal's healthy release";
    bone.leakedWhole = "in a grown animal";
    OrganPhrases whiteCells = byGram(Tissue::whiteCells);
    whiteCells.workAsked = "How full was the marrow's store of neutrophils";
    whiteCells.workWhole = "the healthy store";
    whiteCells.worked = "healthy store of neutrophils lay in the marrow";
    return {
        {Tissue::liver,
         true,
         {{Analyte::ALT}},
         Pool::ALT,
         {{Analyte::albumin},
          {Analyte::urea},
          {Analyte::cholesterol},
          {Analyte::glucose},
          {Analyte::bilirubin, up},
          {Analyte::bileAcids, up},
          {Analyte::ammonia, up},
          {Analyte::PT, up}},
         {"liver", "hepat"},
         byGram(Tissue::liver)},
        {Tissue::bileDucts,
         true,
         {{Analyte::GGT}, {Analyte::ALP}},
         Pool::GGT,
         {{Analyte::bilirubin, up}, {Analyte::bileAcids, up}},
         {"bile", "chole", "biliar"},
         byGram(Tissue::bileDucts)},
        {Tissue::skeletalMuscle,
         true,
         {{Analyte::CK}},
         Pool::CK,
         {},
         {"muscle", "injection"},
         byGram(Tissue::skeletalMuscle)},
        {Tissue::heart,
         true,
         {{Analyte::cTnI}},
         Pool::cTnI,
         {},
         {"heart", "cardi"},
         byGram(Tissue::heart)},
        {Tissue::kidney,
         true,
         {{Analyte::creatinine}},
         std::nullopt,
         {{Analyte::creatinine, up},
          {Analyte::urea, up},
          {Analyte::SDMA, up},
          {Analyte::P, up},
          {Analyte::USG}},
         {"kidney", "nephr", "renal", "urinary"},
         byProtein(Tissue::kidney, "lose with the urine", "with the urine")},
        {Tissue::pancreas,
         true,
         {{Analyte::lipase}, {Analyte::TLI}, {Analyte::amylase}},
         Pool::lipase,
         {{Analyte::TLI}},
         {"pancrea", "acinar"},
         byGram(Tissue::pancreas)},
        {Tissue::bone,
         true,
         {{Analyte::ALP}},
         Pool::boneALP,
         {},
         {"bone", "growth", "fracture"},
         bone},
        {Tissue::gut,
         true,
         {{Analyte::albumin, true}},
         std::nullopt,
         {{Analyte::albumin}, {Analyte::globulin}, {Analyte::cholesterol}},
         {"gut", "enterop", "bowel"},
         byProtein(Tissue::gut, "lose", "into it")},
        {Tissue::redCells,
         true,
         {{Analyte::Hct, true}, {Analyte::PCV, true}},
         std::nullopt,
         {{Analyte::Hct}, {Analyte::PCV}, {Analyte::Hb}, {Analyte::reticulocytes, either}},
         {"anemi", "hemoly", "hemorrhage", "iron", "red cell"},
         redCells},
        {Tissue::adrenalCortex,
         false,
         {{Analyte::cortisol, true}, {Analyte::Na, true}, {Analyte::K}},
         std::nullopt,
         {{Analyte::cortisol}, {Analyte::Na}, {Analyte::K, up}},
         {"adreno", "adrenal"},
         byGram(Tissue::adrenalCortex)},
        {Tissue::thyroid,
         false,
         {{Analyte::T4, true}},
         std::nullopt,
         {{Analyte::T4, either}, {Analyte::cholesterol, either}},
         {"thyroid"},
         thyroid},
        {Tissue::whiteCells,
         false,
         {{Analyte::neutrophils, true}, {Analyte::WBC, true}},
         std::nullopt,
         {{Analyte::neutrophils, either}, {Analyte::bands, up}, {Analyte::toxic, up}},
         {"inflammation", "infection", "marrow", "white cell"},
         whiteCells},
        {Tissue::platelets,
         true,
         {{Analyte::platelets, true}},
         std::nullopt,
         {{Analyte::platelets}},
         {"platelet", "thrombocyt"},
         platelets},
    };
}

} // namespace

const Organ& organOf(Tissue tissue) {
    static const std::array<Organ, body::tissueCount> table = [] {
        std::array<Organ, body::tissueCount> rows;
        for (Organ& row : organs()) rows[static_cast<std::size_t>(row.tissue)] = std::move(row);
        return rows;
    }();
    return table[static_cast<std::size_t>(tissue)];
}

const Clue* clue(Tissue tissue, Analyte analyte) {
    for (const Clue& one : organOf(tissue).clues)
        if (one.analyte == analyte) return &one;
    return nullptr;
}

std::optional<Pool> markerOf(Tissue tissue, std::optional<Analyte> analyte) {
    const std::optional<Pool> marker = organOf(tissue).marker;
    if (tissue != Tissue::pancreas || !analyte) return marker; // the others leak one marker each
    for (const Pool pool : body::pools())
        if (name(pool) == name(*analyte)) return pool;
    return marker;
}

} // namespace cistern::lesson
