// What a weighing costs. Hidden: run by hand or by tests/run --timing.
#include "base/file.h"
#include "scenario/assets.h"
#include "trial.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cstdio>
#include <ctime>

using namespace cistern;

TEST_CASE("a weighing of a hundred thousand animals", "[.timing]") {
    const base::Disk files;
    const scenario::Assets assets =
        scenario::loadAssets(files, std::string(CISTERN_SOURCE) + "/assets");
    const lesson::Knowledge& knowledge = assets.knowledge;
    for (const auto& tests : {std::vector<std::string>{"chemistry"},
                              std::vector<std::string>{"chemistry", "blood count"}})
        for (std::uint64_t number : {0, 1, 2, 3}) {
            const auto who = tests::patients()[number];
            auto one = tests::trial(knowledge, who, tests, 100 + number);
            if (!one) continue;
            if (tests.size() == 1) one->question.signs.clear();
            const auto now = [] {
                return std::chrono::duration<double>(
                           std::chrono::steady_clock::now().time_since_epoch())
                    .count();
            };
            const double wall = now();
            const std::clock_t cpu = std::clock();
            reader::Reader reader(knowledge.priors, knowledge.bench, knowledge.species(who.kind),
                                  one->question);
            reader::Effort effort;
            effort.animals = 100000;
            effort.threads = 2;
            const auto posterior = reader.weigh(effort);
            std::printf("%s, %s: %.2f s wall, %.2f s cpu; effective %.0f, %d rounds\n",
                        std::string(body::name(who.kind)).c_str(), tests.back().c_str(),
                        now() - wall, static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC,
                        posterior.effective, posterior.rounds);
            REQUIRE(posterior.stories == 50000);
        }
}
