#include "reader/signs.h"
#include "reader/small_world.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

/// A sign that one well animal in five with a complaint shows, none at a check-up, never missed.
SignPrior plainSign(const std::string& name = "vomiting") {
    SignPrior sign;
    sign.name = name;
    sign.checkUp = {0, 0};
    sign.complaint = {0.2, 0.2};
    sign.missed = 0;
    sign.graded = false;
    return sign;
}

InsultPrior showing(const std::string& insult, double chance,
                    const std::string& sign = "vomiting") {
    InsultPrior prior = priorOf(insult, 10, half);
    prior.shows[0][sign] = prior.shows[1][sign] = chance;
    return prior;
}

/// P(the sign is told) for a story at these priors.
double told(const Priors& priors, const Story& story, const body::Snapshot& presented = {}) {
    Question question = dogAt({0});
    question.signs = {{priors.signs.at(0).name, true}};
    return SignEvidence(priors, question).chances(story, presented).at(0);
}

double logit(double p) {
    return std::log(p / (1 - p));
}
double logistic(double x) {
    return 1 / (1 + std::exp(-x));
}

body::Snapshot snapshot(body::Analyte analyte, double level) {
    body::Snapshot one;
    one.value[static_cast<std::size_t>(body::reading::analyte) +
              static_cast<std::size_t>(analyte)] = level;
    one.value[body::reading::hydration] = 1;
    return one;
}

} // namespace

TEST_CASE("Findings become signs: named as they stand, measured by thresholds", "[reader]") {
    Priors priors;
    for (const char* name : {"icterus", "fever", "low temperature"})
        priors.signs.push_back(plainSign(name));
    priors.thresholds = {{"body temperature", "fever", true, {39.3, 39.2}},
                         {"body temperature", "low temperature", false, {37.5, 37.6}},
                         {"heart rate", "tachycardia", true, {150, 220}}};
    const auto stated = [&](const std::vector<Stated>& findings, body::Kind kind) {
        std::string text;
        for (const Sign& sign : signsOf(findings, priors, kind))
            text += (sign.there ? "" : "no ") + sign.name + "; ";
        return text;
    };
    CHECK(stated({{"icterus", true, {}}}, body::Kind::dog) == "icterus; ");
    CHECK(stated({{"icterus", false, {}}}, body::Kind::dog) == "no icterus; ");
    CHECK(stated({{"body temperature", {}, 39.25}}, body::Kind::dog) ==
          "no fever; no low temperature; ");
    CHECK(stated({{"body temperature", {}, 39.25}}, body::Kind::cat) ==
          "fever; no low temperature; ");
    CHECK(stated({{"body temperature", {}, 37.0}}, body::Kind::dog) ==
          "no fever; low temperature; ");
    // No prior knows these.
    CHECK(stated({{"hiccups", true, {}}, {"heart rate", {}, 200}}, body::Kind::dog) == "");
    // Stated by name, it stands as stated.
    CHECK(stated({{"body temperature", {}, 38.5}, {"fever", true, {}}}, body::Kind::dog) ==
          "fever; no low temperature; ");
}

TEST_CASE("One sign moves two insults as Bayes has it", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.8), showing("pancreatitis", 0.4)});
    priors.signs = {plainSign()};
    Question question = dogAt({0});
    const auto posterior = [&](bool there) {
        question.signs = {{"vomiting", there}};
        const SignEvidence evidence(priors, question);
        const Stories stories(priors, question);
        std::vector<double> weights;
        double sum = 0;
        for (const Stories::Main& main : stories.mains()) {
            const Story story = main.prior ? only(*main.prior) : Story{};
            weights.push_back(main.chance * std::exp(evidence.log(evidence.chances(story, {}))));
            sum += weights.back();
        }
        for (double& one : weights) one /= sum;
        return weights;
    };
    // Prior 1/2, 1/4, 1/4; there: 0.2, 0.8, 0.4; 0.1 + 0.2 + 0.1.
    const std::vector<double> seen = posterior(true);
    CHECK(seen[0] == Approx(0.25).epsilon(1e-4));
    CHECK(seen[1] == Approx(0.5).epsilon(1e-4));
    CHECK(seen[2] == Approx(0.25).epsilon(1e-4));
    // Not there: 0.8, 0.2, 0.6; 0.4 + 0.05 + 0.15.
    const std::vector<double> lacking = posterior(false);
    CHECK(lacking[0] == Approx(0.4 / 0.6).epsilon(1e-4));
    CHECK(lacking[1] == Approx(0.05 / 0.6).epsilon(1e-4));
    CHECK(lacking[2] == Approx(0.15 / 0.6).epsilon(1e-4));
}

