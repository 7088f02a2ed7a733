// Every organ that a case can ask about: what is asked, marked and told of it.
#include "case_at_hand.h"
#include "lesson/feedback.h"
#include "lesson/organ.h"
#include "lesson/record.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>

namespace cistern::lesson {

namespace {

using body::Analyte;
using body::Tissue;

const std::vector<std::string>& everyTest() {
    static const std::vector<std::string> tests = [] {
        std::vector<std::string> names;
        for (const lab::Test& test : known().bench.tests)
            if (!test.analytes.empty()) names.push_back(test.name);
        return names;
    }();
    return tests;
}

/// One insult on one animal, or none, all organs asked about.
Case everyOrgan(body::Kind kind, const std::string& insult, double severity) {
    Case out = scarredLiver();
    out.who.kind = kind;
    if (kind == body::Kind::cat) out.who.weight = 4;
    out.insults.clear();
    if (!insult.empty()) out.insults = {{&insultKind(insult), severity, -120, 72}};
    for (Draw& draw : out.draws) draw.tests = everyTest();
    out.organs.assign(body::tissues().begin(), body::tissues().end());
    return out;
}

/// Answers for all that is asked, and commits.
Lesson worked(const Case& subject) {
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::reading});
    for (const Tissue organ : lesson.questions().leaks) lesson.apply(SetLeak{organ, {2, 1, 6}});
    for (const Tissue organ : lesson.questions().organs) lesson.apply(SetWork{organ, {50, 20, 90}});
    lesson.apply(SetPoints{{{subject.explanations.at(0), 100}}});
    lesson.apply(SetNext{subject.next.front()});
    lesson.apply(Commit{});
    return lesson;
}

std::string paragraphOf(const Lesson& lesson, const std::string& heading) {
    std::string text;
    for (const Paragraph& one : feedback(lesson, lab::Units::si))
        if (one.heading == heading)
            for (const std::string& sentence : one.sentences) text += sentence + "\n";
    return text;
}

} // namespace

TEST_CASE("Leak is neither asked, taken nor marked of an organ of which it has no meaning",
          "[lesson]") {
    Case subject = everyOrgan(body::Kind::dog, "", 0);
    subject.organs = {Tissue::adrenalCortex, Tissue::kidney};
    Lesson lesson(subject, known());
    lesson.apply(Go{Stage::reading});
    CHECK(lesson.questions().leaks == std::vector<Tissue>{Tissue::kidney});
    CHECK_THROWS_WITH(lesson.apply(SetLeak{Tissue::adrenalCortex, {2, 1, 4}}),
                      "A leak of the adrenal cortex has no meaning; only the work is asked for.");
    CHECK(lesson.missing().size() == 5); // leak of the kidney, work of both, points, next step

    const Lesson done = worked(subject);
    double leak = 0, work = 0;
    for (const Mark& mark : done.marks().learner.parts) {
        if (mark.part == Part::leak) CHECK(mark.organ == Tissue::kidney);
        if (mark.part == Part::leak) leak += mark.weight;
        if (mark.part == Part::work) work += mark.weight;
    }
    CHECK(leak / work == Approx(0.2 / 0.3)); // as where every organ leaks
    for (const Sheet* sheet : {&done.marks().shrug, &done.marks().naive})
        CHECK_FALSE(sheet->answers.organs.at(Tissue::adrenalCortex).leak);
    CHECK_THAT(paragraphOf(done, "The adrenal cortex"), !Catch::Contains("leak"));
}

TEST_CASE("The example of answers leaves out leaks without meaning, and they are refused",
          "[lesson]") {
    const Case subject = everyOrgan(body::Kind::cat, "", 0);
    Lesson lesson(subject, known());
    const std::string example = exampleAnswers(lesson);
    for (const Action& action : readAnswers(example, "answers.json", subject, known()))
        lesson.apply(action);
    CHECK(lesson.committed());
    CHECK_FALSE(lesson.answers().organs.at(Tissue::thyroid).leak);
    CHECK(lesson.answers().organs.at(Tissue::platelets).leak);
    const std::string wrong = R"({"cistern answers": 1, "organs": {"thyroid": {"leak":
                                  {"best": 2, "low": 1, "high": 4}}}})";
    CHECK_THROWS_WITH(readAnswers(wrong, "answers.json", subject, known()),
                      Catch::Contains("A leak of the thyroid has no meaning"));
}

