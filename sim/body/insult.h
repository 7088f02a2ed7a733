#pragma once
#include "body/names.h"
#include "body/red_sign.h"

#include <string>
#include <vector>

namespace cistern::body {

/// What can act on an animal from outside. Each is constant between its start and its end; several
/// at once add up (rates, doses, folds) or block one behind another (shares: 1 - (1-a)(1-b)).
enum class Drive {
    liverDeath,        // death rate of liver cells [1/h]
    liverScar,         // the part of it that leaves scar [1/h]
    liverLeak,         // sublethal leak, fold above healthy [1]
    bileBlock,         // share of duct flow blocked
    canalicularBlock,  // share of canalicular flow lost
    liverFat,          // share of liver cells laden with fat
    shunt,             // share of portal flow that by-passes the liver
    steroidDose,       // given, prednisolone equivalent [mg/kg/d]
    ownSteroid,        // the same of the animal's own cortisol in excess [mg/kg/d]
    phenobarbitalDose, // [mg/kg/d]
    muscleDeath,       // [1/h]
    heartDeath,        // [1/h]
    acinarDeath,       // of the exocrine pancreas [1/h]
    acinarLeak,        // sublethal leak, fold above healthy [1]
    gutProteinLoss,    // albumin lost at a healthy level [g/kg/h]
    kidneyProteinLoss, // the same by the kidney [g/kg/h]
    nephronDeath,      // [1/h]
    nephronStun,       // rate of stunning [1/h]; recovery stands still meanwhile
    outflowBlock,      // share of urine outflow blocked
    waterLoss,         // [L/kg/h]; replacement stands still meanwhile
    adrenalDeath,      // [1/h]
    thyroxine,         // fold of healthy output above 1, -1 is none
    insulinLack,       // share of insulin effect lost
    inflammation,      // share of the greatest usual drive
    stress,            // the same of cortisol
    fright,            // the same of catecholamines
    parasites,         // the same of the drive on eosinophils
    bleeding,          // of circulating blood [1/h]
    hemolysis,         // of red cells [1/h]
    marrowBlock,       // share of marrow output lost
    plateletDeath,     // above normal [1/h]
    ironLack,          // share of iron stores held empty
    foodMissing,       // 1 while fasting
    meal               // 1 while a meal is being emptied into the gut
};
inline constexpr int driveCount = 34;

std::string_view name(Drive drive); // "liver death", "bile block", ...
std::optional<Drive> driveNamed(std::string_view name);
const std::array<Drive, driveCount>& drives();
bool kills(Drive drive);  ///< true for rates at which a tissue, cells or blood are lost [1/h]
bool gentle(Drive drive); ///< true for what the body follows slowly, or only its bile acids feel
bool addsUp(Drive drive); ///< false for shares, which block one behind another

/// One drive at one value over a span of hours.
struct Window {
    Drive drive;
    double from, to; ///< [h], to > from
    double value;
};

/// How a severity becomes the value of a drive over a window of T hours.
enum class Law {
    shareLost, // rate -ln(1 - severity) / T: the share that is lost by the end of the window
    massLost,  // the same for severity [g/kg] of a tissue of known mass
    fold,      // severity - 1
    level,     // the severity itself, times `times`
    spent,     // severity / T: an amount given off evenly over the window
    constant,  // `times`, whatever the severity
    daily      // rate -ln(1 - severity) / 24 h: the share that is lost each day
};

/// One effect of an insult.
struct Effect {
    Drive drive;
    Law law;
    double times = 1; ///< factor on the outcome (the scar share of a death rate, for instance)
};

/// A kind of insult, from assets/insults/*.yaml. A new one made of existing drives needs no C++.
struct InsultKind {
    std::string name;
    std::string counts;         ///< what its severity counts, in words
    std::string unit;           ///< of the severity as held: "1" for shares (75 % is 0.75), "g/kg",
                                ///< "mg/kg/d", "h" ...
    std::string shownUnit;      ///< as people write it: "%"
    double least = 0, most = 1; ///< severity allowed, in `unit`
    Tissue tissue = Tissue::liver; ///< organ it belongs to
    bool dog = true,
         cat = true; ///< false: no effect is known in the species, and a scenario is told so
    std::vector<Effect> effects;
    std::vector<std::string>
        explains; ///< phrases of a list of explanations that this insult makes true
};

/// An insult that happens: severity in the kind's `unit`, window in hours (to > from).
struct Insult {
    const InsultKind* kind = nullptr;
    double severity = 0;
    double from = 0, to = 0;
    RedSigns film{}; ///< what it leaves on red cells when it has acted in full
};

struct Species;
/// The drives that an insult sets in a species.
std::vector<Window> windows(const Insult& insult, const Species& species);
/// The drive of one meal at an hour.
Window meal(double at, const Species& species);

} // namespace cistern::body
