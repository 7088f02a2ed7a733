#include "lab/assay/machine.h"

#include "base/text.h"

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

std::vector<std::string> said(const Machine& machine) {
    std::vector<std::string> lines;
    for (const Fault& fault : machine.faults) {
        const bool warm = fault.kind == MachineFault::wrongTemperature;
        lines.push_back(
            std::string(name(fault.kind)) +
            (fault.analyte ? " of " + std::string(name(*fault.analyte)) : "") + " by " +
            (warm ? base::rounded(fault.by, 0.1) + " K" : base::rounded(100 * fault.by, 1) + " %"));
    }
    if (!machine.linearityCheck) lines.push_back("the check for straight traces was switched off");
    return lines;
}

} // namespace cistern::lab
