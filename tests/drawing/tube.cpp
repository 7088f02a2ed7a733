// The specimen tube: its levels are its shares, its words keep their places, and every state shows
// by more than its color.
#include "drawing/tube.h"

#include "marks.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace cistern::test;

namespace {

constexpr std::array additives{Additive::clot,    Additive::gel,     Additive::edta,
                               Additive::heparin, Additive::citrate, Additive::fluoride};
const std::vector<Box> boxes{
    {0, 0, 70, 200}, {10, 20, 92, 210}, {0, 0, 140, 240}, {0, 0, 120, 500}, {5, 5, 200, 500}};

TubeView serum() {
    TubeView view;
    view.name = "serum, rushed";
    view.spun = true;
    view.clot = 0.4;
    view.hemolysis = 0.3;
    view.icterus = 0.2;
    view.lipemia = 0.6;
    view.turns = 5;
    view.caption = "half full: too much additive";
    return view;
}

std::size_t shapesIn(const Group& group, const std::string& name) {
    return all<Shape>(named(group, name)).size();
}

} // namespace

TEST_CASE("no words of a tube overlap or leave its box, at any text scale", "[drawing]") {
    for (const Additive additive : additives)
        for (const bool spun : {false, true})
            for (const Box& box : boxes)
                for (const double scale : {0.8, 1.0, 1.5, 2.0}) {
                    TubeView view = serum();
                    view.additive = additive;
                    view.spun = spun;
                    view.textScale = scale;
                    CAPTURE(static_cast<int>(additive), spun, box.width, box.height, scale);
                    const Group drawn = tube(view, box);
                    CHECK(faults(drawn, box) == "");
                    const TubePlaces places = tubePlaces(view, box);
                    for (const Box& part : {places.cap, places.glass, places.label})
                        CHECK(box.contains(part, 0.01));
                    CHECK(places.glass.contains(places.liquid, 0.01));
                    CHECK_FALSE(places.label.overlaps(places.inside));
                    const std::vector<Text> texts = all<Text>(drawn);
                    CHECK(texts.size() >= 3); // the label, the name, the turns
                    for (const Text& text : texts) {
                        const Box letters = extent(text);
                        const bool label = places.label.contains(letters, 0.01);
                        CHECK((label || !letters.overlaps(places.glass, 0.01)));
                        CHECK_FALSE(letters.overlaps(places.cap, 0.01));
                    }
                }
}

TEST_CASE("the blood stands as high as it was filled, and a height tells the fill", "[drawing]") {
    const Box box{0, 0, 120, 400};
    for (const Additive additive : additives)
        for (double fill : {0.0, 0.25, 0.5, 1.0, 1.1}) {
            TubeView view = serum();
            view.additive = additive;
            view.fill = fill;
            const TubePlaces places = tubePlaces(view, box);
            CAPTURE(static_cast<int>(additive), fill);
            CHECK(places.liquid.height ==
                  Approx(fill * (places.inside.bottom() - places.nominal)).margin(1e-9));
            CHECK(places.fillAt(places.liquid.y) == Approx(fill).margin(1e-9));
        }
    const TubePlaces places = tubePlaces(serum(), box);
    CHECK(places.fillAt(places.nominal) == Approx(1));
    CHECK(places.fillAt(-1000) == Approx(mostFill));
    CHECK(places.fillAt(1000) == 0);
}

TEST_CASE("a spun tube is layered by its shares, gel between clot and serum", "[drawing]") {
    const Box box{0, 0, 160, 420};
    TubeView view = serum();
    view.additive = Additive::gel;
    view.cells = 0.4;
    const TubePlaces places = tubePlaces(view, box);
    const std::vector<Shape> layers = all<Shape>(named(tube(view, box), "contents"));
    REQUIRE(layers.size() > 3);
    const Box clot = around(layers[0].path), gel = around(layers[1].path),
              clear = around(layers[2].path);
    CHECK(clot.height == Approx(0.4 * places.liquid.height));
    CHECK(clear.height == Approx(0.6 * places.liquid.height));
    CHECK(clot.y == Approx(gel.bottom()));
    CHECK(gel.y == Approx(clear.bottom()));
    CHECK(clear.y == Approx(places.liquid.y));
    view.spun = false; // then the gel rests below
    const std::vector<Shape> whole = all<Shape>(named(tube(view, box), "contents"));
    CHECK(around(whole[0].path).y == Approx(around(whole[1].path).bottom()));
    CHECK(around(whole[1].path).height == Approx(places.liquid.height));
}

