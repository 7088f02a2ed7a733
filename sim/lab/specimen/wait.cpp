#include "lab/specimen/wait.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

double quickened(const WaitLaws& laws, double temperature, double over) {
    return std::pow(laws.q10, (temperature - over) / 10);
}

double glucoseLeft(double firstHour, double pace, double hours) {
    return std::pow(1 - firstHour, pace * hours);
}

double bilirubinLeft(const WaitLaws& laws, Light light, double hours) {
    const double rate = light == Light::sun    ? laws.bilirubinSun
                        : light == Light::room ? laws.bilirubinRoom
                                               : 0;
    return std::exp(-rate * hours);
}

double swollen(const WaitLaws& laws, double hours) {
    return 1 + std::min(laws.swelling * hours, laws.mostSwelling);
}

} // namespace cistern::lab
