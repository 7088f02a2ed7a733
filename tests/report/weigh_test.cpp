#include "approved.h"
#include "report/weigh.h"
#include "sample.h"

#include <nlohmann/json.hpp>

#include <cmath>

using namespace cistern;

namespace {

/// A weighing made up by hand: a dog, two draws, three explanations.
report::Weighing weighing() {
    report::Weighing out;
    out.patient = sample::bramble();
    out.seed = 3;
    out.seconds = 0.84;
    out.question.who = out.patient.who;
    for (int number = 1; number <= 2; ++number) {
        reader::Sample drawn;
        drawn.hour = 24. * number;
        drawn.report = sample::draw(number, drawn.hour, 12, 21, 9);
        out.question.samples.push_back(drawn);
    }
    reader::Posterior& p = out.posterior;
    p.animals = 100000;
    p.stories = 50000;
    p.effective = 812.34;
    p.rounds = 2;
    p.names = {"nothing wrong", "chronic liver disease", "steroid tablets effect"};
    p.prior = {0.6, 0.15, 0.25};
    p.signs = {0.1, 0.7, 0.2};
    p.weights = {1. / 300, 2.79 / 3, 1 - 1. / 300 - 2.79 / 3};
    p.errors = {0.0004, 0.006, 0.006};
    p.unlisted = 0.07;
    p.organs = {{body::Tissue::liver, {0.09, 0.1, 0.134, 0.17, 0.19}, {2.1, 2.5, 4.3, 8, 9.4}, {}},
                {body::Tissue::thyroid, {0.9, 0.92, 1, 1.08, 1.1}, {1, 1, 1, 1, 1}, {}}};
    p.results = {{0, body::Analyte::ALT}, {1, body::Analyte::albumin}};
    p.spoiled = {0.004, 0.31};
    reader::Moved icterus{"icterus", 0, true, {0.3, 0.6, 0.1}, 0.81};
    reader::Moved alt{"ALT", 0, false, {0.02, 0.5, 0.48}, 0.62};
    reader::Moved albumin{"albumin", 1, false, {0.1, 0.85, 0.05}, 1.9};
    reader::Moved idle{"vomiting", 0, true, {0.6, 0.15, 0.25}, 0};
    p.moved = {icterus, idle, alt, albumin};
    p.gains = {{"ammonia", 0.31, 0.02, 4}, {"chemistry in 3 days", 0.22, 0.03, 1}};
    return out;
}

/// Its paragraphs, a line each.
std::string told(const report::Weighing& one) {
    std::string text;
    for (const std::string& paragraph :
         report::weighTold(one, hand::bench(), lab::Units::conventional))
        text += paragraph + "\n";
    return text;
}

double sumOf(const nlohmann::json& explanations) {
    double sum = 0;
    for (const auto& one : explanations) sum += one.at("weight").get<double>();
    return sum;
}

} // namespace

TEST_CASE("A weighing reads as approved", "[report]") {
    checkApproved("weigh.txt", told(weighing()));
}

TEST_CASE("A weighing as JSON reads as approved", "[report]") {
    checkApproved("weigh.json", report::weighJson(weighing()));
}

TEST_CASE("The JSON of a weighing holds what the contract names", "[report]") {
    const auto json = nlohmann::json::parse(report::weighJson(weighing()));
    CHECK(json.at("animals") == 100000);
    CHECK(json.at("effective") == 812.34);
    CHECK(json.at("seconds") == 0.84);
    CHECK(json.at("explanations").at(0).at("name") == "chronic liver disease");
    CHECK(json.at("explanations").at(0).at("weight").get<double>() == Approx(0.93));
    const auto& liver = json.at("organs").at("liver");
    CHECK(liver.at("work").at("low") == 9);
    CHECK(liver.at("work").at("median").get<double>() == Approx(13.4));
    CHECK(liver.at("work").at("high") == 19);
    CHECK(liver.at("work").at("unit") == "%");
    CHECK(liver.at("leak").at("median").get<double>() == Approx(4.3));
    CHECK_FALSE(json.at("organs").at("thyroid").contains("leak")); // it has no meaning there
    CHECK(json.at("next").at(0).at("test") == "ammonia");
    CHECK(json.at("next").at(0).at("bits").get<double>() == Approx(0.31));
    CHECK(json.at("next").at(0).at("cost") == 4);
    CHECK(json.at("spoiled").size() == 1); // the other stays below one in a hundred
    CHECK(json.at("moved").at(0).at("what") == "albumin");
    CHECK(json.at("moved").at(0).at("draw") == 2);
    CHECK_FALSE(json.at("moved").at(1).contains("draw"));
}

