// What is believed beforehand: loading it, and what is said of broken files.
#include "at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using base::FaultKind;

namespace {

/// Messages of the shipped assets after one text in a file of priors is replaced by another, each
/// without its excerpt.
std::vector<std::string> after(const std::string& file, const std::string& text,
                               const std::string& other) {
    static const test::Memory shipped = test::Memory::copyOf("assets");
    test::Memory changed = shipped;
    std::string& whole = changed.texts.at("assets/priors/" + file);
    const std::size_t at = whole.find(text);
    REQUIRE(at != std::string::npos);
    whole.replace(at, text.size(), other);
    std::vector<std::string> messages;
    try {
        scenario::loadAssets(changed, "assets");
    } catch (const base::InputError& error) {
        for (const base::Fault& fault : error.faults()) messages.push_back(base::sentence(fault));
    }
    return messages;
}

lesson::Case read(const std::string& prior) {
    const std::string key = "    explains: [crush injury]\n";
    std::string whole = base::Disk().read(CISTERN_SOURCE "/tests/scenario/good/new_insult.yaml");
    whole.insert(whole.find(key), prior);
    test::Memory memory;
    memory.texts["a_case.yaml"] = whole;
    return scenario::readCase(memory, "a_case.yaml", test::assets().knowledge);
}

} // namespace

TEST_CASE("broken priors are refused with a sentence that says what may stand there",
          "[scenario]") {
    struct Broken {
        std::string file, text, other, said;
    };
    const std::string first = "insults.0.";
    const std::vector<Broken> all{
        {"insults/muscle.yaml", "insult: muscle necrosis", "insult: muscle necrosys",
         first + "insult is not a name known here: found \"muscle necrosys\"; allowed: 'muscle "
                 "necrosis', the nearest insult."},
        {"insults/muscle.yaml", "shows:\n      {lethargy", "shows:\n      {lethargie",
         first + "shows.lethargie is not a name known here: found \"lethargie\"; allowed: "
                 "'lethargy', the nearest finding."},
        {"insults/muscle.yaml", "companions: {dehydration", "companions: {dehydratation",
         first + "companions.dehydratation is not a name known here: found \"dehydratation\"; "
                 "allowed: 'dehydration', the nearest insult."},
        {"insults/muscle.yaml", "fright: 30 %", "fright: 130 %",
         first + "companions.fright is out of range: found \"130 %\"; allowed: 0 to 100 %."},
        {"insults/muscle.yaml", "usual: 0.1..15 g/kg", "usual: 15..0.1 g/kg",
         first + "severity.usual is out of order: found \"15..0.1 g/kg\"; allowed: the lower end "
                 "first."},
        {"insults/muscle.yaml", "median: 0.6 g/kg", "median: 16 g/kg",
         first + "severity.median contradicts another statement: found \"16 g/kg\"; allowed: a "
                 "value within the span beside it, 0.1..15 g/kg."},
        {"insults/muscle.yaml", "span: ended", "span: endless",
         first + "span is not a name known here: found \"endless\"; allowed: ended, running or "
                 "slow."},
        {"insults/muscle.yaml", "dog: [5.1, 8.1, 6.2]", "dog: [5.1, 8.1]",
         first + "weight.dog has the wrong shape; allowed: three weights: young, adult, old."},
        {"insults/liver.yaml", "published: {Lester 2016: [poor appetite",
         "published: {Lester 2016: [fevre",
         first + "published.Lester 2016.0 is not a name known here: found \"fevre\"; "
                 "allowed: 'fever', the nearest number of this row."},
        {"insults/liver.yaml", "published: {Lester 2016", "published: {Lester 2017",
         first + "published.Lester 2017 is not a name known here: found \"Lester 2017\"; allowed: "
                 "'Lester 2016', the nearest source."},
        {"insults/liver.yaml", "weight: {cat: [0.94, 20, 17]}",
         "weight: {dog: [1, 1, 1], cat: [0.94, 20, 17]}",
         "insults.5.weight.dog is not a key known here; allowed: cat or note."},
        {"insults/liver.yaml", "    duration: {median: 12 h, usual: 3..48 h}\n", "",
         first + "duration is missing."},
        {"general.yaml", "dog: [532, 438, 279]", "dog: [532, 538, 279]",
         "the weights of the adult dog contradicts another statement: found \"1102.8\"; allowed: "
         "a sum of 1000, within 2 %."},
        {"general.yaml", "check-ups: {value: 40 %", "check-ups: {value: 140 %",
         "check-ups.value is out of range: found \"140 %\"; allowed: 0 to 100 %."},
        {"signs.yaml", "finding: lethargy", "finding: diarrhea",
         "signs.5.finding is given twice: found \"diarrhea\"; allowed: each finding once."},
        {"signs.yaml", "level: bilirubin", "level: bilirubine",
         "signs.26.links.0.level is not a name known here: found \"bilirubine\"; allowed: "
         "'bilirubin', the nearest analyte."},
        {"signs.yaml", "width: -7 10*9/L", "width: 0 10*9/L",
         "signs.28.links.0.width is out of range: found \"0 10*9/L\"; allowed: another number "
         "than 0."},
        {"signs.yaml", "finding: heart rate, sign: tachycardia",
         "finding: heart rate, sign: trachycardia",
         "thresholds.2.sign is not a name known here: found \"trachycardia\"; allowed: "
         "'tachycardia', the nearest sign."},
        {"mishaps.yaml", "what: serum clot", "what: serum clod",
         "mishaps.0.what is not a name known here: found \"serum clod\"; allowed: 'serum clot', "
         "the nearest choice."},
        {"mishaps.yaml", "how: sun", "how: moon",
         "mishaps.10.how contradicts another statement: found \"moon\"; allowed: what can be "
         "done: The light cannot be \"moon\"; allowed: dark, room or sun."},
    };
    for (const Broken& one : all) {

        INFO(one.file << ": " << one.text << " -> " << one.other);
        const auto messages = after(one.file, one.text, one.other);
        for (const std::string& message : messages) UNSCOPED_INFO(message);
        CHECK(std::find(messages.begin(), messages.end(), one.said) != messages.end());
    }
}