TEST_CASE("Every organ is led by a result of its own kind", "[lesson]") {
    const Case subject = everyOrgan(body::Kind::dog, "", 0);
    const Lesson lesson(subject, known());
    const std::vector<lab::Report> reports{lesson.taken().back().report};
    // Common practice; where one gland has one hormone, or one cell one count, that is it.
    const std::vector<std::pair<Tissue, Analyte>> leads{
        {Tissue::liver, Analyte::ALT},          {Tissue::bileDucts, Analyte::GGT},
        {Tissue::skeletalMuscle, Analyte::CK},  {Tissue::heart, Analyte::cTnI},
        {Tissue::kidney, Analyte::creatinine},  {Tissue::pancreas, Analyte::lipase},
        {Tissue::bone, Analyte::ALP},           {Tissue::gut, Analyte::albumin},
        {Tissue::redCells, Analyte::Hct},       {Tissue::adrenalCortex, Analyte::cortisol},
        {Tissue::thyroid, Analyte::T4},         {Tissue::whiteCells, Analyte::neutrophils},
        {Tissue::platelets, Analyte::platelets}};
    CHECK(leads.size() == body::tissueCount);
    for (const auto& [organ, analyte] : leads) {
        const lab::Result* result = leadingResult(organ, reports);
        REQUIRE(result);
        CHECK(result->analyte == analyte);
        CHECK(clue(organ, analyte));
    }
    CHECK_FALSE(leadingResult(Tissue::heart, {lab::Report{}}));
}

TEST_CASE("The naive reader takes a low count for a lost organ", "[lesson]") {
    Case subject = everyOrgan(body::Kind::dog, "", 0);
    subject.organs = {Tissue::platelets, Tissue::thyroid};
    subject.explanations = {"nothing wrong", "thrombocyte destruction", "hepatocyte injury"};
    const auto result = [](Analyte analyte, double value, double low, double high) {
        lab::Result one;
        one.analyte = analyte;
        one.value = value;
        one.interval = lab::Interval{body::Kind::dog, analyte, 0, 1e9, low, high, ""};
        one.flag = value < low ? lab::Flag::low : value > high ? lab::Flag::high : lab::Flag::none;
        return one;
    };
    lab::Report report;
    report.results = {result(Analyte::platelets, 50, 200, 600), result(Analyte::T4, 60, 15, 60)};
    const Answers read = naiveAnswers(subject, known(), {report});
    CHECK(read.organs.at(Tissue::platelets).work->best == Approx(25));
    CHECK(read.organs.at(Tissue::platelets).leak->best == Approx(4));
    CHECK(read.organs.at(Tissue::thyroid).work->best == 100); // no flag
    CHECK_FALSE(read.organs.at(Tissue::thyroid).leak);
    CHECK(read.points.at("thrombocyte destruction") == 90);

    report.results = {result(Analyte::platelets, 0, 200, 600)}; // none at all
    const Answers none = naiveAnswers(subject, known(), {report});
    CHECK(none.organs.at(Tissue::platelets).work->best == Approx(0).margin(1e-3)); // of %
    CHECK(none.organs.at(Tissue::platelets).leak->high <= mostLeak);
}

TEST_CASE("Feedback of every organ is plain, sick or well", "[lesson]") {
    struct Blow {
        const char* insult;
        double severity;
    };
    const std::vector<Blow> blows{{"", 0},
                                  {"myocardial necrosis", 0.2},
                                  {"pancreatitis", 12},
                                  {"acinar atrophy", 0.95},
                                  {"protein-losing enteropathy", 0.3},
                                  {"protein-losing nephropathy", 0.2},
                                  {"hemolysis", 0.15},
                                  {"hypoadrenocorticism", 0.96},
                                  {"hyperthyroidism", 4},
                                  {"inflammation", 0.9},
                                  {"marrow suppression", 1},
                                  {"thrombocyte destruction", 0.9}};
    const double inf = std::numeric_limits<double>::infinity();
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat})
        for (const Blow& blow : blows) {
            std::string insult = blow.insult;
            double severity = blow.severity;
            if (!insult.empty()) { // held to what the kind of insult allows
                const body::InsultKind& known = insultKind(insult);
                if (!(kind == body::Kind::dog ? known.dog : known.cat)) continue;
                severity = std::clamp(severity, known.least, known.most);
            }
            CAPTURE(insult, body::name(kind));
            const Case subject = everyOrgan(kind, insult, severity);
            const Lesson lesson = worked(subject);
            CHECK(lesson.marks().learner.total < inf);
            for (const Paragraph& paragraph : feedback(lesson, lab::Units::conventional))
                for (const std::string& sentence : paragraph.sentences) {
                    CAPTURE(insult, paragraph.heading, sentence);
                    REQUIRE_FALSE(sentence.empty());
                    CHECK(sentence.back() == '.');
                    for (const char* bad : {"nan", "inf ", "..", "-0 ", "  "})
                        CHECK(sentence.find(bad) == std::string::npos);
                }
        }
}

