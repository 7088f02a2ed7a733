// What tests not yet run would tell.
#include "base/parallel.h"
#include "lab/analyzer.h"
#include "reader/inside.h"
#include "reader/sheet.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

using body::Analyte;

constexpr std::size_t animals = 500;  // stories picked by weight, that stand for all
constexpr std::size_t outcomes = 250; // that are tried of each test
constexpr std::array days{1, 3, 7};   // after which a repeat is weighed

/// A test that could be run, and when.
struct Offer {
    std::string name;
    double cost = 0;
    double hour = 0;
    std::vector<Analyte> analytes; ///< measured, not calculated from each other
};

/// A result before it is seen, given a story and what was seen so far: normal on its scale.
struct Forecast {
    double mean = 0, variance = 1;
};

std::vector<Analyte> told(const std::vector<Analyte>& analytes, const lab::Bench& bench,
                          body::Kind kind) {
    std::vector<Analyte> all;
    for (const Analyte one : analytes) {
        const lab::Method& method = bench.method(one);
        if (method.serves(kind) && !method.calculated) all.push_back(one);
    }
    return all;
}

/// Tests of the bench that the last sample lacks, and repeats of those that it has.
std::vector<Offer> offersFor(const Question& question, const lab::Bench& bench) {
    const lab::Report& last = question.samples.back().report;
    std::vector<Offer> all;
    Offer again;
    for (const lab::Test& test : bench.tests) {
        Offer offer{test.name, test.cost, question.last(),
                    told(test.analytes, bench, question.who.kind)};
        if (offer.analytes.empty()) continue;
        const auto had = [&](Analyte one) { return last.find(one) != nullptr; };
        if (std::all_of(offer.analytes.begin(), offer.analytes.end(), had)) {
            again.cost += test.cost;
            for (const Analyte one : offer.analytes)
                if (std::find(again.analytes.begin(), again.analytes.end(), one) ==
                    again.analytes.end())
                    again.analytes.push_back(one);
        } else {
            std::erase_if(offer.analytes, had);
            all.push_back(std::move(offer));
        }
    }
    if (again.analytes.empty()) return all;
    for (const int day : days) {
        Offer offer = again;
        offer.name = day == 1 ? "the same again in 1 day"
                              : "the same again in " + std::to_string(day) + " days";
        offer.hour += 24 * day;
        all.push_back(std::move(offer));
    }
    return all;
}

/// Forecasts for one story: what of a level is the animal's own is learned from its earlier results
/// of the same analyte; that healthy levels of different analytes go together is left out.
class Forecaster {
public:
    Forecaster(const Question& question, const lab::Bench& bench, const body::Species& species,
               const Wanted& wanted, const Lived& lived, const std::vector<Datum>& data)
        : question_(question),
          bench_(bench),
          species_(species),
          wanted_(wanted),
          lived_(lived),
          data_(data) {}

    Forecast operator()(std::size_t row, Analyte analyte, double hour) const {
        const lab::Method& method = bench_.method(analyte);
        const Scale scale = scaleOf(method, species_);
        double mean = 0, variance = 1; // of the animal's own deviate
        for (const Datum& datum : data_) {
            if (datum.analyte != analyte || datum.bound != lab::Bound::exact) continue;
            const View seen = view(row, analyte, question_.samples[datum.sample].hour, scale);
            const double noise =
                seen.noise + std::pow(scale.slope(datum.value) * datum.deviation, 2);
            const double gain = variance * seen.own / (seen.own * seen.own * variance + noise);
            mean += gain * (scale.of(datum.value) - seen.at - seen.own * mean);
            variance *= 1 - gain * seen.own;
        }
        const View next = view(row, analyte, hour, scale);
        const double error = scale.slope(next.level) * lab::spread(method, next.level);
        return {next.at + next.own * mean,
                next.own * next.own * variance + next.noise + error * error};
    }

private:
    const Question& question_;
    const lab::Bench& bench_;
    const body::Species& species_;
    const Wanted& wanted_;
    const Lived& lived_;
    const std::vector<Datum>& data_;

    /// A level on its scale, what an own deviate adds to it, and the variance of a day.
    struct View {
        double level, at, own, noise;
    };

