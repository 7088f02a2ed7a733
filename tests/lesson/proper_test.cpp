// Honesty pays: for any belief about what is true, nobody can expect more than whoever states it.
// Gneiting and Raftery 2007 (from memory): quantile and interval scores are greatest, on average,
// at the quantiles; Brier 1950 (from memory): the quadratic score at the probabilities.
#include "base/chance.h"
#include "case_at_hand.h"
#include "lesson/ideal.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace cistern::lesson {

namespace {

constexpr int beliefs = 60, otherAnswers = 200;
// Expectations are sums of some dozens of points up to a thousand: rounding stays far below.
constexpr double rounding = 1e-9;

/// What may be true, with chances.
struct Belief {
    std::vector<Truth> truths;
    std::vector<double> chances;
};

/// Chances that add up to one, some of them near nothing.
std::vector<double> chancesOf(std::size_t n, base::Chance& chance) {
    std::vector<double> all(n);
    for (double& one : all) one = std::pow(chance.uniform(), 3);
    const double sum = std::accumulate(all.begin(), all.end(), 0.0);
    for (double& one : all) one /= sum;
    return all;
}

/// The point below which a share of the chances lies.
double quantile(std::vector<std::pair<double, double>> points, double share) {
    std::sort(points.begin(), points.end());
    double below = 0;
    for (const auto& [value, chance] : points)
        if ((below += chance) >= share) return value;
    return points.back().first;
}

const std::vector<body::Analyte> measured = {body::Analyte::ALT, body::Analyte::K,
                                             body::Analyte::glucose};

Case subject() {
    Case out;
    out.organs = {body::Tissue::liver};
    out.explanations = {"nothing wrong", "acute hepatocyte necrosis", "nephron loss", "fasting"};
    out.next = {"bile acids", "repeat in 3 days"};
    return out;
}

/// Any truths: work and leak go with the explanation as they like, results spoil independently.
Belief any(const Case& asked, base::Chance& chance, std::vector<Doubt>& doubts) {
    doubts.clear();
    for (const body::Analyte analyte : measured)
        doubts.push_back({analyte, std::pow(chance.uniform(), 2)});
    Belief out;
    const std::size_t n = 3 + static_cast<std::size_t>(chance.uniform() * 6);
    const std::vector<double> chances = chancesOf(n, chance);
    for (std::size_t i = 0; i < n; ++i) {
        Truth truth;
        truth.organs = {
            {body::Tissue::liver, std::exp2(12 * chance.uniform() - 4), 160 * chance.uniform()}};
        truth.explanations = {asked.explanations[static_cast<std::size_t>(
            chance.uniform() * static_cast<double>(asked.explanations.size()))]};
        truth.next = {asked.next[chance.uniform() < 0.5 ? 0 : 1]};
        for (std::size_t set = 0; set < 1u << measured.size(); ++set) {
            double share = chances[i];
            truth.distrusted.clear();
            for (std::size_t j = 0; j < measured.size(); ++j) {
                const bool faulty = (set >> j & 1) != 0;
                share *= faulty ? doubts[j].chance : 1 - doubts[j].chance;
                if (faulty) truth.distrusted.push_back(measured[j]);
            }
            out.truths.push_back(truth);
            out.chances.push_back(share);
        }
    }
    return out;
}

double expected(const Answers& answers, const Case& asked, const Belief& belief) {
    double sum = 0;
    for (std::size_t i = 0; i < belief.truths.size(); ++i)
        sum += belief.chances[i] * sheet("", answers, asked, belief.truths[i], measured).total;
    return sum;
}

Answers honest(const Case& asked, const Belief& belief, const std::vector<Doubt>& doubts) {
    std::vector<std::pair<double, double>> work, leak;
    std::map<std::string, double> next;
    Answers out;
    for (const std::string& one : asked.explanations) out.points[one] = 0;
    for (std::size_t i = 0; i < belief.truths.size(); ++i) {
        const Truth& truth = belief.truths[i];
        work.emplace_back(std::clamp(truth.organs[0].work, leastWork, mostWork), belief.chances[i]);
        leak.emplace_back(std::clamp(truth.organs[0].leak, leastLeak, mostLeak), belief.chances[i]);
        out.points[truth.explanations[0]] += 100 * belief.chances[i];
        next[truth.next[0]] += belief.chances[i];
    }
    const auto band = [](const auto& points) {
        return Band{quantile(points, 0.5), quantile(points, 0.1), quantile(points, 0.9)};
    };
    out.organs[body::Tissue::liver] = {band(leak), band(work)};
    out.next = std::max_element(next.begin(), next.end(), [](const auto& a, const auto& b) {
                   return a.second < b.second;
               })->first;
    out.distrusted = distrusted(doubts);
    return out;
}

/// A number moved by a chance amount of chance size, held to its range.
double moved(double value, double least, double most, base::Chance& chance) {
    const double size = (most - least) * std::pow(10, -3 * chance.uniform());
    return std::clamp(value + size * chance.normal(), least, most);
}

Band movedBand(const Band& band, double least, double most, base::Chance& chance) {
    std::array<double, 3> ends{moved(band.low, least, most, chance),
                               moved(band.best, least, most, chance),
                               moved(band.high, least, most, chance)};
    std::sort(ends.begin(), ends.end());
    return {ends[1], ends[0], ends[2]};
}

Answers otherwise(const Answers& from, const Case& asked, base::Chance& chance) {
    Answers out = from;
    OrganAnswer& liver = out.organs[body::Tissue::liver];
    const Band leak = movedBand(
        {std::log2(liver.leak->best), std::log2(liver.leak->low), std::log2(liver.leak->high)},
        std::log2(leastLeak), std::log2(mostLeak), chance);
    const auto fold = [](double doublings) {
        return std::clamp(std::exp2(doublings), leastLeak, mostLeak);
    };
    if (chance.uniform() < 0.5) liver.leak = Band{fold(leak.best), fold(leak.low), fold(leak.high)};
    if (chance.uniform() < 0.5) liver.work = movedBand(*liver.work, leastWork, mostWork, chance);
    if (chance.uniform() < 0.5) {
        const double share = std::pow(chance.uniform(), 2);
        const std::vector<double> others = chancesOf(asked.explanations.size(), chance);
        for (std::size_t i = 0; i < others.size(); ++i) {
            double& points = out.points[asked.explanations[i]];
            points += share * (100 * others[i] - points);
        }
    }
    if (chance.uniform() < 0.3) out.next = asked.next[chance.uniform() < 0.5 ? 0 : 1];
    if (chance.uniform() < 0.3) out.next.reset();
    if (chance.uniform() < 0.5) {
        out.distrusted.clear();
        for (const body::Analyte analyte : measured)
            if (chance.uniform() < 0.5) out.distrusted.push_back(analyte);
    }
    return out;
}

} // namespace

