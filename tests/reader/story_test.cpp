#include "reader/small_world.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

constexpr double ninetyFifth = 1.6448536269514722; // quantile of the standard normal distribution
constexpr double sixtyDays = 1440;                 // [h]

base::Chance chanceOf(std::uint64_t story) {
    return base::Chance(7, base::Purpose::story, story);
}

/// Four standard errors of a share p counted in n: wrong once in 16,000 times.
double slack(double p, int n) {
    return 4 * std::sqrt(p * (1 - p) / n);
}

/// How an insult at its medians acts on a dog bled at hours 10 and 34, or on another.
body::Insult acts(const InsultPrior& prior, bool stopped = false,
                  const Question& question = dogAt({10, 34})) {
    const Priors priors = smallPriors({});
    Event event = median(prior);
    event.stopped = stopped;
    return Stories(priors, question).insult(event);
}

} // namespace

TEST_CASE("Main insults have their share of the weights of species, age and sex", "[reader]") {
    InsultPrior injury = priorOf("hepatocyte injury", 30, threefold);
    InsultPrior block = priorOf("urinary obstruction", 20, half);
    block.sexFactor = {0.5, 0.5, 2, 2};
    const InsultPrior lipidosis = priorOf("hepatic lipidosis", 40, half); // of cats alone
    InsultPrior atrophy = priorOf("acinar atrophy", 10, half);
    atrophy.weight[0] = {10, 0, 10}; // no grown dog
    Priors priors = smallPriors({injury, block, lipidosis, atrophy});
    for (auto& one : priors.nothingWrong) one.fill(60);
    Question question = dogAt({0});
    question.who.sex = body::Sex::male;
    question.own = {priorOf("exercise", 10, half)};
    const Stories stories(priors, question);

    REQUIRE(stories.mains().size() == 4);
    const double sum = 60 + 30 + 40 + 10;
    CHECK(stories.mains()[0].prior == nullptr);
    CHECK(stories.mains()[0].chance == Approx(60 / sum));
    CHECK(stories.mains()[1].prior == &priors.insults[0]);
    CHECK(stories.mains()[1].chance == Approx(30 / sum));
    CHECK(stories.mains()[2].prior == &priors.insults[1]);
    CHECK(stories.mains()[2].chance == Approx(40 / sum));
    CHECK(stories.mains()[3].prior == &question.own[0]);
    CHECK(stories.mains()[3].chance == Approx(10 / sum));
}

TEST_CASE("A question's own prior of an insult stands in for that of the priors", "[reader]") {
    const Priors priors = smallPriors({priorOf("inflammation", 10, half)});
    Question question = dogAt({0});
    question.own = {priorOf("inflammation", 30, half)};
    const Stories stories(priors, question);
    REQUIRE(stories.mains().size() == 2);
    CHECK(stories.mains()[1].prior == &question.own[0]);
    CHECK(stories.mains()[1].chance == Approx(0.75));
}

