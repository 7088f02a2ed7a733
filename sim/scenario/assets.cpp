#include "scenario/assets.h"

#include "scenario/asset_reader.h"

namespace cistern::scenario {

Assets loadAssets(const base::Files& files, const std::string& folder) {
    Assets assets;
    Shelf shelf(files, assets);
    const auto with = [&](void (*read)(Shelf&, Reader)) {
        return [&shelf, read](Reader root) { read(shelf, std::move(root)); };
    };
    shelf.read(folder + "/sources.yaml", with(readSources));
    shelf.readAll(folder + "/species", with(readSpecies));
    shelf.readAll(folder + "/insults", with(readInsults));
    shelf.readAll(folder + "/methods", with(readMethods));
    shelf.readAll(folder + "/intervals", with(readIntervals));
    shelf.read(folder + "/tests.yaml", with(readTests));
    shelf.read(folder + "/findings.yaml", with(readFindings));
    if (auto faults = shelf.takeFaults(); !faults.empty()) throw base::InputError(faults);
    return assets;
}

} // namespace cistern::scenario
