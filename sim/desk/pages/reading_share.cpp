#include "desk/pages/reading_share.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace {

constexpr double all = 100;

double lockedPoints(const std::vector<Share>& shares) {
    double sum = 0;
    for (const Share& one : shares)
        if (one.locked) sum += one.points;
    return sum;
}

} // namespace

std::vector<Share> given(std::vector<Share> shares, std::size_t one, double points) {
    std::vector<std::size_t> others;
    double have = 0;
    for (std::size_t i = 0; i < shares.size(); ++i)
        if (i != one && !shares[i].locked) {
            others.push_back(i);
            have += shares[i].points;
        }
    if (shares.at(one).locked || others.empty()) return shares;
    const double left = std::max(0., all - lockedPoints(shares));
    shares[one].points = std::clamp(points, 0., left);
    const double rest = left - shares[one].points;

    // Whole points first, then what is missing to those that lost most by rounding.
    std::vector<double> wanted;
    double spread = 0;
    for (const std::size_t i : others) {
        wanted.push_back(have > 0 ? rest * shares[i].points / have
                                  : rest / static_cast<double>(others.size()));
        shares[i].points = std::floor(wanted.back() + 1e-9);
        spread += shares[i].points;
    }
    std::vector<std::size_t> order(others.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    const auto lost = [&](std::size_t i) { return wanted[i] - shares[others[i]].points; };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return lost(a) > lost(b) + 1e-9; });
    double over = rest - spread;
    for (const std::size_t i : order) {
        const double more = std::clamp(over, 0., 1.);
        shares[others[i]].points += more;
        over -= more;
    }
    return shares;
}

std::vector<Share> even(std::vector<Share> shares) {
    const auto open =
        std::count_if(shares.begin(), shares.end(), [](const Share& one) { return !one.locked; });
    const double left = std::max(0., all - lockedPoints(shares));
    for (Share& one : shares)
        if (!one.locked) one.points = left / static_cast<double>(open);
    return shares;
}

} // namespace cistern::desk
