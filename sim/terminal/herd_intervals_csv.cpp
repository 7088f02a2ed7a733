#include "lab/change.h"
#include "report/csv.h"
#include "terminal/herd_intervals.h"

#include <cmath>

namespace cistern::terminal {

namespace {

constexpr double knownTo = 0.1; // of a set point, for the number of samples

/// The empty field of a number that there is none of.
std::string field(double value) {
    return std::isfinite(value) ? report::number(value) : "";
}

} // namespace

std::string intervalsCsv(const std::vector<Found>& found, const lesson::Knowledge& knowledge,
                         body::Kind kind, lab::Units units) {
    std::string text = report::csvLine({"analyte",
                                        "unit",
                                        "animals",
                                        "method",
                                        "logarithms",
                                        "least",
                                        "median",
                                        "most",
                                        "low",
                                        "low from",
                                        "low to",
                                        "high",
                                        "high from",
                                        "high to",
                                        "published low",
                                        "published high",
                                        "suspect",
                                        "far",
                                        "outside of 20",
                                        "individuality",
                                        "change up[%]",
                                        "change down[%]",
                                        "samples to 10 %",
                                        "cautions"});
    for (const Found& one : found) {
        const lab::Writing& writing = knowledge.bench.method(one.analyte).writing(units);
        const auto put = [&](double amount) { return report::number(amount * writing.factor); };
        const lab::Rebuilt& r = one.rebuilt;
        std::vector<std::string> fields{
            std::string(body::name(one.analyte)), writing.unit.empty() ? "1" : writing.unit,
            std::to_string(r.animals), std::string(name(r.method)), r.logarithms ? "yes" : "no"};
        const auto add = [&](bool there, std::initializer_list<double> amounts) {
            for (const double amount : amounts) fields.push_back(there ? put(amount) : "");
        };
        add(r.animals > 0, {r.least, r.median, r.most});
        const lab::KnownLimits limits = r.limits.value_or(lab::KnownLimits{});
        add(r.limits.has_value(), {limits.low.value, limits.low.from, limits.low.to,
                                   limits.high.value, limits.high.from, limits.high.to});
        const lab::Interval published = one.published ? *one.published : lab::Interval{};
        add(one.published, {published.low, published.high});
        fields.push_back(std::to_string(r.outliers.suspect));
        fields.push_back(std::to_string(r.outliers.far));
        const auto outside = outsideOfTwenty(one);
        fields.push_back(outside ? std::to_string(*outside) : "");
        const double within = knowledge.species(kind).within[static_cast<std::size_t>(one.analyte)];
        const lab::Change change = lab::referenceChange(one.doubt, within);
        fields.push_back(field(lab::individuality(one.doubt, within, one.between)));
        fields.push_back(field(100 * change.up));
        fields.push_back(field(100 * change.down));
        fields.push_back(std::to_string(lab::samplesForSetPoint(one.doubt, within, knownTo)));
        std::string cautions;
        for (const std::string& words : r.cautions)
            cautions += (cautions.empty() ? "" : "; ") + words;
        fields.push_back(cautions);
        text += report::csvLine(fields);
    }
    return text;
}

} // namespace cistern::terminal
