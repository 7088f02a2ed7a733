#include "base/text.h"
#include "base/units.h"
#include "lab/interval/ranks.h"
#include "terminal/herd.h"

#include <algorithm>
#include <cmath>

namespace cistern::terminal {

namespace {

using body::Analyte;

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
               const std::vector<std::vector<float>>& levels) {
    const body::Signalment who = herd.anyone();
    std::vector<std::vector<std::string>> rows;
    Agreement agreement;
    for (std::size_t i = 0; i < herd.analytes.size(); ++i) {
        const Analyte analyte = herd.analytes[i];
        const auto put = [&](double amount) { return lab::printed(amount, analyte, bench, units); };
        const lab::Interval* interval = bench.interval(who, 0, analyte);
        std::vector<double> all(levels[i].begin(), levels[i].end());
        std::sort(all.begin(), all.end());
        const bool enough =
            all.size() >= fewestForPercentiles; // what is calculated cannot always be
        const double low = enough ? lab::percentile(all, lab::lowerShare) : 0;
        const double high = enough ? lab::percentile(all, lab::upperShare) : 0;
        const bool decision = interval && interval->decision;
        const Off off = enough ? offBy(low, high, interval) : Off{};
        const std::string name(body::name(analyte));
        agreement.add(off.low, "lower limit of " + name);
        agreement.add(off.high, "upper limit of " + name);
        rows.push_back({name, base::shown(bench.method(analyte).writing(units).unit),
                        enough ? put(lab::percentile(all, 0.5)) : "-",
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

} // namespace

void showLimits(World& world, const Herd& herd, const lesson::Knowledge& knowledge,
                lab::Units units) {
    if (herd.animals < fewestForPercentiles)
        throw UsageError("--animals: percentiles need at least " +
                         std::to_string(fewestForPercentiles) +
                         " animals; --format csv shows fewer one by one.");
    std::vector<std::vector<float>> levels(herd.analytes.size());
    for (std::vector<float>& one : levels) one.reserve(herd.animals);
    eachMember(world, herd, unrounded(knowledge), [&](const report::Member& one) {
        for (std::size_t i = 0; i < herd.analytes.size(); ++i) {
            if (herd.tests.empty())
                levels[i].push_back(static_cast<float>(one.truth.level(herd.analytes[i])));
            else if (const lab::Result* result = one.report.find(herd.analytes[i]))
                levels[i].push_back(static_cast<float>(result->value));
        }
    });
    Page page(world.out, world.styled);
    printText(page, herd, knowledge.bench, units, levels);
}

} // namespace cistern::terminal
