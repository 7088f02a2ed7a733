// Insults that a scenario defines for itself.
#include "at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using base::FaultKind;

namespace {

const std::string good = CISTERN_SOURCE "/tests/scenario/good/new_insult.yaml";

lesson::Case read(const std::string& text) {
    test::Memory memory;
    memory.texts["a_case.yaml"] = text;
    return scenario::readCase(memory, "a_case.yaml", test::assets().knowledge);
}

/// Faults of the good file after one text in it is replaced by another.
std::vector<base::Fault> after(const std::string& text, const std::string& other) {
    std::string whole = base::Disk().read(good);
    const std::size_t at = whole.find(text);
    REQUIRE(at != std::string::npos);
    whole.replace(at, text.size(), other);
    try {
        read(whole);
    } catch (const base::InputError& error) {
        return error.faults();
    }
    return {};
}

lesson::Case crushed() {
    return scenario::readCase(base::Disk(), good, test::assets().knowledge);
}

} // namespace

TEST_CASE("an insult of the case's own is read, used and varied like any other", "[scenario]") {
    const lesson::Case one = crushed();
    REQUIRE(one.newInsults.size() == 1);
    REQUIRE(one.insults.size() == 1);
    const body::InsultKind& kind = *one.insults[0].kind;
    CHECK(&kind == one.newInsults[0].get());
    CHECK(kind.name == "crushed quarters");
    CHECK(kind.least == 0.05);
    CHECK(kind.most == 0.8);
    CHECK(kind.tissue == body::Tissue::skeletalMuscle);
    CHECK(kind.dog);
    CHECK_FALSE(kind.cat);
    CHECK(one.insults[0].severity == 0.4);
    CHECK(one.key.explanations == std::vector<std::string>{"crush injury"});
    CHECK(one.vary.size() == 1);
}

TEST_CASE("an insult of the case's own sets the drives it names, by their laws", "[scenario]") {
    const body::Plan plan = lesson::plan(crushed(), test::assets().knowledge, {0});
    REQUIRE(plan.windows.size() == 3);
    const double rate = -std::log(1 - 0.4) / 4; // 40 % within four hours
    const std::vector<std::pair<body::Drive, double>> expected{
        {body::Drive::muscleDeath, 0.05 * rate},
        {body::Drive::nephronStun, 0.8 * rate},
        {body::Drive::waterLoss, 0.1 * 0.4 / 4}};
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CHECK(plan.windows[i].drive == expected[i].first);
        CHECK(plan.windows[i].value == Approx(expected[i].second).epsilon(1e-12)); // rounding
        CHECK(plan.windows[i].from == -14);
        CHECK(plan.windows[i].to == -10);
    }
}

TEST_CASE("a copy of a case keeps the insults that the case defines", "[scenario]") {
    std::optional<lesson::Case> original = crushed();
    const lesson::Case copy = *original;
    original.reset();
    CHECK(copy.insults[0].kind == copy.newInsults[0].get());
    CHECK(copy.insults[0].kind->name == "crushed quarters");
    CHECK(body::windows(copy.insults[0], test::assets().knowledge.dog).size() == 3);
}

TEST_CASE("every insult of the assets may stand in a scenario, word for word, under another name",
          "[scenario]") {
    std::string text = "cistern: 1\ntitle: A case\n"
                       "patient: {species: dog, age: 9 y, weight: 18 kg, seed: 1}\n"
                       "draws: [{at: 0 h, tests: [chemistry]}]\nnew insults:\n";
    for (const auto& [path, insults] : test::Memory::copyOf("assets/insults").texts)
        text += insults;
    const std::string key = "- insult: ";
    for (std::size_t at = 0; (at = text.find(key, at)) != std::string::npos;)
        text.insert(at += key.size(), "new ");
    const lesson::Case one = read(text);
    const auto& shelf = test::assets().knowledge.insults;
    REQUIRE(one.newInsults.size() == shelf.size());
    for (std::size_t i = 0; i < shelf.size(); ++i) {
        const body::InsultKind &ours = *one.newInsults[i], &known = shelf[i];
        INFO(known.name);
        CHECK(ours.name == "new " + known.name);
        CHECK(std::tie(ours.counts, ours.unit, ours.shownUnit, ours.least, ours.most, ours.tissue,
                       ours.dog, ours.cat, ours.explains) ==
              std::tie(known.counts, known.unit, known.shownUnit, known.least, known.most,
                       known.tissue, known.dog, known.cat, known.explains));
        REQUIRE(ours.effects.size() == known.effects.size());
        for (std::size_t k = 0; k < known.effects.size(); ++k) {
            const body::Effect &a = ours.effects[k], &b = known.effects[k];
            CHECK(std::tie(a.drive, a.law, a.times) == std::tie(b.drive, b.law, b.times));
        }
    }
}

