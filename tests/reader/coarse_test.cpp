// Steps of an ensemble's animals against those of a case.
#include "hand_question.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdlib>
#include <iostream>

using namespace hand;

TEST_CASE("probe", "[.probe]") {
    const auto e = [](const char* n, double d) { const char* s = std::getenv(n); return s ? std::atof(s) : d; };
    body::Steps steps = reader::coarse(static_cast<body::Parts>(e("P", 255)));
    steps.longest = e("L", steps.longest);
    steps.shortest = e("S", steps.shortest);
    steps.afterGentle = e("G", steps.afterGentle);
    steps.ofTimeSince = e("T", steps.ofTimeSince);
    steps.ofDeath = e("D", steps.ofDeath);
    for (const Kind species : {Kind::dog, Kind::cat})
        for (const body::InsultKind& k : known().insults) {
            if (!(species == Kind::dog ? k.dog : k.cat)) continue;
            for (const double share : {0.05, 0.5, 0.95})
                for (const auto& [onset, lasts] : {std::pair{6., 6.}, {48., 12.}, {48., 90.}, {120., 240.}, {720., 720.}}) {
                    body::Plan plan;
                    plan.animal = body::median(known().species(species), adult(species));
                    const double severity = k.least + share * (k.most - k.least);
                    plan.windows = body::windows(body::Insult{&k, severity, -onset, -onset + lasts}, plan.animal.own);
                    plan.from = -onset;
                    plan.looks = {0, 50}; plan.parts = static_cast<body::Parts>(e("P", 255));
                    double worst = 0; std::string which;
                    try {
                        plan.steps = {};
                        const auto fine = body::simulate(plan);
                        plan.steps = steps;
                        const auto rough = body::simulate(plan);
                        for (std::size_t l = 0; l < 2; ++l)
                            for (Analyte a : body::analytes()) { if (!body::known(body::reading::analyte + static_cast<int>(a), plan.parts)) continue;
                                const double zero = lab::origin(a);
                                const double f = fine.table()(static_cast<Eigen::Index>(l), body::reading::analyte + static_cast<int>(a)) - zero, r = rough.table()(static_cast<Eigen::Index>(l), body::reading::analyte + static_cast<int>(a)) - zero;
                                const double off = std::abs(r - f) / (std::abs(f) + 1e-6);
                                if (off > worst) { worst = off; which = std::string(body::name(a)) + " " + std::to_string(f) + " -> " + std::to_string(r); }
                            }
                    } catch (const std::exception& ex) { which = ex.what(); worst = plan.steps.longest == 1 ? 0 : 9; }
                    if (worst > 1e-3) std::cout << body::name(species) << " " << k.name << " " << severity << " onset " << onset << " lasts " << lasts << ": " << worst << " " << which << "\n";
                }
        }
}
