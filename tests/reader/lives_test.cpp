#include "body/course.h"
#include "reader/small_world.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::reader;
using namespace cistern::test;

namespace {

constexpr double year = 8766; // [h]

/// Young, grown and old dogs and cats of every sex, bled when they came and twice after; half of
/// the samples were handed in.
std::vector<Question> everyone() {
    std::vector<Question> all;
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat})
        for (const double age : {0.2, 4., 12.}) {
            Question question = dogAt({0, 24, 240});
            question.samples[1].handedIn = true;
            question.who.kind = kind;
            question.who.age = age * year;
            question.who.weight = kind == body::Kind::dog ? 15 : 4;
            question.who.sex = static_cast<body::Sex>(all.size() % 4);
            all.push_back(question);
        }
    return all;
}

const body::Species& speciesOf(const Question& question) {
    return question.who.kind == body::Kind::dog ? assets().knowledge.dog : assets().knowledge.cat;
}

/// A story of the priors, its main insult drawn by weight.
Story any(const Stories& stories, std::uint64_t number) {
    base::Chance chance(17, base::Purpose::story, number);
    double left = chance.uniform();
    std::size_t main = 0;
    for (; main + 1 < stories.mains().size(); ++main)
        if ((left -= stories.mains()[main].chance) < 0) break;
    return stories.draw(main, chance);
}

} // namespace

TEST_CASE("Whatever the priors tell can be planned", "[reader]") {
    const Priors& priors = assets().knowledge.priors;
    for (const Question& question : everyone()) {
        const Stories stories(priors, question);
        REQUIRE(stories.mains().size() > 20);
        body::Plan plan;
        plan.animal = body::median(speciesOf(question), question.who);
        plan.looks = {0, 24, 240};
        base::Chance chance(18, base::Purpose::adapt, static_cast<std::uint64_t>(question.who.age));
        for (std::uint64_t i = 0; i < 20000; ++i) {
            // Every second one far out, as an adapted round might get there.
            Story story = any(stories, i);
            if (i % 2) {
                Eigen::VectorXd far = stories.deviates(story);
                for (double& one : far) one += 2 * chance.normal();
                story = stories.with(story, far);
            }
            plan.windows = stories.windows(story, speciesOf(question));
            plan.from = 0;
            double thyroxine = 0;
            for (const body::Window& window : plan.windows) {
                plan.from = std::min(plan.from, window.from);
                if (window.drive == body::Drive::thyroxine) thyroxine += window.value;
            }
            REQUIRE(plan.from >= -question.who.age);
            REQUIRE_NOTHROW(plan.validate());
            REQUIRE(thyroxine >= -1); // they add up: less than none cannot be made
            for (std::size_t s = 0; s < question.samples.size(); ++s)
                if (story.slips[s].mishap >= 0) REQUIRE_NOTHROW(stories.handling(story, s));
            REQUIRE(std::isfinite(stories.logPrior(story)));
        }
    }
}
