#include "lab/control/material.h"

#include "lab/analyzer.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double grown = 4 * 365.25 * 24; // [h]: every species is grown at four years

const Interval& grownInterval(const Bench& bench, body::Analyte analyte) {
    for (const body::Kind kind : {body::Kind::dog, body::Kind::cat}) {
        body::Signalment who;
        who.kind = kind;
        who.age = grown;
        if (const Interval* found = bench.interval(who, 0, analyte)) return *found;
    }
    throw std::out_of_range("no interval tells how much " + std::string(body::name(analyte)) +
                            " a control should hold");
}

} // namespace

bool controlled(const Bench& bench, body::Analyte analyte) {
    const Method* method = bench.find(analyte);
    return method && !method->calculated && !bench.controls.materials.empty();
}

double amount(const Bench& bench, const ControlMaterial& material, body::Analyte analyte) {
    const Method& method = bench.method(analyte);
    const Interval& interval = grownInterval(bench, analyte);
    const double zero = origin(analyte);
    const double highest = zero + bench.controls.highest * (method.most - zero);
    const double wanted = interval.low + material.share * (interval.high - interval.low);
    const double lowest = method.least + bench.controls.clear * spread(method, method.least);
    return std::max(std::min(wanted, highest), std::min(lowest, highest));
}

Target stated(const Method& method, double amount) {
    return {amount, spread(method, amount)};
}

Target learned(const std::vector<double>& readings) {
    if (readings.size() < 2)
        throw std::invalid_argument("a learning period needs at least two readings");
    const auto n = static_cast<double>(readings.size());
    const double mean = std::accumulate(readings.begin(), readings.end(), 0.) / n;
    double squares = 0;
    for (const double reading : readings) squares += (reading - mean) * (reading - mean);
    const double deviation = std::sqrt(squares / (n - 1));
    if (!(deviation > 0) || !std::isfinite(deviation))
        throw std::invalid_argument("the readings of a learning period must differ");
    return {mean, deviation};
}

} // namespace cistern::lab
