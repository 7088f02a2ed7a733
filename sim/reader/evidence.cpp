#include "reader/evidence.h"

#include "body/population.h"
#include "reader/normal.h"
#include "reader/passage.h"
#include "reader/sheet.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

namespace cistern::reader {

namespace {

using body::Analyte;
using Index = Eigen::Index;

constexpr double strayWidth = 20; // standard deviations of healthy animals, see `straying`

/// One part of a result: how much of its level is the animal's own, and how far a day moves it.
struct Part {
    Analyte analyte{};
    int sign = 1;
    Index column = 0;  ///< of Lived::level and Lived::own
    double within = 0; ///< standard deviation of the logarithm
    long minute = 0;   ///< of the draw
};

/// One result, ready to be compared with a story.
struct Item {
    Reading reading;
    Scale scale;
    bool sum = false;
    std::size_t firstPart = 0, lastPart = 0; ///< in Inside::parts
    Index column = 0;                        ///< of a product's level
    std::size_t sample = 0;
    const lab::Method* method = nullptr;
    Sight sight;          ///< on the scale
    bool altered = false; ///< by interference, beyond the analyzer's doubt, or doubtful at all
};

/// Two parts of two results that vary together.
struct Tie {
    std::size_t one = 0, other = 0; ///< in Inside::parts
    double correlation = 0;         ///< of the animal's own levels
    bool sameDay = false;           ///< one wobble moves both
};

/// Results that hang together, directly or by others.
struct Block {
    std::vector<std::size_t> items; ///< exact ones first
    /// Ties of items i and j >= i: firstTie[i * size + j] up to the next.
    std::vector<std::pair<std::size_t, std::size_t>> span;
    std::vector<Tie> ties;
};

/// The analyte whose own healthy level sets what an organ sheds in health.
std::optional<Analyte> markerOf(body::Tissue organ) {
    switch (organ) {
    case body::Tissue::liver:
        return Analyte::ALT;
    case body::Tissue::bileDucts:
        return Analyte::GGT;
    case body::Tissue::skeletalMuscle:
        return Analyte::CK;
    case body::Tissue::heart:
        return Analyte::cTnI;
    case body::Tissue::bone:
        return Analyte::ALP;
    case body::Tissue::kidney:
        return Analyte::UPC;
    case body::Tissue::platelets:
        return Analyte::platelets;
    default:
        return std::nullopt;
    }
}

/// What a story's animal and its tubes would show of one result.
struct Shown {
    double mean = 0;  ///< on the scale
    double slope = 0; ///< of the scale, per unit of the level before handling
    double level = 0; ///< model's unit
    double moved = 0; ///< by handling [model's unit]
};

} // namespace

struct ResultEvidence::Inside {
    const body::Species& species;
    double astray;
    std::vector<Datum> data;
    std::vector<Item> items;
    std::vector<Part> parts;
    std::vector<Block> blocks;
    std::vector<Passage> passages; ///< by sample
    std::vector<body::Tissue> organs;

    Inside(const body::Species& of, double strays) : species(of), astray(strays) {}

    void add(const Question& question, std::size_t number, const lab::Bench& bench,
             const Wanted& wanted, const body::Species& healthy);
    void connect();
    double correlation(Analyte one, Analyte other) const;

