// Sets of cases: what they say, and every fault of one with its place.
#include "at_hand.h"
#include "scenario/set.h"

#include <catch2/catch.hpp>

#include <set>

using namespace cistern;
using base::FaultKind;

namespace {

test::Memory desk() {
    test::Memory memory;
    memory.texts["class/sets/mine.yaml"] = "";
    for (const char* path : {"class/sets/beside.yaml", "class/above.yaml", "class/beside.yaml",
                             "shelf/shipped.yaml", "shelf/above.yaml"})
        memory.texts[path] = "cistern: 1\n";
    return memory;
}

scenario::Set read(const std::string& text) {
    test::Memory memory = desk();
    memory.texts["class/sets/mine.yaml"] = text;
    return scenario::readSet(memory, "class/sets/mine.yaml", {"class", "shelf"});
}

std::vector<base::Fault> faults(const std::string& text) {
    try {
        read(text);
    } catch (const base::InputError& error) {
        return error.faults();
    }
    return {};
}

/// The one fault of a text.
void refuses(const std::string& text, FaultKind kind, int line, const std::string& words) {
    const auto found = faults(text);
    INFO(text);
    REQUIRE(found.size() == 1);
    INFO(base::message(found[0]));
    CHECK(found[0].kind == kind);
    CHECK(found[0].place.file == "class/sets/mine.yaml");
    CHECK(found[0].place.line == line);
    CHECK_THAT(base::message(found[0]), Catch::Contains(words));
}

const std::string head = "cistern set: 1\ntitle: Mine\n";

} // namespace

TEST_CASE("a set is read with all that it says", "[scenario]") {
    const scenario::Set set = read(head + "minutes: 40\nseats: 24\nopening: |\n  Read.\n  Think.\n"
                                          "cases:\n  - {case: above, weight: 2.5, minutes: 15}\n"
                                          "  - {case: shipped}\n");
    CHECK(set.name == "mine");
    CHECK(set.title == "Mine");
    CHECK(set.minutes == 40);
    CHECK(set.seats == 24);
    CHECK(set.opening == "Read.\nThink.");
    REQUIRE(set.cases.size() == 2);
    CHECK(set.cases[0].name == "above");
    CHECK(set.cases[0].weight == 2.5);
    CHECK(set.cases[0].minutes == 15);
    CHECK(set.cases[1].weight == 1);
    CHECK(set.cases[1].minutes == 0);
    CHECK(set.cases[1].path == "shelf/shipped.yaml");
}

TEST_CASE("the nearest case of a name is meant", "[scenario]") {
    const scenario::Set set = read(head + "cases: [{case: beside}, {case: above}]\n");
    CHECK(set.cases[0].path == "class/sets/beside.yaml");
    CHECK(set.cases[1].path == "class/above.yaml");
}

TEST_CASE("each fault of a set is told with its line", "[scenario]") {
    const std::string cases = "cases: [{case: above}]\n";
    refuses("cistern set: 2\ntitle: Mine\n" + cases, FaultKind::outOfRange, 1, "1, the format");
    refuses("cistern set: 1\n" + cases, FaultKind::missingKey, 1, "title");
    refuses(head, FaultKind::missingKey, 1, "cases");
    refuses(head + "cases: []\n", FaultKind::wrongShape, 3, "at least one case");
    refuses(head + "cases: above\n", FaultKind::wrongShape, 3, "list");
    refuses(head + "cases: [above]\n", FaultKind::wrongShape, 3, "map");
    refuses(head + "cases:\n  - {weight: 2}\n", FaultKind::missingKey, 4, "case");
    refuses(head + "cases:\n  - {case: abvoe}\n", FaultKind::unknownName, 4, "'above'");
    refuses(head + "cases:\n  - {case: zzzz}\n", FaultKind::unknownName, 4, "bare name");
    refuses(head + "cases:\n  - {case: above}\n  - {case: above}\n", FaultKind::duplicateKey, 5,
            "each case once");
    refuses(head + "cases:\n  - {case: above, weight: 0}\n", FaultKind::outOfRange, 4, "above 0");
    refuses(head + "cases:\n  - {case: above, weight: -1}\n", FaultKind::outOfRange, 4, "weight");
    refuses(head + "cases:\n  - {case: above, weight: .nan}\n", FaultKind::outOfRange, 4, "weight");
    refuses(head + "cases:\n  - {case: above, weight: 2 kg}\n", FaultKind::wrongDimension, 4,
            "weight");
    refuses(head + "cases:\n  - {case: above, minutes: 0}\n", FaultKind::outOfRange, 4, "1 to 600");
    refuses(head + "seats: 0\n" + cases, FaultKind::outOfRange, 3, "1 to 1000");
    refuses(head + "minutes: ten\n" + cases, FaultKind::notANumber, 3, "whole number");
    refuses(head + "seat: 3\n" + cases, FaultKind::unknownKey, 3, "'seats'");
    refuses(head + "minutes: 20\ncases: [{case: above, minutes: 15}, {case: beside, minutes: 6}]\n",
            FaultKind::contradiction, 4, "21 minutes");
}

TEST_CASE("all faults of a set come in one run", "[scenario]") {
    const auto found =
        faults("cistern set: 1\nseats: 0\ncases: [{case: abvoe}, {case: above, weight: 0}]\n");
    CHECK(found.size() == 4); // title, seats, a name, a weight
}

TEST_CASE("a set is no case and a case no set", "[scenario]") {
    CHECK(scenario::isSet("a", head));
    CHECK_FALSE(scenario::isSet("a", "cistern: 1\ntitle: Mine\n"));
    CHECK_FALSE(scenario::isSet("a", "[\n"));
    test::Memory memory;
    memory.texts["a.yaml"] = head + "cases: [{case: above}]\n";
    CHECK_THROWS_WITH(scenario::readCase(memory, "a.yaml", test::assets().knowledge),
                      Catch::Contains("a.yaml:1:1") && Catch::Contains("a set of cases"));
}

TEST_CASE("every shipped set is sound and within its time", "[scenario]") {
    const base::Disk disk;
    const auto paths = disk.list(CISTERN_SOURCE "/scenarios/sets", ".yaml");
    CHECK_FALSE(paths.empty());
    std::set<std::string> titles;
    for (const std::string& path : paths) {
        INFO(path);
        const scenario::Set set = scenario::readSet(disk, path, {});
        CHECK(set.cases.size() >= 8);
        CHECK_FALSE(set.opening.empty());
        CHECK(titles.insert(set.title).second);
        int minutes = 0;
        for (const scenario::SetCase& one : set.cases) {
            minutes += one.minutes;
            CHECK_NOTHROW(scenario::readCase(disk, one.path, test::assets().knowledge));
        }
        CHECK(minutes <= set.minutes);
    }
}
