// Which results count, what each is made of, and what a story would show of it.
#include "reader/evidence_inside.h"

#include "body/population.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <variant>

namespace cistern::reader {

using body::Analyte;
using Index = Eigen::Index;

namespace {

constexpr double strayWidth = 20; // standard deviations of healthy animals, see `straying`

/// Few cells are met on a film: what is expected scatters by their number, whatever was found.
double filmNoise(const Item& item, const double* level, double expected) {
    double variance = std::pow(item.rounding, 2) + std::pow(item.method->betweenRun * expected, 2);
    if (item.method->analyte == Analyte::toxic) {
        variance += expected * (1 - expected) / item.film;
    } else {
        double all = 0; // neutrophils come first, bands second
        for (const Index column : item.among) all += level[column];
        const double both = level[item.among[0]] + level[item.among[1]];
        if (both > 0) variance += expected * (1 - expected / both) * all / item.film;
    }
    return std::max(variance, 0.) * std::pow(item.scale.slope(expected), 2);
}

} // namespace

double ResultEvidence::Inside::correlation(Analyte one, Analyte other) const {
    if (one == other) return 1;
    if (!species.population) return 0;
    for (const body::Correlation& c : species.population->correlations)
        if ((c.first == one && c.second == other) || (c.first == other && c.second == one))
            return c.r;
    return 0;
}

void ResultEvidence::Inside::add(const Question& question, std::size_t number,
                                 const lab::Bench& bench, const Wanted& wanted) {
    const Sample& sample = question.samples[number];
    const auto hour = std::find(wanted.hours.begin(), wanted.hours.end(), sample.hour);
    const auto column = [&](Analyte analyte) {
        const auto at =
            hour == wanted.hours.end()
                ? std::nullopt
                : wanted.column(static_cast<std::size_t>(hour - wanted.hours.begin()), analyte);
        if (!at)
            throw std::invalid_argument("to weigh the results, " +
                                        std::string(body::name(analyte)) +
                                        " must be among what is wanted of the ensemble");
        return *at;
    };
    for (const lab::Result& result : sample.report.results) {
        const Analyte analyte = result.analyte;
        if (follows(sample.report, analyte, bench)) continue;
        const lab::Method& method = bench.method(analyte);
        Item item;
        item.reading = readingOf(sample.report, result, bench);
        item.scale = scaleOf(method, species);
        item.sample = number;
        item.method = &method;
        item.electrode = std::holds_alternative<lab::Electrode>(method.assay);
        const double slope = item.scale.slope(item.reading.held);
        item.sight = {item.scale.of(item.reading.held), item.reading.bound,
                      1 / (strayWidth * healthySpread(method, species))};
        item.variance = std::pow(item.reading.deviation * slope, 2);
        if (bench.counter && (analyte == Analyte::bands || analyte == Analyte::toxic)) {
            item.film = bench.counter->filmCells;
            item.rounding = method.conventional.step / method.conventional.factor / std::sqrt(12.);
            if (analyte == Analyte::bands)
                for (const Analyte kind : lab::whiteKinds) item.among.push_back(column(kind));
        }
        item.altered =
            item.reading.doubtful ||
            (result.bound == lab::Bound::exact && item.reading.bound == lab::Bound::exact &&
             std::abs(item.reading.held - result.value) > result.halfWidth);
        const Recipe recipe = madeOf(analyte);
        item.sum = recipe.sum;
        item.column = column(analyte);
        item.firstPart = parts.size();
        const auto part = [&](const Ingredient& one, double within) {
            parts.push_back({one.analyte, one.sign, column(one.analyte), within,
                             std::lround(60 * sample.hour)});
        };
        for (const Ingredient& one : recipe.parts)
            part(one, body::logSpread(species.within[static_cast<std::size_t>(one.analyte)]));
        item.along = parts.size();
        for (const Ingredient& one : recipe.along) part(one, 0);
        item.lastPart = parts.size();
        items.push_back(item);
        data.push_back({number, analyte, result.value, item.reading.bound, item.reading.deviation});
    }
}

void ResultEvidence::Inside::connect() {
    const auto tied = [&](const Item& a, const Item& b, std::vector<Tie>* ties) {
        bool any = false;
        for (std::size_t i = a.firstPart; i < a.lastPart; ++i)
            for (std::size_t j = b.firstPart; j < b.lastPart; ++j) {
                const double r = correlation(parts[i].analyte, parts[j].analyte);
                if (r == 0) continue;
                any = true;
                if (ties)
                    ties->push_back({i, j, r,
                                     parts[i].analyte == parts[j].analyte &&
                                         parts[i].minute == parts[j].minute});
            }
        return any;
    };
    std::vector<char> taken(items.size(), 0);
    for (std::size_t start = 0; start < items.size(); ++start) {
        if (taken[start]) continue;
        Block block;
        block.items = {start};
        taken[start] = 1;
        for (std::size_t i = 0; i < block.items.size(); ++i)
            for (std::size_t j = 0; j < items.size(); ++j)
                if (!taken[j] && tied(items[block.items[i]], items[j], nullptr)) {
                    taken[j] = 1;
                    block.items.push_back(j);
                }
        std::sort(block.items.begin(), block.items.end());
        std::stable_partition(block.items.begin(), block.items.end(), [&](std::size_t i) {
            return items[i].sight.bound == lab::Bound::exact;
        });
        const std::size_t size = block.items.size();
        block.span.resize(size * size);
        for (std::size_t i = 0; i < size; ++i)
            for (std::size_t j = i; j < size; ++j) {
                const std::size_t from = block.ties.size();
                tied(items[block.items[i]], items[block.items[j]], &block.ties);
                block.span[i * size + j] = {from, block.ties.size()};
            }
        blocks.push_back(std::move(block));
    }
}

void ResultEvidence::Inside::read(const Lived& lived, Index row, const Stories& stories,
                                  Row& out) const {
    const double* level = lived.level.data() + row * lived.level.cols();
    const double* own = lived.own.data() + row * lived.own.cols();
    const Story& story = lived.stories[static_cast<std::size_t>(row)];
    out.shown.resize(items.size());
    out.own.resize(parts.size());
    out.day.resize(parts.size());
    std::size_t sample = passages.size();
    std::optional<Passage::Came> came;
    out.index = 0;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const Item& item = items[i];
        if (item.sample != sample) {
            sample = item.sample;
            came = passages[sample].came(level, story, stories);
            if (passages[sample].hidden())
                out.index += passages[sample].logIndex(came ? came->free : lab::cleanHemolysis);
        }
        double x = level[item.column];
        if (item.sum) {
            x = 0;
            for (std::size_t p = item.firstPart; p < item.along; ++p)
                x += parts[p].sign * level[parts[p].column];
        }
        const lab::Prepared* prepared = came ? &came->handled.of(item.method->specimen) : nullptr;
        const lab::Alteration change =
            prepared ? prepared->changes[static_cast<std::size_t>(item.method->analyte)]
                     : passages[sample].usual(level, item.method->analyte);
        // An electrode looks at water alone.
        const double water =
            !item.electrode ? 1
                            : (1 - (prepared ? prepared->solids : passages[sample].solids(level))) /
                                  (1 - lab::Cup{}.solids);
        const double zero = item.scale.zero;
        const double y = water * change.of(x);
        const double slope = item.scale.slope(y) * water * change.times;
        const double noise = item.film > 0 ? filmNoise(item, level, y) : item.variance;
        out.shown[i] = {item.scale.of(y), slope, x, y - x, noise};
        for (std::size_t p = item.firstPart; p < item.lastPart; ++p) {
            const Part& part = parts[p];
            const double amount = item.sum ? level[part.column] : x - zero;
            const double each = slope * part.sign * amount;
            out.own[p] = each * own[part.column];
            out.day[p] = each * part.within;
        }
        // What its levels owe to those it goes along with is not its own.
        const std::uint64_t number = story.number;
        for (std::size_t p = item.along; p < item.lastPart; ++p)
            out.own[item.firstPart] -= side(number, parts[item.firstPart].analyte) *
                                       side(number, parts[p].analyte) * out.own[p];
    }
}

