#include "terminal/herd_intervals.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/change.h"
#include "lab/interval/transference.h"
#include "report/words.h"
#include "terminal/input.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::terminal {

namespace {

using body::Analyte;
using lab::LimitMethod;

constexpr std::uint64_t mostForBootstrap = 10000; // animals, each drawn a thousand times
constexpr double twoSided95 = 1.96;

std::optional<LimitMethod> methodWished(const HerdOptions& options, const Herd& herd) {
    if (options.method.empty()) return std::nullopt;
    readWord("--method", options.method, {"ranks", "robust", "parametric"});
    const LimitMethod wished = options.method == "ranks"    ? LimitMethod::ranks
                               : options.method == "robust" ? LimitMethod::robust
                                                            : LimitMethod::parametric;
    const std::size_t least =
        wished == LimitMethod::ranks ? lab::animalsForRanks : lab::animalsForCaution;
    if (herd.animals < least)
        throw UsageError("--method " + options.method + " needs at least " + std::to_string(least) +
                         " animals.");
    if (wished == LimitMethod::robust && herd.animals > mostForBootstrap)
        throw UsageError("--method robust draws its animals a thousand times over; it takes " +
                         std::to_string(mostForBootstrap) + " at most.");
    return wished;
}

/// Mean and coefficient of variation, one amount at a time.
class Spread {
public:
    void add(double amount) {
        ++n_;
        const double off = amount - mean_;
        mean_ += off / n_;
        squares_ += off * (amount - mean_);
    }
    double mean() const { return mean_; }
    double variation() const {
        return n_ > 1 && mean_ > 0 ? std::sqrt(squares_ / (n_ - 1)) / mean_ : 0;
    }

private:
    double n_ = 0, mean_ = 0, squares_ = 0;
};

/// Measures the herd and rebuilds every interval.
std::vector<Found> findIntervals(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                                 std::optional<LimitMethod> wished) {
    std::vector<Found> found(herd.analytes.size());
    std::vector<Spread> truth(found.size()), doubt(found.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        found[i].analyte = herd.analytes[i];
        found[i].published = knowledge.bench.interval(herd.anyone(), 0, herd.analytes[i]);
        found[i].results.reserve(herd.animals);
    }
    eachMember(world, herd, unrounded(knowledge), [&](const report::Member& member) {
        for (std::size_t i = 0; i < found.size(); ++i) {
            const Analyte analyte = found[i].analyte;
            const double zero = lab::origin(analyte);
            truth[i].add(member.truth.level(analyte) - zero);
            const lab::Result* result = member.report.find(analyte);
            found[i].results.push_back(result ? static_cast<float>(result->value)
                                              : std::numeric_limits<float>::quiet_NaN());
            found[i].flagged.push_back(
                result &&
                judged(*result, knowledge.bench.method(analyte).conventional) != lab::Flag::none);
            if (result && result->value > zero)
                doubt[i].add(result->halfWidth / twoSided95 / (result->value - zero));
        }
    });
    for (std::size_t i = 0; i < found.size(); ++i) {
        Found& one = found[i];
        one.between = truth[i].variation();
        one.doubt = doubt[i].mean();
        std::vector<double> values;
        for (const float result : one.results)
            if (!std::isnan(result)) values.push_back(static_cast<double>(result));
        one.rebuilt = lab::rebuild(
            std::move(values),
            {herd.seed, base::Purpose::bootstrap, 0, static_cast<std::uint32_t>(one.analyte)},
            wished);
    }
    return found;
}

std::string methodWords(LimitMethod method, bool advised) {
    const std::string why = !advised                       ? ""
                            : method == LimitMethod::ranks ? ", as advised for 120 animals and more"
                            : method == LimitMethod::robust
                                ? ", as advised for fewer than 120 animals"
                                : "";
    switch (method) {
    case LimitMethod::ranks:
        return "by ranks" + why;
    case LimitMethod::robust:
        return "by the robust method" + why;
    case LimitMethod::parametric:
        return "from mean and standard deviation" + why;
    case LimitMethod::listing:
        return "not found: 10 to 19 animals are only listed";
    case LimitMethod::none:
        return "not found: fewer than 10 animals say nothing";
    }
    return "";
}

std::string namesOf(const std::vector<const Found*>& some) {
    std::string names;
    for (const Found* one : some)
        names += (names.empty() ? "" : ", ") + std::string(body::name(one->analyte));
    return names;
}

void printTable(Page& page, const std::vector<Found>& found, const lab::Bench& bench,
                lab::Units units) {
    const bool limits = std::any_of(found.begin(), found.end(), [](const Found& one) {
        return one.rebuilt.limits.has_value();
    });
    std::vector<std::vector<std::string>> rows;
    for (const Found& one : found) {
        const auto put = [&](double amount) {
            return lab::printed(amount, one.analyte, bench, units);
        };
        const auto between = [&](const lab::Limit& limit) {
            return put(limit.from) + ".." + put(limit.to);
        };
        const lab::Rebuilt& r = one.rebuilt;
        std::vector<std::string> row{std::string(body::name(one.analyte)),
                                     base::shown(bench.method(one.analyte).writing(units).unit)};
        if (limits && r.limits)
            row.insert(row.end(), {put(r.limits->low.value), between(r.limits->low),
                                   put(r.limits->high.value), between(r.limits->high)});
        else if (limits)
            row.insert(row.end(), {"-", "-", "-", "-"});
        else if (r.method == LimitMethod::listing)
            row.insert(row.end(), {put(r.least), put(r.median), put(r.most)});
        else
            row.insert(row.end(), {"-", "-", "-"});
        row.push_back(one.published ? put(one.published->low) + ".." + put(one.published->high) +
                                          (one.published->decision ? "*" : "")
                                    : "none");
        rows.push_back(std::move(row));
    }
    std::vector<Column> columns{{"analyte", false}, {"unit", false}};
    if (limits)
        columns.insert(columns.end(),
                       {{"low", true}, {"90 %", true}, {"high", true}, {"90 %", true}});
    else
        columns.insert(columns.end(), {{"least", true}, {"median", true}, {"most", true}});
    columns.push_back({"published", true});
    page.table(columns, rows);
}

void printCautions(Page& page, const std::vector<Found>& found, LimitMethod usual) {
    std::vector<std::pair<std::string, std::vector<const Found*>>> cautions;
    const auto say = [&](const std::string& words, const Found& one) {
        auto at = std::find_if(cautions.begin(), cautions.end(),
                               [&](const auto& c) { return c.first == words; });
        if (at == cautions.end()) at = cautions.insert(at, {words, {}});
        at->second.push_back(&one);
    };
    for (const Found& one : found) {
        const bool few = one.rebuilt.animals < lab::animalsForCaution; // or most are the same
        if (one.rebuilt.method != usual && (few || one.rebuilt.limits))
            say(methodWords(one.rebuilt.method, false), one);
        if (one.rebuilt.logarithms) say("found on the logarithms, which lie more evenly", one);
        for (const std::string& words : one.rebuilt.cautions) say(words, one);
    }
    for (const auto& [words, some] : cautions)
        page.item(report::capital(words) + (some.size() == found.size() && some.size() > 1
                                                ? "."
                                                : ": " + namesOf(some) + "."),
                  0);
}

/// What the first twenty say of the published intervals.
void printTransfer(Page& page, const std::vector<Found>& found) {
    std::vector<std::string> more, fail;
    std::size_t tried = 0;
    for (const Found& one : found) {
        const auto outside = outsideOfTwenty(one);
        if (!outside) continue;
        ++tried;
        const std::string words =
            std::string(body::name(one.analyte)) + " (" + std::to_string(*outside) + ")";
        if (lab::transfer(*outside) == lab::Transfer::twentyMore) more.push_back(words);
        if (lab::transfer(*outside) == lab::Transfer::fails) fail.push_back(words);
    }
    if (tried == 0) return;
    const auto hundred = [](double chance) { return base::rounded(100 * chance, 1); };
    std::string text = "Carried over instead of rebuilt: a published interval fits if at most 2 "
                       "of the first 20 animals lie outside. So do " +
                       std::to_string(tried - more.size() - fail.size()) + " of " +
                       std::to_string(tried);
    if (!more.empty()) text += "; 3 or 4 ask for another 20: " + base::listed(more, "and");
    if (!fail.empty()) text += "; 5 and more send it back: " + base::listed(fail, "and");
    page.paragraph(text + ". A right interval fits at once in " +
                   hundred(lab::chanceToFitAtOnce(0.05)) +
                   " of 100 such trials, one that truly leaves out a fifth of the animals in " +
                   hundred(lab::chanceToFitAtOnce(0.2)) + ".");
    page.blank();
}

void printOneOutside(Page& page, const Herd& herd, const lab::Bench& bench,
                     const std::vector<Found>& found) {
    const std::vector<OneOutside> shares = oneOutside(herd, bench, found);
    if (shares.empty()) return;
    const bool own = std::any_of(found.begin(), found.end(),
                                 [](const Found& one) { return one.rebuilt.limits.has_value(); });
    std::vector<std::vector<std::string>> rows;
    const auto hundred = [](double share) { return base::rounded(100 * share, 0.1); };
    for (const OneOutside& one : shares)
        rows.push_back({one.tests, std::to_string(one.results),
                        hundred(lab::chanceOfOneOutside(one.results)), hundred(one.published),
                        own ? hundred(one.own) : "-"});
    page.paragraph("Of 100 healthy animals so many show at least one flag:");
    page.blank();
    page.table({{"test", false},
                {"results", true},
                {"by formula", true},
                {"published intervals", true},
                {"these intervals", true}},
               rows);
    page.blank();
    page.paragraph("The formula, 1 - 0.95^k for k results, counts them as independent; the animals "
                   "were counted, and in them tests rise and fall together.");
    page.blank();
}

/// Where an animal's own earlier result says more than the interval, and where the interval does.
void printIndividuality(Page& page, const std::vector<Found>& found, const body::Species& species) {
    std::vector<const Found*> own, all;
    for (const Found& one : found) {
        const double index = lab::individuality(
            one.doubt, species.within[static_cast<std::size_t>(one.analyte)], one.between);
        if (index < lab::ownBelow) own.push_back(&one);
        if (index > lab::intervalAbove && std::isfinite(index)) all.push_back(&one);
    }
    if (!own.empty())
        page.paragraph("An animal's own earlier result says more than any interval (what varies in "
                       "one animal and its analyzer is less than 0.6 of what varies between "
                       "animals): " +
                       namesOf(own) + ".");
    if (!all.empty()) page.paragraph("The interval serves (more than 1.4): " + namesOf(all) + ".");
    if (!own.empty() || !all.empty()) page.blank();
}

} // namespace

