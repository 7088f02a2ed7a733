#include "scenario/asset_reader.h"

#include <algorithm>
#include <stdexcept>

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// Parameters that a file may leave out.
void readOptions(Shelf& shelf, Reader& map, const std::string& prefix,
                 const std::function<void(const body::Visit&)>& eachOf) {
    eachOf([&](const body::Parameter& parameter) {
        const Range range{parameter.unit, parameter.least, parameter.most, "",
                          parameter.unit == "1"};
        if (Reader one = map.find(parameter.name))
            *parameter.value =
                shelf.sourced(one, prefix + parameter.name, range).value_or(*parameter.value);
    });
}

void readTruth(Reader& map, const std::string& key, bool& value) {
    if (Reader one = map.find(key)) value = one.truth().value_or(value);
}

/// One principle: its needed parameters, and those that `rest` asks for.
template<class Principle, class Rest>
Principle readPrinciple(Shelf& shelf, const Reader& map, const std::string& prefix, Rest rest) {
    Principle principle;
    if constexpr (requires { principle.photometer; })
        principle.photometer = shelf.assets().knowledge.bench.photometer;
    readParameters(
        shelf, map, prefix, [&](const body::Visit& visit) { lab::eachParameter(principle, visit); },
        [&](Reader& reader) {
            reader.find("principle");
            if constexpr (requires(const body::Visit& visit) { lab::eachOption(principle, visit); })
                readOptions(shelf, reader, prefix,
                            [&](const body::Visit& visit) { lab::eachOption(principle, visit); });
            rest(principle, reader);
        });
    if constexpr (requires { principle.volumes; })
        if (!(principle.volumes.sample < principle.volumes.total))
            Reader(map).find("total").fault(FaultKind::wrongOrder, "", "more than 'sample'");
    return principle;
}

lab::Assay readKind(Shelf& shelf, const Reader& map, std::size_t kind, const std::string& prefix) {
    const lab::Spectra& spectra = shelf.assets().knowledge.bench.spectra;
    const auto none = [](auto&, Reader&) {};
    switch (kind) {
    case 0:
        return readPrinciple<lab::Kinetic>(shelf, map, prefix,
                                           [&](lab::Kinetic& assay, Reader& reader) {
                                               readTruth(reader, "falls", assay.falls);
                                               assay.tint = spectra.at(assay.wavelength);
                                           });
    case 1:
        return readPrinciple<lab::EndPoint>(
            shelf, map, prefix, [&](lab::EndPoint& assay, Reader& reader) {
                readTruth(reader, "falls", assay.falls);
                readTruth(reader, "blanked", assay.blanked);
                assay.tint = spectra.at(assay.wavelength);
                if (assay.otherWavelength > 0) assay.second = spectra.at(assay.otherWavelength);
            });
    case 2:
        return readPrinciple<lab::Electrode>(shelf, map, prefix, none);
    case 3:
        return readPrinciple<lab::Ligand>(shelf, map, prefix, none);
    case 4:
        return readPrinciple<lab::Refractometer>(shelf, map, prefix, none);
    default:
        return readPrinciple<lab::Timer>(shelf, map, prefix, none);
    }
}

} // namespace

void readPhotometer(Shelf& shelf, Reader root) {
    lab::Photometer& photometer = shelf.assets().knowledge.bench.photometer;
    readParameters(shelf, root, "photometer ",
                   [&](const body::Visit& visit) { lab::eachParameter(photometer, visit); });
}

void readSpectra(Shelf& shelf, Reader root) {
    lab::Spectra& spectra = shelf.assets().knowledge.bench.spectra;
    readParameters(
        shelf, root, "spectra ",
        [&](const body::Visit& visit) { lab::eachParameter(spectra, visit); },
        [&](Reader& rest) {
            const Range wavelength{"nm", 200, 1100};
            for (Reader& one : rest.need("indices at").items())
                if (const auto at = one.quantity(wavelength)) spectra.indicesAt.push_back(*at);
            const Range absorption{"L/mmol/cm", 0, 1000, "", true};
            for (Reader& row : rest.need("table").items()) {
                lab::Spectra::Point point;
                Reader at = row.need("at");
                point.wavelength = at.quantity(wavelength).value_or(0);
                point.hemoglobin = row.need("hemoglobin").quantity(absorption).value_or(0);
                point.bilirubin = row.need("bilirubin").quantity(absorption).value_or(0);
                row.noMore();
                if (!spectra.table.empty() && !(spectra.table.back().wavelength < point.wavelength))
                    at.fault(FaultKind::wrongOrder, "", "by rising wavelength");
                spectra.table.push_back(point);
            }
            for (const char* column : {"hemoglobin", "bilirubin"}) {
                Reader origin = rest.need(column);
                Sourced sourced = shelf.provenance(origin);
                origin.noMore();
                sourced.name = std::string("spectra ") + column;
                sourced.value = "a table";
                sourced.place = origin.place();
                shelf.keep(std::move(sourced));
            }
        });
}

void readAssay(Shelf& shelf, Reader& item, lab::Method& method) {
    const std::string prefix = "method " + std::string(name(method.analyte)) + ".";
    if (Reader map = item.find("assay")) {
        static const std::vector<std::string> principles{"kinetic", "end point",     "electrode",
                                                         "ligand",  "refractometer", "timer"};
        const std::size_t before = map.sheet().faultCount();
        const auto kind = map.need("principle").oneOf(principles, "principle");
        if (kind) method.assay = readKind(shelf, map, *kind, prefix + "assay.");
        if (kind && map.sheet().faultCount() == before) try {
                lab::calibrate(method.assay,
                               method.most * shelf.assets().knowledge.bench.photometer.calibrator);
            } catch (const std::invalid_argument&) {
                map.fault(
                    FaultKind::contradiction, "",
                    "an assay that can read its calibrator, the photometer's share of 'most'");
            }
    }
    if (Reader map = item.find("interference")) {
        lab::Interference& all = method.interference;
        const auto slope = [&](const char* key, const char* unit, double& value) {
            const Range range{unit, -1e4, 1e4, "", true};
            if (Reader one = map.find(key))
                value = shelf.sourced(one, prefix + "interference." + key, range).value_or(0);
        };
        slope("hemolysis adds", "1", all.hemolysisAdds);
        slope("hemolysis share", "L/g", all.hemolysisShare);
        slope("icterus share", "L/umol", all.icterusShare);
        slope("lipemia share", "L/mmol", all.lipemiaShare);
        map.noMore();
    }
}

} // namespace cistern::scenario
