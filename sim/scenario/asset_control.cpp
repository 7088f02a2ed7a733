#include "base/units.h"
#include "lab/control/rules.h"
#include "scenario/asset_reader.h"

#include <cmath>

namespace cistern::scenario {

using base::FaultKind;

void readControl(Shelf& shelf, Reader root) {
    lab::Controls& controls = shelf.assets().knowledge.bench.controls;
    Reader materials = root.need("materials");
    for (Reader& item : materials.items()) {
        lab::ControlMaterial material;
        Reader name = item.need("material");
        material.name = name.text();
        for (const lab::ControlMaterial& known : controls.materials)
            if (known.name == material.name)
                name.fault(FaultKind::duplicateKey, material.name, "each material once");
        material.share = shelf
                             .sourced(item.need("share"), "control " + material.name + ".share",
                                      {"1", 0.1, 10, "%"})
                             .value_or(material.share);
        item.noMore();
        controls.materials.push_back(std::move(material));
    }
    if (controls.materials.empty() || controls.materials.size() > lab::mostMaterials)
        materials.fault(FaultKind::wrongShape, "", "1 to 4 materials");
    const Range plain{"1", 0, 100, "", true}, runs{"1", 1, 1000, "", true};
    controls.highest = shelf.sourced(root.need("highest"), "control highest", {"1", 0.1, 1, "%"})
                           .value_or(controls.highest);
    controls.clear =
        shelf.sourced(root.need("clear"), "control clear", plain).value_or(controls.clear);
    const auto count = [&](const char* key, std::uint64_t& into) {
        if (const auto number = shelf.sourced(root.need(key), std::string("control ") + key, runs))
            into = static_cast<std::uint64_t>(std::llround(*number));
    };
    count("kept", controls.kept);
    count("fault for", controls.faultFor);
    root.noMore();
}

} // namespace cistern::scenario
