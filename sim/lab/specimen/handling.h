#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

enum class Light { dark, room, sun };

/// A tube as it was filled, mixed, left standing and spun. A fresh one is handled as it should be.
struct Tube {
    std::string name;         ///< "serum", "edta", "heparin", "citrate", "fluoride", "urine"
    double fill = 1;          ///< share of its mark, > 0
    int inversions = 5;       ///< turned over by hand; far too many are a shaking
    double clot = 0.5;        ///< standing before the spin [h]
    double rcf = 1500;        ///< spin, times the earth's pull [1]
    double minutes = 10;      ///< of the spin
    std::string toppedFrom{}; ///< "" or the tube that it was topped up from
    bool operator==(const Tube&) const = default;
};

/// Everything a person does to a specimen between the vein and the machine: plain data, the same
/// for a scenario and for a learner's own choice.
struct Handling {
    std::string vein = "jugular";
    int attempts = 1;             ///< how often the vein was tried, >= 1
    std::optional<double> fasted; ///< since food [h], if stated
    std::vector<Tube> tubes;      ///< in the order of filling
    double unseparated = 0;       ///< serum or plasma left on its cells after the spin [h]
    double temperature = 22;      ///< of the room where tubes wait [Cel]
    Light light = Light::room;
    double lightFor = 0.5;  ///< how long serum stood in it [h]
    double filmAfter = 0.5; ///< blood waited for its film and count [h]

    const Tube* tube(std::string_view name) const; ///< null if none of that name was filled
    bool operator==(const Handling&) const = default;
};

/// A tube handled as it should be: full, turned over as its kind asks, 30 min to clot, 1500 g for
/// 10 min.
Tube usualTube(const std::string& name);

/// Acceleration of a spin as a multiple of the earth's pull: 1.118e-5 r n^2, r in cm, n in 1/min.
/// Source: centrifuge manuals, physics.
double rcf(double radius, double speed);

std::string_view name(Light light); // "dark", "room", "sun"
std::optional<Light> lightNamed(std::string_view name);

} // namespace cistern::lab
