#include "lesson/marks.h"

#include "base/chance.h"

#include <catch2/catch.hpp>

#include <cmath>

namespace cistern::lesson {

namespace {

/// A continuous belief as equally likely outcomes: the middles of 2001 slices of a normal in log2.
std::vector<double> logNormalFolds(double median, double sdDoublings) {
    std::vector<double> out;
    const int slices = 2001;
    for (int i = 0; i < slices; ++i)
        out.push_back(median * std::exp2(sdDoublings * base::normalQuantile((i + 0.5) / slices)));
    return out;
}

double expectedLeak(const Band& band, const std::vector<double>& outcomes) {
    double sum = 0;
    for (const double outcome : outcomes) sum += leakPoints(band, outcome);
    return sum / static_cast<double>(outcomes.size());
}

struct Chunk {
    double work, probability;
};

double expectedWork(const Band& band, const std::vector<Chunk>& belief) {
    double sum = 0;
    for (const Chunk& chunk : belief) sum += chunk.probability * workPoints(band, chunk.work);
    return sum;
}

/// Outcomes of a belief whose median and 80 % band are given: two half normals joined at the
/// median.
std::vector<double> outcomesOf(const Band& band) {
    std::vector<double> out;
    const int slices = 2001;
    const double tenth = base::normalQuantile(0.9);
    for (int i = 0; i < slices; ++i) {
        const double z = base::normalQuantile((i + 0.5) / slices);
        out.push_back(band.best +
                      z / tenth * (z < 0 ? band.best - band.low : band.high - band.best));
    }
    return out;
}

lab::Report reportWith(const std::vector<lab::Result>& results) {
    lab::Report report;
    report.results = results;
    return report;
}

lab::Result result(body::Analyte analyte, double value, double low, double high) {
    lab::Result out;
    out.analyte = analyte;
    out.value = value;
    lab::Interval interval;
    interval.analyte = analyte;
    interval.low = low;
    interval.high = high;
    out.interval = interval;
    if (value > high) out.flag = lab::Flag::high;
    if (value < low) out.flag = lab::Flag::low;
    return out;
}

Case liverCase() {
    Case out;
    out.organs = {body::Tissue::liver};
    out.explanations = {"nothing wrong", "acute hepatocyte necrosis", "nephron loss"};
    return out;
}

} // namespace

TEST_CASE("The interval score follows its published formula", "[lesson]") {
    // Gneiting and Raftery 2007, section 6.2: (u - l) + 2/alpha (x - u) = 3 + 10 x 1 = 13.
    // Bracher and others 2021, eq. 1 with K = 1: (|6 - 4| / 2 + 0.1 x 13) / 1.5.
    CHECK(intervalScore({4, 2, 5}, 6) == Approx((1 + 1.3) / 1.5));
    CHECK(intervalScore({4, 2, 5}, 4) == Approx(0.1 * 3 / 1.5));
    CHECK(intervalScore({4, 2, 5}, 1) == Approx((1.5 + 0.1 * 13) / 1.5));
}

TEST_CASE("Leak earns most, on average, for the belief one really holds", "[lesson]") {
    const std::vector<double> belief = logNormalFolds(3, 1.1);
    const double tenth = 1.1 * base::normalQuantile(0.9);
    const double low = 3 * std::exp2(-tenth), high = 3 * std::exp2(tenth);
    const double honest = expectedLeak({3, low, high}, belief);
    for (const double shift : {-1.5, -0.7, -0.3, 0.3, 0.7, 1.5}) {
        const double by = std::exp2(shift);
        const Band wrongLow{3, std::min(3.0, low * by), high};
        const Band wrongHigh{3, low, std::max(3.0, high * by)};
        const Band wrongBest{std::clamp(3 * by, low, high), low, high};
        const Band moved{3 * by, low * by, high * by};
        for (const Band& band : {wrongLow, wrongHigh, wrongBest, moved}) {
            CAPTURE(shift, band.low, band.best, band.high);
            // 2001 slices place a quantile to 0.001 doublings; 0.3 doublings cost over 0.1 points.
            CHECK(expectedLeak(band, belief) < honest - 0.1);
        }
    }
}

TEST_CASE("Work earns most, on average, for the belief one really holds", "[lesson]") {
    // Tenth, half and nine tenths of this belief fall on 20, 60 and 95 and nowhere else.
    const std::vector<Chunk> belief = {{20, 0.3}, {60, 0.5}, {95, 0.2}};
    const double honest = expectedWork({60, 20, 95}, belief);
    for (int low = 0; low <= 150; low += 5)
        for (int best = low; best <= 150; best += 5)
            for (int high = best; high <= 150; high += 5) {
                if (low == 20 && best == 60 && high == 95) continue;
                const Band band{double(best), double(low), double(high)};
                if (expectedWork(band, belief) >= honest) {
                    CAPTURE(low, best, high);
                    FAIL("a dishonest band earns as much");
                }
            }
    CHECK(honest < 100);
}

TEST_CASE("Points over explanations earn most, on average, at the probabilities one believes",
          "[lesson]") {
    const std::vector<std::string> list = {"a", "b", "c"};
    const double p[] = {0.5, 0.3, 0.2};
    const auto expected = [&](double a, double b) {
        const std::map<std::string, double> points = {{"a", a}, {"b", b}, {"c", 100 - a - b}};
        double sum = 0;
        for (std::size_t i = 0; i < 3; ++i)
            sum += p[i] * explanationPoints(points, list, {list[i]});
        return sum;
    };
    const double honest = expected(50, 30);
    for (int a = 0; a <= 100; a += 5)
        for (int b = 0; a + b <= 100; b += 5)
            if (a != 50 || b != 30) {
                CAPTURE(a, b);
                CHECK(expected(a, b) < honest);
            }
}

TEST_CASE("Points stay between their stated bounds", "[lesson]") {
    CHECK(leakPoints({4, 4, 4}, 4) == Approx(100));
    CHECK(workPoints({27, 27, 27}, 27) == Approx(100));
    CHECK(leakPoints({mostLeak, mostLeak, mostLeak}, 0) == Approx(-786).margin(0.5)); // rounded
    CHECK(workPoints({mostWork, mostWork, mostWork}, 0) == Approx(-400));
    CHECK(explanationPoints({{"a", 100}}, {"a", "b"}, {"a"}) == Approx(100));
    CHECK(explanationPoints({{"b", 100}}, {"a", "b"}, {"a"}) ==
          Approx(0).margin(1e-12)); // rounding
    CHECK(explanationPoints({{"a", 50}, {"b", 50}}, {"a", "b", "c"}, {"a", "b"}) == Approx(100));
    CHECK(leakPoints({0.1, 0.1, 0.1}, 0) == Approx(100)); // dry is dry
}

TEST_CASE("The shrug earns about half of a part, by its own belief", "[lesson]") {
    Case subject = liverCase();
    const OrganAnswer shrug = shrugAnswers(subject).organs.at(body::Tissue::liver);
    const Band leak = *shrug.leak, work = *shrug.work;
    double leakSum = 0, workSum = 0;
    const std::vector<double> doublings =
        outcomesOf({std::log2(leak.best), std::log2(leak.low), std::log2(leak.high)});
    for (const double outcome : doublings) leakSum += leakPoints(leak, std::exp2(outcome));
    for (const double outcome : outcomesOf(work)) workSum += workPoints(work, outcome);
    // "About half": the units are round numbers, so five points to either side.
    CHECK(leakSum / 2001 == Approx(50).margin(5));
    CHECK(workSum / 2001 == Approx(50).margin(5));
}

TEST_CASE("The next step earns 100, 60 or nothing, and a blind pick the mean", "[lesson]") {
    const std::vector<std::string> list = {"wait", "scan", "repeat", "treat"};
    const std::vector<std::string> good = {"scan", "repeat"};
    CHECK(nextPoints("scan", list, good) == 100);
    CHECK(nextPoints("repeat", list, good) == 60);
    CHECK(nextPoints("treat", list, good) == 0);
    CHECK(nextPoints(std::nullopt, list, good) == Approx(40));
}

TEST_CASE("Doubt earns only where it is due", "[lesson]") {
    using body::Analyte;
    const std::vector<Analyte> measured = {Analyte::ALT, Analyte::glucose, Analyte::urea};
    CHECK(specimenPoints({}, measured, {}) == 100);
    CHECK(specimenPoints(measured, measured, {}) == 0);
    CHECK(specimenPoints({Analyte::glucose}, measured, {Analyte::glucose}) == 100);
    CHECK(specimenPoints({}, measured, {Analyte::glucose}) == 50);
    CHECK(specimenPoints(measured, measured, {Analyte::glucose}) == 50);
}

TEST_CASE("The naive reader takes a big number for a sick organ and silence for health",
          "[lesson]") {
    const Case subject = liverCase();
    Knowledge nothing;
    const auto read = [&](const lab::Result& alt) {
        return naiveAnswers(subject, nothing, {reportWith({alt})});
    };
    const Answers quiet = read(result(body::Analyte::ALT, 60, 17, 95));
    CHECK(quiet.organs.at(body::Tissue::liver).work->best == 100);
    CHECK(quiet.points.at("nothing wrong") == 90);

    const Answers loud = read(result(body::Analyte::ALT, 8 * 95, 17, 95));
    CHECK(loud.organs.at(body::Tissue::liver).leak->best == Approx(8));
    CHECK(loud.organs.at(body::Tissue::liver).work->best == Approx(40)); // three doublings, 20 each
    CHECK(loud.points.at("acute hepatocyte necrosis") == 90);

    const Answers louder = read(result(body::Analyte::ALT, 16 * 95, 17, 95));
    CHECK(louder.organs.at(body::Tissue::liver).work->best <
          loud.organs.at(body::Tissue::liver).work->best);

    const Answers unheard = naiveAnswers(subject, nothing, {reportWith({})});
    CHECK(unheard.organs == shrugAnswers(subject).organs);
}

TEST_CASE("The weights of a sheet add up to one, whatever a case asks", "[lesson]") {
    Case subject = liverCase();
    subject.next = {"scan", "wait"};
    Truth truth;
    truth.organs = {{body::Tissue::liver, 2, 30}};
    const auto whole = [&] {
        Answers answers = shrugAnswers(subject);
        double sum = 0;
        for (const Mark& mark : sheet("you", answers, subject, truth, {body::Analyte::ALT}).parts)
            sum += mark.weight;
        return sum;
    };
    CHECK(whole() == Approx(1)); // no key: only leak, work and specimen
    truth.explanations = {"nephron loss"};
    truth.next = {"scan"};
    CHECK(whole() == Approx(1));
    subject.organs.push_back(body::Tissue::kidney);
    truth.organs.push_back({body::Tissue::kidney, 1, 100});
    CHECK(whole() == Approx(1));
}

TEST_CASE("A total below zero is told in words", "[lesson]") {
    CHECK(inWords(71.4) == "71 of 100");
    CHECK(inWords(-12) == "no points: the bands were narrow and missed");
}

} // namespace cistern::lesson
