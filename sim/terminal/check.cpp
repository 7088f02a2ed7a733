#include "terminal/check.h"

#include "base/fault.h"
#include "base/text.h"
#include "body/course.h"
#include "lesson/ideal.h"
#include "lesson/organ.h"
#include "report/table.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"
#include "terminal/pages.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

std::string summary(const lesson::Case& one) {
    return "\"" + one.title + "\", " + std::string(body::name(one.who.kind)) + ", " +
           report::counted(one.insults.size(), "insult") + ", " +
           report::counted(one.draws.size(), "draw") + ", " +
           report::counted(one.organs.size(), "organ") + " asked for";
}

/// The tests of a draw that this laboratory does not run.
std::vector<std::string> notRun(const lesson::Draw& draw, const lab::Bench& bench) {
    std::vector<std::string> names;
    for (const std::string& name : draw.tests)
        if (const lab::Test* test = bench.test(name);
            !test || (test->analytes.empty() && !test->controls))
            names.push_back(name);
    return names;
}

std::string flagged(const lab::Report& report) {
    std::vector<std::string> names;
    for (const lab::Result& result : report.results)
        if (result.flag != lab::Flag::none)
            names.push_back(report::spoken(body::name(result.analyte)) +
                            (result.flag == lab::Flag::high ? " high" : " low"));
    return names.empty() ? "nothing" : base::listed(names, "and");
}

/// What an author wants to know before a class sees the case.
void tellTruths(Page& page, const lesson::Case& one, const lesson::Knowledge& knowledge,
                const std::vector<body::Snapshot>& truth) {
    const body::Individual animal = lesson::patient(one, knowledge);
    std::vector<std::vector<std::string>> rows;
    for (std::size_t d = 0; d < one.draws.size(); ++d)
        for (const body::Tissue organ : one.organs)
            rows.push_back(
                {std::to_string(d + 1), report::number(truth[d].hour),
                 std::string(body::name(organ)),
                 lesson::organOf(organ).leaks ? report::shownNumber(truth[d].leak(organ)) : "-",
                 base::rounded(100 * truth[d].work(organ), 0.1)});
    if (!rows.empty())
        page.table({{"draw", true},
                    {"hour [h]", true},
                    {"organ", false},
                    {"leak [fold]", true},
                    {"work [%]", true}},
                   rows, 2);
    for (std::size_t d = 0; d < one.draws.size(); ++d) {
        const lab::Report report =
            lesson::report(one, knowledge, animal, truth[d], d, one.draws[d].tests);
        page.paragraph("Flagged at draw " + std::to_string(d + 1) + ": " + flagged(report) + ".",
                       2);
        if (const auto names = notRun(one.draws[d], knowledge.bench); !names.empty())
            page.paragraph(
                "Asked for but not run by this laboratory: " + base::listed(names, "and") + ".", 2);
    }
}

void tellKey(Page& page, const lesson::Case& one, const lesson::Knowledge& knowledge) {
    if (!one.explanations.empty())
        page.paragraph("True explanation: " +
                           (one.key.explanations.empty()
                                ? "none on the list; points over explanations are not marked"
                                : base::listed(one.key.explanations, "and")) +
                           ".",
                       2);
    if (const auto names = lesson::beyondTheReader(one, knowledge); !names.empty())
        page.paragraph("The ideal reader gives nothing to: " + base::listed(names, "and") +
                           " (no insult at hand makes it).",
                       2);
    if (!one.next.empty())
        page.paragraph("Good next steps, best first: " +
                           (one.key.next.empty() ? "none given; the next step is not marked"
                                                 : base::listed(one.key.next, "or")) +
                           ".",
                       2);
}

/// Other animals of the same story: their numbers must fit together as well.
void trySeeds(World& world, const lesson::Case& one, const lesson::Knowledge& knowledge) {
    constexpr std::uint64_t seeds = 50;
    if (one.vary.empty()) return;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        try {
            scenario::readCase(world.files, one.file, knowledge, seed);
        } catch (const base::InputError& error) {
            throw UsageError("With seed " + std::to_string(seed) +
                             " what may vary does not fit together:\n" + error.what());
        }
    }
}

struct Wanted {
    std::vector<std::string> files;
    std::string variants;
};

/// False if some animal of a case cannot be.
bool checkCase(World& world, Page& page, const std::string& file, const std::string& path,
               const lesson::Knowledge& knowledge, std::uint64_t variants) {
    const lesson::Case one = scenario::readCase(world.files, path, knowledge);
    const std::vector<body::Snapshot> truth = lesson::atDraws(one, knowledge);
    page.paragraph(file + ": ok: " + summary(one));
    tellTruths(page, one, knowledge, truth);
    tellKey(page, one, knowledge);
    world.out.flush();
    if (variants > 0) return tellVariants(world, page, one, knowledge, variants);
    trySeeds(world, one, knowledge);
    return true;
}

int check(World& world, const Wanted& wanted) {
    constexpr std::uint64_t mostVariants = 1000;
    const std::uint64_t variants =
        wanted.variants.empty() ? 0 : readCount("--variants", wanted.variants, 1, mostVariants);
    const scenario::Assets assets = loadAssets(world);
    Page page(world.out, world.styled);
    int code = done;
    for (const std::string& file : wanted.files) {
        try {
            const std::string path = setOrCasePath(world, file);
            if (!scenario::isSet(path, world.files.read(path))) {
                if (!checkCase(world, page, file, path, assets.knowledge, variants))
                    code = wrongInput;
            } else if (variants > 0) {
                throw UsageError(file + ": --variants looks at animals of one case, not at a set.");
            } else {
                tellSet(world, page, file, readSet(world, path), assets.knowledge);
            }
        } catch (const base::InputError& error) {
            world.err << error.what() << "\n";
            code = wrongInput;
        } catch (const UsageError& error) {
            world.err << error.what() << "\n";
            code = wrongInput;
        } catch (const body::BeyondLife& error) {
            world.err << file << ": " << error.what() << "\n";
            code = wrongInput;
        }
    }
    return code;
}

} // namespace

Job declareCheck(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    app.add_option("FILE", wanted->files,
                   "Scenario files or sets, or bare names of those that came along.")
        ->required();
    app.add_option("--variants", wanted->variants,
                   "Besides, for a case: what three readers make of its animals of seeds 1 to N.")
        ->type_name("N");
    app.footer(
        "Every fault of a file is told with its place. For a sound file: what is true at each "
        "draw, what the report will flag, and what the marks go by. Leak is release per "
        "gram of living tissue over the animal's own healthy release (of bone: over a grown "
        "animal's); work is the share of the healthy organ that still functions. For a set: which "
        "result leads in each case and how many times it stands over its limit, what the organ in "
        "question lost, the marks of the ideal, the naive and the shrugging reader, and whether "
        "the set rewards reading or a rule of thumb. The organ in question is the one asked that "
        "lost most; of several alike, the one whose own result stands farthest out.");
    return [wanted](World& world) { return check(world, *wanted); };
}

} // namespace cistern::terminal
