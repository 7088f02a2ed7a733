#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace cistern::body {

enum class Kind { dog, cat };

/// Organs whose leak and work are told apart.
enum class Tissue { liver, bileDucts, skeletalMuscle, bone, kidney };
inline constexpr int tissueCount = 5;

/// What the laboratory can be asked for.
enum class Analyte {
    ALT,
    AST,
    ALP,
    GGT,
    CK,
    bilirubin,
    bileAcids,
    protein,
    albumin,
    globulin,
    glucose,
    urea,
    creatinine,
    cholesterol,
    USG
};
inline constexpr int analyteCount = 15;

/// Plasma pools of enzymes. ALP is the sum of three, AST that of two kinds of release into one
/// pool.
enum class Pool { ALT, AST, liverALP, steroidALP, boneALP, GGT, CK };
inline constexpr int poolCount = 7;

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