    View view(std::size_t row, Analyte analyte, double hour, const Scale& scale) const {
        const auto h = static_cast<std::size_t>(
            std::find(wanted_.hours.begin(), wanted_.hours.end(), hour) - wanted_.hours.begin());
        const auto of = [&](const Table& table, Analyte one) {
            return table(static_cast<Eigen::Index>(row), wanted_.column(h, one).value());
        };
        const double level = of(lived_.level, analyte);
        const double steep = scale.slope(level) * (level - scale.zero); // of a share of the level
        const Recipe recipe = madeOf(analyte);
        double own = 0, noise = 0;
        for (const Ingredient& part : recipe.parts) {
            const double share =
                recipe.sum && level > 0 ? of(lived_.level, part.analyte) / level : 1;
            const double within = species_.within[static_cast<std::size_t>(part.analyte)];
            own += std::pow(share * of(lived_.own, part.analyte), 2);
            noise += std::pow(share * within, 2);
        }
        return {level, scale.of(level), steep * std::sqrt(own), steep * steep * noise};
    }
};

} // namespace

std::vector<Gain> Reader::gains(int threads) const {
    const Inside& in = *inside_;
    std::vector<Gain> all;
    if (in.question.explanations.empty()) return all;
    const std::vector<Offer> offers = offersFor(in.question, in.bench);

    // The picked stories once more, with all that the offers measure.
    const std::vector<std::size_t> picked = picks(in.weights, animals);
    if (picked.empty()) return all;
    Wanted wanted;
    for (const Sample& sample : in.question.samples) wanted.hours.push_back(sample.hour);
    for (const Offer& offer : offers) {
        wanted.hours.push_back(offer.hour);
        for (const Analyte analyte : offer.analytes) {
            wanted.analytes.push_back(analyte);
            for (const Ingredient& part : madeOf(analyte).parts)
                wanted.analytes.push_back(part.analyte);
        }
    }
    const auto once = [](auto& list) {
        std::sort(list.begin(), list.end());
        list.erase(std::unique(list.begin(), list.end()), list.end());
    };
    once(wanted.hours);
    once(wanted.analytes);
    wanted.presented = false;
    std::vector<std::size_t> rows; // of each pick
    std::vector<Story> stories;
    for (const std::size_t i : picked) {
        if (stories.empty() || stories.back().number != in.lived.stories[i].number)
            stories.push_back(in.lived.stories[i]);
        rows.push_back(stories.size() - 1);
    }
    const Lived lived =
        live(std::move(stories), in.seed, in.stories, in.question, wanted, in.species, threads);

    const std::vector<double> even(picked.size(), 1.0 / static_cast<double>(picked.size()));
    const auto shares = [&](const std::vector<double>& weights) {
        std::vector<double> of(in.question.explanations.size(), 0);
        for (std::size_t k = 0; k < picked.size(); ++k) in.fit[picked[k]].addTo(of, weights[k]);
        return of;
    };
    const double now = entropy(shares(even));
    const Forecaster forecast(in.question, in.bench, in.species, wanted, lived, in.results.data());
    all.resize(offers.size());
    base::inParallel(offers.size(), threads, [&](std::size_t first, std::size_t last) {
        for (std::size_t o = first; o < last; ++o) {
            const Offer& offer = offers[o];
            const std::size_t count = offer.analytes.size();
            std::vector<Forecast> table(lived.size() * count);
            for (std::size_t row = 0; row < lived.size(); ++row)
                for (std::size_t a = 0; a < count; ++a)
                    if (lived.alive[row])
                        table[row * count + a] = forecast(row, offer.analytes[a], offer.hour);
            double sum = 0, squares = 0;
            std::vector<double> seen(count), byRow(lived.size()), logs(picked.size());
            for (std::size_t m = 0; m < outcomes; ++m) {
                const std::size_t truth = rows[m * rows.size() / outcomes];
                base::Chance chance(in.seed, base::Purpose::outcome, m,
                                    static_cast<std::uint32_t>(o));
                for (std::size_t a = 0; a < count; ++a) {
                    const Forecast& one = table[truth * count + a];
                    seen[a] = one.mean + std::sqrt(one.variance) * chance.normal();
                }
                for (std::size_t row = 0; row < lived.size(); ++row) {
                    double log = 0;
                    for (std::size_t a = 0; a < count; ++a) {
                        const Forecast& one = table[row * count + a];
                        const double off = seen[a] - one.mean;
                        log -= (std::log(one.variance) + off * off / one.variance) / 2;
                    }
                    byRow[row] = lived.alive[row] ? log : -1e300;
                }
                for (std::size_t k = 0; k < picked.size(); ++k) logs[k] = byRow[rows[k]];
                const double fell = now - entropy(shares(normalized(logs)));
                sum += fell;
                squares += fell * fell;
            }
            const double mean = sum / outcomes;
            const double variance = std::max(0., squares / outcomes - mean * mean);
            all[o] = {offer.name, std::max(0., mean), std::sqrt(variance / outcomes), offer.cost};
        }
    });
    std::stable_sort(all.begin(), all.end(),
                     [](const Gain& a, const Gain& b) { return a.bits > b.bits; });
    return all;
}

} // namespace cistern::reader
