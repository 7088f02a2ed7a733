// What an ensemble costs.
#include "hand_question.h"
#include "reader/posterior.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <iostream>

using namespace hand;

namespace {

struct Clock {
    std::clock_t cpu = std::clock();
    std::chrono::steady_clock::time_point wall = std::chrono::steady_clock::now();
    void tell(const std::string& what, std::size_t of) const {
        const double spent = static_cast<double>(std::clock() - cpu) / CLOCKS_PER_SEC;
        const double lasted =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - wall).count();
        std::cout << what << ": " << spent << " s of processor, " << lasted << " s; "
                  << 1e6 * spent / static_cast<double>(of) << " us each\n";
    }
};

} // namespace

TEST_CASE("What an ensemble of 100,000 animals costs", "[.timing]") {
    constexpr std::size_t stories = 50000;
    const int threads = std::getenv("THREADS") ? std::atoi(std::getenv("THREADS")) : 1;
    for (const double years : {4., 12.})
    for (const auto& tests : {std::vector<std::string>{"chemistry"}, {"chemistry", "blood count", "film", "urine"}}) {
        reader::Question question;
        question.who = adult(Kind::dog);
        question.who.age = years * 8766;
        question.samples.resize(1);
        const body::Species& species = known().dog;
        question.samples[0].report =
            reports(body::individual(species, question.who), {}, {0}, tests)[0];
        question.organs = {body::Tissue::liver};
        const reader::Stories how(known().priors, question);
        const reader::Wanted wanted = wantedFor(question);
        const reader::ResultEvidence evidence(question, known().bench, species, wanted);
        std::vector<reader::Story> all;
        std::cout << tests.size() << " tests at " << years << " years\n";
        {
            const Clock clock;
            for (std::size_t main = 0; main < how.mains().size(); ++main) {
                const double share = (how.mains()[main].chance + 1. / static_cast<double>(how.mains().size())) / 2;
                for (std::size_t i = 0; i < static_cast<std::size_t>(share * stories); ++i) {
                    base::Chance chance(1, base::Purpose::story, all.size());
                    all.push_back(how.draw(main, chance));
                    all.back().number = all.size();
                }
            }
            clock.tell("drawing", all.size());
        }
        reader::Lived lived;
        {
            const Clock clock;
            lived = reader::live(all, 1, how, question, wanted, species, threads);
            clock.tell("living", all.size());
        }
        {
            const Clock clock;
            double sum = 0;
            for (std::size_t i = 0; i < lived.size(); ++i)
                if (lived.alive[i]) sum += evidence.log(lived, i, how);
            clock.tell("weighing", all.size());
            CHECK(std::isfinite(sum));
        }
        std::size_t dead = 0;
        for (const char alive : lived.alive) dead += !alive;
        std::cout << "dead " << dead << "\n";
        {
            const Clock clock;
            reader::Reader reader(known().priors, known().bench, species, question);
            const auto p = reader.weigh({100000, 1, threads, {}});
            clock.tell("whole", p.animals);
        }
    }
}