std::optional<int> outsideOfTwenty(const Found& one) {
    if (!one.published || one.published->decision) return std::nullopt;
    int seen = 0, outside = 0;
    for (std::size_t i = 0; i < one.results.size() && seen < lab::animalsToTransfer; ++i) {
        if (std::isnan(one.results[i])) continue;
        ++seen;
        outside += one.flagged[i];
    }
    return seen == lab::animalsToTransfer ? std::optional(outside) : std::nullopt;
}

void showIntervals(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                   const HerdOptions& options, lab::Units units) {
    const auto wished = methodWished(options, herd);
    const std::vector<Found> found = findIntervals(world, herd, knowledge, wished);
    if (options.format == "csv") {
        world.out << intervalsCsv(found, knowledge, herd.kind, units);
        return;
    }
    const LimitMethod usual = wished.value_or(lab::advised(herd.animals));
    Page page(world.out, world.styled);
    page.paragraph(described(herd) + " Reference intervals of measured results, unrounded, " +
                   methodWords(usual, !wished) + ":");
    page.blank();
    printTable(page, found, knowledge.bench, units);
    page.blank();
    page.paragraph("90 %: where each limit lies with that confidence. *: limits for decisions, by "
                   "judgement, not the middle 95 % of the healthy. Nothing was thrown out.");
    printCautions(page, found, usual);
    page.blank();
    printTransfer(page, found);
    printOneOutside(page, herd, knowledge.bench, found);
    if (herd.animals >= lab::animalsForRobust)
        printIndividuality(page, found, knowledge.species(herd.kind));
    page.caution();
}

} // namespace cistern::terminal