TEST_CASE("a broken insult of the case's own is refused with its place, once", "[scenario]") {
    struct Broken {
        std::string text, other;
        FaultKind kind;
        std::string subject;
    };
    const std::string entry = "new insults.0.";
    const std::vector<Broken> all{
        {"- insult: crushed", "- insult: dehydration #", FaultKind::duplicateKey, entry + "insult"},
        {"    counts: share of the hind quarters under the load\n", "", FaultKind::missingKey,
         entry + "counts"},
        {"most: 80 %", "most: 80", FaultKind::missingUnit, entry + "severity.most"},
        {"most: 80 %", "most: 4 %", FaultKind::wrongOrder, entry + "severity.most"},
        {"usual: 10..50 %", "usual: 1..50 %", FaultKind::outOfRange, entry + "severity.usual"},
        {"unit: '%'", "unit: lb", FaultKind::unknownUnit, entry + "severity.unit"},
        {"tissue: skeletal muscle", "tissue: paw", FaultKind::unknownName, entry + "tissue"},
        {"drive: muscle death", "drive: muscle deth", FaultKind::unknownName,
         entry + "effects.0.drive"},
        {"law: spent", "law: spend", FaultKind::unknownName, entry + "effects.2.law"},
        {"times: 0.1", "times: 0.1 L", FaultKind::wrongDimension, entry + "effects.2.times"},
        {"times: 0.1", "times: .inf", FaultKind::outOfRange, entry + "effects.2.times"},
        {"times: 0.1", "times: 40", FaultKind::outOfRange, entry + "effects.2.times"},
        {"value: 0.8", "value: 80", FaultKind::outOfRange, entry + "effects.1.times.value"},
        {"times: 0.1", "times: -0.1", FaultKind::contradiction, entry + "effects.2.law"},
        {"most: 80 %", "most: 100 %", FaultKind::contradiction, entry + "effects.0.law"},
        {"drive: water loss, law: spent", "drive: muscle death, law: share lost",
         FaultKind::duplicateKey, entry + "effects.2.drive"},
        {"standing: assumed", "standing: hearsay", FaultKind::unknownName,
         entry + "effects.1.times.standing"},
        {"explains: [crush injury]", "explained: [crush injury]", FaultKind::unknownKey,
         entry + "explained"},
        {"species: [dog]", "species: [cat]", FaultKind::contradiction, "insults.0.insult"},
        {"severity: 40 %", "severity: 90 %", FaultKind::outOfRange, "insults.0.severity"},
        {"vary: {insults.0.severity", "vary: {new insults.0.severity.most", FaultKind::unknownName,
         "vary.new insults.0.severity.most"},
        {"insult: crushed quarters, sev", "insult: crushed quarter, sev", FaultKind::unknownName,
         "insults.0.insult"}};
    for (const Broken& one : all) {
        const auto faults = after(one.text, one.other);
        INFO(one.text << " -> " << one.other);
        for (const base::Fault& fault : faults) UNSCOPED_INFO(base::message(fault));
        const auto at = std::find_if(faults.begin(), faults.end(), [&](const auto& fault) {
            return fault.kind == one.kind && fault.subject == one.subject;
        });
        REQUIRE(at != faults.end());
        CHECK(at->place.line > 0);
        CHECK(at->place.column > 0);
        CHECK_FALSE(at->line.empty());
    }
}

TEST_CASE("one mistake in an insult of the case's own is one fault", "[scenario]") {
    // What uses the insult is not blamed for it.
    CHECK(after("most: 80 %", "most: 80").size() == 1);
    CHECK(after("unit: '%'", "unit: lb").size() == 1);
    CHECK(after("times: 0.1", "times: 40").size() == 1);
    CHECK(after("law: spent", "law: spend").size() == 1);
    CHECK(after("- {drive: water loss, law: spent, times: 0.1}", "- 7").size() == 1);
}
