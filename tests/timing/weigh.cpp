#include "weigh.h"

#include "base/file.h"
#include "clock.h"
#include "reader/ensemble.h"
#include "reader/evidence.h"
#include "reader/posterior.h"
#include "reader/sheet.h"
#include "reader/trial.h"
#include "reader/weights.h"
#include "scenario/assets.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numbers>

namespace cistern::timing {

namespace {

tests::Trial patient(const lesson::Knowledge& knowledge, std::size_t number, bool count) {
    std::vector<std::string> asked{"chemistry"};
    if (count) asked.push_back("blood count");
    auto one = tests::trial(knowledge, tests::patients()[number], asked, 100 + number);
    if (!one) throw std::runtime_error("this trial's animal does not live");
    if (!count) { // what a chemistry case asks: no findings, no marrow
        one->question.signs.clear();
        std::erase(one->question.organs, body::Tissue::whiteCells);
    }
    return *one;
}

void weigh(const lesson::Knowledge& knowledge, const tests::Trial& one, const char* what,
           std::size_t animals) {
    reader::Reader reader(knowledge.priors, knowledge.bench,
                          knowledge.species(one.question.who.kind), one.question);
    reader::Effort effort;
    effort.animals = animals;
    effort.threads = 2;
    const double wall = wallSeconds(), cpu = cpuSeconds();
    const auto posterior = reader.weigh(effort);
    const double took = wallSeconds() - wall;
    std::printf("%-4s %-12s %8zu %8.2f %8.2f %10.1f %10.0f %7d\n",
                std::string(body::name(one.question.who.kind)).c_str(), what, posterior.animals,
                took, cpuSeconds() - cpu, 1e6 * took / static_cast<double>(posterior.animals),
                posterior.effective, posterior.rounds);
}

/// A reader as one would first write it: each story's two animals one after the other in a case's
/// own steps, and the density of all results at once by a dense Cholesky factor. Weighs stories of
/// the first round by results alone. Returns log densities.
std::vector<double> plainly(const lesson::Knowledge& knowledge, const reader::Question& question,
                            const std::vector<reader::Story>& stories, const reader::Stories& how) {
    const body::Species& species = knowledge.species(question.who.kind);
    reader::Wanted wanted;
    wanted.hours = {0};
    wanted.analytes = reader::neededFor(question, knowledge.bench);
    wanted.presented = false;
    // No result goes astray: a sum over all subsets of them would be no plain program.
    const reader::ResultEvidence results(question, knowledge.bench, species, wanted, 0);
    const auto columns = static_cast<Eigen::Index>(wanted.analytes.size());
    std::vector<double> all;
    for (const reader::Story& story : stories) {
        reader::Lived lived;
        lived.stories = {story};
        for (reader::Table* table : {&lived.level, &lived.own}) table->setZero(1, columns);
        lived.alive = {1};
        body::Signalment who = question.who;
        who.potassiumRichCells = story.potassiumRich;
        std::array<double, body::analyteCount> deviations{};
        for (const body::Analyte one : body::analytes())
            deviations[static_cast<std::size_t>(one)] = reader::side(story.number, one);
        body::Plan plan;
        plan.windows = how.windows(story, species);
        for (const body::Window& window : plan.windows)
            plan.from = std::min(plan.from, window.from);
        plan.looks = {0};
        double log = -std::numeric_limits<double>::infinity();
        try {
            for (const bool raised : {false, true}) {
                plan.animal =
                    raised ? body::raised(species, who, deviations) : body::median(species, who);
                body::drawHalfLives(plan.animal, species.halfLifeSpread, 1, story.number);
                const body::Snapshot there = body::simulate(plan).at(0);
                for (Eigen::Index c = 0; c < columns; ++c) {
                    const body::Analyte one = wanted.analytes[static_cast<std::size_t>(c)];
                    const double x = there.level(one), zero = lab::origin(one);
                    double& level = lived.level(0, c);
                    if (!raised)
                        level = x;
                    else if (x > zero && level > zero)
                        lived.own(0, c) =
                            reader::side(story.number, one) * std::log((x - zero) / (level - zero));
                }
            }
            const auto expected = results.expected(lived, 0, how);
            Eigen::VectorXd off(expected.mean.size());
            for (Eigen::Index i = 0; i < off.size(); ++i) {
                const reader::Datum& datum = results.data()[static_cast<std::size_t>(i)];
                off(i) = reader::scaleOf(knowledge.bench.method(datum.analyte), species)
                             .of(datum.value) -
                         expected.mean(i);
            }
            const Eigen::LLT<Eigen::MatrixXd> root(expected.covariance);
            const Eigen::MatrixXd lower = root.matrixL();
            log = -root.matrixL().solve(off).squaredNorm() / 2 -
                  lower.diagonal().array().log().sum() -
                  static_cast<double>(off.size()) * std::log(2 * std::numbers::pi) / 2;
        } catch (const body::BeyondLife&) {
        }
        all.push_back(log);
    }
    return all;
}

void race(const lesson::Knowledge& knowledge, const tests::Trial& one) {
    const reader::Stories how(knowledge.priors, one.question);
    constexpr std::size_t count = 2000, ours = 50000; // stories
    std::vector<reader::Story> stories;
    for (std::uint64_t i = 0; i < count; ++i) {
        base::Chance chance(1, base::Purpose::story, i);
        stories.push_back(how.draw(i % how.mains().size(), chance));
        stories.back().number = i;
    }
    const double start = cpuSeconds();
    const std::vector<double> logs = plainly(knowledge, one.question, stories, how);
    const double plain = (cpuSeconds() - start) / count;
    reader::Reader reader(knowledge.priors, knowledge.bench,
                          knowledge.species(one.question.who.kind), one.question);
    reader::Effort effort;
    effort.animals = 2 * ours;
    effort.threads = 1;
    const double again = cpuSeconds();
    reader.weigh(effort);
    const double product = (cpuSeconds() - again) / ours;
    std::printf("%-4s plain %7.0f us, cistern %5.0f us a story: ratio %.0f (%zu of its stories "
                "live)\n",
                std::string(body::name(one.question.who.kind)).c_str(), 1e6 * plain, 1e6 * product,
                plain / product,
                static_cast<std::size_t>(std::count_if(
                    logs.begin(), logs.end(), [](double log) { return std::isfinite(log); })));
}

} // namespace

void weighing() {
    const base::Disk files;
    const scenario::Assets assets = scenario::loadAssets(files, CISTERN_SOURCE "/assets");
    const lesson::Knowledge& knowledge = assets.knowledge;
    std::printf("Weighing a case, two threads. Time per animal: wall.\n\n"
                "kind tests         animals   wall s    cpu s  us/animal  effective  rounds\n");
    for (const bool count : {false, true})
        for (std::size_t number : {0u, 1u, 2u, 3u})
            weigh(knowledge, patient(knowledge, number, count), count ? "and count" : "chemistry",
                  100000);
    for (std::size_t animals : {10000u, 30000u, 300000u})
        weigh(knowledge, patient(knowledge, 0, false), "chemistry", animals);
    std::printf("\nAgainst a plain program, one thread: animals one after another in a case's own "
                "steps,\na dense Cholesky factor a story.\n");
    for (std::size_t number : {0u, 1u}) race(knowledge, patient(knowledge, number, false));
    std::printf("\n");
}

} // namespace cistern::timing
