// Where later rounds look: densities against sums over the line and the plane, and draws weighed by
// them against the priors that they must give back.
#include "reader/kin.h"
#include "reader/rounds.h"
#include "reader/small_world.h"
#include "reader/weights.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

Priors world() {
    InsultPrior first = priorOf("inflammation", 10, half);
    first.companions = {{&kindOf("bile duct obstruction"), {0.4, 0.4}},
                        {&kindOf("dehydration"), {0.05, 0.05}}};
    Priors priors =
        smallPriors({first, priorOf("bile duct obstruction", 10, half, Span::running),
                     priorOf("dehydration", 10, half, Span::running),
                     priorOf("fasting", 10, {Spread::Shape::fold, 40, 20, 240}, Span::running)});
    priors.unrelated = 0.1;
    return priors;
}

Story moved(const InsultPrior& prior, double severity, double onset = 0) {
    Story story = only(prior);
    story.slips.resize(2);
    story.events[0].severity = severity;
    story.events[0].onset = onset;
    return story;
}

/// Means and variances of a story's main deviates under weights, and how many the weights are
/// worth.
struct Moments {
    std::vector<double> weights;
    std::array<double, 3> mean{}, square{};

    void add(double weight, const Event& event) {
        weights.push_back(weight);
        const std::array<double, 3> x{event.severity, event.onset, event.duration};
        for (std::size_t d = 0; d < 3; ++d) {
            mean[d] += weight * x[d];
            square[d] += weight * x[d] * x[d];
        }
    }
    /// Standard normals, to four standard errors: of a mean 1/sqrt(n), of a variance sqrt(2/n).
    void checkStandard() const {
        double sum = 0;
        for (const double one : weights) sum += one;
        const double worth = effective(weights), error = 4 / std::sqrt(worth);
        const auto count = static_cast<double>(weights.size());
        CAPTURE(worth);
        CHECK(worth > count / 20);
        CHECK(sum / count == Approx(1).margin(error));
        for (std::size_t d = 0; d < 3; ++d) {
            CHECK(mean[d] / sum == Approx(0).margin(error));
            CHECK(square[d] / sum == Approx(1).margin(error * std::sqrt(2)));
        }
    }
};

constexpr int count = 40000;

} // namespace

TEST_CASE("How often a cloud draws a story is a density", "[reader]") {
    const Priors priors = world();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    constexpr double step = 0.05; // middle sums, exact for normal densities up to rounding
    SECTION("over one deviate") {
        const Story a = moved(priors.insults[3], 0.7), b = moved(priors.insults[3], -1);
        const Cloud cloud(stories, {&a, &b}, {2, 1}, {0, 0, 1}, 0.4);
        CHECK(cloud.centers() == 3);
        double sum = 0, mean = 0;
        for (double x = -8; x < 8; x += step) {
            const double part = cloud.density(Eigen::VectorXd::Constant(1, x)) * step;
            sum += part;
            mean += x * part;
        }
        CHECK(sum == Approx(1).margin(1e-6));
        CHECK(mean == Approx((0.7 + 0.7 - 1) / 3).margin(1e-6));
    }
    SECTION("over two") {
        const Story a = moved(priors.insults[1], 0.5, 1), b = moved(priors.insults[1], -0.5, -1);
        const Cloud cloud(stories, {&a, &b}, {1, 1}, {0, 1}, 0.3);
        double sum = 0, product = 0;
        for (double x = -6; x < 6; x += step)
            for (double y = -6; y < 6; y += step) {
                const double part = cloud.density(Eigen::Vector2d(x, y)) * step * step;
                sum += part;
                product += x * y * part;
            }
        CHECK(sum == Approx(1).margin(1e-6));
        CHECK(product > 0.5); // it leans as its members do
    }
}

TEST_CASE("Stories drawn from a cloud, weighed by both densities, give back the prior",
          "[reader]") {
    const Priors priors = world();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    const Story from = moved(priors.insults[0], 0.5, -0.4);
    const Cloud cloud(stories, {&from}, {1}, {0}, 1.6); // wider than the prior: weights are bounded
    base::Chance chance(3, base::Purpose::adapt);
    Moments moments;
    for (int i = 0; i < count; ++i) {
        const Story to = cloud.draw(stories, 0, chance);
        REQUIRE(Stories::alike(from, to));
        moments.add(std::exp(stories.logDeviates(to)) / cloud.density(stories.deviates(to)),
                    to.events[0]);
    }
    moments.checkStandard();
}

TEST_CASE("Kin, weighed by their share, give back the prior, whatever came along", "[reader]") {
    const Priors priors = world();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    const std::size_t main = stories.numberOf(&priors.insults[0]);
    Story one = moved(priors.insults[0], 0.5, -0.4), other = moved(priors.insults[0], -0.3, 0.2);
    Event along;
    along.prior = &priors.insults[1];
    along.severity = 0.6;
    other.events.push_back(along);
    const Kin kin(stories, main, {&one, &other}, 1.6);
    CHECK(kin.centers() == 2);
    base::Chance chance(4, base::Purpose::adapt);
    Moments mains;
    std::map<std::uint64_t, int> seen;
    int shared = 0;
    for (int i = 0; i < count; ++i) {
        const Story to = kin.draw(stories, static_cast<std::size_t>(i % 2), chance);
        REQUIRE(to.main == &priors.insults[0]);
        const double weight = 1 / kin.share(stories, to);
        mains.add(weight, *to.find(*priors.insults[0].kind));
        shared += to.find(*priors.insults[1].kind) != nullptr;
        ++seen[Stories::structure(to)];
    }
    mains.checkStandard();
    CHECK(shared / double(count) == Approx(0.4 + 0.6 * 0.1 / 3).margin(0.02));
    base::Chance prior(5, base::Purpose::story);
    std::map<std::uint64_t, int> usual;
    for (int i = 0; i < count; ++i) ++usual[Stories::structure(stories.draw(main, prior))];
    for (const auto& [structure, times] : usual)
        CHECK(seen[structure] == Approx(times).margin(5 * std::sqrt(2. * times) + 3));
}

TEST_CASE("A round's stories, weighed by its share, give back the prior", "[reader]") {
    const Priors priors = world();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    Rounds rounds(stories, 6);
    std::vector<Story> lived;
    std::vector<Stories::Origins> origins;
    std::vector<double> likely;
    for (std::uint64_t i = 0; i < 2000; ++i) {
        lived.push_back(rounds.draw(i));
        origins.push_back(stories.origins(lived.back()));
        // As if a result had asked for severe inflammation.
        const Event* event = lived.back().find(*priors.insults[0].kind);
        likely.push_back(event ? -std::pow(event->severity - 1, 2) : -4);
    }
    std::vector<double> mains(stories.mains().size(), 1. / 5);
    rounds.begin(lived, origins, likely, mains);
    REQUIRE(rounds.size() == 2);
    double sum = 0, squares = 0;
    std::map<const InsultPrior*, double> by;
    for (std::uint64_t i = 0; i < count; ++i) {
        const Story story = rounds.draw(2000 + i);
        const double weight = 1 / rounds.share(1, story, stories.origins(story));
        sum += weight;
        squares += weight * weight;
        by[story.main] += weight;
    }
    // Four standard errors of a mean of weights.
    const double error = 4 * std::sqrt((squares / count - 1) / count);
    CHECK(sum / count == Approx(1).margin(error));
    for (const Stories::Main& main : stories.mains())
        CHECK(by[main.prior] / count == Approx(main.chance).margin(error));
}
