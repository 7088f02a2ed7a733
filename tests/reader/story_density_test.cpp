#include "reader/small_world.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

/// Insults of every span, of which one counts hours, and a mishap with a size.
Priors everySpan() {
    Priors priors = smallPriors(
        {priorOf("fasting", 10, {Spread::Shape::fold, 40, 20, 240}, Span::running),
         priorOf("bile duct obstruction", 10, half, Span::running),
         priorOf("inflammation", 10, half), priorOf("nephron loss", 10, half, Span::slow)});
    priors.mishaps = {{"serum clot", 0.2, "", Spread{Spread::Shape::fold, 240, 90, 600}, "min"},
                      {"serum topped from", 0.1, "edta", {}, ""}};
    return priors;
}

/// How many deviates of a story matter: the density at zero is that of a normal to this power.
double live(const Stories& stories, Story story) {
    for (Event& event : story.events) {
        Event still;
        still.prior = event.prior;
        still.stopped = event.stopped;
        event = still;
    }
    story.meal = 0;
    for (Slip& slip : story.slips) slip.size = 0;
    return stories.logDeviates(story) / (-std::log(2 * std::numbers::pi) / 2);
}

} // namespace

TEST_CASE("Only deviates that matter count", "[reader]") {
    const Priors priors = everySpan();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    const auto of = [&](std::size_t insult) { return only(priors.insults[insult]); };
    CHECK(live(stories, {}) == Approx(0).margin(1e-12));
    CHECK(live(stories, of(0)) == Approx(1)); // severity
    CHECK(live(stories, of(1)) == Approx(2)); // severity, onset
    CHECK(live(stories, of(2)) == Approx(3)); // severity, onset, duration
    CHECK(live(stories, of(3)) == Approx(2)); // severity, duration
    Story stopped = of(1);
    stopped.events[0].stopped = true;
    CHECK(live(stories, stopped) == Approx(3));
    Story fed;
    fed.fed = true;
    CHECK(live(stories, fed) == Approx(1));
    Story slipped;
    slipped.slips = {{0, 0}, {1, 0}}; // a size, none
    CHECK(live(stories, slipped) == Approx(1));
}

TEST_CASE("A deviate matters exactly if it changes what happens", "[reader]") {
    const Priors priors = everySpan();
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    for (const InsultPrior& prior : priors.insults)
        for (double Event::*deviate :
             {&Event::severity, &Event::onset, &Event::duration, &Event::stop})
            for (bool stopped : {false, true}) {
                CAPTURE(prior.kind->name, stopped);
                Story here = only(prior);
                // What adds up cannot be stopped, and what has ended by then need not be.
                if (stopped && prior.span != Span::running) continue;
                here.events[0].stopped = stopped;
                Story there = here;
                there.events[0].*deviate = 1;
                const body::Insult a = stories.insult(here.events[0]);
                const body::Insult b = stories.insult(there.events[0]);
                const bool changes = a.severity != b.severity || a.from != b.from || a.to != b.to;
                CHECK(changes == (stories.logDeviates(here) != stories.logDeviates(there)));
            }
}