void ResultEvidence::Inside::fill(const Block& block, const Row& row, std::size_t more,
                                  Normal& normal) const {
    const std::size_t size = block.items.size();
    normal.reset(size + more);
    for (std::size_t i = 0; i < size; ++i) {
        normal.mean(i) = row.shown[block.items[i]].mean;
        for (std::size_t j = i; j < size; ++j) {
            const auto [from, to] = block.span[i * size + j];
            double sum = 0;
            for (std::size_t t = from; t < to; ++t) {
                const Tie& tie = block.ties[t];
                sum += tie.correlation * row.own[tie.one] * row.own[tie.other];
                if (tie.sameDay) sum += row.day[tie.one] * row.day[tie.other];
            }
            normal.covariance(i, j) = sum;
        }
        normal.covariance(i, i) += row.shown[block.items[i]].noise;
    }
}

double ResultEvidence::Inside::see(const Block& block, Normal& normal) const {
    constexpr double small = 1e-200; // still far from where a double ends
    double sum = 0, chance = 1;
    for (std::size_t i = 0; i < block.items.size(); ++i) {
        chance *= normal.see(i, items[block.items[i]].sight, astray);
        if (chance > small) continue;
        sum += std::log(chance);
        chance = 1;
    }
    return sum + std::log(chance);
}

} // namespace cistern::reader
