#pragma once
#include "body/names.h"
#include "body/systems/systems.h"

#include <array>
#include <memory>

namespace cistern::body {

struct Population;

/// Everything that is the same for all animals of a species, in the model's units (see
/// DEVELOPERS.md), system by system. The equations that use these are in step/; the values come
/// from assets/species/*.yaml.
struct Species {
    Kind kind = Kind::dog;

    HormoneParameters hormones{};
    LiverParameters liver{};
    SteroidParameters steroid{};
    PhenobarbitalParameters phenobarbital{};
    MuscleParameters muscle{};
    HeartParameters heart{};
    DigestionParameters digestion{};
    BoneParameters bone{};
    std::array<EnzymePool, poolCount> pool{};
    BilirubinParameters bilirubin{};
    BileAcidParameters bileAcids{};
    AmmoniaParameters ammonia{};
    ProteinParameters protein{};
    AcutePhaseParameters acutePhase{};
    ClottingParameters clotting{};
    KidneyParameters kidney{};
    WaterParameters water{};
    SaltParameters salts{};
    SugarParameters sugar{};
    RedCellParameters redCells{};
    WhiteCellParameters whiteCells{};
    PlateletParameters platelets{};

    /// Coefficient of variation between healthy animals and within one from day to day, 0..1.
    std::array<double, analyteCount> between{}, within{};
    double halfLifeSpread = 0; ///< coefficient of variation of half-lives between animals
    std::shared_ptr<const Population> population; ///< ages and correlations; none: neither matters
};

/// Calls `visit` with every parameter of the species, in file order: the one list that the loader,
/// `cistern sources` and the tests read.
void eachParameter(Species& species, const Visit& visit);

} // namespace cistern::body