TEST_CASE("Nobody can expect more points than whoever says what they believe", "[lesson]") {
    const Case asked = subject();
    base::Chance chance(31, base::Purpose::test);
    for (int i = 0; i < beliefs; ++i) {
        std::vector<Doubt> doubts;
        const Belief belief = any(asked, chance, doubts);
        const Answers stated = honest(asked, belief, doubts);
        const double own = expected(stated, asked, belief);
        double worst = own;
        for (int j = 0; j < otherAnswers; ++j) {
            const double other = expected(otherwise(stated, asked, chance), asked, belief);
            if (other > own + rounding) {
                CAPTURE(i, j, own, other);
                FAIL("an answer that nobody believes is expected to earn more");
            }
            worst = std::min(worst, other);
        }
        CHECK(worst < own - 1); // some of them lie far off
    }
}

TEST_CASE("Each part of a mark is greatest, on average, where one says what one believes",
          "[lesson]") {
    const Case asked = subject();
    base::Chance chance(32, base::Purpose::test);
    for (int i = 0; i < beliefs; ++i) {
        std::vector<Doubt> doubts;
        const Belief belief = any(asked, chance, doubts);
        const Answers stated = honest(asked, belief, doubts);
        const auto parts = [&](const Answers& answers) {
            std::map<Part, double> sum;
            for (std::size_t k = 0; k < belief.truths.size(); ++k)
                for (const Mark& mark : sheet("", answers, asked, belief.truths[k], measured).parts)
                    sum[mark.part] += belief.chances[k] * mark.points;
            return sum;
        };
        const std::map<Part, double> own = parts(stated);
        REQUIRE(own.size() == 5);
        std::map<Part, double> best;
        for (int j = 0; j < otherAnswers; ++j)
            for (const auto& [part, points] : parts(otherwise(stated, asked, chance)))
                best[part] = j == 0 ? points : std::max(best[part], points);
        for (const auto& [part, points] : own) {
            CAPTURE(i, name(part), points, best[part]);
            CHECK(best[part] <= points + rounding);
        }
    }
}

} // namespace cistern::lesson
