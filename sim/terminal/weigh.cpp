#include "report/weigh.h"

#include "base/parallel.h"
#include "lesson/ideal.h"
#include "lesson/organ.h"
#include "report/table.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"
#include "terminal/progress.h"

#include <CLI/CLI.hpp>

#include <chrono>
#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

constexpr std::uint64_t fewestAnimals = 1000, mostAnimals = 1000000; // a story fills some kilobytes

struct Wanted {
    std::string file, animals = "100000", seed = "1", units = "conventional", format = "text";
};

void printExplanations(Page& page, const reader::Posterior& posterior) {
    if (posterior.names.empty()) return;
    std::vector<std::vector<std::string>> rows;
    const auto put = [&](const std::vector<double>& weights, std::size_t i, double error) {
        return i < weights.size() ? report::shownShare(weights[i], error, posterior.effective)
                                  : "-";
    };
    for (const std::size_t i : report::greatestFirst(posterior.weights)) {
        const double error = i < posterior.errors.size() ? posterior.errors[i] : 0;
        rows.push_back({posterior.names[i], put(posterior.prior, i, 0), put(posterior.signs, i, 0),
                        put(posterior.weights, i, error),
                        report::shownShareError(error, posterior.effective)});
    }
    page.heading("Explanations, of 100 animals");
    page.table({{"explanation", false},
                {"before [%]", true},
                {"exam [%]", true},
                {"all [%]", true},
                {"error [%]", true}},
               rows);
}

void printOrgans(Page& page, const reader::Posterior& posterior) {
    if (posterior.organs.empty()) return;
    std::vector<std::vector<std::string>> rows;
    for (const reader::OrganBelief& one : posterior.organs) {
        const auto work = report::shownWork(one.work, posterior.effective);
        const auto leak = report::shownLeak(one.leak, posterior.effective);
        const bool leaks = lesson::organOf(one.organ).leaks;
        rows.push_back({std::string(body::name(one.organ)), work.low, work.median, work.high,
                        leaks ? leak.low : "-", leaks ? leak.median : "-",
                        leaks ? leak.high : "-"});
    }
    page.heading("Organs at the last draw: 5 % point, median, 95 % point");
    page.table({{"organ", false},
                {"work [%]", true},
                {"median", true},
                {"95 %", true},
                {"leak [fold]", true},
                {"median", true},
                {"95 %", true}},
               rows);
}

void printMoved(Page& page, const report::Weighing& weighing, const lab::Bench& bench,
                lab::Units units) {
    constexpr std::size_t shownMost = 10;
    const reader::Posterior& posterior = weighing.posterior;
    const bool several = weighing.question.samples.size() > 1;
    std::vector<double> bits;
    for (const reader::Moved& one : posterior.moved) bits.push_back(one.bits);
    std::vector<std::vector<std::string>> rows;
    for (const std::size_t i : report::greatestFirst(bits)) {
        const reader::Moved& one = posterior.moved[i];
        const int to = report::towards(one, posterior.prior);
        if (to < 0 || rows.size() == shownMost) break;
        const auto towards = static_cast<std::size_t>(to);
        std::string what = report::shownMoved(one, weighing.question, bench, units);
        if (several && !one.finding) what += ", draw " + std::to_string(one.sample + 1);
        rows.push_back({what, report::shownBits(one.bits, 0), posterior.names[towards],
                        report::shownShare(posterior.prior[towards], 0, posterior.effective),
                        report::shownShare(one.weights[towards], 0, posterior.effective)});
    }
    if (rows.empty()) return;
    page.heading("What moved the reader most, each by itself");
    page.table({{"finding or result", false},
                {"[bits]", true},
                {"towards", false},
                {"from [%]", true},
                {"to [%]", true}},
               rows);
}