TEST_CASE("Two insults at once each add their own", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.6), showing("pancreatitis", 0.4),
                                 showing("fright", 0.05), priorOf("hemolysis", 10, half)});
    priors.signs = {plainSign()};
    Story both = only(priors.insults[0]);
    both.events.push_back(median(priors.insults[1]));
    // Background 0.2: the first adds 1 - 0.4 / 0.8 = 0.5, the second 1 - 0.6 / 0.8 = 0.25.
    CHECK(told(priors, {}) == Approx(0.2));
    CHECK(told(priors, only(priors.insults[0])) == Approx(0.6));
    CHECK(told(priors, both) == Approx(1 - 0.8 * 0.5 * 0.75));
    // An insult without a row is like any illness.
    both.events.push_back(median(priors.insults[3]));
    CHECK(told(priors, both) == Approx(1 - 0.8 * 0.5 * 0.75));
    // One that keeps the sign away, does.
    both.events.push_back(median(priors.insults[2]));
    CHECK(told(priors, both) == Approx(0.05));
}

TEST_CASE("A severer insult shows a graded sign more often", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.6), showing("fright", 0.05)});
    priors.signs = {plainSign()};
    priors.signs[0].graded = true;
    priors.gradedBy = 0.8;
    Story story = only(priors.insults[0]);
    CHECK(told(priors, story) == Approx(0.6));
    story.events[0].severity = 1.5;
    CHECK(told(priors, story) == Approx(logistic(logit(0.6) + 0.8 * 1.5)));
    story.events[0].severity = -4; // never below what any illness shows
    CHECK(told(priors, story) == Approx(0.2));
    Story spared = only(priors.insults[1]);
    spared.events[0].severity = 2;
    CHECK(told(priors, spared) == Approx(0.05));
    priors.signs[0].graded = false;
    story.events[0].severity = 1.5;
    CHECK(told(priors, story) == Approx(0.6));
}

TEST_CASE("A slow sign shows half as often within the first day", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.6)});
    priors.signs = {plainSign()};
    priors.signs[0].slow = true;
    Story story = only(priors.insults[0]);
    CHECK(told(priors, story) == Approx(0.6)); // begun 48 h ago
    for (auto& onset : priors.insults[0].onset) onset = {Spread::Shape::fold, 20, 20, 20};
    // It adds 0.5 to the background of 0.2, of which half.
    CHECK(told(priors, story) == Approx(1 - 0.8 * 0.75));
}

TEST_CASE("A check-up has a background of its own, and the teller errs", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.6)});
    priors.signs = {plainSign()};
    SignPrior& sign = priors.signs[0];
    sign.checkUp = {0.03, 0.5};
    sign.missed = 0.1;
    Story well;
    well.checkUp = true;
    CHECK(told(priors, well) == Approx(0.03 * 0.9 + 0.97 * 0.03));
    CHECK(told(priors, only(priors.insults[0])) == Approx(0.6 * 0.9 + 0.4 * 0.03));
    sign.calledWhenAbsent = 0.005;
    CHECK(told(priors, only(priors.insults[0])) == Approx(0.6 * 0.9 + 0.4 * 0.005));
}

TEST_CASE("A linked sign follows the level of an analyte, whatever the tables say", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.9)});
    priors.signs = {plainSign()};
    Link yellow, pale;
    yellow.analyte = body::Analyte::bilirubin;
    yellow.half = {40, 40};
    yellow.width = {8, 8};
    yellow.ceiling = 0.97;
    priors.signs[0].links = {yellow};
    const auto at = [&](double level) {
        return told(priors, only(priors.insults[0]), snapshot(body::Analyte::bilirubin, level));
    };
    const auto there = [](double level) { return 0.97 / (1 + std::exp(-(level - 40) / 8)); };
    for (double level : {2.0, 40.0, 300.0})
        CHECK(at(level) == Approx(1 - 0.8 * (1 - there(level))));

    pale.analyte = body::Analyte::PCV;
    pale.half = {0.21, 0.17};
    pale.width = {-0.03, -0.025};
    priors.signs[0].links = {pale, yellow};
    body::Snapshot both = snapshot(body::Analyte::bilirubin, 50);
    both.value[static_cast<std::size_t>(body::reading::analyte) +
               static_cast<std::size_t>(body::Analyte::PCV)] = 0.18;
    const double white = 1 / (1 + std::exp((0.18 - 0.21) / 0.03));
    CHECK(told(priors, {}, both) == Approx(1 - 0.8 * (1 - white) * (1 - there(50))));

    Question question = dogAt({0});
    question.signs = {{"vomiting", true}, {"hiccups", true}};
    const SignEvidence evidence(priors, question);
    CHECK(evidence.analytes() ==
          std::vector<body::Analyte>{body::Analyte::PCV, body::Analyte::bilirubin});
    CHECK(evidence.needsState());
    question.signs = {{"hiccups", true}};
    CHECK(SignEvidence(priors, question).analytes().empty());
    CHECK_FALSE(SignEvidence(priors, question).needsState());
}

