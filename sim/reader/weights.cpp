#include "reader/weights.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::reader {

std::vector<double> normalized(const std::vector<double>& logs) {
    std::vector<double> weights(logs.size(), 0);
    double most = -std::numeric_limits<double>::infinity();
    for (const double log : logs) most = std::max(most, log);
    if (!std::isfinite(most)) return weights;
    double sum = 0;
    for (std::size_t i = 0; i < logs.size(); ++i) sum += weights[i] = std::exp(logs[i] - most);
    for (double& weight : weights) weight /= sum;
    return weights;
}

double effective(const std::vector<double>& weights) {
    double sum = 0, squares = 0;
    for (const double w : weights) {
        sum += w;
        squares += w * w;
    }
    return squares > 0 ? sum * sum / squares : 0;
}

double tempering(const std::vector<double>& logs, double wanted) {
    const auto worth = [&](double power) {
        std::vector<double> softer(logs);
        for (double& log : softer)
            if (std::isfinite(log)) log *= power;
        return effective(normalized(softer));
    };
    if (worth(1) >= wanted) return 1;
    double soft = 0, hard = 1;
    constexpr int halvings = 12; // to a few thousandths, on the safe side
    for (int i = 0; i < halvings; ++i) {
        const double power = (soft + hard) / 2;
        (worth(power) >= wanted ? soft : hard) = power;
    }
    return soft;
}

std::vector<std::size_t> picks(const std::vector<double>& weights, std::size_t count) {
    std::vector<std::size_t> chosen;
    double reached = 0;
    for (std::size_t i = 0; i < weights.size(); ++i) {
        reached += weights[i];
        while (chosen.size() < count &&
               (static_cast<double>(chosen.size()) + 0.5) / static_cast<double>(count) < reached)
            chosen.push_back(i);
    }
    return chosen;
}

double quantile(std::vector<Weighted>& values, double share) {
    if (values.empty()) return 0;
    if (!std::is_sorted(values.begin(), values.end())) std::sort(values.begin(), values.end());
    double whole = 0, reached = 0;
    for (const Weighted& one : values) whole += one.second;
    for (const Weighted& one : values)
        if ((reached += one.second) >= share * whole) return one.first;
    return values.back().first;
}

double entropy(const std::vector<double>& shares) {
    double bits = 0;
    for (const double p : shares)
        if (p > 0) bits -= p * std::log2(p);
    return bits;
}

double divergence(const std::vector<double>& to, const std::vector<double>& from) {
    double bits = 0;
    for (std::size_t i = 0; i < to.size(); ++i)
        if (to[i] > 0 && from[i] > 0) bits += to[i] * std::log2(to[i] / from[i]);
    return bits;
}

} // namespace cistern::reader
