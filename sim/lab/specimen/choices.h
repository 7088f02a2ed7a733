#pragma once
#include "lab/specimen/handling.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// What a number of a handling may be, both ends allowed.
struct Allowed {
    std::string_view unit;  ///< in which it is held: "1", "h", "Cel"
    std::string_view shown; ///< in which people write it: "%", "min", "Cel"; "" for a plain number
    double least, most;
    std::string_view words; ///< "1 to 150 %"
};
inline constexpr Allowed fillAllowed{"1", "%", 0.01, 1.5, "1 to 150 %"};
inline constexpr Allowed inversionAllowed{"1", "", 0, 100, "0 to 100"};
inline constexpr Allowed clotAllowed{"h", "min", 0, 72, "0 min to 3 d"};
inline constexpr Allowed rcfAllowed{"1", "", 0, 25000, "0 to 25000"};
inline constexpr Allowed spinAllowed{"1", "", 0, 120, "0 to 120"}; // min
inline constexpr Allowed attemptAllowed{"1", "", 1, 10, "1 to 10"};
inline constexpr Allowed fastAllowed{"h", "h", 0, 720, "0 h to 30 d"};
inline constexpr Allowed waitAllowed{"h", "min", 0, 168, "0 min to 7 d"};
inline constexpr Allowed roomAllowed{"Cel", "Cel", -40, 60, "-40 to 60 Cel"};

inline constexpr std::array<std::string_view, 5> veins{"jugular", "cephalic", "medial saphenous",
                                                       "lateral saphenous", "ear"};
inline constexpr std::array<std::string_view, 6> tubeNames{"serum",   "edta",     "heparin",
                                                           "citrate", "fluoride", "urine"};
inline constexpr std::array<std::string_view, 1> toppedFrom{"edta"}; // a serum tube
inline constexpr std::array<std::string_view, 3> lights{"dark", "room", "sun"};

/// One thing about a draw that a person can do otherwise.
struct Choice {
    std::string name;                 ///< "serum clot"
    std::string now;                  ///< "30 min"
    std::string meaning;              ///< "standing before the spin"
    std::string allowed;              ///< "0 min to 3 d"
    std::vector<std::string> words{}; ///< it may be one of these; empty: something else
    const Allowed* number = nullptr;  ///< it is a number; null: it is none
    double value = 0;                 ///< the number, in `number->shown`
};

/// All that can be done otherwise about these tubes, in the order of the work.
std::vector<Choice> choices(const Handling& handling);

/// The handling with one thing done otherwise: ("serum clot", "4 min"). Throws
/// std::invalid_argument, one sentence, for a name or value that is not allowed.
Handling handledOtherwise(Handling handling, const std::string& name, const std::string& value);

} // namespace cistern::lab
