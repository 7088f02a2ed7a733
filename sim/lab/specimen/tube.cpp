#include "lab/specimen/tube.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

double edtaIn(const TubeLaws& laws, double fill) {
    return laws.edta / fill;
}

double shrunken(const TubeLaws& laws, double edta) {
    const double added = laws.edtaOsmoles * edta;
    return laws.rigid + (1 - laws.rigid) * laws.osmolality / (laws.osmolality + added);
}

double edtaInSerum(const TubeLaws& laws, const Handling& handling, double hematocrit) {
    const auto at = [&](std::string_view name) {
        return std::find_if(handling.tubes.begin(), handling.tubes.end(),
                            [&](const Tube& tube) { return tube.name == name; });
    };
    const auto serum = at("serum"), edta = at("edta");
    if (serum == handling.tubes.end()) return 0;
    double share = 0;
    if (serum->toppedFrom == "edta")
        share = laws.toppedUp;
    else if (edta < serum)
        share = laws.carriedOver;
    const double fill = edta == handling.tubes.end() ? 1 : edta->fill;
    const double inPlasma = 1e3 * edtaIn(laws, fill) / laws.edtaMass / (1 - hematocrit);
    return share * inPlasma;
}

double unbound(double half, double steepness, double edta) {
    return 1 / (1 + std::pow(edta / half, steepness));
}

double plasmaOfCitrate(const TubeLaws& laws, double fill, double hematocrit) {
    const double plasma = laws.citrate * fill * (1 - hematocrit);
    return plasma / (plasma + 1);
}

} // namespace cistern::lab
