#include "lab/counter/sizes.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

constexpr double rootTwo = 1.41421356237309504880;

double normalBelow(double z) {
    return std::erfc(-z / rootTwo) / 2;
}

/// Natural logarithms of all edges.
const std::array<double, Sizes::channels + 1>& logEdges() {
    static const auto edges = [] {
        std::array<double, Sizes::channels + 1> all{};
        for (std::size_t i = 0; i < all.size(); ++i) all[i] = std::log(Sizes::edge(i));
        return all;
    }();
    return edges;
}

} // namespace

double shareBelow(double size, double median, double spread) {
    return size > 0 ? normalBelow(std::log(size / median) / spread) : 0;
}

double Sizes::edge(std::size_t channel) {
    return least * std::exp2(static_cast<double>(channel) / perDoubling);
}

double Sizes::middle(std::size_t channel) {
    return edge(channel) * std::exp2(0.5 / perDoubling);
}

std::size_t Sizes::nearest(double size) {
    const double at = std::round(perDoubling * std::log2(size / least));
    return static_cast<std::size_t>(std::clamp(at, 0., static_cast<double>(channels)));
}

void Sizes::expect(double pulses, double median, double spread) {
    constexpr double tail = 6; // beyond so many standard deviations 1e-9 of the pulses lie
    if (!(pulses > 0)) return;
    const auto& edges = logEdges();
    const double center = std::log(median);
    const auto from = std::upper_bound(edges.begin(), edges.end(), center - tail * spread);
    std::size_t i = from == edges.begin() ? 0 : static_cast<std::size_t>(from - edges.begin()) - 1;
    double below = normalBelow((edges[std::min(i, channels)] - center) / spread);
    for (; i < channels && edges[i] < center + tail * spread; ++i) {
        const double next = normalBelow((edges[i + 1] - center) / spread);
        counts_[i] += pulses * (next - below);
        below = next;
    }
}

Sizes Sizes::met(base::Chance& chance) const {
    Sizes seen;
    for (std::size_t i = 0; i < channels; ++i) seen.counts_[i] = chance.poisson(counts_[i]);
    return seen;
}

double Sizes::pulses(std::size_t from, std::size_t to) const {
    double sum = 0;
    for (std::size_t i = from; i < to; ++i) sum += counts_[i];
    return sum;
}

double Sizes::mean(std::size_t from, std::size_t to) const {
    double sum = 0, weighted = 0;
    for (std::size_t i = from; i < to; ++i) {
        sum += counts_[i];
        weighted += counts_[i] * middle(i);
    }
    return sum > 0 ? weighted / sum : 0;
}

double Sizes::variation(std::size_t from, std::size_t to) const {
    const double center = mean(from, to);
    if (!(center > 0)) return 0;
    double squares = 0;
    for (std::size_t i = from; i < to; ++i)
        squares += counts_[i] * (middle(i) - center) * (middle(i) - center);
    return std::sqrt(squares / pulses(from, to)) / center;
}

std::size_t Sizes::valley(double from, double to) const {
    const std::size_t first = nearest(from), last = nearest(to);
    std::size_t best = first;
    double fewest = -1;
    for (std::size_t i = std::max<std::size_t>(first, 1); i < last; ++i) {
        const double around = pulses(i - 1, i + 1);   // on both sides of the edge
        if (fewest >= 0 && around > fewest) continue; // of equals the last: giants are platelets
        fewest = around;
        best = i;
    }
    return best;
}

} // namespace cistern::lab
