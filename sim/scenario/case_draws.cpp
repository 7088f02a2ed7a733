#include "base/text.h"
#include "lab/specimen/choices.h"
#include "scenario/asset_reader.h"
#include "scenario/case_reader.h"

#include <algorithm>
#include <span>

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// What a number of the handling may be; `bare` where people write no unit.
Range range(const lab::Allowed& allowed) {
    const bool bare = allowed.shown.empty();
    return {std::string(allowed.unit),
            allowed.least,
            allowed.most,
            bare || allowed.shown != "%" ? "" : "%",
            bare,
            0,
            bare || allowed.unit != "h" ? "" : std::string(allowed.words)};
}

std::optional<std::string> word(Reader reader, std::span<const std::string_view> words,
                                const std::string& what) {
    const std::vector<std::string> known(words.begin(), words.end());
    const auto at = reader.oneOf(known, what);
    return at ? std::optional(known[*at]) : std::nullopt;
}

/// {rcf: 1500, minutes: 10}, or for a centrifuge that shows turns {radius: 8.5 cm, speed: 3000,
/// minutes: 10}.
void readSpin(Reader spin, lab::Tube& tube) {
    if (!spin) return;
    if (Reader radius = spin.find("radius")) {
        const double arm = radius.quantity({"cm", 1, 60}).value_or(0);
        const double speed = spin.need("speed").quantity({"1", 0, 30000, "", true}).value_or(0);
        tube.rcf = lab::rcf(arm, speed);
    } else {
        tube.rcf = spin.need("rcf").quantity(range(lab::rcfAllowed)).value_or(tube.rcf);
    }
    tube.minutes = spin.need("minutes").quantity(range(lab::spinAllowed)).value_or(tube.minutes);
    spin.noMore();
}

lab::Tube readTube(Reader& map, const std::string& name) {
    lab::Tube tube = lab::usualTube(name);
    tube.fill = map.find("fill").quantity(range(lab::fillAllowed)).value_or(tube.fill);
    tube.inversions =
        static_cast<int>(map.find("inversions").count(0, 100).value_or(tube.inversions));
    tube.clot = map.find("clot").quantity(range(lab::clotAllowed)).value_or(tube.clot);
    readSpin(map.find("spin"), tube);
    if (name == "serum") // the only tube for which it is known what comes along
        if (const auto other = word(map.find("topped from"), lab::toppedFrom, "tube"))
            tube.toppedFrom = *other;
    map.noMore();
    return tube;
}

/// What happens to all tubes alike.
void readWaiting(Reader map, lab::Handling& handling) {
    const Range week = range(lab::waitAllowed);
    handling.unseparated = map.find("unseparated").quantity(week).value_or(handling.unseparated);
    handling.temperature =
        map.find("temperature").quantity(range(lab::roomAllowed)).value_or(handling.temperature);
    if (const auto light = word(map.find("light"), lab::lights, "light"))
        handling.light = *lab::lightNamed(*light);
    handling.lightFor = map.find("light for").quantity(week).value_or(handling.lightFor);
    handling.filmAfter = map.find("film after").quantity(week).value_or(handling.filmAfter);
    if (map) map.noMore();
}

/// Puts tubes that `order` names first, in its order; the others keep theirs.
void order(Reader list, std::vector<lab::Tube>& tubes) {
    auto next = tubes.begin();
    for (Reader& item : list.items()) {
        const auto name = word(item, lab::tubeNames, "tube");
        if (!name) continue;
        const auto named = [&](const lab::Tube& tube) { return tube.name == *name; };
        const auto found = std::find_if(next, tubes.end(), named);
        if (found != tubes.end())
            std::rotate(next, found, found + 1), ++next;
        else
            item.fault(FaultKind::contradiction, item.text(), "each of the draw's 'tubes' once");
    }
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
        lab::Handling& handling = draw.handling;
        if (const auto vein = word(item.find("vein"), lab::veins, "vein")) handling.vein = *vein;
        handling.attempts = static_cast<int>(item.find("attempts").count(1, 10).value_or(1));
        Reader fasted = item.find("fasted");
        handling.fasted = fasted.quantity(range(lab::fastAllowed));
        for (const double meal : lesson.meals)
            if (hour && handling.fasted && meal < *hour && meal > *hour - *handling.fasted)
                fasted.fault(FaultKind::contradiction, fasted.text(),
                             "no more than the time since the last of 'meals'");
        if (Reader tubes = item.find("tubes")) {
            for (Reader& tube : tubes.members()) {
                const std::string name = tube.node()->key;
                const std::vector<std::string> known(lab::tubeNames.begin(), lab::tubeNames.end());
                if (std::find(known.begin(), known.end(), name) == known.end())
                    sheet.fault(FaultKind::unknownName, tube.node()->keySpot, tube.subject(), name,
                                base::listed(known));
                else
                    handling.tubes.push_back(readTube(tube, name));
            }
        } else {
            handling.tubes = {lab::usualTube("serum"), lab::usualTube("edta")};
        }
        if (Reader filled = item.find("order")) order(filled, handling.tubes);
        if (Reader waiting = item.find("handling")) readWaiting(waiting, handling);
        draw.handedIn = item.find("handed in").truth().value_or(false);
        item.noMore();
        lesson.draws.push_back(std::move(draw));
    }
}

void CaseReader::bench(Reader map) {
    static const std::vector<std::string> photometers{"default"};
    static const std::vector<std::string> switches{"on", "off"};
    std::vector<std::string> kinds;
    for (int i = 0; i < lab::machineFaultCount; ++i)
        kinds.emplace_back(name(static_cast<lab::MachineFault>(i)));
    map.find("photometer").oneOf(photometers, "photometer");
    if (Reader faults = map.find("faults"))
        for (Reader& item : faults.items()) {
            lab::Fault fault;
            if (const auto at = item.need("fault").oneOf(kinds, "fault of the bench"))
                fault.kind = static_cast<lab::MachineFault>(*at);
            Reader test = item.find("test");
            fault.analyte = readName(test, body::analytes(), "analyte");
            if (fault.analyte && !knowledge.bench.find(*fault.analyte))
                test.fault(FaultKind::unknownName, test.text(), "an analyte with a method");
            const bool warm = fault.kind == lab::MachineFault::wrongTemperature;
            const Range size = warm ? Range{"K", -15, 10} : Range{"1", -0.95, 10, "%"};
            fault.by = item.need("by").quantity(size).value_or(0);
            item.noMore();
            lesson.machine.faults.push_back(fault);
        }
    if (const auto at = map.find("linearity check").oneOf(switches, "switch"))
        lesson.machine.linearityCheck = switches[*at] == "on";
    if (map) map.noMore();
}

} // namespace cistern::scenario