    /// Everything of a row: what is shown of each item, and how far one standard deviation of a
    /// part's own level, or of its day, moves its result.
    struct Row {
        std::vector<Shown> shown;
        std::vector<double> own, day; ///< by part
    };
    void read(const Lived& lived, Index row, const Stories& stories, Row& out) const;
    /// Means and covariances of a block, and room for `more` quantities behind.
    void fill(const Block& block, const Row& row, std::size_t more, Normal& normal) const;
    double see(const Block& block, Normal& normal) const;
};

double ResultEvidence::Inside::correlation(Analyte one, Analyte other) const {
    if (one == other) return 1;
    if (!species.population) return 0;
    for (const body::Correlation& c : species.population->correlations)
        if ((c.first == one && c.second == other) || (c.first == other && c.second == one))
            return c.r;
    return 0;
}

void ResultEvidence::Inside::add(const Question& question, std::size_t number,
                                 const lab::Bench& bench, const Wanted& wanted,
                                 const body::Species& healthy) {
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
        item.reading = readingOf(sample.report, result, bench, healthy);
        item.scale = scaleOf(method, species);
        item.sample = number;
        item.method = &method;
        const double slope = item.scale.slope(item.reading.held);
        item.sight = {item.scale.of(item.reading.held), item.reading.bound,
                      std::pow(item.reading.deviation * slope, 2),
                      1 / (strayWidth * healthySpread(method, species))};
        item.altered =
            item.reading.doubtful ||
            (result.bound == lab::Bound::exact && item.reading.bound == lab::Bound::exact &&
             std::abs(item.reading.held - result.value) > result.halfWidth);
        const Recipe recipe = madeOf(analyte);
        item.sum = recipe.sum;
        item.column = column(analyte);
        item.firstPart = parts.size();
        for (const Ingredient& one : recipe.parts)
            parts.push_back({one.analyte, one.sign, column(one.analyte),
                             body::logSpread(species.within[static_cast<std::size_t>(one.analyte)]),
                             std::lround(60 * sample.hour)});
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
    std::optional<lab::Handled> handled;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const Item& item = items[i];
        if (item.sample != sample) {
            sample = item.sample;
            handled = passages[sample].handled(level, story, stories);
        }
        double x = level[item.column];
        if (item.sum) {
            x = 0;
            for (std::size_t p = item.firstPart; p < item.lastPart; ++p)
                x += parts[p].sign * level[parts[p].column];
        }
        const lab::Alteration change =
            handled ? handled->of(item.method->specimen)
                          .changes[static_cast<std::size_t>(item.method->analyte)]
                    : passages[sample].usual(level, item.method->analyte);
        const double zero = item.scale.zero;
        const double y = change.of(x);
        const double slope = item.scale.slope(y) * change.times;
        out.shown[i] = {item.scale.of(y), slope, x, y - x};
        for (std::size_t p = item.firstPart; p < item.lastPart; ++p) {
            const Part& part = parts[p];
            const double amount = item.sum ? level[part.column] : x - zero;
            const double each = slope * part.sign * amount;
            out.own[p] = each * own[part.column];
            out.day[p] = each * part.within;
        }
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

ResultEvidence::ResultEvidence(const Question& question, const lab::Bench& bench,
                               const body::Species& species, const Wanted& wanted, double astray)
    : inside_(std::make_unique<Inside>(species, astray)) {
    inside_->organs = wanted.organs;
    const body::Individual median = body::median(species, question.who);
    for (std::size_t i = 0; i < question.samples.size(); ++i) {
        inside_->passages.emplace_back(question, i, bench, species, wanted);
        inside_->add(question, i, bench, wanted, median.own);
    }
    inside_->connect();
}

ResultEvidence::~ResultEvidence() = default;
ResultEvidence::ResultEvidence(ResultEvidence&&) noexcept = default;

const std::vector<Datum>& ResultEvidence::data() const {
    return inside_->data;
}

ResultEvidence::Expected ResultEvidence::expected(const Lived& lived, std::size_t row,
                                                  const Stories& stories) const {
    Inside::Row shown;
    Normal normal;
    inside_->read(lived, static_cast<Index>(row), stories, shown);
    const auto all = static_cast<Index>(inside_->items.size());
    Expected out{Eigen::VectorXd::Zero(all), Eigen::MatrixXd::Zero(all, all)};
    for (const Block& block : inside_->blocks) {
        inside_->fill(block, shown, 0, normal);
        for (std::size_t i = 0; i < block.items.size(); ++i) {
            const auto at = static_cast<Index>(block.items[i]);
            out.mean(at) = normal.mean(i);
            for (std::size_t j = i; j < block.items.size(); ++j) {
                const auto other = static_cast<Index>(block.items[j]);
                out.covariance(at, other) = out.covariance(other, at) = normal.covariance(i, j);
            }
            out.covariance(at, at) += inside_->items[block.items[i]].sight.variance;
        }
    }
    return out;
}

double ResultEvidence::log(const Lived& lived, std::size_t row, const Stories& stories) const {
    thread_local Inside::Row shown; // room that is used again for every story
    thread_local Normal normal;
    inside_->read(lived, static_cast<Index>(row), stories, shown);
    double sum = 0;
    for (const Block& block : inside_->blocks) {
        inside_->fill(block, shown, 0, normal);
        sum += inside_->see(block, normal);
    }
    return sum;
}

std::vector<double> ResultEvidence::alone(const Lived& lived, std::size_t row,
                                          const Stories& stories) const {
    Inside::Row shown;
    Normal normal;
    inside_->read(lived, static_cast<Index>(row), stories, shown);
    std::vector<double> out(inside_->items.size());
    for (const Block& block : inside_->blocks)
        for (std::size_t i = 0; i < block.items.size(); ++i) {
            inside_->fill(block, shown, 0, normal);
            const double mean = normal.mean(i), variance = normal.covariance(i, i);
            normal.reset(1);
            normal.mean(0) = mean;
            normal.covariance(0, 0) = variance;
            const std::size_t item = block.items[i];
            out[item] = std::log(normal.see(0, inside_->items[item].sight, inside_->astray));
        }
    return out;
}

std::vector<std::pair<double, double>> ResultEvidence::logLeak(const Lived& lived, std::size_t row,
                                                               const Stories& stories) const {
    const auto at = static_cast<Index>(row);
    std::vector<std::pair<double, double>> out;
    Inside::Row shown;
    Normal normal;
    inside_->read(lived, at, stories, shown);
    for (std::size_t i = 0; i < inside_->organs.size(); ++i) {
        const auto column = static_cast<Index>(i);
        const double own = lived.leakOwn(at, column);
        double mean = 0, deviation = 1; // of the marker's own healthy level, standardized
        const auto marker = own != 0 ? markerOf(inside_->organs[i]) : std::nullopt;
        for (const Block& block : inside_->blocks) {
            if (!marker) break;
            const std::size_t size = block.items.size();
            inside_->fill(block, shown, 1, normal);
            bool told = false;
            for (std::size_t k = 0; k < size; ++k) {
                const Item& item = inside_->items[block.items[k]];
                for (std::size_t p = item.firstPart; p < item.lastPart; ++p) {
                    const double r = inside_->correlation(inside_->parts[p].analyte, *marker);
                    normal.covariance(k, size) += r * shown.own[p];
                    told = told || r != 0;
                }
            }
            if (!told) continue;
            normal.covariance(size, size) = 1;
            inside_->see(block, normal);
            mean = normal.mean(size);
            deviation = std::sqrt(std::max(0., normal.covariance(size, size)));
            break; // what goes with a marker stands in one block
        }
        const double leak = lived.leak(at, column);
        out.emplace_back(leak > 0 ? std::log(leak) + own * mean : -HUGE_VAL,
                         std::abs(own) * deviation);
    }
    return out;
}

std::vector<char> ResultEvidence::spoiled(const Lived& lived, std::size_t row,
                                          const Stories& stories) const {
    Inside::Row shown;
    inside_->read(lived, static_cast<Index>(row), stories, shown);
    constexpr double doubt = 1.96; // standard deviations, as printed beside results
    std::vector<char> out;
    for (std::size_t i = 0; i < inside_->items.size(); ++i) {
        const Item& item = inside_->items[i];
        out.push_back(item.altered ||
                      std::abs(shown.shown[i].moved) > doubt * item.reading.deviation);
    }
    return out;
}

} // namespace cistern::reader