TEST_CASE("Dryness is the share of body weight lost as water", "[reader]") {
    Priors priors = smallPriors({});
    priors.signs = {plainSign()};
    Link dry;
    dry.dryness = true;
    dry.half = {0.055, 0.055};
    dry.width = {0.01, 0.01};
    priors.signs[0].links = {dry};
    // A twentieth of body water is 3 % of body weight: what the assets say of both species.
    for (const body::Species* species : {&assets().knowledge.dog, &assets().knowledge.cat})
        CHECK(species->water.total == Approx(0.6));
    body::Snapshot presented;
    presented.value[body::reading::hydration] = 0.95;
    CHECK(told(priors, {}, presented) == Approx(1 - 0.8 * (1 - logistic((0.03 - 0.055) / 0.01))));
    presented.value[body::reading::hydration] = 1;
    CHECK(told(priors, {}, presented) == Approx(1 - 0.8 * (1 - logistic(-5.5))));
}

TEST_CASE("A sign linked to an insult follows its severity while it acts", "[reader]") {
    Priors priors = smallPriors(
        {priorOf("inflammation", 10, half, Span::running), priorOf("pancreatitis", 10, threefold)});
    priors.signs = {plainSign()};
    Link link;
    link.insult = &kindOf("inflammation");
    link.half = {0.42, 0.42};
    link.width = {0.14, 0.14};
    link.ceiling = 0.85;
    priors.signs[0].links = {link};
    CHECK(told(priors, only(priors.insults[0])) ==
          Approx(1 - 0.8 * (1 - 0.85 * logistic((0.5 - 0.42) / 0.14))));
    CHECK(told(priors, only(priors.insults[1])) == Approx(0.2));
    priors.insults[0].span = Span::ended; // 36 h ago
    CHECK(told(priors, only(priors.insults[0])) == Approx(0.2));
}

TEST_CASE("Signs of being ill at all count less, and what is stated absent counts so", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.6)});
    priors.signs = {plainSign(), plainSign("lethargy")};
    priors.signs[1].general = true;
    priors.together = 0.6;
    Question question = dogAt({0});
    question.signs = {{"vomiting", false}, {"lethargy", true}};
    const SignEvidence evidence(priors, question);
    const std::vector<double> chances = evidence.chances(only(priors.insults[0]), {});
    REQUIRE(chances.size() == 2);
    CHECK(chances[0] == Approx(0.4));
    CHECK(chances[1] == Approx(0.2));
    CHECK(evidence.log(chances) == Approx(std::log(0.4) + 0.6 * std::log(0.2)));
}

TEST_CASE("A sign that no prior knows moves nothing", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 0.9, "growing animal")});
    priors.signs = {plainSign()};
    Question question = dogAt({0});
    question.signs = {{"growing animal", false}, {"growing animal", true}};
    const SignEvidence evidence(priors, question);
    for (const Story& story : {Story{}, only(priors.insults[0])})
        CHECK(evidence.chances(story, {}) == std::vector<double>{1, 1});
    CHECK(evidence.log({1, 1}) == 0);
}

TEST_CASE("A chance never leaves the open interval from 0 to 1", "[reader]") {
    Priors priors = smallPriors({showing("inflammation", 1), showing("pancreatitis", 0)});
    priors.signs = {plainSign()};
    Link link;
    link.analyte = body::Analyte::bilirubin;
    link.half = {40, 40};
    link.width = {1e-3, 1e-3};
    for (double background : {0., 1e-9, 0.5, 1.})
        for (bool graded : {false, true})
            for (bool linked : {false, true})
                for (bool there : {false, true})
                    for (double severity : {-40., 0., 40.}) {
                        priors.signs[0].complaint = {background, background};
                        priors.signs[0].graded = graded;
                        priors.signs[0].links = {};
                        if (linked) priors.signs[0].links.push_back(link);
                        Question question = dogAt({0});
                        question.signs = {{"vomiting", there}};
                        const SignEvidence evidence(priors, question);
                        for (const InsultPrior& prior : priors.insults) {
                            Story story = only(prior);
                            story.events[0].severity = severity;
                            for (double level : {0., 1e9}) {
                                const double chance =
                                    evidence
                                        .chances(story, snapshot(body::Analyte::bilirubin, level))
                                        .at(0);
                                CHECK((chance > 0 && chance < 1));
                            }
                        }
                    }
}
