#include "lab/interval/transference.h"

#include "base/statistics.h"

#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr int mostToFit = 2, mostToAskAgain = 4; // of twenty outside

double atMost(int outside, double share) {
    return base::binomialAtMost(outside, animalsToTransfer, share);
}

} // namespace

Transfer transfer(int outside) {
    if (outside < 0 || outside > animalsToTransfer)
        throw std::invalid_argument("of twenty animals 0 to 20 lie outside");
    return outside <= mostToFit        ? Transfer::fits
           : outside <= mostToAskAgain ? Transfer::twentyMore
                                       : Transfer::fails;
}

double chanceToFitAtOnce(double share) {
    return atMost(mostToFit, share);
}

double chanceToFail(double share) {
    const double again = atMost(mostToAskAgain, share) - atMost(mostToFit, share);
    return 1 - atMost(mostToAskAgain, share) + again * (1 - atMost(mostToFit, share));
}

double chanceToFailTwice(double share) {
    const double once = 1 - atMost(mostToFit, share);
    return once * once;
}

} // namespace cistern::lab