void printNext(Page& page, const reader::Posterior& posterior) {
    if (posterior.gains.empty()) return;
    std::vector<std::vector<std::string>> rows;
    for (const reader::Gain& one : posterior.gains)
        rows.push_back(
            {one.test, report::shownBits(one.bits, one.error),
             one.cost > 0 ? report::number(one.cost) : "-",
             one.cost > 0 ? report::shownBits(one.perCost(), one.error / one.cost) : "-"});
    page.heading("What would tell more");
    page.table({{"test", false}, {"[bits]", true}, {"cost [1]", true}, {"bits per cost", true}},
               rows);
}

void print(World& world, const report::Weighing& weighing, const lab::Bench& bench,
           lab::Units units) {
    Page page(world.out, world.styled);
    const reader::Posterior& posterior = weighing.posterior;
    bool first = true;
    for (const std::string& paragraph : report::weighTold(weighing, bench, units)) {
        if (!first) page.blank();
        first = false;
        page.paragraph(paragraph);
    }
    printExplanations(page, posterior);
    printOrgans(page, posterior);
    printMoved(page, weighing, bench, units);
    printNext(page, posterior);
    page.blank();
    page.paragraph(std::to_string(posterior.animals) + " animals, ensemble seed " +
                   std::to_string(weighing.seed) +
                   ". The reader knows neither what was done to "
                   "this animal nor its own healthy levels; it weighs what may have been. Bits: "
                   "how far a result moves the weights, or a test would settle them; one bit "
                   "halves the possibilities. Cost is relative.");
    page.caution();
}

int weigh(World& world, const Wanted& wanted) {
    readWord("--format", wanted.format, {"text", "json"});
    const lab::Units units = readUnits(wanted.units);
    reader::Effort effort;
    effort.animals = readCount("--animals", wanted.animals, fewestAnimals, mostAnimals);
    effort.seed = readSeed(wanted.seed);
    effort.threads = base::threadsHere();
    const scenario::Assets assets = loadAssets(world);
    const lesson::Knowledge& knowledge = assets.knowledge;
    const lesson::Case one = readCase(world, knowledge, wanted.file);

    report::Weighing weighing;
    weighing.patient = {one.patient, one.who};
    weighing.seed = effort.seed;
    weighing.question = lesson::question(one, knowledge);
    Progress progress(world);
    constexpr double inProgress = 0.01; // standard error granted to a weight that still settles
    effort.progress = [&](double share, const std::vector<double>& weights) {
        std::string words;
        if (!weights.empty() && weights.size() == weighing.question.explanations.size()) {
            const std::size_t lead = report::greatestFirst(weights)[0];
            words = weighing.question.explanations[lead].name + " " +
                    report::shownShare(weights[lead], inProgress, 1 / inProgress) + " %";
        }
        progress.show(share, words);
        return true;
    };
    const auto begin = std::chrono::steady_clock::now();
    reader::Reader reader = lesson::readerOf(knowledge, weighing.question);
    weighing.posterior = reader.weigh(effort);
    weighing.seconds =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    progress.show(1, "what further tests would tell");
    weighing.posterior.gains = reader.gains(effort.threads);
    progress.clear();

    if (wanted.format == "json")
        world.out << report::weighJson(weighing);
    else
        print(world, weighing, knowledge.bench, units);
    return done;
}

} // namespace

Job declareWeigh(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    option("--animals", wanted->animals,
           "How many to weigh, from 1000 to 1000000; 100000 if left out.", "N");
    option("--seed", wanted->seed, "Another ensemble, by number; 1 if left out.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--format", wanted->format, "text (left out) or json.", "NAME");
    app.footer(
        "What the data of a case hold, and no more: stories drawn from how often things happen are "
        "lived through by simulated animals, and each is weighed by how well it explains every "
        "result and every finding. Out come weights of the explanations that the case lists, work "
        "and leak of the organs it asks about, what moved the reader, and what would tell more. "
        "Work is the share of the healthy organ, leak the fold of its own healthy release.");
    return [wanted](World& world) { return weigh(world, *wanted); };
}

} // namespace cistern::terminal
