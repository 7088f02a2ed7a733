#include "base/parallel.h"
#include "base/units.h"
#include "lesson/herd.h"
#include "report/text.h"
#include "report/words.h"
#include "terminal/herd.h"
#include "terminal/input.h"

#include <algorithm>

namespace cistern::terminal {

namespace {

using body::Analyte;

constexpr std::uint64_t mostAnimals = 1000000;
constexpr double day = 24; // [h]

body::Signalment memberOf(const Herd& herd, std::uint64_t number) {
    return lesson::member(herd.kind, herd.seed, number, herd.age);
}

const body::InsultKind& insultNamed(const std::string& text, body::Kind kind,
                                    const lesson::Knowledge& knowledge) {
    std::vector<std::string> names;
    for (const body::InsultKind& one : knowledge.insults) names.push_back(one.name);
    readWord("--insult", text, names);
    const auto at = std::find(names.begin(), names.end(), text) - names.begin();
    const body::InsultKind& found = knowledge.insults[static_cast<std::size_t>(at)];
    if (!(kind == body::Kind::dog ? found.dog : found.cat))
        throw UsageError("--insult: no effect of " + text + " is known in the " +
                         std::string(body::name(kind)) + ".");
    return found;
}

double severityOf(const std::string& text, const body::InsultKind& kind) {
    const std::string allowed = "from " + report::shownSeverity(kind.least, kind) + " to " +
                                report::shownSeverity(kind.most, kind) + " (" + kind.counts + ")";
    const auto quantity = base::readQuantity(text);
    if (!quantity)
        throw UsageError("--severity: \"" + text +
                         "\" is not a number with its unit; allowed: " + allowed + ".");
    const bool ratio = kind.shownUnit == "fold" || kind.shownUnit == "1";
    std::string unit = quantity->unit;
    if (unit == "%" && kind.unit == "1/d") unit = "%/d"; // mean the same
    if (unit.empty() && !ratio)
        throw UsageError("--severity: \"" + text + "\" has no unit; allowed: " + allowed + ".");
    const auto factor = unit.empty() ? std::optional(1.0) : base::conversion(unit, kind.unit);
    const double value = quantity->value * factor.value_or(0);
    constexpr double slack = 1e-12; // of a share written in %
    if (!factor || !(value >= kind.least - slack && value <= kind.most + slack))
        throw UsageError("--severity: \"" + text + "\" is not a severity of " + kind.name +
                         "; allowed: " + allowed + ".");
    return std::clamp(value, kind.least, kind.most);
}

/// What is looked at, the tests that measure it, and the parts of the body that this needs.
void chooseAnalytes(Herd& herd, const HerdOptions& options, const lab::Bench& bench) {
    std::vector<std::string> tests, known;
    for (const lab::Test& test : bench.tests)
        if (!test.analytes.empty()) tests.push_back(test.name);
    herd.analytes = bench.analytes(tests, herd.kind);
    if (!options.analytes.empty()) {
        for (const Analyte analyte : herd.analytes) known.emplace_back(body::name(analyte));
        herd.analytes = readAnalytes("--analytes", options.analytes, known);
    }
    herd.parts = body::partsFor(herd.analytes);
    if (!options.measured && !options.intervals && options.format == "text") return;
    for (const lab::Test& test : bench.tests)
        if (std::any_of(test.analytes.begin(), test.analytes.end(), [&](Analyte one) {
                return std::find(herd.analytes.begin(), herd.analytes.end(), one) !=
                       herd.analytes.end();
            }))
            herd.tests.push_back(test.name);
    herd.parts |= lesson::partsFor(herd.tests, bench, herd.kind);
}

body::Plan planOf(const Herd& herd, const body::Species& species, std::uint64_t number) {
    body::Plan plan;
    plan.animal = body::individual(species, memberOf(herd, number));
    if (herd.insult) plan.windows = body::windows(*herd.insult, species);
    plan.from = (herd.insult ? herd.insult->from : 0) - day;
    plan.looks = {0};
    plan.parts = herd.parts;
    return plan;
}

/// Options that do not go together.
void refuseAtOdds(const HerdOptions& options) {
    if (!options.intervals && !options.method.empty())
        throw UsageError("--method needs --intervals.");
    if (options.intervals && !options.insult.empty())
        throw UsageError("--intervals are those of the healthy; they do not go with --insult.");
}

} // namespace

body::Signalment Herd::anyone() const {
    body::Signalment who;
    who.kind = kind;
    who.age = age.value_or(who.age);
    return who;
}

Herd herdOf(const HerdOptions& options, const lesson::Knowledge& knowledge) {
    refuseAtOdds(options);
    Herd herd;
    readWord("SPECIES", options.species, {"dog", "cat"});
    herd.kind = *body::kindNamed(options.species);
    herd.seed = readSeed(options.seed);
    herd.animals = readCount("--animals", options.animals, 1, mostAnimals);
    if (!options.age.empty()) {
        herd.age = readTime("--age", options.age);
        if (!(*herd.age > 0)) throw UsageError("--age: the age must be above zero.");
    }
    if (options.insult.empty()) {
        for (const auto& [option, text] : {std::pair{"--severity", options.severity},
                                           {"--from", options.from},
                                           {"--to", options.to}})
            if (!text.empty()) throw UsageError(std::string(option) + " needs an --insult.");
    } else {
        if (options.severity.empty()) throw UsageError("--insult needs a --severity.");
        const body::InsultKind& kind = insultNamed(options.insult, herd.kind, knowledge);
        const double from = options.from.empty() ? -day : readTime("--from", options.from);
        const double to = options.to.empty() ? 0 : readTime("--to", options.to);
        if (!(from < to)) throw UsageError("--from must be earlier than --to.");
        if (!(from < 0)) throw UsageError("--from must be earlier than the look at 0 h.");
        if (from < -herd.age.value_or(lesson::grownFrom()))
            throw UsageError("--from lies before some of the animals were born.");
        herd.insult = {&kind, severityOf(options.severity, kind), from, to};
    }
    chooseAnalytes(herd, options, knowledge.bench);
    return herd;
}

void eachMember(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                const std::function<void(const report::Member&)>& take) {
    constexpr std::uint64_t block = 4096;
    const int threads = base::threadsHere();
    const body::Species& species = knowledge.species(herd.kind);
    for (std::uint64_t first = 0; first < herd.animals; first += block) {
        std::vector<report::Member> members(std::min(block, herd.animals - first));
        body::simulate(
            members.size(), [&](std::size_t i) { return planOf(herd, species, first + i); },
            [&](std::size_t i, const body::Course& course) {
                report::Member& one = members[i];
                one.number = first + i + 1;
                one.who = memberOf(herd, first + i);
                one.truth = course.at(0);
                if (herd.tests.empty()) return;
                lab::Specimen specimen;
                specimen.id = std::to_string(one.number);
                one.report = lab::measure(knowledge.bench, body::individual(species, one.who),
                                          one.truth, specimen, herd.tests, 0);
            },
            threads);
        for (const report::Member& one : members) take(one);
        if (world.progress && first + block < herd.animals)
            world.err << "\r" << first + block << " of " << herd.animals << " animals"
                      << std::flush;
    }
    if (world.progress && herd.animals > block) world.err << "\r" << std::string(40, ' ') << "\r";
}

lesson::Knowledge unrounded(lesson::Knowledge knowledge) {
    for (lab::Method& method : knowledge.bench.methods) method.conventional.step /= 1000;
    return knowledge;
}

std::string described(const Herd& herd) {
    std::string text = std::to_string(herd.animals) + " " + std::string(body::name(herd.kind)) +
                       "s, seed " + std::to_string(herd.seed);
    if (!herd.insult) return text + ", healthy.";
    return text + ", " + herd.insult->kind->name + " " +
           report::shownSeverity(herd.insult->severity, *herd.insult->kind) + " from " +
           report::shownTime(herd.insult->from) + " to " + report::shownTime(herd.insult->to) +
           ", looked at at 0 h.";
}

} // namespace cistern::terminal