TEST_CASE("an insult without a row and a finding without a background are told", "[scenario]") {
    test::Memory changed = test::Memory::copyOf("assets");
    changed.texts.at("assets/priors/insults/whole_animal.yaml") =
        "source: common practice\nstanding: assumed\ninsults: []\n";
    std::string& findings = changed.texts.at("assets/findings.yaml");
    findings += "- {finding: hiccups, meaning: after a meal}\n";
    std::vector<std::string> said;
    try {
        scenario::loadAssets(changed, "assets");
    } catch (const base::InputError& error) {
        for (const base::Fault& fault : error.faults()) said.push_back(base::message(fault));
    }
    REQUIRE(said.size() >= 2);
    CHECK(said[0].find("a row for the insult fasting is missing.") != std::string::npos);
    CHECK(said[1].find("how often hiccups is told is missing.") != std::string::npos);
}

TEST_CASE("what is believed stands among the values with its source and standing", "[scenario]") {
    const auto& values = test::assets().values;
    const auto find = [&](const std::string& name) {
        const auto at = std::find_if(values.begin(), values.end(),
                                     [&](const auto& one) { return one.name == name; });
        REQUIRE(at != values.end());
        return *at;
    };
    const auto vomiting = find("prior hypoadrenocorticism.vomiting");
    CHECK(vomiting.value == "73 %");
    CHECK(vomiting.source == "Schofield 2021");
    CHECK(vomiting.standing == scenario::Standing::published);
    CHECK(find("prior pancreatitis in the dog.fever").standing == scenario::Standing::fromMemory);
    const auto rest = find("prior hypoadrenocorticism.shows and companions");
    CHECK(rest.standing == scenario::Standing::assumed);
    CHECK(rest.value.find("dehydration 70 %") != std::string::npos);
    CHECK(rest.value.find("vomiting") == std::string::npos);
    CHECK(find("sign lethargy").value == "dog 3 %, 30 %; cat 3 %, 30 %");
    CHECK(find("prior muscle necrosis.severity").range == "0.1..15 g/kg");
    CHECK(find("test chemistry.cost").value == "6");
}

TEST_CASE("a test costs what it is worth beside PCV and protein", "[scenario]") {
    const lab::Bench& bench = test::assets().knowledge.bench;
    CHECK(bench.test("PCV and protein")->cost == 1);
    CHECK(bench.test("chemistry")->cost > bench.test("urine")->cost);
}

TEST_CASE("an insult of the case's own is believed in as the case says", "[scenario]") {
    const lesson::Case plain = read("");
    REQUIRE(plain.newPriors.size() == 1);
    const reader::InsultPrior& usual = plain.newPriors[0];
    CHECK(usual.kind == plain.newInsults[0].get());
    CHECK(usual.weight[0][1] == 10);
    CHECK(usual.weight[1][1] == 0);              // no insult of cats
    CHECK(usual.severity[0].low == Approx(0.1)); // usual: 10..50 %
    CHECK(usual.severity[0].high == Approx(0.5));
    CHECK(usual.severity[0].median == Approx(0.25)); // odds of 1/3, between 1/9 and 1
    const lesson::Case told = read("    prior: {weight: 40, onset: {median: 14 h, usual: 6..36 h}, "
                                   "duration: {median: 4 h, usual: 1..9 h}, span: ended,\n"
                                   "      shows: {muscle pain: 90 %}}\n");
    const reader::InsultPrior& own = told.newPriors.at(0);
    CHECK(own.weight[0][2] == 40);
    CHECK(own.onset[0].median == 14);
    CHECK(own.duration[0].high == 9);
    CHECK(own.span == reader::Span::ended);
    CHECK(own.shows[0].at("muscle pain") == Approx(0.9));
}

TEST_CASE("a broken belief of the case's own is refused with its place", "[scenario]") {
    const auto said = [](const std::string& prior) {
        try {
            read(prior);
        } catch (const base::InputError& error) {
            return base::sentence(error.faults().at(0));
        }
        return std::string();
    };
    CHECK(said("    prior: {weight: 4000}\n") ==
          "new insults.0.prior.weight is out of range: found \"4000\"; allowed: 0 to 1000.");
    CHECK(said("    prior: {shows: {muscle pains: 9 %}}\n") ==
          "new insults.0.prior.shows.muscle pains is not a name known here: found \"muscle "
          "pains\"; allowed: 'muscle pain', the nearest finding.");
    CHECK(said("    prior: {weigth: 4}\n") == "new insults.0.prior.weigth is not a key known here; "
                                              "allowed: 'weight', the nearest key.");
}