TEST_CASE("What has ended, what runs and what came slowly act when they should", "[reader]") {
    // Bled at hours 10 and 34: presented at 10.
    SECTION("ended before") {
        const body::Insult one = acts(priorOf("inflammation", 1, half));
        CHECK(one.severity == Approx(0.5));
        CHECK(one.from == Approx(10 - 48));
        CHECK(one.to == Approx(10 - 36));
    }
    SECTION("ended, but after presentation") {
        InsultPrior prior = priorOf("inflammation", 1, half);
        prior.duration[0] = {Spread::Shape::fold, 72, 72, 72};
        CHECK(acts(prior).to == Approx(10 + 24));
        // Stopped within 0.5 to 12 h, 2.5 h in the median.
        CHECK(acts(prior, true).to == Approx(12.5));
    }
    SECTION("running") {
        const InsultPrior prior = priorOf("bile duct obstruction", 1, half, Span::running);
        CHECK(acts(prior).from == Approx(10 - 48));
        CHECK(acts(prior).to == Approx(34 + sixtyDays));
        CHECK(acts(prior, true).to == Approx(12.5));
    }
    SECTION("a share lost, still being lost at presentation") {
        const body::Insult one = acts(priorOf("acute kidney injury", 1, half, Span::running), true);
        CHECK(one.from == Approx(10 - 48));
        CHECK(one.to == Approx(10));
    }
    SECTION("a mass lost, over before and not yet over") {
        InsultPrior prior = priorOf("muscle necrosis", 1, {Spread::Shape::fold, 1, 0.1, 10});
        CHECK(acts(prior).to == Approx(10 - 36));
        prior.duration[0] = {Spread::Shape::fold, 72, 72, 72};
        CHECK(acts(prior).to == Approx(10));
    }
    SECTION("an amount spent") {
        const InsultPrior prior =
            priorOf("dehydration", 1, {Spread::Shape::share, 0.06, 0.03, 0.11}, Span::running);
        CHECK(acts(prior).to == Approx(10));
    }
    SECTION("slow: what was lost was lost by then, what holds goes on") {
        InsultPrior lost = priorOf("nephron loss", 1, half, Span::slow);
        lost.duration[0] = {Spread::Shape::fold, 1000, 100, 10000};
        CHECK(acts(lost).from == Approx(10 - 1000));
        CHECK(acts(lost).to == Approx(10));
        lost.duration[0] = {Spread::Shape::fold, 14400, 14400, 14400};
        CHECK(acts(lost).from == Approx(10 - 1440)); // Priors::longest
        InsultPrior held = priorOf("hyperthyroidism", 1, threefold, Span::slow);
        held.duration[0] = lost.duration[0];
        CHECK(acts(held).from == Approx(10 - 1440));
        CHECK(acts(held).to == Approx(34 + sixtyDays));
        held.span = Span::running; // no further back either
        held.onset = held.duration;
        CHECK(acts(held).from == Approx(10 - 1440));
    }
    SECTION("a rate a day holds as long as it runs") {
        const InsultPrior prior =
            priorOf("hemolysis", 1, {Spread::Shape::share, 0.12, 0.03, 0.35}, Span::running);
        CHECK(acts(prior).to == Approx(34 + sixtyDays));
    }
    SECTION("hours without food are as long as they are many") {
        const InsultPrior prior =
            priorOf("fasting", 1, {Spread::Shape::fold, 40, 20, 240}, Span::running);
        CHECK(acts(prior).severity == Approx(40));
        CHECK(acts(prior).from == Approx(10 - 40));
        InsultPrior over = priorOf("fasting", 1, {Spread::Shape::fold, 40, 20, 240});
        CHECK(acts(over).from == Approx(10 - 48));
        CHECK(acts(over).to == Approx(10 - 8));
    }
}

TEST_CASE("The severity of what adds up has happened by presentation", "[reader]") {
    const Priors priors = smallPriors({priorOf("acute kidney injury", 1, half, Span::running)});
    const Question question = dogAt({10, 34});
    const Stories stories(priors, question);
    Story story = only(priors.insults[0]);
    story.events[0].severity = 0.7;
    const auto windows = stories.windows(story, assets().knowledge.dog);
    REQUIRE(windows.size() == 1);
    CHECK(windows[0].drive == body::Drive::nephronStun);
    CHECK(windows[0].to == Approx(10));
    const double lost = 1 - std::exp(-windows[0].value * (windows[0].to - windows[0].from));
    CHECK(lost == Approx(priors.insults[0].severity[0].at(0.7)));
}

TEST_CASE("Nothing begins before birth, and every window has a length", "[reader]") {
    Question pup = dogAt({0});
    pup.who.age = 1000;
    InsultPrior slow = priorOf("nephron loss", 1, half, Span::slow);
    slow.duration[0] = {Spread::Shape::fold, 2000, 2000, 2000};
    CHECK(acts(slow, false, pup).from == Approx(-1000));
    CHECK(acts(slow, false, pup).to == Approx(0));
    InsultPrior early = priorOf("inflammation", 1, half); // over before it was born
    early.onset[0] = {Spread::Shape::fold, 2000, 2000, 2000};
    CHECK(acts(early, false, pup).from == Approx(-1000));
    CHECK(acts(early, false, pup).to > -1000);
    InsultPrior sudden = priorOf("hemorrhage", 1, half, Span::running);
    sudden.onset[0] = {Spread::Shape::fold, 1e-9, 1e-9, 1e-9};
    CHECK(acts(sudden, false, pup).from < -0.05);
    CHECK(acts(sudden, false, pup).to == Approx(0).margin(1e-12));
}

