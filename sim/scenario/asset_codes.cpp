#include "lab/loinc.h"
#include "scenario/asset_reader.h"

#include <algorithm>
#include <set>

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// A code, kept among the values as "LOINC NAME".
std::string readCode(Shelf& shelf, Reader code, const Sourced& provenance,
                     const std::string& name) {
    if (!code) return "";
    const std::string text = code.text();
    if (!lab::isLoinc(text))
        code.fault(FaultKind::unknownName, text,
                   "a LOINC code, whose last digit checks the others, as in 1742-6");
    Sourced kept = provenance;
    kept.name = "LOINC " + name;
    kept.value = text;
    kept.place = code.place();
    shelf.keep(std::move(kept));
    return text;
}

/// One `loinc` for both unit systems, or one for each; or `loinc: none` with why.
void readEntry(Shelf& shelf, Reader& item, lab::Method& method) {
    Reader one = item.find("loinc");
    if (one.isScalar() && one.node()->text == "none") {
        item.need("why").text();
        return;
    }
    const Sourced provenance = shelf.provenance(item);
    const std::string name(body::name(method.analyte));
    if (one) {
        method.conventional.loinc = method.si.loinc = readCode(shelf, one, provenance, name);
        return;
    }
    method.conventional.loinc =
        readCode(shelf, item.need("conventional"), provenance, name + ", conventional");
    method.si.loinc = readCode(shelf, item.need("si"), provenance, name + ", SI");
}

} // namespace

void readCodes(Shelf& shelf, Reader root) {
    auto& methods = shelf.assets().knowledge.bench.methods;
    std::set<body::Analyte> read;
    for (Reader& item : root.items()) {
        Reader name = item.need("analyte");
        const auto analyte = readName(name, body::analytes(), "analyte");
        if (!analyte) continue;
        if (!read.insert(*analyte).second)
            name.fault(FaultKind::duplicateKey, name.text(), "each analyte once");
        const auto method =
            std::find_if(methods.begin(), methods.end(),
                         [&](const lab::Method& known) { return known.analyte == *analyte; });
        if (method == methods.end()) continue; // that it is missing is said elsewhere
        readEntry(shelf, item, *method);
        item.noMore();
    }
    for (const lab::Method& method : methods)
        if (!read.count(method.analyte))
            root.fault(FaultKind::missingKey, "",
                       "an entry for " + std::string(body::name(method.analyte)));
}

} // namespace cistern::scenario
