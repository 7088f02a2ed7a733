// Steps of an ensemble's animals against those of a case.
#include "hand_question.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <iostream>

using namespace hand;

namespace {

body::Plan lifeOf(const reader::Stories& how, const reader::Story& story,
                  const body::Signalment& who, const body::Species& species) {
    std::array<double, body::analyteCount> deviations{};
    for (const Analyte analyte : body::analytes())
        deviations[static_cast<std::size_t>(analyte)] = reader::side(story.number, analyte);
    body::Individual animal = body::raised(species, who, deviations);
    body::drawHalfLives(animal, species.halfLifeSpread, 1, story.number);
    return planOf(animal, how.windows(story, species), {0, 40});
}

/// Largest departure of a level, over how healthy animals differ; nothing if only one of the two
/// lives.
struct Off {
    double most = 0;
    Analyte analyte{};
    bool disagree = false;
};

Off departure(body::Plan plan, const body::Species& species) {
    Off off;
    const auto lives = [&]() -> std::optional<body::Course> {
        try {
            return body::simulate(plan);
        } catch (const body::BeyondLife&) {
            return std::nullopt;
        }
    };
    const auto fine = lives();
    reader::coarsen(plan);
    const auto rough = lives();
    off.disagree = fine.has_value() != rough.has_value();
    if (!fine || !rough) return off;
    for (const lab::Method& method : known().bench.methods) {
        const int reading = body::reading::analyte + static_cast<int>(method.analyte);
        if (!body::known(reading, plan.parts)) continue;
        const reader::Scale scale = reader::scaleOf(method, species);
        for (Eigen::Index look = 0; look < 2; ++look) {
            const double apart = std::abs(scale.of(fine->table()(look, reading)) -
                                          scale.of(rough->table()(look, reading))) /
                                 reader::healthySpread(method, species);
            if (apart > off.most) off = {apart, method.analyte, false};
        }
    }
    return off;
}

} // namespace

TEST_CASE("Coarse steps move no level by more than a part of how healthy animals differ",
          "[reader]") {
    constexpr int each = 12; // stories of each main insult, kind and age
    // Measured: 99 in 100 stories lie below a fiftieth.
    constexpr double usual = 0.02, most = 0.2, mostOfCells = 0.5;
    const auto without = [](body::Part part) { return ~(1u << static_cast<int>(part)); };
    const std::array<body::Parts, 4> asked{
        body::allParts, body::allParts & without(body::Part::portal),
        body::allParts & without(body::Part::whiteCells),
        body::allParts & without(body::Part::whiteCells) & without(body::Part::portal)};
    for (const Kind kind : {Kind::dog, Kind::cat}) {
        const body::Species& species = known().species(kind);
        int count = 0, above = 0;
        for (const double years : {0.3, 4., 12.}) {
            reader::Question question;
            question.who = adult(kind);
            question.who.age = years * 8766;
            question.samples.resize(1);
            const reader::Stories how(known().priors, question);
            for (std::size_t main = 0; main < how.mains().size(); ++main)
                for (int i = 0; i < each; ++i) {
                    base::Chance chance(3, base::Purpose::test, main,
                                        static_cast<std::uint32_t>(i));
                    reader::Story story = how.draw(main, chance);
                    story.number = main * each + static_cast<std::size_t>(i);
                    body::Plan plan = lifeOf(how, story, question.who, species);
                    plan.parts = asked[static_cast<std::size_t>(i) % asked.size()];
                    const Off off = departure(plan, species);
                    INFO(body::name(kind)
                         << " of " << years << " years, "
                         << (story.events.empty() ? "well" : story.events[0].prior->kind->name)
                         << ": " << body::name(off.analyte) << " off by " << off.most);
                    CHECK_FALSE(off.disagree);
                    const bool cells =
                        body::has(body::partsFor({off.analyte}), body::Part::whiteCells);
                    CHECK(off.most < (cells ? mostOfCells : most));
                    ++count;
                    above += off.most > usual;
                }
        }
        INFO(above << " of " << count);
        CHECK(above < 0.05 * count);
    }
}
