#pragma once
#include "reference/animals.h"

namespace reference {

/// An animal and what happens to it, for the third writing of the body in R.
struct SolverCase {
    std::string name;
    cistern::body::Plan plan;
};

/// A handful that moves every part of the body: fourteen days, looked at every twelve hours.
inline std::vector<SolverCase> solverCases() {
    using namespace cistern::body;
    std::vector<SolverCase> cases;
    const auto add = [&](std::string name, Kind kind, std::vector<Window> windows) {
        const Species& species = known().species(kind);
        Signalment who;
        who.kind = kind;
        who.age = 6000 + 12000.0 * static_cast<double>(cases.size());
        who.seed = 100 + cases.size();
        cases.push_back({std::move(name),
                         {individual(species, who), std::move(windows), 0, every(12, 336), {}}});
    };
    const double necrosis = deathRate(0.35, 12);
    add("dog necrosis and hemolysis", Kind::dog,
        {{Drive::liverDeath, 24, 36, necrosis},
         {Drive::liverScar, 24, 36, 0.03 * necrosis},
         {Drive::hemolysis, 100, 200, 0.01}});
    add("dog obstruction and relief", Kind::dog,
        {{Drive::bileBlock, 12, 150, 1},
         {Drive::phenobarbitalDose, 0, 336, 9},
         {Drive::heartDeath, 200, 206, deathRate(0.1, 6)}});
    add("cat obstruction and dehydration", Kind::cat,
        {{Drive::bileBlock, 6, 336, 0.9},
         {Drive::waterLoss, 96, 132, 0.08 / 36},
         {Drive::foodMissing, 48, 240, 1},
         {Drive::liverLeak, 60, 90, 4}});
    add("dog steroid and injection", Kind::dog,
        {{Drive::steroidDose, 10, 250, 2},
         {Drive::ownSteroid, 120, 336, 0.5},
         {Drive::muscleDeath, 30, 33, deathRate(0.3 / known().dog.muscle.mass, 3)},
         {Drive::canalicularBlock, 200, 300, 0.6}});
    std::vector<Window> fed{{Drive::nephronDeath, 50, 100, deathRate(0.7, 50)},
                            {Drive::shunt, 150, 336, 0.8}};
    for (int day = 0; day < 14; ++day) fed.push_back(meal(24 * day + 8, known().dog));
    add("dog nephron loss and meals", Kind::dog, fed);
    const double scar = deathRate(0.6, 300);
    add("cat blocked urethra and scar", Kind::cat,
        {{Drive::outflowBlock, 24, 84, 1},
         {Drive::nephronStun, 24, 84, deathRate(0.6, 60)},
         {Drive::liverDeath, 0, 300, scar},
         {Drive::liverScar, 0, 300, scar},
         {Drive::liverFat, 120, 260, 0.7}});
    add("dog hemorrhage and inflammation", Kind::dog,
        {{Drive::bleeding, 30, 32, deathRate(0.3, 2)},
         {Drive::fright, 30, 40, 0.6},
         {Drive::inflammation, 100, 250, 0.7}});
    add("cat sepsis and blocked marrow", Kind::cat,
        {{Drive::inflammation, 24, 200, 0.9},
         {Drive::marrowBlock, 60, 120, 0.7},
         {Drive::plateletDeath, 150, 220, 0.04},
         {Drive::parasites, 130, 336, 0.8}});
    add("dog adrenal and nephrotic loss", Kind::dog,
        {{Drive::adrenalDeath, 6, 106, deathRate(0.97, 100)},
         {Drive::kidneyProteinLoss, 120, 336, 0.012},
         {Drive::stress, 40, 70, 0.8}});
    add("dog pancreatitis and losing gut", Kind::dog,
        {{Drive::acinarLeak, 20, 80, 6},
         {Drive::acinarDeath, 20, 80, deathRate(0.4, 60)},
         {Drive::gutProteinLoss, 90, 336, 0.01},
         {Drive::ironLack, 0, 300, 0.9},
         {Drive::thyroxine, 10, 336, -0.9}});
    add("cat thyroxine and diabetes", Kind::cat,
        {{Drive::thyroxine, 0, 336, 3},
         {Drive::insulinLack, 72, 250, 0.92},
         {Drive::hemolysis, 30, 60, 0.02},
         {Drive::heartDeath, 260, 270, deathRate(0.1, 10)}});
    return cases;
}

} // namespace reference