TEST_CASE("Deviates are quantiles, and severities stay within what the kind allows", "[reader]") {
    const Priors priors = smallPriors({priorOf("inflammation", 1, half)});
    const Question question = dogAt({0});
    const Stories stories(priors, question);
    Event event = median(priors.insults[0]);
    event.severity = ninetyFifth;
    event.onset = -ninetyFifth;
    event.duration = ninetyFifth;
    const body::Insult one = stories.insult(event);
    CHECK(one.severity == Approx(0.8));
    CHECK(one.from == Approx(-24));
    CHECK(one.to == Approx(0).margin(1e-9));
    const InsultPrior injury = priorOf("hepatocyte injury", 1, threefold);
    event.prior = &injury;
    event.severity = 40;
    CHECK(stories.insult(event).severity == injury.kind->most);
    event.severity = -40;
    CHECK(stories.insult(event).severity == injury.kind->least);
}

TEST_CASE("Companions come as often as the priors say, in their species", "[reader]") {
    InsultPrior pancreatitis = priorOf("pancreatitis", 10, threefold);
    pancreatitis.companions = {{&kindOf("dehydration"), {0.5, 0.1}},
                               {&kindOf("hepatic lipidosis"), {0.9, 0.9}}, // of cats alone
                               {&kindOf("exercise"), {0.9, 0.9}}};         // no prior
    InsultPrior fright = priorOf("fright", 5, half);
    fright.passing = true;
    Priors priors = smallPriors({pancreatitis, priorOf("dehydration", 10, half, Span::running),
                                 priorOf("hepatic lipidosis", 10, half), fright});
    priors.alongside = {{&kindOf("fright"), {0.1, 0.3}}};
    const Question question = dogAt({0});
    const Stories stories(priors, question);
    constexpr int count = 20000;
    int dry = 0, frightened = 0;
    for (int i = 0; i < count; ++i) {
        base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
        const Story story = stories.draw(1, chance);
        REQUIRE(story.main == &priors.insults[0]);
        dry += story.find(kindOf("dehydration")) != nullptr;
        frightened += story.find(kindOf("fright")) != nullptr;
        REQUIRE(story.find(kindOf("hepatic lipidosis")) == nullptr);
        REQUIRE(story.find(kindOf("exercise")) == nullptr);
        REQUIRE_FALSE(story.checkUp);
    }
    CHECK(dry / double(count) == Approx(0.5).margin(slack(0.5, count)));
    CHECK(frightened / double(count) == Approx(0.1).margin(slack(0.1, count)));
}

TEST_CASE("Nothing wrong is a check-up as often as the priors say", "[reader]") {
    InsultPrior fright = priorOf("fright", 5, half);
    fright.passing = true;
    Priors priors = smallPriors({fright, priorOf("inflammation", 5, half)});
    priors.alongside = {{&kindOf("fright"), {0.2, 0.2}}, {&kindOf("inflammation"), {0.5, 0.5}}};
    priors.checkUps = 0.4;
    const Question question = dogAt({0});
    const Stories stories(priors, question);
    constexpr int count = 20000;
    int checkUps = 0, well = 0;
    for (int i = 0; i < count; ++i) {
        base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
        const Story story = stories.draw(0, chance);
        const bool sick = story.find(kindOf("inflammation"));
        if (sick) REQUIRE_FALSE(story.checkUp);
        well += !sick;
        checkUps += story.checkUp;
    }
    CHECK(checkUps / double(well) == Approx(0.4).margin(slack(0.4, well)));
}

