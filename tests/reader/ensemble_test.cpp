// Stories lived by pairs of animals.
#include "hand_question.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace hand;

namespace {

reader::Question asked(Kind species, const std::vector<std::string>& tests,
                       const std::vector<double>& hours = {0}) {
    reader::Question question;
    question.who = adult(species);
    const auto all =
        reports(body::median(known().species(species), question.who), {}, hours, tests);
    for (std::size_t i = 0; i < hours.size(); ++i) {
        question.samples.push_back({});
        question.samples.back().hour = hours[i];
        question.samples.back().report = all[i];
    }
    question.organs = {body::Tissue::liver, body::Tissue::skeletalMuscle};
    return question;
}

std::vector<reader::Story> some(const reader::Stories& how, std::size_t count) {
    std::vector<reader::Story> all;
    for (std::size_t i = 0; i < count; ++i) {
        base::Chance chance(5, base::Purpose::test, i);
        all.push_back(how.draw(i % how.mains().size(), chance));
        all.back().number = i;
    }
    return all;
}

bool same(const reader::Lived& a, const reader::Lived& b) {
    const auto equal = [](const reader::Table& one, const reader::Table& other) {
        return (one == other).all();
    };
    bool presented = a.presented.size() == b.presented.size();
    for (std::size_t i = 0; presented && i < a.presented.size(); ++i)
        presented = a.presented[i].value == b.presented[i].value;
    return presented && a.alive == b.alive && equal(a.level, b.level) && equal(a.own, b.own) &&
           equal(a.work, b.work) && equal(a.leak, b.leak) && equal(a.leakOwn, b.leakOwn);
}

} // namespace

TEST_CASE("An ensemble has the same bits for any threads and in any parts", "[reader]") {
    const reader::Question question = asked(Kind::dog, {"chemistry", "blood count"}, {-24, 0});
    const reader::Stories how(known().priors, question);
    const reader::Wanted wanted = wantedFor(question);
    const body::Species& species = known().dog;
    const auto stories = some(how, 150);
    const auto all = reader::live(stories, 9, how, question, wanted, species, 1);
    CHECK(same(all, reader::live(stories, 9, how, question, wanted, species, 3)));

    const auto cut = stories.begin() + 61;
    reader::Lived parts =
        reader::live({stories.begin(), cut}, 9, how, question, wanted, species, 2);
    parts.append(reader::live({cut, stories.end()}, 9, how, question, wanted, species, 1));
    CHECK(same(all, parts));
    CHECK(parts.stories == stories);
    CHECK_FALSE(same(all, reader::live(stories, 10, how, question, wanted, species, 1)));
}

TEST_CASE("A healthy animal's levels are its own to the full", "[reader]") {
    // A standard deviation of the logarithm is (ln(1 + CV^2))^0.5: log-normal by definition.
    for (const Kind kind : {Kind::dog, Kind::cat}) {
        const reader::Question question = asked(kind, {"chemistry"});
        const reader::Stories how(known().priors, question);
        const reader::Wanted wanted = wantedFor(question);
        const body::Species& species = known().species(kind);
        const auto lived =
            reader::live(std::vector<reader::Story>(1), 1, how, question, wanted, species, 1);
        REQUIRE(lived.alive[0]);
        for (const Analyte analyte :
             {Analyte::ALT, Analyte::ALP, Analyte::CK, Analyte::creatinine, Analyte::albumin,
              Analyte::glucose, Analyte::Na, Analyte::bilirubin}) {
            INFO(body::name(kind) << " " << body::name(analyte));
            const double share = species.between[static_cast<std::size_t>(analyte)];
            CHECK(lived.own(0, wanted.column(0, analyte).value()) ==
                  Approx(std::sqrt(std::log1p(share * share))).epsilon(0.01));
        }
    }
}

TEST_CASE("What cells spill is not the animal's own", "[reader]") {
    // Liver cells hold what the species holds: a hundredfold of what they shed in health drowns it.
    reader::Priors priors;
    priors.insults.push_back(priorOf({"hepatocyte necrosis", 0.3, 24, 12}));
    reader::Question question = asked(Kind::dog, {"chemistry"});
    const reader::Stories how(priors, question);
    reader::Story story;
    story.events.push_back({&priors.insults[0]});
    const reader::Wanted wanted = wantedFor(question);
    const auto lived = reader::live({story}, 1, how, question, wanted, known().dog, 1);
    REQUIRE(lived.alive[0]);
    const Eigen::Index alt = wanted.column(0, Analyte::ALT).value();
    CHECK(lived.level(0, alt) > 1000);
    CHECK(std::abs(lived.own(0, alt)) < 0.05);
    CHECK(lived.work(0, 0) == Approx(0.7).margin(0.1));
    CHECK(lived.leak(0, 0) > 1);
}

TEST_CASE("A story that no animal lives through is counted out, and the others go on", "[reader]") {
    reader::Priors priors;
    // Four of five red cells each day, for ten days.
    priors.insults.push_back(priorOf({"hemolysis", kind("hemolysis").most, 240, 240}));
    reader::Question question = asked(Kind::dog, {"chemistry"});
    const reader::Stories how(priors, question);
    std::vector<reader::Story> stories(3);
    stories[1].events.push_back({&priors.insults[0]});
    for (std::size_t i = 0; i < 3; ++i) stories[i].number = i;
    const auto lived = reader::live(stories, 1, how, question, wantedFor(question), known().dog, 2);
    CHECK(lived.alive == std::vector<char>{1, 0, 1});
    CHECK((lived.level.row(1) == 0).all());
    CHECK((lived.level.row(2) > 0).any());
}

TEST_CASE("Second animals stand above and below evenly, and any two together half the time",
          "[reader]") {
    constexpr std::uint64_t many = 64;
    for (const Analyte one : body::analytes())
        for (const Analyte other : body::analytes()) {
            int together = 0, sum = 0;
            for (std::uint64_t i = 0; i < many; ++i) {
                sum += reader::side(i, one);
                together += reader::side(i, one) * reader::side(i, other);
            }
            CHECK(sum == 0);
            const bool tied = one == other ||
                              (one == Analyte::bands && other == Analyte::neutrophils) ||
                              (other == Analyte::bands && one == Analyte::neutrophils);
            CHECK(together == (tied ? 64 : 0));
        }
}
