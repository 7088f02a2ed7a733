#include "body/population.h"
#include "scenario/asset_reader.h"

#include <memory>
#include <stdexcept>

namespace cistern::scenario {

using base::FaultKind;

namespace {

/// {ages: [1 mo, 3 mo, 12 mo], factors: [1.9, 1.7, 1], source: KEY, standing: ..., note: ...}
void readCurve(Shelf& shelf, Reader reader, const std::string& name, body::AgeCurve& curve) {
    const Range age{"h", 0, 40 * 8766., "mo"}, factor{"1", 0.01, 100, "", true};
    Reader ages = reader.need("ages"), factors = reader.need("factors");
    std::string written;
    for (Reader& one : ages.items()) {
        const auto hours = one.quantity(age);
        if (!hours) continue;
        if (!curve.ages.empty() && !(*hours > curve.ages.back()))
            one.fault(FaultKind::wrongOrder, one.text(), "ages from young to old");
        curve.ages.push_back(*hours);
        written += (written.empty() ? "at " : ", ") + one.text();
    }
    for (Reader& one : factors.items())
        if (const auto value = one.quantity(factor)) {
            curve.factors.push_back(*value);
            written += (curve.factors.size() == 1 ? ": times " : ", ") + one.text();
        }
    if (curve.ages.size() != curve.factors.size() || curve.ages.empty()) {
        factors.fault(FaultKind::wrongShape, std::to_string(curve.factors.size()) + " factors",
                      "as many factors as ages, at least one");
        curve = {};
    }
    Sourced sourced = shelf.provenance(reader);
    sourced.name = name;
    sourced.value = written;
    sourced.place = ages.place();
    shelf.keep(std::move(sourced));
    reader.noMore();
}

/// {between: [Na, Cl], r: 0.8, source: KEY, standing: ..., note: ...}
void readCorrelation(Shelf& shelf, Reader item, const std::string& prefix,
                     body::Population& population) {
    Reader between = item.need("between"), closeness = item.need("r");
    auto ends = between.items();
    const auto r = closeness.quantity({"1", -1, 1, "", true});
    Sourced sourced = shelf.provenance(item);
    item.noMore();
    if (ends.size() != 2) {
        between.fault(FaultKind::wrongShape, std::to_string(ends.size()) + " names",
                      "two analytes");
        return;
    }
    const auto first = readName(ends[0], body::analytes(), "analyte");
    const auto second = readName(ends[1], body::analytes(), "analyte");
    if (!first || !second || !r) return;
    population.correlations.push_back({*first, *second, *r});
    sourced.name = prefix + "correlation of " + std::string(name(*first)) + " and " +
                   std::string(name(*second));
    sourced.value = closeness.text();
    sourced.place = closeness.place();
    shelf.keep(std::move(sourced));
}

} // namespace

void readPopulation(Shelf& shelf, Reader& root, body::Species& species) {
    const std::string prefix = std::string(name(species.kind)) + " ";
    auto population = std::make_shared<body::Population>();
    if (Reader stages = root.find("life stages")) {
        for (body::Analyte analyte : body::analytes()) {
            const std::string key(name(analyte));
            if (Reader curve = stages.find(key))
                readCurve(shelf, curve, prefix + "life stages." + key,
                          population->stages[static_cast<std::size_t>(analyte)]);
        }
        stages.noMore();
    }
    if (Reader list = root.find("correlations")) {
        for (Reader& item : list.items()) readCorrelation(shelf, item, prefix, *population);
        try {
            population->mix();
        } catch (const std::invalid_argument& e) {
            list.fault(FaultKind::contradiction, "", e.what());
        }
    }
    species.population = std::move(population);
}

} // namespace cistern::scenario
