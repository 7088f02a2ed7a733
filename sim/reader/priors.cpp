#include "reader/priors.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

constexpr double year = 8766; // [h]

// Common practice in the papers that the priors come from.
constexpr double grown = 1 * year;
constexpr ByKind<double> aged{8 * year, 9 * year};

constexpr double ninetyFifth = 1.6448536269514722; // quantile of the standard normal distribution

double logit(double share) {
    return std::log(share / (1 - share));
}

} // namespace

Age ageOf(const body::Signalment& who) {
    if (who.age < grown) return Age::young;
    return who.age < aged[static_cast<std::size_t>(who.kind)] ? Age::adult : Age::old;
}

double Spread::at(double deviate) const {
    const double end = deviate < 0 ? low : high;
    const double steps = std::abs(deviate) / ninetyFifth;
    double value = median;
    if (shape == Shape::fold)
        value = median * std::pow(end / median, steps);
    else if (median > 0 && median < 1 && end > 0 && end < 1)
        value = 1 / (1 + std::exp(-(logit(median) + steps * (logit(end) - logit(median)))));
    return std::clamp(value, least, most);
}

const InsultPrior* Priors::find(const body::InsultKind& kind) const {
    const auto at = std::find_if(insults.begin(), insults.end(),
                                 [&](const InsultPrior& one) { return one.kind == &kind; });
    return at == insults.end() ? nullptr : &*at;
}

const SignPrior* Priors::sign(const std::string& name) const {
    const auto at = std::find_if(signs.begin(), signs.end(),
                                 [&](const SignPrior& one) { return one.name == name; });
    return at == signs.end() ? nullptr : &*at;
}

} // namespace cistern::reader
