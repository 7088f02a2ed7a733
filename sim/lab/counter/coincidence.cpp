#include "lab/counter/coincidence.h"

#include <cmath>
#include <stdexcept>

namespace cistern::lab {

double pulsesExtending(double crowding) {
    return std::exp(-crowding);
}

double pulsesNotExtending(double crowding) {
    return 1 / (1 + crowding);
}

double correctedCells(double pulses, double crowding) {
    if (!(crowding >= 0 && crowding < 1))
        throw std::domain_error("pulses stand too close to be corrected for coincidence");
    return pulses / (1 - crowding);
}

double classicAddition(double count, double diameter, double volume) {
    // 2.5 cells for each thousand squared, at 100 um and 500 uL
    return 2.5 * std::pow(diameter / 100, 3) * (500 / volume) * std::pow(count / 1000, 2);
}

double sensingVolume(double diameter) {
    // the addition to one cell among n in V is n v / V: v = 2.5 * 500 uL / 1000^2 at 100 um
    return 2.5 * 500 / 1e6 * std::pow(diameter / 100, 3);
}

} // namespace cistern::lab
