#include "scenario/assets.h"

#include "scenario/asset_reader.h"

namespace cistern::scenario {

namespace {

using base::FaultKind;

/// Sentences by their path, from maps within maps.
void readWording(Shelf& shelf, Reader map) {
    for (Reader& member : map.members())
        if (member.isMap())
            readWording(shelf, member);
        else
            shelf.assets().wording[member.subject()] = member.text();
}

void missing(Shelf& shelf, const std::string& folder, const std::string& subject) {
    base::Fault fault;
    fault.kind = FaultKind::missingKey;
    fault.place.file = folder;
    fault.subject = subject;
    shelf.fault(std::move(fault));
}

/// Each file was read on its own; here is what must be there in some file.
void checkWhole(Shelf& shelf, const std::string& folder) {
    for (body::Kind kind : {body::Kind::dog, body::Kind::cat})
        if (!shelf.loaded(kind))
            missing(shelf, folder + "/species", "the species " + std::string(body::name(kind)));
    for (body::Analyte analyte : body::analytes())
        if (!shelf.measured(analyte))
            missing(shelf, folder + "/methods", "a method for " + std::string(body::name(analyte)));
}

} // namespace

Assets loadAssets(const base::Files& files, const std::string& folder) {
    Assets assets;
    Shelf shelf(files, assets);
    const auto with = [&](void (*read)(Shelf&, Reader)) {
        return [&shelf, read](Reader root) { read(shelf, std::move(root)); };
    };
    shelf.read(folder + "/sources.yaml", with(readSources));
    shelf.readAll(folder + "/species", with(readSpecies));
    shelf.readAll(folder + "/insults", with(readInsults));
    shelf.read(folder + "/photometer.yaml", with(readPhotometer));
    shelf.read(folder + "/spectra.yaml", with(readSpectra));
    shelf.readAll(folder + "/methods", with(readMethods));
    shelf.readAll(folder + "/intervals", with(readIntervals));
    shelf.read(folder + "/tests.yaml", with(readTests));
    shelf.read(folder + "/codes.yaml", with(readCodes));
    shelf.read(folder + "/counter.yaml", with(readCounter));
    shelf.read(folder + "/film.yaml", with(readFilm));
    shelf.read(folder + "/control.yaml", with(readControl));
    shelf.read(folder + "/specimen.yaml", with(readSpecimen));
    shelf.read(folder + "/findings.yaml", with(readFindings));
    shelf.read(folder + "/priors/general.yaml", with(readBeliefs));
    shelf.readAll(folder + "/priors/insults", with(readInsultPriors));
    shelf.read(folder + "/priors/signs.yaml", with(readSigns));
    shelf.read(folder + "/priors/mishaps.yaml", with(readMishaps));
    shelf.read(folder + "/wording/en.yaml", with(readWording));
    checkWhole(shelf, folder);
    checkPriors(shelf, folder + "/priors");
    if (auto faults = shelf.takeFaults(); !faults.empty()) throw base::InputError(faults);
    return assets;
}

} // namespace cistern::scenario
