#pragma once
#include "body/species.h"

#include <array>
#include <cstdint>

namespace cistern::body {

enum class Sex { female, spayedFemale, male, neuteredMale };

/// Who the animal is.
struct Signalment {
    Kind kind = Kind::dog;
    double age = 35040; ///< at hour 0 [h]
    double weight = 20; ///< [kg]
    Sex sex = Sex::spayedFemale;
    int condition = 5; ///< body condition score, 1..9
    std::uint64_t seed = 1;
    bool potassiumRichCells = false; ///< red cells that kept their potassium, as in some Akitas
};

/// One animal: its species with its own set points and half-lives. Healthy set points vary between
/// animals as log-normal factors of the published spread; the seed and the animal number settle
/// them.
struct Individual {
    Species own; ///< the species' parameters with this animal's own factors applied
    Signalment who;
};

/// The animal that a seed gives. `animal` numbers the members of a herd (0 for a patient).
Individual individual(const Species& species, const Signalment& who, std::uint64_t animal = 0);

/// The plain animal of a species, at every median: for tests and for teaching.
Individual median(const Species& species, const Signalment& who);

/// The same with every healthy level so many of its standard deviations above the median, each by
/// itself: how levels go together between animals is left aside.
Individual raised(const Species& species, const Signalment& who,
                  const std::array<double, analyteCount>& deviations);

/// Gives an animal at the species' half-lives those of member `animal` of the herd of a seed: each
/// times a log-normal factor of this coefficient of variation.
void drawHalfLives(Individual& one, double spread, std::uint64_t seed, std::uint64_t animal);

/// Standard deviation of the logarithm of a log-normal factor with this coefficient of variation.
double logSpread(double variation);

/// Factor by which a level differs on one day from the animal's mean for no reason but life:
/// log-normal with the within-animal spread; the same for the same seed, animal, analyte and time.
double wobble(const Individual& animal, Analyte analyte, double hour, std::uint64_t number = 0);

/// The analyte's own healthy level in this animal as an adult, in the model's unit.
double setPoint(const Individual& animal, Analyte analyte);

} // namespace cistern::body
