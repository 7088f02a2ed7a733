#pragma once
#include "base/chance.h"
#include "lab/interval/robust.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// How limits are found in the values of healthy animals. A listing tells least, median and most.
enum class LimitMethod { ranks, robust, parametric, listing, none };
std::string_view name(LimitMethod method); ///< "ranks", "robust", ...

/// Animals from which on the guideline advises each. Source: Friedrichs and others 2012, Vet Clin
/// Pathol 41:441 (from memory).
inline constexpr std::size_t animalsForRanks = 120, animalsForRobust = 40, animalsForCaution = 20,
                             animalsForListing = 10;
LimitMethod advised(std::size_t animals);

/// Values that stand apart. Nothing throws them out.
struct Outliers {
    std::size_t suspect = 0;   ///< beyond the quartiles by more than 1.5 of their distance
    std::size_t far = 0;       ///< by more than 3; counted among the suspect as well
    std::vector<double> alone; ///< least or most value with a third of the range between it and the
                               ///< next
};

/// Sources: Tukey 1977, Exploratory Data Analysis, for the fences; EP28-A3c after Dixon for the
/// gap (both from memory). None in fewer than three values. Throws std::invalid_argument unless
/// sorted.
Outliers outliers(const std::vector<double>& sorted);

/// A reference interval as a laboratory would find it.
struct Rebuilt {
    LimitMethod method = LimitMethod::none;
    bool logarithms = false; ///< found on the logarithms, which lie more evenly than the values
    std::size_t animals = 0;
    double least = 0, median = 0, most = 0; ///< of no animals: 0
    std::optional<KnownLimits> limits;      ///< of fewer than 20 animals there are none
    Outliers outliers{};                    ///< on the logarithms where those lie more evenly
    std::vector<std::string> cautions;      ///< in plain words, without full stop
};

/// The middle 95 % of the animals that these amounts come from, by the advised method; by another
/// where that is wished and there are enough animals for it. `chance` is a stream for
/// Purpose::bootstrap. Throws std::invalid_argument for an amount that is negative or not finite.
Rebuilt rebuild(std::vector<double> values, base::Chance chance,
                std::optional<LimitMethod> wished = std::nullopt);

} // namespace cistern::lab