TEST_CASE("Feedback tells an organ without an enzyme by its own numbers", "[lesson]") {
    const auto told = [](const std::string& insult, double severity, const std::string& heading) {
        return paragraphOf(worked(everyOrgan(body::Kind::dog, insult, severity)), heading);
    };
    CHECK_THAT(told("protein-losing nephropathy", 0.2, "The kidney"),
               Catch::Contains("protein was lost with the urine") &&
                   Catch::Contains("how tight the filter was, not how much of it was left"));
    CHECK_THAT(told("protein-losing enteropathy", 0.3, "The gut"),
               Catch::Contains("albumin would halve in "));
    CHECK_THAT(told("hemolysis", 0.15, "The red cells"),
               Catch::Contains("red cells died") && Catch::Contains("reticulocytes"));
    CHECK_THAT(told("hyperthyroidism", 4, "The thyroid"),
               Catch::Contains("(counted as 150 %)") &&
                   Catch::Contains("there was more of it than in health"));
    CHECK_THAT(told("thrombocyte destruction", 0.9, "The platelets"),
               Catch::Contains("here they were lost early"));
    CHECK_THAT(told("", 0, "The white cells"),
               Catch::Contains("store of neutrophils lay in the marrow"));
    CHECK_THAT(told("myocardial necrosis", 0.2, "The heart"), Catch::Contains("cTnI halves in "));
}

TEST_CASE("A leaking pancreas leaves no test of its work", "[lesson]") {
    const std::string text = paragraphOf(worked(everyOrgan(body::Kind::dog, "pancreatitis", 12)),
                                         "What the results could tell");
    CHECK_THAT(text, Catch::Contains("TLI speaks of the work of the pancreas only while"));
}

TEST_CASE("Failing kidneys are told as the reason of a TLI that no leak holds up", "[lesson]") {
    Case subject = everyOrgan(body::Kind::dog, "urinary obstruction", 0.97);
    subject.organs = {Tissue::pancreas};
    for (Draw& draw : subject.draws) draw.tests = {"TLI"};
    CHECK_THAT(paragraphOf(worked(subject), "The pancreas"),
               Catch::Contains("the kidney drains TLI and filtered only"));
}

TEST_CASE("A report of some tests needs only their parts of the body, and reads the same",
          "[lesson]") {
    const Case subject = everyOrgan(body::Kind::dog, "hemolysis", 0.15);
    const body::Individual animal = patient(subject, known());
    const std::vector<body::Snapshot> whole = atDraws(subject, known());
    for (const std::string& test : everyTest()) {
        const body::Parts parts = partsFor({test}, known().bench, subject.who.kind);
        const std::vector<body::Snapshot> some = atDraws(subject, known(), parts);
        for (std::size_t draw = 0; draw < whole.size(); ++draw) {
            const auto read = [&](const body::Snapshot& truth) {
                return report(subject, known(), animal, truth, draw, {test}).results;
            };
            const std::vector<lab::Result> all = read(whole[draw]), few = read(some[draw]);
            REQUIRE(all.size() == few.size());
            for (std::size_t i = 0; i < all.size(); ++i) {
                CAPTURE(test, body::name(all[i].analyte));
                CHECK(all[i].value == few[i].value);
                CHECK(all[i].halfWidth == few[i].halfWidth);
            }
        }
    }
    const std::vector<std::string> count{"blood count"};
    CHECK_FALSE(body::has(partsFor(count, known().bench, body::Kind::dog), body::Part::salts));
}

} // namespace cistern::lesson
