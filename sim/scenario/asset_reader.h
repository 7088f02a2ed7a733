#pragma once
#include "scenario/assets.h"
#include "scenario/reader.h"

#include <algorithm>
#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace cistern::scenario {

/// The shelf that files of assets are read onto, and what is wrong with any of them.
class Shelf {
public:
    /// Where a number may come from: a key of assets/sources.yaml; or, in a scenario, whatever its
    /// author says, and a plain number for {value: ...} if nothing is said.
    enum class Sources { listed, any };

    Shelf(const base::Files& files, Assets& assets, Sources allowed = Sources::listed)
        : files_(files), assets_(assets), allowed_(allowed) {}

    /// Reads a file and hands its root on; its faults are kept. A file without faults of its YAML
    /// only.
    void read(const std::string& path, const std::function<void(Reader)>& use);
    /// The same for every .yaml file of a folder, in order of their names; a fault if there is
    /// none.
    void readAll(const std::string& folder, const std::function<void(Reader)>& use);

    /// A number with where it comes from: {value: 33 g/kg, range: 25..35 g/kg, source: KEY,
    /// standing: published, note: ...}. It is put among the values under `name`.
    std::optional<double> sourced(Reader reader, const std::string& name, const Range& range);
    /// Keys `source`, `standing` and `note` of a map, for one or several numbers beside them.
    Sourced provenance(Reader& map);
    void keep(Sourced value) { assets_.values.push_back(std::move(value)); }
    const std::vector<std::string>& sourceKeys() const { return sourceKeys_; }
    bool ofACase() const { return allowed_ == Sources::any; } ///< no folder of assets

    /// Adds a source; a fault if its key is taken.
    void addSource(Reader citation);

    /// [g/mol] of an analyte, so that its levels may be written as mass; 0 if none is known.
    double& molarMass(body::Analyte analyte) {
        return molarMasses_[static_cast<std::size_t>(analyte)];
    }

    /// Notes that a species is loaded; false if it was already.
    bool load(body::Kind kind) {
        return !std::exchange(loaded_[static_cast<std::size_t>(kind)], true);
    }
    bool loaded(body::Kind kind) const { return loaded_[static_cast<std::size_t>(kind)]; }
    const body::Species& species(body::Kind kind) const { return assets_.knowledge.species(kind); }
    bool measured(body::Analyte analyte) const; ///< there is a method for it
    const std::vector<body::InsultKind>& insults() const { return assets_.knowledge.insults; }
    /// Notes that a finding is known from the age alone, so that nothing need be believed of it.
    void tellByAge(const std::string& finding) { byAge_.push_back(finding); }
    bool toldByAge(const std::string& finding) const {
        return std::find(byAge_.begin(), byAge_.end(), finding) != byAge_.end();
    }

    Assets& assets() { return assets_; }
    const Assets& assets() const { return assets_; }
    std::vector<base::Fault> takeFaults() { return std::move(faults_); }
    void fault(base::Fault fault) { faults_.push_back(std::move(fault)); }
    bool good() const { return faults_.empty(); }

private:
    const base::Files& files_;
    Assets& assets_;
    Sources allowed_;
    std::vector<base::Fault> faults_;
    std::vector<std::string> sourceKeys_, byAge_;
    std::array<double, body::analyteCount> molarMasses_{};
    std::array<bool, 2> loaded_{};
};

/// Two ends of a range as written: "3..60 %", "0..6 mo". Faults go to the reader.
std::optional<std::pair<double, double>> readSpan(Reader& reader, const Range& range);

/// Reads a whole value that must be an analyte, a tissue and so on, by the names of all of them.
template<class Enum, std::size_t count>
std::optional<Enum> readName(Reader reader, const std::array<Enum, count>& all,
                             const std::string& what) {
    std::vector<std::string> names;
    for (Enum one : all) names.emplace_back(name(one));
    const auto at = reader.oneOf(names, what);
    return at ? std::optional(all[*at]) : std::nullopt;
}

/// Reads every parameter that a visitor names ("dog.blood volume" is key `blood volume` of section
/// `dog`), and keeps it as `prefix` + name. Further keys are faults unless `rest` reads them.
void readParameters(Shelf& shelf, Reader root, const std::string& prefix,
                    const std::function<void(const body::Visit&)>& eachOf,
                    const std::function<void(Reader&)>& rest = {});

// One per kind of file.
void readSources(Shelf& shelf, Reader root);
void readSpecies(Shelf& shelf, Reader root);
/// The parts of a species' file that speak of all its animals: life stages, correlations.
void readPopulation(Shelf& shelf, Reader& root, body::Species& species);
void readInsults(Shelf& shelf, Reader root);
void readInsult(Shelf& shelf, Reader item); ///< one of them
void readPhotometer(Shelf& shelf, Reader root);
void readSpectra(Shelf& shelf, Reader root);
void readMethods(Shelf& shelf, Reader root); ///< after photometer and spectra
/// A method's physics, `assay`, and what chemistry does to it, `interference`; neither is needed.
void readAssay(Shelf& shelf, Reader& item, lab::Method& method);
void readIntervals(Shelf& shelf, Reader root); ///< after the methods
void readTests(Shelf& shelf, Reader root);     ///< after the methods
void readCodes(Shelf& shelf, Reader root);     ///< after the methods; each of them needs an entry
void readCounter(Shelf& shelf, Reader root);
void readFilm(Shelf& shelf, Reader root);
void readControl(Shelf& shelf, Reader root);
void readSpecimen(Shelf& shelf, Reader root);
void readFindings(Shelf& shelf, Reader root);
// Priors, after insults, findings and methods.
void readBeliefs(Shelf& shelf, Reader root); ///< what is believed of any animal
void readInsultPriors(Shelf& shelf, Reader root);
void readSigns(Shelf& shelf, Reader root);
void readMishaps(Shelf& shelf, Reader root);
/// Each insult has a row, each finding a background, and weights add up to 1000. If all else is
/// good.
void checkPriors(Shelf& shelf, const std::string& folder);

} // namespace cistern::scenario
