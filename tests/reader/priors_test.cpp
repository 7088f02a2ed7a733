#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace cistern;

namespace {

constexpr double ninetyFifth = 1.6448536269514722; // quantile of the standard normal distribution
constexpr std::array kinds{body::Kind::dog, body::Kind::cat};

const reader::Priors& priors() {
    return test::assets().knowledge.priors;
}

std::size_t of(body::Kind kind) {
    return static_cast<std::size_t>(kind);
}

bool acts(const body::InsultKind& insult, body::Kind kind) {
    return kind == body::Kind::dog ? insult.dog : insult.cat;
}

} // namespace

TEST_CASE("Weights of all main insults and of nothing wrong add up to 1000", "[reader]") {
    for (const body::Kind kind : kinds)
        for (std::size_t age = 0; age < reader::ageCount; ++age) {
            double sum = priors().nothingWrong[of(kind)][age];
            for (const auto& one : priors().insults) sum += one.weight[of(kind)][age];
            INFO(name(kind) << " of age band " << age);
            CHECK(sum == Approx(1000).epsilon(0.005)); // a column of forty rounded numbers
        }
}

TEST_CASE("Each insult of the shelf has one row, with all that it needs where it acts",
          "[reader]") {
    const auto& insults = test::assets().knowledge.insults;
    CHECK(priors().insults.size() == insults.size());
    for (const body::InsultKind& kind : insults) {
        INFO(kind.name);
        const reader::InsultPrior* prior = priors().find(kind);
        REQUIRE(prior);
        for (const body::Kind animal : kinds) {
            double weight = 0;
            for (const double one : prior->weight[of(animal)]) weight += one;
            CHECK((weight > 0) == acts(kind, animal));
            if (!acts(kind, animal)) continue;
            const reader::Spread& severity = prior->severity[of(animal)];
            CHECK(severity.low >= kind.least * (1 - 1e-9)); // a last bit of conversion
            CHECK(severity.high <= kind.most * (1 + 1e-9));
            for (const reader::Spread& one : {severity, prior->onset[of(animal)]}) {
                CHECK(one.low < one.median);
                CHECK(one.median < one.high);
            }
            CHECK_FALSE(prior->shows[of(animal)].empty());
        }
    }
}

TEST_CASE("Each finding that is named has a background, or is known from the age", "[reader]") {
    std::set<std::string> without;
    for (const lesson::FindingKind& finding : test::assets().knowledge.findings)
        if (finding.unit.empty() && !priors().sign(finding.name)) without.insert(finding.name);
    CHECK(without == std::set<std::string>{"growing animal"});
    for (const reader::SignPrior& sign : priors().signs)
        for (const body::Kind kind : kinds) {
            INFO(sign.name << " in the " << name(kind));
            CHECK(sign.checkUp[of(kind)] > 0);
            CHECK(sign.complaint[of(kind)] > 0);
            CHECK(sign.complaint[of(kind)] < 0.5); // nothing wrong shows no sign in most
        }
}

TEST_CASE("Rows say of which animals what they say of which insult", "[reader]") {
    // Spot checks against the table that the rows were taken from; its figures are published
    // (Schofield 2021: 77 and 73 % of 66 dogs) or judgement.
    for (const body::InsultKind& kind : test::assets().knowledge.insults) {
        const reader::InsultPrior& prior = *priors().find(kind);
        if (kind.name == "hypoadrenocorticism") {
            CHECK(prior.shows[0].at("lethargy") == Approx(0.77));
            CHECK(prior.shows[0].at("poor appetite") == Approx(0.73));
            CHECK(prior.weight[0][1] == Approx(4.1));
            CHECK(prior.span == reader::Span::slow);
        }
        if (kind.name == "pancreatitis") {
            CHECK(prior.shows[0].at("fever") == Approx(0.30));
            CHECK(prior.shows[1].at("fever") == Approx(0.12));
            CHECK(prior.onset[0].median == Approx(36));
            CHECK(prior.onset[1].median == Approx(5 * 24));
            const auto dehydration = std::find_if(
                prior.companions.begin(), prior.companions.end(),
                [](const reader::Companion& one) { return one.kind->name == "dehydration"; });
            REQUIRE(dehydration != prior.companions.end());
            CHECK(dehydration->chance[0] == Approx(0.50));
            CHECK(dehydration->chance[1] == Approx(0.54));
        }
        if (kind.name == "fright") CHECK(prior.passing);
    }
    // Links in the model's own units: 2.8 mg/dL of bilirubin at 17.104 umol/L, 1.4 g/dL, 21 %.
    CHECK(priors().sign("icterus")->links.at(0).half[0] == Approx(47.89).epsilon(1e-3));
    CHECK(priors().sign("ascites")->links.at(0).half[1] == Approx(14));
    CHECK(priors().sign("pale gums")->links.at(0).half[0] == Approx(0.21));
    CHECK(priors().sign("pale gums")->links.at(0).width[0] == Approx(-0.03));
}

TEST_CASE("A spread gives back its median and its 5 and 95 % points", "[reader]") {
    using reader::Spread;
    for (const reader::InsultPrior& prior : priors().insults)
        for (const body::Kind kind : kinds) {
            if (!acts(*prior.kind, kind)) continue;
            for (const Spread& one : {prior.severity[of(kind)], prior.onset[of(kind)]}) {
                INFO(prior.kind->name);
                CHECK(one.at(0) == Approx(one.median).epsilon(1e-12)); // rounding
                CHECK(one.at(-ninetyFifth) == Approx(one.low).epsilon(1e-12));
                CHECK(one.at(ninetyFifth) == Approx(one.high).epsilon(1e-12));
                CHECK(one.at(1) > one.at(0.5));
            }
        }
    // By hand: half way to a point twice as high lies the square root of 2; half way from even
    // odds to odds of 9 lie odds of 3.
    const Spread fold{Spread::Shape::fold, 1, 0.5, 2}, share{Spread::Shape::share, 0.5, 0.1, 0.9};
    CHECK(fold.at(ninetyFifth / 2) == Approx(std::sqrt(2.)));
    CHECK(share.at(ninetyFifth / 2) == Approx(0.75));
    CHECK(share.at(20) < 1);
}

TEST_CASE("A spread stops where nothing more is possible", "[reader]") {
    const reader::Spread one{reader::Spread::Shape::fold, 1, 0.5, 2, 0.4, 3};
    CHECK(one.at(20) == 3);
    CHECK(one.at(-20) == 0.4);
}