TEST_CASE("An unrelated insult is drawn by weight, and three are the most", "[reader]") {
    InsultPrior first = priorOf("inflammation", 10, half);
    for (const char* name : {"hemolysis", "hemorrhage", "dehydration", "pancreatitis"})
        first.companions.push_back({&kindOf(name), {0.6, 0.6}});
    InsultPrior fright = priorOf("fright", 0, half);
    fright.passing = true;
    first.companions.push_back({&kindOf("fright"), {0.9, 0.9}});
    Priors priors =
        smallPriors({first, priorOf("hemolysis", 0, half), priorOf("hemorrhage", 0, half),
                     priorOf("dehydration", 0, half), priorOf("pancreatitis", 0, threefold), fright,
                     priorOf("parasitism", 10, half), priorOf("nephron loss", 20, half)});
    priors.unrelated = 0.5;
    const Question question = dogAt({0});
    const Stories stories(priors, question);
    constexpr int count = 20000;
    int most = 0, alone = 0, worms = 0, kidneys = 0;
    for (int i = 0; i < count; ++i) {
        base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
        const Story story = stories.draw(1, chance);
        int lasting = 0;
        for (std::size_t a = 0; a < story.events.size(); ++a) {
            lasting += !story.events[a].prior->passing;
            for (std::size_t b = 0; b < a; ++b)
                REQUIRE(story.events[a].prior != story.events[b].prior);
        }
        most = std::max(most, lasting);
        // Where there was room: no companion but fright.
        const bool room = !story.find(kindOf("hemolysis")) && !story.find(kindOf("hemorrhage")) &&
                          !story.find(kindOf("dehydration")) && !story.find(kindOf("pancreatitis"));
        alone += room;
        if (room) worms += story.find(kindOf("parasitism")) != nullptr;
        if (room) kidneys += story.find(kindOf("nephron loss")) != nullptr;
    }
    CHECK(most == 3);
    // Weights 10, 10, 20, of which the first is there already.
    CHECK(worms / double(alone) == Approx(0.125).margin(slack(0.125, alone)));
    CHECK(kidneys / double(alone) == Approx(0.25).margin(slack(0.25, alone)));
}

TEST_CASE("Only what holds and is seen again can be stopped", "[reader]") {
    Priors priors = smallPriors({priorOf("bile duct obstruction", 10, half, Span::running),
                                 priorOf("acute kidney injury", 10, half, Span::running)});
    priors.stopped = 0.3;
    const Question once = dogAt({0}), again = dogAt({0, 24}), longAfter = dogAt({0, 2000});
    constexpr int count = 5000;
    const auto stopped = [&](const Question& question, std::size_t main) {
        const Stories stories(priors, question);
        int sum = 0;
        for (int i = 0; i < count; ++i) {
            base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
            const Event event = stories.draw(main, chance).events.at(0);
            if (!event.stopped) REQUIRE(event.stop == 0);
            sum += event.stopped;
        }
        return sum;
    };
    CHECK(stopped(once, 1) == 0);
    CHECK(stopped(longAfter, 1) == 0); // the first was a look at health: presented at the last
    CHECK(stopped(again, 2) == 0);
    CHECK(stopped(again, 1) / double(count) == Approx(0.3).margin(slack(0.3, count)));
}

TEST_CASE("An untold meal is possible only where nothing is known of food", "[reader]") {
    Priors priors =
        smallPriors({priorOf("fasting", 10, {Spread::Shape::fold, 40, 20, 240}, Span::running)});
    priors.fed = 0.3;
    constexpr int count = 5000;
    const auto fed = [&](const Question& question, std::size_t main) {
        const Stories stories(priors, question);
        int sum = 0;
        for (int i = 0; i < count; ++i) {
            base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
            const Story story = stories.draw(main, chance);
            sum += story.fed;
            const auto windows = stories.windows(story, assets().knowledge.dog);
            if (!story.fed) continue;
            // 2 to 5 h before hour 10.
            REQUIRE(windows.back().drive == body::Drive::meal);
            REQUIRE(windows.back().from > 5);
            REQUIRE(windows.back().from < 8);
        }
        return sum;
    };
    const Question open = dogAt({10});
    CHECK(fed(open, 0) / double(count) == Approx(0.3).margin(slack(0.3, count)));
    CHECK(fed(open, 1) == 0); // it fasts
    Question fasted = open;
    fasted.samples[0].handling.fasted = 12;
    CHECK(fed(fasted, 0) == 0);
    Question eaten = open;
    eaten.meals = {-3};
    CHECK(fed(eaten, 0) == 0);
    const Stories stories(priors, eaten);
    const auto windows = stories.windows({}, assets().knowledge.dog);
    REQUIRE(windows.size() == 1);
    CHECK(windows[0].drive == body::Drive::meal);
    CHECK(windows[0].from == -3);
}

