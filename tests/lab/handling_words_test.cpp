#include "lab/specimen/handling_words.h"

#include <catch2/catch.hpp>

using namespace cistern;
using lab::Handling;
using lab::Tube;

namespace {

Handling usual() {
    Handling handling;
    handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
    return handling;
}

} // namespace

TEST_CASE("Handling as it should be is not told", "[lab]") {
    CHECK(lab::said({}).empty());
    CHECK(lab::said(usual()).empty());
    Handling stated = usual();
    stated.vein = "cephalic";
    stated.fasted = 12;
    stated.tubes.push_back(lab::usualTube("urine"));
    CHECK(lab::said(stated).empty()); // every report states vein and fast by itself
    CHECK(lab::inOne(lab::said(stated)).empty());
}

TEST_CASE("Each departure from the usual is told in plain words", "[lab]") {
    const auto told = [](auto change) {
        Handling handling = usual();
        change(handling, handling.tubes[0], handling.tubes[1]);
        return lab::inOne(lab::said(handling));
    };
    using H = Handling;
    using T = Tube;
    CHECK(told([](H& h, T&, T&) { h.attempts = 3; }) == "3 attempts at the vein");
    CHECK(told([](H&, T&, T& edta) { edta.fill = 0.2; }) == "EDTA tube 20 % full");
    CHECK(told([](H&, T&, T& edta) { edta.inversions = 0; }) == "EDTA tube not turned over");
    CHECK(told([](H&, T&, T& edta) { edta.inversions = 60; }) == "EDTA tube turned over 60 times");
    CHECK(told([](H&, T& serum, T&) { serum.clot = 95.0 / 60; }) ==
          "serum tube 95 min on the clot");
    CHECK(told([](H&, T& serum, T&) { serum.clot = 4; }) == "serum tube 4 h on the clot");
    CHECK(told([](H&, T& serum, T&) { serum.rcf = 300; }) == "serum tube spun at 300 g for 10 min");
    CHECK(told([](H&, T& serum, T&) { serum.minutes = 0; }) == "serum tube not spun");
    CHECK(told([](H&, T& serum, T&) { serum.toppedFrom = "edta"; }) ==
          "serum tube topped up from the EDTA tube");
    CHECK(told([](H&, T& serum, T& edta) { std::swap(serum, edta); }) ==
          "filled in this order: EDTA and serum");
    CHECK(told([](H& h, T&, T&) { h.unseparated = 6.5; }) == "6.5 h on its cells after the spin");
    CHECK(told([](H& h, T&, T&) { h.temperature = 4; }) == "kept at 4 °C");
    CHECK(told([](H& h, T&, T&) {
              h.light = lab::Light::sun;
              h.lightFor = 2;
          }) == "serum 2 h in the sun");
    CHECK(told([](H& h, T&, T&) { h.filmAfter = 24; }) == "film and count after 24 h");
}

TEST_CASE("Several departures follow one another, from the vein to the film", "[lab]") {
    Handling handling = usual();
    handling.filmAfter = 6;
    handling.attempts = 2;
    handling.tubes[1].fill = 0.2;
    CHECK(lab::inOne(lab::said(handling)) ==
          "2 attempts at the vein; EDTA tube 20 % full; film and count after 6 h");
}

TEST_CASE("Whoever was not there sees only what tubes and labels show", "[lab]") {
    lab::Handling handling = usual();
    handling.tubes[0].toppedFrom = "edta";
    handling.tubes[0].inversions = 40;
    handling.light = lab::Light::sun;
    std::swap(handling.tubes[0], handling.tubes[1]);
    CHECK_FALSE(lab::said(handling).empty());
    CHECK(lab::shownByTubes(handling).empty());
    handling.tubes[1].clot = 1.5;
    CHECK(lab::shownByTubes(handling) == std::vector<std::string>{"serum tube 90 min on the clot"});
}
