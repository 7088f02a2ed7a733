#include "base/chance.h"
#include "base/text.h"
#include "base/units.h"
#include "report/csv.h"
#include "report/text.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <ostream>
#include <thread>

namespace cistern::terminal {

namespace {

using body::Analyte;

constexpr std::uint64_t mostAnimals = 1000000;
constexpr std::uint64_t fewest = 40; // ranks give no 2.5 percentile of fewer
constexpr double day = 24;           // [h]

struct Wanted {
    std::string species, animals = "1000", insult, severity, from, to, age, analytes, seed = "1",
                         units = "conventional", format = "text";
    bool measured = false;
};

/// Who may be in a herd. Ranges assumed: ordinary grown animals, spread evenly; nothing in a level
/// per kg of body weight hangs on them but age.
struct Range {
    double least, most;
};
constexpr Range grown{2, 8};                       // [y]
constexpr Range dogWeight{5, 40}, catWeight{3, 6}; // [kg]

struct Herd {
    body::Kind kind{};
    std::uint64_t seed = 1, animals = 0;
    std::optional<double> age; ///< [h]
    std::optional<body::Insult> insult;
    std::vector<Analyte> analytes;
    std::vector<std::string> tests; ///< that measure them; none: only the truth is wanted
    body::Parts parts = body::allParts;
};

double within(base::Chance& chance, Range range) {
    return range.least + (range.most - range.least) * chance.uniform();
}

/// Every member is an animal of its own seed, so that its own day and its own analyzer run come
/// with it.
body::Signalment member(const Herd& herd, std::uint64_t number) {
    base::Chance chance(herd.seed, base::Purpose::patients, number);
    const double year = base::conversion("y", "h").value_or(0);
    constexpr std::array sexes{body::Sex::female, body::Sex::spayedFemale, body::Sex::male,
                               body::Sex::neuteredMale};
    body::Signalment who;
    who.kind = herd.kind;
    const double age = year * within(chance, grown); // drawn always: --age changes nothing else
    who.age = herd.age.value_or(age);
    who.weight = within(chance, herd.kind == body::Kind::dog ? dogWeight : catWeight);
    who.sex = sexes[static_cast<std::size_t>(chance.uniform() * sexes.size())];
    const auto bits = [&] { return static_cast<std::uint64_t>(chance.uniform() * 4294967296.0); };
    const std::uint64_t high = bits();
    who.seed = high << 32 | bits();
    return who;
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
    const std::string allowed = "from " + shown(kind.least, kind) + " to " +
                                shown(kind.most, kind) + " (" + kind.counts + ")";
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
void chooseAnalytes(Herd& herd, const Wanted& wanted, const lab::Bench& bench) {
    std::vector<std::string> tests, known;
    for (const lab::Test& test : bench.tests)
        if (!test.analytes.empty()) tests.push_back(test.name);
    herd.analytes = bench.analytes(tests, herd.kind);
    if (!wanted.analytes.empty()) {
        for (const Analyte analyte : herd.analytes) known.emplace_back(body::name(analyte));
        herd.analytes = readAnalytes("--analytes", wanted.analytes, known);
    }
    herd.parts = body::partsFor(herd.analytes);
    if (!wanted.measured && wanted.format == "text") return;
    for (const lab::Test& test : bench.tests)
        if (std::any_of(test.analytes.begin(), test.analytes.end(), [&](Analyte one) {
                return std::find(herd.analytes.begin(), herd.analytes.end(), one) !=
                       herd.analytes.end();
            }))
            herd.tests.push_back(test.name);
    herd.parts |= lesson::partsFor(herd.tests, bench, herd.kind);
}

Herd herdOf(const Wanted& wanted, const lesson::Knowledge& knowledge) {
    Herd herd;
    readWord("SPECIES", wanted.species, {"dog", "cat"});
    herd.kind = *body::kindNamed(wanted.species);
    herd.seed = readSeed(wanted.seed);
    herd.animals = readCount("--animals", wanted.animals, 1, mostAnimals);
    if (!wanted.age.empty()) {
        herd.age = readTime("--age", wanted.age);
        if (!(*herd.age > 0)) throw UsageError("--age: the age must be above zero.");
    }
    if (wanted.insult.empty()) {
        for (const auto& [option, text] : {std::pair{"--severity", wanted.severity},
                                           {"--from", wanted.from},
                                           {"--to", wanted.to}})
            if (!text.empty()) throw UsageError(std::string(option) + " needs an --insult.");
    } else {
        if (wanted.severity.empty()) throw UsageError("--insult needs a --severity.");
        const body::InsultKind& kind = insultNamed(wanted.insult, herd.kind, knowledge);
        const double from = wanted.from.empty() ? -day : readTime("--from", wanted.from);
        const double to = wanted.to.empty() ? 0 : readTime("--to", wanted.to);
        if (!(from < to)) throw UsageError("--from must be earlier than --to.");
        if (!(from < 0)) throw UsageError("--from must be earlier than the look at 0 h.");
        if (from < -herd.age.value_or(base::conversion("y", "h").value_or(0) * grown.least))
            throw UsageError("--from lies before some of the animals were born.");
        herd.insult = {&kind, severityOf(wanted.severity, kind), from, to};
    }
    chooseAnalytes(herd, wanted, knowledge.bench);
    return herd;
}

body::Plan planOf(const Herd& herd, const body::Species& species, std::uint64_t number) {
    body::Plan plan;
    plan.animal = body::individual(species, member(herd, number));
    if (herd.insult) plan.windows = body::windows(*herd.insult, species);
    plan.from = (herd.insult ? herd.insult->from : 0) - day;
    plan.looks = {0};
    plan.parts = herd.parts;
    return plan;
}

/// Calls `take` with every member in order. A few thousand at a time are held in memory.
void eachMember(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                const std::function<void(const report::Member&)>& take) {
    constexpr std::uint64_t block = 4096;
    const int threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
    const body::Species& species = knowledge.species(herd.kind);
    for (std::uint64_t first = 0; first < herd.animals; first += block) {
        std::vector<report::Member> members(std::min(block, herd.animals - first));
        body::simulate(
            members.size(), [&](std::size_t i) { return planOf(herd, species, first + i); },
            [&](std::size_t i, const body::Course& course) {
                report::Member& one = members[i];
                one.number = first + i + 1;
                one.who = member(herd, first + i);
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

/// By ranks, p (n + 1), as the guideline for reference intervals has it; needs n >= fewest.
double percentile(const std::vector<float>& sorted, double p) {
    const double rank = std::clamp(p * static_cast<double>(sorted.size() + 1), 1.0,
                                   static_cast<double>(sorted.size()));
    const auto below = static_cast<std::size_t>(rank) - 1;
    const auto above = std::min(below + 1, sorted.size() - 1);
    const double low = static_cast<double>(sorted[below]),
                 high = static_cast<double>(sorted[above]);
    return low + (rank - std::floor(rank)) * (high - low);
}

/// How far the herd's limits lie from the published ones, in widths of the published interval. An
/// interval that begins where the analyte does has no lower limit to be off from, and limits for
/// decisions have neither.
struct Off {
    std::optional<double> low, high;
};

Off offBy(double low, double high, const lab::Interval* interval) {
    if (!interval || interval->decision || !(interval->high > interval->low)) return {};
    const double width = interval->high - interval->low;
    Off off{std::nullopt, std::abs(high - interval->high) / width};
    if (interval->low > lab::origin(interval->analyte))
        off.low = std::abs(low - interval->low) / width;
    return off;
}

std::string shownOff(const std::optional<double>& off) {
    return off ? base::rounded(*off, 0.01) : "-";
}

/// Percentiles of rounded results would jump by whole steps of print, a third of the interval of
/// bilirubin: the same laboratory, printing a thousand times finer.
lesson::Knowledge unrounded(lesson::Knowledge knowledge) {
    for (lab::Method& method : knowledge.bench.methods) method.conventional.step /= 1000;
    return knowledge;
}

/// "2000 dogs, seed 1, healthy."
std::string described(const Herd& herd) {
    std::string text = std::to_string(herd.animals) + " " + std::string(body::name(herd.kind)) +
                       "s, seed " + std::to_string(herd.seed);
    if (!herd.insult) return text + ", healthy.";
    return text + ", " + herd.insult->kind->name + " " +
           shown(herd.insult->severity, *herd.insult->kind) + " from " +
           report::shownTime(herd.insult->from) + " to " + report::shownTime(herd.insult->to) +
           ", looked at at 0 h.";
}

/// Adds up how well the limits of a herd agree with the published ones.
struct Agreement {
    static constexpr double near = 0.1; // widths of the published interval
    int limits = 0, close = 0;
    double farthest = 0;
    std::string where;

    void add(const std::optional<double>& off, const std::string& name) {
        if (!off) return;
        ++limits;
        close += *off <= near;
        if (*off > farthest) {
            farthest = *off;
            where = name;
        }
    }
    std::string words() const {
        if (limits == 0) return "";
        std::string text = std::to_string(close) + " of " + std::to_string(limits) +
                           " limits lie within " + base::rounded(near, 0.01) +
                           " widths of the published ones";
        if (farthest > near)
            text += "; farthest off is the " + where + ", by " + base::rounded(farthest, 0.01);
        return text + ".";
    }
};

void printText(Page& page, const Herd& herd, const lab::Bench& bench, lab::Units units,
               std::vector<std::vector<float>> levels) {
    body::Signalment who;
    who.kind = herd.kind;
    who.age = herd.age.value_or(who.age);
    std::vector<std::vector<std::string>> rows;
    Agreement agreement;
    for (std::size_t i = 0; i < herd.analytes.size(); ++i) {
        const Analyte analyte = herd.analytes[i];
        const auto put = [&](double amount) { return lab::printed(amount, analyte, bench, units); };
        const lab::Interval* interval = bench.interval(who, 0, analyte);
        std::vector<float>& all = levels[i];
        std::sort(all.begin(), all.end());
        const bool enough = all.size() >= fewest; // what is calculated cannot always be
        const double low = enough ? percentile(all, 0.025) : 0;
        const double high = enough ? percentile(all, 0.975) : 0;
        const bool decision = interval && interval->decision;
        const Off off = enough ? offBy(low, high, interval) : Off{};
        const std::string name(body::name(analyte));
        agreement.add(off.low, "lower limit of " + name);
        agreement.add(off.high, "upper limit of " + name);
        rows.push_back({name, base::shown(bench.method(analyte).writing(units).unit),
                        enough ? put(percentile(all, 0.5)) : "-",
                        enough ? put(low) + " - " + put(high) : "too few",
                        interval ? put(interval->low) + " - " + put(interval->high) : "none",
                        decision ? "decision" : shownOff(off.low),
                        decision ? "limit" : shownOff(off.high)});
    }
    page.paragraph(described(herd) +
                   (herd.tests.empty() ? " True levels:" : " Measured results, unrounded:"));
    page.blank();
    page.table({{"analyte", false},
                {"unit", false},
                {"median", true},
                {"middle 95 %", true},
                {"published", true},
                {"off low", true},
                {"off high", true}},
               rows);
    page.blank();
    page.paragraph("Off: how far the lower and the upper limit lie from the published ones, in "
                   "widths of the published interval; of one that begins at nothing only the "
                   "upper limit counts, and a decision limit parts the sound from the sick by "
                   "judgement, not the middle 95 % of the sound. " +
                   agreement.words() +
                   (herd.tests.empty() ? " True levels lack day-to-day wobble and the analyzer's "
                                         "error, which published intervals hold; --measured adds "
                                         "both."
                                       : ""));
    page.caution();
}

int look(World& world, const Wanted& wanted) {
    readWord("--format", wanted.format, {"text", "csv"});
    const lab::Units units = readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lab::Bench& bench = assets.knowledge.bench;
    const Herd herd = herdOf(wanted, assets.knowledge);
    if (wanted.format == "csv") {
        world.out << report::herdHeader(bench, units, herd.analytes);
        eachMember(world, herd, assets.knowledge, [&](const report::Member& one) {
            world.out << report::herdLine(one, bench, units, herd.analytes);
        });
        return done;
    }
    if (herd.animals < fewest)
        throw UsageError("--animals: percentiles need at least " + std::to_string(fewest) +
                         " animals; --format csv shows fewer one by one.");
    std::vector<std::vector<float>> levels(herd.analytes.size());
    for (std::vector<float>& one : levels) one.reserve(herd.animals);
    eachMember(world, herd, unrounded(assets.knowledge), [&](const report::Member& one) {
        for (std::size_t i = 0; i < herd.analytes.size(); ++i) {
            if (herd.tests.empty())
                levels[i].push_back(static_cast<float>(one.truth.level(herd.analytes[i])));
            else if (const lab::Result* result = one.report.find(herd.analytes[i]))
                levels[i].push_back(static_cast<float>(result->value));
        }
    });
    Page page(world.out, world.styled);
    printText(page, herd, bench, units, std::move(levels));
    return done;
}

} // namespace

Job declareHerd(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const auto option = [&](const char* name, std::string& value, const char* what,
                            const char* type) {
        app.add_option(name, value, what)->type_name(type);
    };
    app.add_option("SPECIES", wanted->species, "dog or cat.")->required();
    option("--animals", wanted->animals, "How many; 1000 if left out.", "N");
    option("--insult", wanted->insult, "What happens to every one of them.", "NAME");
    option("--severity", wanted->severity, "How hard, with its unit: \"12 %\".", "S");
    option("--from", wanted->from, "Start of the insult; -24 h if left out.", "TIME");
    option("--to", wanted->to, "Its end; 0 h if left out. The look is at 0 h.", "TIME");
    option("--age", wanted->age, "One age for all; left out: grown, 2 to 8 y.", "TIME");
    option("--analytes", wanted->analytes, "Only these, such as ALT,CK; left out: all.", "A,B");
    app.add_flag("--measured", wanted->measured,
                 "Text shows the laboratory's results, unrounded, not the true levels.");
    option("--seed", wanted->seed, "Another herd, by number; 1 if left out.", "N");
    option("--units", wanted->units, "conventional (left out) or si.", "NAME");
    option("--format", wanted->format, "text (left out) or csv, a row an animal.", "NAME");
    app.footer(
        "For example: cistern herd cat --insult \"hepatocyte necrosis\" --severity \"10 %\". "
        "Text shows the median and the middle 95 % of every level beside the published interval of "
        "that age, and how far their limits lie apart in widths of it; with --measured day-to-day "
        "wobble and the analyzer's error are in them, as in the published ones. The csv holds true "
        "levels and results, as printed, of each animal.");
    return [wanted](World& world) { return look(world, *wanted); };
}

} // namespace cistern::terminal