TEST_CASE("Red cells rich in potassium are of dogs, as often as the priors say", "[reader]") {
    Priors priors = smallPriors({});
    priors.trait = 0.2;
    constexpr int count = 5000;
    const auto rich = [&](const Question& question) {
        const Stories stories(priors, question);
        int sum = 0;
        for (int i = 0; i < count; ++i) {
            base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
            sum += stories.draw(0, chance).potassiumRich;
        }
        return sum;
    };
    Question question = dogAt({0});
    CHECK(rich(question) / double(count) == Approx(0.2).margin(slack(0.2, count)));
    question.who.kind = body::Kind::cat;
    CHECK(rich(question) == 0);
}

TEST_CASE("What befell a handed-in sample unseen is drawn and done to it", "[reader]") {
    Priors priors = smallPriors({});
    priors.mishaps = {{"serum clot", 0.2, "", Spread{Spread::Shape::fold, 240, 90, 600}, "min"},
                      {"serum topped from", 0.1, "edta", {}, ""},
                      {"attempts", 0.1, "", Spread{Spread::Shape::fold, 3.2, 2, 5}, ""},
                      {"serum fill", 0.3, "", Spread{Spread::Shape::share, 0.4, 0.2, 0.6}, "1",
                       true},                                 // would show
                      {"citrate fill", 0.3, "40 %", {}, ""}}; // there is none
    Question question = dogAt({0, 1});
    question.samples[1].handedIn = true;
    const Stories stories(priors, question);
    constexpr int count = 20000;
    std::array<int, 6> counts{};
    for (int i = 0; i < count; ++i) {
        base::Chance chance = chanceOf(static_cast<std::uint64_t>(i));
        const Story story = stories.draw(0, chance);
        REQUIRE(story.slips.size() == 2);
        REQUIRE(story.slips[0] == Slip{});
        REQUIRE(stories.handling(story, 0) == question.samples[0].handling);
        ++counts[static_cast<std::size_t>(story.slips[1].mishap + 1)];
    }
    CHECK(counts[0] / double(count) == Approx(0.6).margin(slack(0.6, count)));
    CHECK(counts[1] / double(count) == Approx(0.2).margin(slack(0.2, count)));
    CHECK(counts[2] / double(count) == Approx(0.1).margin(slack(0.1, count)));
    CHECK(counts[3] / double(count) == Approx(0.1).margin(slack(0.1, count)));
    CHECK(counts[4] == 0);
    CHECK(counts[5] == 0);

    Story story;
    story.slips.resize(2);
    CHECK(stories.handling(story, 1) == question.samples[1].handling);
    story.slips[1] = {0, ninetyFifth};
    CHECK(stories.handling(story, 1).tube("serum")->clot == Approx(10));
    CHECK(stories.handling(story, 1).tube("edta")->fill == 1);
    story.slips[1] = {1, 0};
    CHECK(stories.handling(story, 1).tube("serum")->toppedFrom == "edta");
    story.slips[1] = {2, 0};
    CHECK(stories.handling(story, 1).attempts == 3);
    CHECK(stories.handling(story, 0) == question.samples[0].handling);
}

TEST_CASE("The same chance gives the same story", "[reader]") {
    InsultPrior first = priorOf("inflammation", 10, half);
    first.companions = {{&kindOf("dehydration"), {0.5, 0.5}}};
    const Priors priors = smallPriors({first, priorOf("dehydration", 10, half, Span::running)});
    const Question question = dogAt({0, 24});
    const Stories stories(priors, question);
    for (std::uint64_t i = 0; i < 100; ++i) {
        base::Chance one = chanceOf(i), two = chanceOf(i), other = chanceOf(i + 100);
        const Story story = stories.draw(1, one);
        CHECK(story == stories.draw(1, two));
        CHECK_FALSE(story == stories.draw(1, other));
        CHECK(stories.draw(1, one, true) == stories.draw(1, two, true));
    }
}
