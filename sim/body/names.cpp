#include "body/names.h"

#include "body/insult.h"

namespace cistern::body {

namespace {

struct AnalyteWords {
    std::string_view name, unit;
};
constexpr std::array<AnalyteWords, analyteCount> analyteWords{{{"ALT", "U/L"},
                                                               {"AST", "U/L"},
                                                               {"ALP", "U/L"},
                                                               {"GGT", "U/L"},
                                                               {"GLDH", "U/L"},
                                                               {"SDH", "U/L"},
                                                               {"CK", "U/L"},
                                                               {"LDH", "U/L"},
                                                               {"lipase", "U/L"},
                                                               {"amylase", "U/L"},
                                                               {"TLI", "ug/L"},
                                                               {"cTnI", "ug/L"},
                                                               {"bilirubin", "umol/L"},
                                                               {"bile_acids", "umol/L"},
                                                               {"ammonia", "umol/L"},
                                                               {"protein", "g/L"},
                                                               {"albumin", "g/L"},
                                                               {"globulin", "g/L"},
                                                               {"glucose", "mmol/L"},
                                                               {"urea", "mmol/L"},
                                                               {"creatinine", "umol/L"},
                                                               {"SDMA", "umol/L"},
                                                               {"cholesterol", "mmol/L"},
                                                               {"triglycerides", "mmol/L"},
                                                               {"Na", "mmol/L"},
                                                               {"K", "mmol/L"},
                                                               {"Cl", "mmol/L"},
                                                               {"tCO2", "mmol/L"},
                                                               {"anion_gap", "mmol/L"},
                                                               {"Ca", "mmol/L"},
                                                               {"P", "mmol/L"},
                                                               {"Mg", "mmol/L"},
                                                               {"T4", "nmol/L"},
                                                               {"cortisol", "nmol/L"},
                                                               {"CRP", "mg/L"},
                                                               {"SAA", "mg/L"},
                                                               {"PT", "s"},
                                                               {"aPTT", "s"},
                                                               {"fibrinogen", "g/L"},
                                                               {"USG", "1"},
                                                               {"UPC", "1"},
                                                               {"RBC", "10*12/L"},
                                                               {"Hb", "g/L"},
                                                               {"Hct", "1"},
                                                               {"MCV", "fL"},
                                                               {"MCH", "pg"},
                                                               {"MCHC", "g/L"},
                                                               {"reticulocytes", "10*9/L"},
                                                               {"WBC", "10*9/L"},
                                                               {"neutrophils", "10*9/L"},
                                                               {"bands", "10*9/L"},
                                                               {"lymphocytes", "10*9/L"},
                                                               {"monocytes", "10*9/L"},
                                                               {"eosinophils", "10*9/L"},
                                                               {"platelets", "10*9/L"},
                                                               {"toxic", "1"},
                                                               {"PCV", "1"},
                                                               {"TP", "g/L"}}};
constexpr std::array<std::string_view, tissueCount> tissueWords{
    "liver", "bile ducts", "skeletal muscle", "heart",   "kidney",      "pancreas", "bone",
    "gut",   "red cells",  "adrenal cortex",  "thyroid", "white cells", "platelets"};
constexpr std::array<std::string_view, poolCount> poolWords{
    "ALT", "AST", "liver ALP", "steroid ALP", "bone ALP", "GGT", "GLDH",
    "SDH", "CK",  "LDH",       "lipase",      "amylase",  "TLI", "cTnI"};
constexpr std::array<std::string_view, driveCount> driveWords{"liver death",
                                                              "liver scar",
                                                              "liver leak",
                                                              "bile block",
                                                              "canalicular block",
                                                              "liver fat",
                                                              "shunt",
                                                              "steroid dose",
                                                              "own steroid",
                                                              "phenobarbital dose",
                                                              "muscle death",
                                                              "heart death",
                                                              "acinar death",
                                                              "acinar leak",
                                                              "gut protein loss",
                                                              "kidney protein loss",
                                                              "nephron death",
                                                              "nephron stun",
                                                              "outflow block",
                                                              "water loss",
                                                              "adrenal death",
                                                              "thyroxine",
                                                              "insulin lack",
                                                              "inflammation",
                                                              "stress",
                                                              "fright",
                                                              "parasites",
                                                              "bleeding",
                                                              "hemolysis",
                                                              "marrow block",
                                                              "platelet death",
                                                              "iron lack",
                                                              "food missing",
                                                              "meal"};

template<class Enum, std::size_t count>
constexpr std::array<Enum, count> every() {
    std::array<Enum, count> all{};
    for (std::size_t i = 0; i < count; ++i) all[i] = static_cast<Enum>(i);
    return all;
}

template<class Enum, std::size_t count>
std::optional<Enum> find(const std::array<Enum, count>& all, std::string_view wanted) {
    for (Enum one : all)
        if (name(one) == wanted) return one;
    return std::nullopt;
}

} // namespace

std::string_view name(Kind kind) {
    return kind == Kind::dog ? "dog" : "cat";
}
std::string_view name(Tissue tissue) {
    return tissueWords[static_cast<std::size_t>(tissue)];
}
std::string_view name(Analyte analyte) {
    return analyteWords[static_cast<std::size_t>(analyte)].name;
}
std::string_view name(Pool pool) {
    return poolWords[static_cast<std::size_t>(pool)];
}
std::string_view name(Drive drive) {
    return driveWords[static_cast<std::size_t>(drive)];
}
std::string_view unit(Analyte analyte) {
    return analyteWords[static_cast<std::size_t>(analyte)].unit;
}

const std::array<Tissue, tissueCount>& tissues() {
    static constexpr auto all = every<Tissue, tissueCount>();
    return all;
}
const std::array<Analyte, analyteCount>& analytes() {
    static constexpr auto all = every<Analyte, analyteCount>();
    return all;
}
const std::array<Pool, poolCount>& pools() {
    static constexpr auto all = every<Pool, poolCount>();
    return all;
}
const std::array<Drive, driveCount>& drives() {
    static constexpr auto all = every<Drive, driveCount>();
    return all;
}

std::optional<Kind> kindNamed(std::string_view wanted) {
    return find(std::array{Kind::dog, Kind::cat}, wanted);
}
std::optional<Tissue> tissueNamed(std::string_view wanted) {
    return find(tissues(), wanted);
}
std::optional<Analyte> analyteNamed(std::string_view wanted) {
    return find(analytes(), wanted);
}
std::optional<Drive> driveNamed(std::string_view wanted) {
    return find(drives(), wanted);
}

} // namespace cistern::body