TEST_CASE("Printed weights add up to one, however they fall", "[report]") {
    for (const std::vector<double>& weights : {std::vector<double>{1. / 3, 1. / 3, 1. / 3},
                                               {1e-12, 1 - 2e-12, 1e-12},
                                               {0.1234567, 0.7654321, 0.1111112},
                                               {0, 0, 1}}) {
        report::Weighing one = weighing();
        one.posterior.weights = weights;
        const auto json = nlohmann::json::parse(report::weighJson(one));
        CHECK(std::abs(sumOf(json.at("explanations")) - 1) < 1e-12);
    }
}

TEST_CASE("A case that asks for nothing still has a weighing", "[report]") {
    report::Weighing one = weighing();
    one.posterior = {};
    one.posterior.stories = 500;
    one.posterior.effective = 20;
    const auto json = nlohmann::json::parse(report::weighJson(one));
    CHECK(json.at("explanations").empty());
    CHECK(json.at("organs").is_object());
    CHECK_THAT(told(one), Catch::Contains("asks for no explanation"));
}

TEST_CASE("Few effective stories are warned of, many are not", "[report]") {
    report::Weighing one = weighing();
    CHECK_THAT(told(one), !Catch::Contains("too few to trust tenths"));
    one.posterior.effective = 99.9;
    CHECK_THAT(told(one), Catch::Contains("Caution") && Catch::Contains("only 99 effective") &&
                              Catch::Contains("too few to trust tenths"));
}

TEST_CASE("Weights that settle nothing are not said to speak for anything", "[report]") {
    report::Weighing one = weighing();
    one.posterior.weights = {0.3, 0.4, 0.3};
    CHECK_THAT(told(one), Catch::Contains("settle on none") && !Catch::Contains("speak for"));
}

TEST_CASE("Shares show no digit that the ensemble does not know", "[report]") {
    using report::shownShare;
    CHECK(shownShare(0.7132, 0.004, 5000) == "71.3");
    CHECK(shownShare(0.7132, 0.02, 5000) == "71");
    CHECK(shownShare(0.7132, 0.12, 5000) == "70");
    CHECK(shownShare(0.7132, 0.00001, 5000) == "71.3"); // tenths at best
    CHECK(shownShare(0.7132, 0, 50) == "71");           // fifty stories know no tenths
    CHECK(shownShare(0.7132, 0, 8) == "70");
    CHECK(shownShare(0.00001, 0, 5000) == "< 0.1");
    CHECK(shownShare(0, 0, 50) == "< 1");
    CHECK(shownShare(0.99999, 0.00001, 5000) == "> 99.9");
    CHECK(shownShare(0.996, 0, 50) == "> 99");
    CHECK(shownShare(1, 0, 5000) == "> 99.9"); // stories are never all that may be
    CHECK(report::shownShareError(0.0043, 5000) == "0.4");
    CHECK(report::shownShareError(0, 5000) == "0.1");
}

TEST_CASE("Organs show no digit that the ensemble does not know", "[report]") {
    const reader::Points work{0.094, 0.1, 0.134, 0.17, 0.186};
    // (18.6 - 9.4) / 3.29 * 2.11 / sqrt(n): 0.06 of 10,000 stories, 0.6 of 100, 1.9 of 10.
    CHECK(report::shownWork(work, 10000).median == "13.4");
    CHECK(report::shownWork(work, 10).median == "13");
    CHECK(report::shownWork(work, 10).low == "9");
    const reader::Points leak{2.13, 2.5, 4.26, 8, 9.38};
    // log(9.38 / 2.13) / 3.29 * 2.11 / sqrt(n): 1 % of 10,000 stories, 30 % of 10.
    CHECK(report::shownLeak(leak, 10000).median == "4.3");
    CHECK(report::shownLeak(leak, 10).median == "4");
}

TEST_CASE("What moved the reader is told with the explanation it raised most", "[report]") {
    const report::Weighing one = weighing();
    const auto& p = one.posterior;
    // Parts of the divergence by hand: 0.6 log2(0.6 / 0.15) = 1.2 for the liver; the others fall.
    CHECK(report::towards(p.moved[0], p.prior) == 1);
    CHECK(report::towards(p.moved[1], p.prior) == -1); // moved nothing
    const auto shown = [&](std::size_t i, lab::Units units) {
        return report::shownMoved(p.moved[i], one.question, hand::bench(), units);
    };
    CHECK(shown(0, lab::Units::conventional) == "icterus");
    const lab::Result* albumin = one.question.samples[1].report.find(body::Analyte::albumin);
    REQUIRE(albumin);
    CHECK(shown(3, lab::Units::conventional) ==
          "albumin " + lab::printed(*albumin, hand::bench(), lab::Units::conventional) + " g/dL");
    CHECK(shown(3, lab::Units::si) ==
          "albumin " + lab::printed(*albumin, hand::bench(), lab::Units::si) + " g/L");
}
