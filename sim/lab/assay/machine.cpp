#include "lab/assay/machine.h"

#include <array>

namespace cistern::lab {

std::string_view name(MachineFault fault) {
    constexpr std::array<std::string_view, machineFaultCount> names{
        "drift", "bad lot", "lamp", "wrong temperature", "dirty aperture", "short sample"};
    return names[static_cast<std::size_t>(fault)];
}

double Machine::by(MachineFault kind, body::Analyte analyte) const {
    double sum = 0;
    for (const Fault& fault : faults)
        if (fault.kind == kind && (!fault.analyte || *fault.analyte == analyte)) sum += fault.by;
    return sum;
}

} // namespace cistern::lab