TEST_CASE("Stories are alike if nothing but deviates parts them, and the number says so",
          "[reader]") {
    const Priors priors = everySpan(), copy = priors;
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    Story plain = only(priors.insults[1]);
    plain.slips.resize(2);
    std::vector<Story> different(8, plain);
    different[1].events[0].stopped = true;
    different[2].fed = true;
    different[3].checkUp = true;
    different[4].potassiumRich = true;
    different[5].slips[1].mishap = 0;
    different[6].slips[0].mishap = 0;
    different[7].events.push_back(median(priors.insults[2]));
    std::set<std::uint64_t> numbers;
    for (std::size_t a = 0; a < different.size(); ++a) {
        numbers.insert(Stories::structure(different[a]));
        for (std::size_t b = 0; b < different.size(); ++b)
            CHECK(Stories::alike(different[a], different[b]) == (a == b));
    }
    CHECK(numbers.size() == different.size());
    // Which insult is the main one makes no difference to what happens.
    Story otherwise = different[7];
    otherwise.main = &priors.insults[2];
    CHECK(Stories::alike(otherwise, different[7]));
    CHECK(Stories::structure(otherwise) == Stories::structure(different[7]));
    // Where priors lie in memory does not matter to the number.
    Story elsewhere = only(copy.insults[1]);
    elsewhere.slips.resize(2);
    CHECK(Stories::structure(elsewhere) == Stories::structure(plain));
    const Eigen::VectorXd deviates = stories.deviates(different[7]);
    const Story moved = stories.with(different[7], deviates.array() + 0.5);
    CHECK(stories.deviates(moved) == Eigen::VectorXd(deviates.array() + 0.5));
    CHECK(stories.with(moved, deviates) == different[7]);
    CHECK(Stories::alike(moved, different[7]));
    CHECK(Stories::structure(moved) == Stories::structure(different[7]));
    CHECK_FALSE(moved == different[7]);
}

TEST_CASE("Stories come as often as their density says", "[reader]") {
    InsultPrior first = priorOf("pancreatitis", 10, threefold, Span::running);
    for (const char* name : {"inflammation", "dehydration", "hemolysis", "stress"})
        first.companions.push_back({&kindOf(name), {0.4, 0.4}});
    InsultPrior stress = priorOf("stress", 5, half);
    stress.passing = true;
    Priors priors = smallPriors(
        {first, priorOf("inflammation", 20, half), priorOf("dehydration", 5, half, Span::running),
         priorOf("hemolysis", 5, half), priorOf("parasitism", 5, half), stress});
    priors.alongside = {{&kindOf("stress"), {0.2, 0.2}}, {&kindOf("parasitism"), {0.1, 0.1}}};
    priors.unrelated = 0.4; // far more than is likely, so that it shows
    priors.mishaps = {{"serum clot", 0.2, "", Spread{Spread::Shape::fold, 240, 90, 600}, "min"},
                      {"serum topped from", 0.1, "edta", {}, ""}};
    Question question = dogAt({0, 24});
    question.samples[1].handedIn = true;
    const Stories stories(priors, question);
    constexpr int count = 100000;
    const bool crowded = GENERATE(false, true);
    for (std::size_t main : {std::size_t(0), std::size_t(1), std::size_t(6)}) {
        CAPTURE(main, crowded);
        struct Seen {
            int times = 0;
            double chance = 0;
        };
        std::map<std::uint64_t, Seen> seen;
        for (int i = 0; i < count; ++i) {
            base::Chance chance(11, base::Purpose::story, static_cast<std::uint64_t>(i));
            const Story story = stories.draw(main, chance, crowded);
            Seen& one = seen[Stories::structure(story)];
            if (one.times++) continue;
            // How often this main insult gives these events, and all else of the structure.
            double asThis = 0;
            const Stories::Origins origins = stories.origins(story);
            for (const auto& origin : origins.each)
                if (origin.main == main) asThis += crowded ? origin.crowded : origin.chance;
            const double asAny = origins.chance;
            one.chance = asThis / asAny / stories.mains()[main].chance *
                         std::exp(stories.logPrior(story) - stories.logDeviates(story));
        }
        double sum = 0;
        int compared = 0;
        for (const auto& [number, one] : seen) {
            sum += one.chance;
            if (one.chance * count < 100) continue; // too few to be near normal
            ++compared;
            // Five standard errors: some hundred structures are compared.
            const double error = std::sqrt(one.chance * (1 - one.chance) / count);
            CHECK(one.times / double(count) == Approx(one.chance).margin(5 * error));
        }
        CHECK(compared > 10);
        // What was never drawn has next to no chance.
        CHECK(sum == Approx(1).margin(0.03));
        CHECK(sum < 1 + 1e-9);
    }
}
