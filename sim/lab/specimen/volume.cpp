#include "lab/specimen/volume.h"

#include <algorithm>
#include <array>
#include <utility>

namespace cistern::lab {

namespace {

// Blood up to the mark of tubes made for small animals [mL] (common practice).
constexpr std::array<std::pair<std::string_view, double>, 5> marks{
    {{"serum", 2}, {"edta", 1}, {"heparin", 1.3}, {"citrate", 1.8}, {"fluoride", 1}}};

double mark(std::string_view tube) {
    const auto found = std::find_if(marks.begin(), marks.end(),
                                    [&](const auto& one) { return one.first == tube; });
    return found == marks.end() ? 0 : found->second;
}

} // namespace

std::string tubeFor(const Method& method) {
    if (method.specimen.starts_with("EDTA")) return "edta";
    if (method.specimen.starts_with("citrate")) return "citrate";
    if (method.specimen.starts_with("heparin")) return "heparin";
    return method.specimen; // "serum", "urine"
}

Volume volume(const Bench& bench, const body::Individual& animal, const Handling& handling,
              const std::vector<std::string>& tests) {
    constexpr double mLPerL = 1000;
    Volume volume;
    volume.blood = mLPerL * animal.own.redCells.bloodVolume * animal.who.weight;
    std::vector<Tube> filled = handling.tubes;
    for (const body::Analyte analyte : bench.analytes(tests, animal.who.kind)) {
        const std::string name = tubeFor(bench.method(analyte));
        const auto named = [&](const Tube& tube) { return tube.name == name; };
        if (std::none_of(filled.begin(), filled.end(), named)) filled.push_back(usualTube(name));
        if (mark(name) > 0 &&
            std::find(volume.tubes.begin(), volume.tubes.end(), name) == volume.tubes.end())
            volume.tubes.push_back(name);
    }
    std::vector<std::string> inOrder;
    for (const Tube& tube : filled)
        if (std::find(volume.tubes.begin(), volume.tubes.end(), tube.name) != volume.tubes.end()) {
            inOrder.push_back(tube.name);
            volume.taken += mark(tube.name) * tube.fill;
        }
    volume.tubes = std::move(inOrder);
    return volume;
}

} // namespace cistern::lab
