// Writes what units.js reads: for each analyte its unit in the model, its molar mass if one is
// given, and the unit, factor and LOINC code of both unit systems.
#include "base/units.h"
#include "scenario/assets.h"
#include "scenario/yaml.h"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <exception>
#include <map>

using namespace cistern;

namespace {

const std::string assetFolder = std::string(CISTERN_SOURCE) + "/assets";

/// [g/mol] by analyte, as the files of methods give them.
std::map<std::string, double> molarMasses(const base::Disk& disk) {
    std::map<std::string, double> masses;
    for (const std::string& path : disk.list(assetFolder + "/methods", ".yaml"))
        for (const scenario::Node& method : scenario::parse(path, disk.read(path)).root.members)
            if (const scenario::Node* mass = method.find("molar mass"))
                masses[method.find("analyte")->text] = base::readQuantity(mass->text)->value;
    return masses;
}

nlohmann::ordered_json row(const lab::Method& method, double molarMass) {
    const auto written = [](const lab::Writing& writing) {
        return nlohmann::ordered_json{
            {"unit", writing.unit}, {"factor", writing.factor}, {"loinc", writing.loinc}};
    };
    return {{"analyte", name(method.analyte)},
            {"unit", body::unit(method.analyte)},
            {"molarMass", molarMass},
            {"conventional", written(method.conventional)},
            {"si", written(method.si)}};
}

void write(const std::string& path) {
    base::Disk disk;
    const auto masses = molarMasses(disk);
    auto rows = nlohmann::ordered_json::array();
    for (const lab::Method& method :
         scenario::loadAssets(disk, assetFolder).knowledge.bench.methods) {
        const auto mass = masses.find(std::string(name(method.analyte)));
        rows.push_back(row(method, mass == masses.end() ? 0 : mass->second));
    }
    disk.write(path, rows.dump(1) + "\n");
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("usage: standards_input FILE\n", stderr);
        return 2;
    }
    try {
        write(argv[1]);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
