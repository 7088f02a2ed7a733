#pragma once
#include "body/names.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {

/// A result by which people judge an organ at a glance. Most tell a leak or a poor drain: more is
/// sicker. Some are what the organ makes, or count its cells: less is sicker.
struct Clue {
    body::Analyte analyte{};
    bool output = false; ///< less is sicker
};

/// A result that speaks of what an organ does, and the way in which lost work moves it.
struct WorkTest {
    enum class Way { down, up, either };
    body::Analyte analyte{};
    Way lost = Way::down;
};

/// How an organ is spoken of, without the hour: "How much did each living gram of the liver leak".
struct OrganPhrases {
    std::string leakAsked, leakWhole; ///< ", in fold of " leakWhole
    std::string workAsked, workWhole; ///< ", in % of " workWhole
    std::string worked;               ///< "80 % of her " worked: "liver worked"
    std::string leaked;               ///< leaked " 3 times as " pace " as in health"
    std::string pace = "much";
    std::string leakedWhole = "in health"; ///< what the leak is held against
};

/// What a lesson knows of an organ, all of it common practice. One row a tissue.
struct Organ {
    body::Tissue tissue{};
    bool leaks = true;                ///< false: a leak of it has no meaning, and none is asked for
    std::vector<Clue> clues;          ///< the first that was measured leads
    std::optional<body::Pool> marker; ///< plasma pool that its leak fills
    std::vector<WorkTest> workTests;
    std::vector<std::string> words; ///< by which an explanation names it
    OrganPhrases phrases;
};

const Organ& organOf(body::Tissue tissue);

/// The clue of an organ that this analyte is; null if it is none.
const Clue* clue(body::Tissue tissue, body::Analyte analyte);

/// The pool of the organ's leak that an analyte measures, its marker for all others.
std::optional<body::Pool> markerOf(body::Tissue tissue, std::optional<body::Analyte> analyte);

} // namespace cistern::lesson
