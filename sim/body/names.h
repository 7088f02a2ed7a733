#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace cistern::body {

enum class Kind { dog, cat };

/// Organs whose leak and work are told apart.
enum class Tissue {
    liver,
    bileDucts,
    skeletalMuscle,
    heart,
    kidney,
    pancreas,
    bone,
    gut,
    redCells,
    adrenalCortex,
    thyroid,
    whiteCells,
    platelets
};
inline constexpr int tissueCount = 13;

/// What the laboratory can be asked for.
enum class Analyte {
    ALT,
    AST,
    ALP,
    GGT,
    GLDH,
    SDH,
    CK,
    LDH,
    lipase,
    amylase,
    TLI,
    cTnI,
    bilirubin,
    bileAcids,
    ammonia,
    protein,
    albumin,
    globulin,
    glucose,
    urea,
    creatinine,
    SDMA,
    cholesterol,
    triglycerides,
    Na,
    K,
    Cl,
    tCO2,
    anionGap,
    Ca,
    P,
    Mg,
    T4,
    cortisol,
    CRP,
    SAA,
    PT,
    aPTT,
    fibrinogen,
    USG,
    UPC,
    RBC,
    Hb,
    Hct,
    MCV,
    MCH,
    MCHC,
    reticulocytes,
    WBC,
    neutrophils,
    bands,
    lymphocytes,
    monocytes,
    eosinophils,
    platelets,
    toxic,
    PCV,
    TP
};
inline constexpr int analyteCount = 58;

/// Plasma pools of enzymes. ALP is the sum of three, AST that of two kinds of release into one
/// pool.
enum class Pool {
    ALT,
    AST,
    liverALP,
    steroidALP,
    boneALP,
    GGT,
    GLDH,
    SDH,
    CK,
    LDH,
    lipase,
    amylase,
    TLI,
    cTnI
};
inline constexpr int poolCount = 14;

/// Units in which a course speaks, by analyte; see DEVELOPERS.md for the whole table.
std::string_view name(Kind kind);
std::string_view name(Tissue tissue);   // "liver", "bile ducts", ...
std::string_view name(Analyte analyte); // as in files and headers: "ALT", "bile_acids"
std::string_view name(Pool pool);       // "ALT", "liver ALP", ...
std::string_view unit(Analyte analyte); // unit inside the model: "U/L", "umol/L", "g/L", "1"

std::optional<Kind> kindNamed(std::string_view name);
std::optional<Tissue> tissueNamed(std::string_view name);
std::optional<Analyte> analyteNamed(std::string_view name);

/// All values of an enumeration, in order.
const std::array<Tissue, tissueCount>& tissues();
const std::array<Analyte, analyteCount>& analytes();
const std::array<Pool, poolCount>& pools();

} // namespace cistern::body
