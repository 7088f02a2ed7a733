#include "reader/evidence.h"

#include "reader/evidence_inside.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace cistern::reader {

using body::Analyte;
using Index = Eigen::Index;

ResultEvidence::ResultEvidence(const Question& question, const lab::Bench& bench,
                               const body::Species& species, const Wanted& wanted, double astray)
    : inside_(std::make_unique<Inside>(species, astray)) {
    inside_->organs = wanted.organs;
    for (std::size_t i = 0; i < question.samples.size(); ++i) {
        inside_->passages.emplace_back(question, i, bench, species, wanted);
        inside_->add(question, i, bench, wanted);
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
        }
    }
    return out;
}

double ResultEvidence::log(const Lived& lived, std::size_t row, const Stories& stories) const {
    thread_local Inside::Row shown; // room that is used again for every story
    thread_local Normal normal;
    inside_->read(lived, static_cast<Index>(row), stories, shown);
    double sum = shown.index;
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
