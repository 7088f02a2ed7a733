#include "base/text.h"
#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"

#include <algorithm>
#include <array>

namespace cistern::scenario {

namespace {

using base::FaultKind;

const std::vector<std::string> veins{"jugular", "cephalic", "medial saphenous", "lateral saphenous",
                                     "ear"};
const std::vector<std::string> tubeNames{"serum",   "edta",     "heparin",
                                         "citrate", "fluoride", "urine"};
const std::vector<std::string> lights{"dark", "room", "sun"};
const std::vector<std::string> benchFaults{"drift", "bad lot", "dirty aperture"};

constexpr double day = 24; // [h]

/// A tube of the format's sample: full, mixed and spun as it should be.
lesson::Tube usualTube(const std::string& name) {
    lesson::Tube tube;
    tube.name = name;
    tube.inversions = name == "serum" ? 5 : 8;
    return tube;
}

bool sameHandling(const lesson::Tube& a, const lesson::Tube& b) {
    return a.fill == b.fill && a.inversions == b.inversions && a.clot == b.clot && a.rcf == b.rcf &&
           a.spinMinutes == b.spinMinutes && a.toppedFrom == b.toppedFrom;
}

lesson::Tube readTube(Reader& map, const std::string& name) {
    lesson::Tube tube = usualTube(name);
    tube.fill = map.find("fill").quantity({"1", 0.01, 1.5, "%"}).value_or(tube.fill);
    tube.inversions =
        static_cast<int>(map.find("inversions").count(0, 100).value_or(tube.inversions));
    tube.clot = map.find("clot").quantity(span(3 * day, "0 min to 3 d")).value_or(tube.clot);
    if (Reader spin = map.find("spin")) {
        tube.rcf = spin.need("rcf").quantity({"1", 0, 25000, "", true}).value_or(tube.rcf);
        tube.spinMinutes =
            spin.need("minutes").quantity({"1", 0, 120, "", true}).value_or(tube.spinMinutes);
        spin.noMore();
    }
    if (const auto from = map.find("topped from").oneOf(tubeNames, "tube"))
        tube.toppedFrom = tubeNames[*from];
    map.noMore();
    return tube;
}

void readHandling(Reader map, lesson::Draw& draw) {
    draw.unseparated = map.find("unseparated").quantity(span(7 * day, "0 h to 7 d")).value_or(0);
    map.find("temperature").quantity({"Cel", -40, 60});
    map.find("light").oneOf(lights, "light");
    map.find("film after").quantity(span(7 * day, "0 h to 7 d"));
    if (map) map.noMore();
}

std::vector<std::string> readTests(Reader list, const lab::Bench& bench) {
    std::vector<std::string> known, tests;
    for (const lab::Test& test : bench.tests) known.push_back(test.name);
    const auto items = list.items();
    for (Reader item : items)
        if (const auto at = item.oneOf(known, "test")) tests.push_back(known[*at]);
    if (list.isList() && items.empty()) list.fault(FaultKind::wrongShape, "", "at least one test");
    return tests;
}

} // namespace

void CaseReader::draws(Reader list) {
    const auto items = list.items();
    if (list.isList() && items.empty()) list.fault(FaultKind::wrongShape, "", "at least one draw");
    for (Reader item : items) {
        lesson::Draw draw;
        Reader at = item.need("at");
        const auto hour = at.quantity(clock());
        draw.at = hour.value_or(0);
        if (hour && !lesson.draws.empty() && *hour < lesson.draws.back().at)
            at.fault(FaultKind::wrongOrder, at.text(), "draws from first to last");
        if (hour && *hour < -lesson.who.age)
            at.fault(FaultKind::contradiction, at.text(), "a time after the animal's birth");
        draw.tests = readTests(item.need("tests"), knowledge.bench);
        if (const auto vein = item.find("vein").oneOf(veins, "vein")) draw.vein = veins[*vein];
        Reader fasted = item.find("fasted");
        draw.fasted = fasted.quantity(span(30 * day, "0 h to 30 d"));
        for (const double meal : lesson.meals)
            if (hour && draw.fasted && meal < *hour && meal > *hour - *draw.fasted)
                fasted.fault(FaultKind::contradiction, fasted.text(),
                             "no more than the time since the last of 'meals'");
        if (Reader tubes = item.find("tubes")) {
            for (Reader& tube : tubes.members()) {
                const std::string name = tube.node()->key;
                if (std::find(tubeNames.begin(), tubeNames.end(), name) == tubeNames.end()) {
                    sheet.fault(FaultKind::unknownName, tube.node()->keySpot, tube.subject(), name,
                                base::listed(tubeNames));
                    continue;
                }
                draw.tubes.push_back(readTube(tube, name));
                if (!sameHandling(draw.tubes.back(), usualTube(name))) idle(tube);
            }
        } else {
            draw.tubes = {usualTube("serum"), usualTube("edta")};
        }
        if (Reader order = item.find("order")) {
            for (Reader& tube : order.items())
                if (const auto which = tube.oneOf(tubeNames, "tube"))
                    draw.order.push_back(tubeNames[*which]);
            idle(order);
        }
        if (Reader handling = item.find("handling")) {
            readHandling(handling, draw);
            idle(handling);
        }
        item.noMore();
        lesson.draws.push_back(std::move(draw));
    }
}

void CaseReader::bench(Reader map) {
    static const std::vector<std::string> photometers{"default"};
    static const std::vector<std::string> switches{"on", "off"};
    map.find("photometer").oneOf(photometers, "photometer");
    if (Reader faults = map.find("faults"))
        for (Reader& item : faults.items()) {
            std::string written;
            if (const auto at = item.need("fault").oneOf(benchFaults, "fault of the bench"))
                written = benchFaults[*at];
            if (const auto test = readName(item.find("test"), body::analytes(), "analyte"))
                written += ", " + std::string(name(*test));
            Reader by = item.find("by");
            if (by.quantity({"1", -0.95, 10, "%"})) written += ", " + by.text();
            item.noMore();
            lesson.benchFaults.push_back(written);
            idle(item);
        }
    Reader check = map.find("linearity check");
    if (const auto at = check.oneOf(switches, "switch"); at && switches[*at] == "off") {
        lesson.benchFaults.push_back("linearity check off");
        idle(check);
    }
    if (map) map.noMore();
}

} // namespace cistern::scenario