TEST_CASE("tubes side by side stand alike if told how high the words are", "[drawing]") {
    const Box box{0, 0, 80, 260};
    TubeView one = serum(), other = serum();
    other.caption = "";
    other.additive = one.additive;
    CHECK(tubePlaces(one, box).glass.bottom() < tubePlaces(other, box).glass.bottom());
    other.wordsHeight = box.bottom() - tubePlaces(one, box).glass.bottom();
    CHECK(tubePlaces(one, box).glass.bottom() == Approx(tubePlaces(other, box).glass.bottom()));
    CHECK(tubePlaces(one, box).nominal == Approx(tubePlaces(other, box).nominal));
    CHECK(faults(tube(other, box), box) == "");
}

TEST_CASE("each additive has its word and a stopper of its own", "[drawing]") {
    const Box box{0, 0, 140, 300};
    std::set<std::string> labels;
    std::set<std::tuple<int, int, int>> colors;
    std::set<std::string> patterns;
    for (const Additive additive : additives) {
        TubeView view = serum();
        view.additive = additive;
        const Group drawn = tube(view, box);
        for (const Text& text : all<Text>(drawn))
            if (tubePlaces(view, box).label.contains(extent(text), 0.01))
                labels.insert(text.lines.front());
        const std::vector<Shape> cap = all<Shape>(named(drawn, "stopper"));
        const Color color = cap.at(0).fill.value();
        colors.insert({color.red, color.green, color.blue});
        std::string pattern; // what lies over the ground: how many marks, how high and wide
        for (const Shape& shape : cap)
            pattern += std::to_string(std::lround(around(shape.path).height)) + "x" +
                       std::to_string(std::lround(around(shape.path).width)) + " ";
        patterns.insert(pattern);
    }
    CHECK(labels == std::set<std::string>{"serum clot", "serum gel", "EDTA", "heparin", "citrate",
                                          "fluoride"});
    CHECK(colors.size() == additives.size());
    CHECK(patterns.size() == additives.size());
}

TEST_CASE("fibrin left over hangs in serum spun too soon, clots where none should be",
          "[drawing]") {
    const Box box{0, 0, 120, 400};
    TubeView view = serum();
    const auto strands = [&](double clot) {
        view.clot = clot;
        return shapesIn(tube(view, box), "strands");
    };
    CHECK(strands(1) == 0);
    CHECK(strands(0.9) > 0);
    CHECK(strands(0.4) > strands(0.9));
    view.additive = Additive::edta;
    CHECK(strands(0) == 0);
    CHECK(strands(0.6) > strands(0.2));
    view.spun = false;
    view.additive = Additive::clot;
    CHECK(strands(0) == 0);
    CHECK(strands(1) > strands(0.3));
}

TEST_CASE("how serum looks is said in words and drawn with more than a tint", "[drawing]") {
    const Box box{0, 0, 200, 420};
    TubeView view;
    view.spun = true;
    view.clot = 1;
    CHECK(words(view) == "A tube: filled to 100 % of its line, 100 % clotted, spun; the serum is "
                         "clear.");
    CHECK(shapesIn(tube(view, box), "fat") == 0);
    view.name = "serum";
    view.lipemia = 0.8;
    view.hemolysis = 0.7;
    view.icterus = 0.3;
    view.turns = 5;
    CHECK(words(view) == "A tube, serum: filled to 100 % of its line, turned 5 times, 100 % "
                         "clotted, spun; the serum is red, yellow, milky.");
    CHECK(shapesIn(tube(view, box), "fat") > 0);
    std::string beside;
    for (const Text& text : all<Text>(tube(view, box)))
        for (const std::string& line : text.lines) beside += line + "|";
    CHECK_THAT(beside, Catch::Contains("serum|red, yellow, milky|"));
}

TEST_CASE("a tube that cannot be drawn is refused in a sentence", "[drawing]") {
    const auto refused = [](auto spoil, const char* sentence) {
        TubeView view = serum();
        spoil(view);
        CHECK_THROWS_WITH(tube(view, {0, 0, 100, 300}), Catch::Contains(sentence));
    };
    refused([](TubeView& v) { v.fill = 1.2; }, "its fill");
    refused([](TubeView& v) { v.fill = std::nan(""); }, "its fill");
    refused([](TubeView& v) { v.cells = -0.1; }, "cells");
    refused([](TubeView& v) { v.hemolysis = 2; }, "hemolysis");
    refused([](TubeView& v) { v.clot = std::nan(""); }, "clot");
    refused([](TubeView& v) { v.turns = -1; }, "turns");
    refused([](TubeView& v) { v.textScale = 0; }, "text scale");
    CHECK_THROWS_WITH(tube(serum(), {0, 0, 40, 300}), Catch::Contains("60 wide"));
}
