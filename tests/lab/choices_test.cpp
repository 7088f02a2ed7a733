// What a person can do otherwise about a draw, by name and in words.
#include "hand_bench.h"
#include "lab/specimen/choices.h"
#include "lab/specimen/volume.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace cistern;
using hand::Analyte;

namespace {

lab::Handling usual() {
    lab::Handling handling;
    handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
    return handling;
}

std::string refusal(const std::string& name, const std::string& value) {
    try {
        lab::handledOtherwise(usual(), name, value);
    } catch (const std::invalid_argument& error) {
        return error.what();
    }
    return "";
}

std::string now(const lab::Handling& handling, const std::string& name) {
    for (const lab::Choice& one : lab::choices(handling))
        if (one.name == name) return one.now;
    return "";
}

} // namespace

TEST_CASE("every choice is said in a way that sets it again", "[lab]") {
    const lab::Handling handling = usual();
    const std::vector<lab::Choice> all = lab::choices(handling);
    CHECK(all.size() > 10);
    for (const lab::Choice& one : all) {
        INFO(one.name << " " << one.now);
        CHECK_FALSE(one.meaning.empty());
        CHECK_FALSE(one.allowed.empty());
        CHECK(lab::handledOtherwise(handling, one.name, one.now) == handling);
    }
}

TEST_CASE("one thing is done otherwise and the rest stays", "[lab]") {
    lab::Handling wanted = usual();
    wanted.tubes[0].clot = 4. / 60;
    CHECK(lab::handledOtherwise(usual(), "serum clot", "4 min") == wanted);
    CHECK(now(wanted, "serum clot") == "4 min");
    wanted = usual();
    wanted.tubes[1].fill = 0.2;
    CHECK(lab::handledOtherwise(usual(), "edta fill", "20 %") == wanted);
    CHECK(lab::handledOtherwise(usual(), "edta fill", "20") == wanted); // in the shown unit
    wanted = usual();
    wanted.light = lab::Light::sun;
    CHECK(lab::handledOtherwise(usual(), "light", "sun") == wanted);
    wanted = usual();
    wanted.tubes[0].toppedFrom = "edta";
    CHECK(lab::handledOtherwise(usual(), "serum topped from", "edta") == wanted);
    CHECK(lab::handledOtherwise(wanted, "serum topped from", "nothing") == usual());
    const lab::Handling turned = lab::handledOtherwise(usual(), "order", "edta, serum");
    CHECK(turned.tubes[0].name == "edta");
    CHECK(turned.tubes[1] == usual().tubes[0]);
}

TEST_CASE("what cannot be done is refused in one sentence", "[lab]") {
    CHECK(refusal("serum clot", "-1 min") ==
          "The serum clot cannot be \"-1 min\"; allowed: 0 min to 3 d.");
    CHECK(refusal("serum clot", "4 g") ==
          "The serum clot cannot be \"4 g\"; allowed: 0 min to 3 d.");
    CHECK(refusal("edta inversions", "2.5") ==
          "The edta inversions cannot be \"2.5\"; allowed: a whole number, 0 to 100.");
    CHECK(refusal("edta inversions", "nan").find("allowed") != std::string::npos);
    CHECK(refusal("vein", "aorta").find("jugular") != std::string::npos);
    CHECK(refusal("order", "serum") ==
          "The order cannot be \"serum\"; allowed: each of serum, edta once, parted by commas.");
    CHECK(refusal("order", "serum, serum").find("once") != std::string::npos);
    CHECK(refusal("serum clto", "4 min") ==
          "Nothing about this draw is called \"serum clto\"; did you mean \"serum clot\"?");
}

TEST_CASE("a spin is told as the pull that it makes", "[lab]") {
    // Centrifuge manuals: 1.118e-5 r n^2.
    CHECK(lab::rcf(10, 3000) == Approx(1006).margin(1));
    CHECK(lab::rcf(15, 3000) == Approx(1509).margin(1));
    CHECK(lab::rcf(8.5, 12000) == Approx(13684).margin(1));
    CHECK(lab::rcf(12, 3113) == Approx(1300).margin(1));
}

TEST_CASE("a draw takes what its tubes hold, against the blood of the animal", "[lab]") {
    // Blood of an adult: dog 86, cat 55 mL/kg (Blood volume, after the British guidance for
    // research animals); a tenth at most: 172 mL of a 20 kg dog, 22 mL of a 4 kg cat.
    lab::Bench bench = hand::bench();
    body::Individual cat = hand::dog();
    cat.who.weight = 4;
    cat.own.redCells.bloodVolume = 0.055;
    const std::string test = bench.tests.front().name;
    const lab::Volume volume = lab::volume(bench, cat, usual(), {test});
    CHECK(volume.tubes == std::vector<std::string>{"serum"});
    CHECK(volume.taken == Approx(2));
    CHECK(volume.blood == Approx(220));
    CHECK(lab::healthyShare * volume.blood == Approx(22));
    CHECK(volume.share() < lab::sickShare);
    const lab::Handling half = lab::handledOtherwise(usual(), "serum fill", "50 %");
    CHECK(lab::volume(bench, cat, half, {test}).taken == Approx(1));
    // A rule of one percent of body weight would take 40 mL of that cat, more than a healthy one
    // spares.
    CHECK(0.01 * 4000 / volume.blood > lab::healthyShare);
}
