// The control chart as a picture: every word has its place, and what cannot be drawn is refused.
#include "drawing/control_chart.h"

#include "marks.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace cistern;
using namespace cistern::drawing;

namespace {

/// Two materials that walk off upward from two thirds of the runs on.
ControlChartView walkingOff(std::size_t runs) {
    ControlChartView view;
    view.title = "Control chart of creatinine";
    view.subtitle = "made up";
    RuleRow warned{"1-2s", "a reason to look", true, {}},
        four{"4-1s", "systematic error", false, {}};
    for (const char* name : {"Still Water", "High Water"}) {
        ControlLine line{name, "mean 1.02 mg/dL, SD 0.03 mg/dL", {}};
        for (std::size_t r = 0; r < runs; ++r) {
            const bool off = 3 * r >= 2 * runs;
            const double score = std::sin(static_cast<double>(r)) + (off ? 4 : 0);
            line.marks.push_back({score, off ? ControlState::rejected : ControlState::inControl});
        }
        view.lines.push_back(std::move(line));
    }
    for (std::size_t r = 0; r < runs; ++r) {
        view.runs.push_back(r + 1);
        warned.broken.push_back(3 * r >= 2 * runs);
        four.broken.push_back(3 * r >= 2 * runs + 6);
    }
    view.rules = {warned, four};
    return view;
}

std::vector<Text> texts(const Picture& picture) {
    std::vector<Text> found;
    for (const Mark& mark : picture.marks)
        if (const Text* text = std::get_if<Text>(&mark.is)) found.push_back(*text);
    return found;
}

} // namespace

TEST_CASE("no words of a control chart touch one another or leave the picture", "[drawing]") {
    for (const std::size_t runs : {2u, 12u, 30u, 100u, 1000u})
        for (const double width : {500., 800., 1280., 2400.}) {
            ControlChartView view = walkingOff(runs);
            view.width = width;
            const Picture whole = picture(view);
            const Box page{0, 0, whole.width, whole.height};
            const std::vector<Text> words = texts(whole);
            CHECK(words.size() > 20);
            for (std::size_t i = 0; i < words.size(); ++i) {
                INFO(words[i].lines.front() << ", " << runs << " runs, " << width << " wide");
                CHECK(page.contains(extent(words[i]), 0.5));
                for (std::size_t k = i + 1; k < words.size(); ++k) {
                    INFO(words[k].lines.front());
                    CHECK_FALSE(extent(words[i]).overlaps(extent(words[k]), 1));
                }
            }
        }
}

TEST_CASE("a control chart as SVG holds its words as text", "[drawing]") {
    ControlChartView view = walkingOff(30);
    view.description = "Six runs lie above the mean.";
    const std::string text = svg(view);
    for (const char* words : {">Still Water<", ">High Water<", ">rejected<", ">4-1s<", ">+2 SD<",
                              "Six runs lie above the mean."})
        CHECK_THAT(text, Catch::Contains(words));
    CHECK(svg(view) == text);
    view.rules.clear();
    CHECK_THAT(svg(view), Catch::Contains("No rule is broken in these runs."));
}

TEST_CASE("a control chart that cannot be drawn is refused in a sentence", "[drawing]") {
    const auto refused = [](auto change, const char* words) {
        ControlChartView view = walkingOff(12);
        change(view);
        CHECK_THROWS_WITH(picture(view), Catch::Contains(words));
    };
    refused([](auto& view) { view.runs.resize(1); }, "at least two runs");
    refused([](auto& view) { view.lines.clear(); }, "at least one material");
    refused([](auto& view) { view.lines[1].marks.pop_back(); }, "High Water");
    refused([](auto& view) { view.lines[0].marks[3].score = std::nan(""); }, "in run 4");
    refused([](auto& view) { view.rules[0].broken.pop_back(); }, "1-2s");
    refused([](auto& view) { view.width = 300; }, "500 to 16,384");
}

TEST_CASE("a control chart keeps to its box at any size and scale of letters", "[drawing]") {
    for (const std::size_t runs : {2u, 12u, 30u, 100u})
        for (const Box& box : {Box{20, 30, 260, 220}, Box{20, 30, 400, 300}, Box{20, 30, 700, 560},
                               Box{20, 30, 1200, 700}})
            for (const double scale : {0.8, 1., 2.}) {
                INFO(runs << " runs, " << box.width << " wide, letters at " << scale);
                ControlChartView view = walkingOff(runs);
                view.textScale = scale;
                const Group group = controlChart(view, box);
                CHECK(test::faults(group, box) == "");
                CHECK(test::inkOutside(group, box) == 0);
            }
}

TEST_CASE("a control chart in a box has no page around it", "[drawing]") {
    const ControlChartView view = walkingOff(30);
    std::string all;
    for (const Text& text : test::all<Text>(controlChart(view, {0, 0, 700, 560})))
        all += test::joined(text);
    CHECK_THAT(all, Catch::Contains("Still Water") && Catch::Contains("4-1s") &&
                        !Catch::Contains("Control chart") && !Catch::Contains("Invented"));
}

TEST_CASE("a control chart is told in sentences", "[drawing]") {
    ControlChartView view = walkingOff(12);
    CHECK_THAT(words(view), Catch::StartsWith("Still Water (mean 1.02 mg/dL, SD 0.03 mg/dL): "
                                              "12 runs, from") &&
                                Catch::Contains("1-2s is broken in 4 runs, first in run 9: "));
    view.description = "All in control.";
    CHECK(words(view) == "All in control.");
}
