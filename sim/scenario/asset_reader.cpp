#include "scenario/asset_reader.h"

#include "base/units.h"

#include <algorithm>
#include <array>
#include <map>

namespace cistern::scenario {

namespace {

using base::FaultKind;

const std::vector<std::string>& standings() {
    static const std::vector<std::string> all{"published", "from memory", "derived",
                                              "contested", "fitted",      "assumed"};
    return all;
}

} // namespace

std::string_view name(Standing standing) {
    return standings()[static_cast<std::size_t>(standing)];
}

void Shelf::read(const std::string& path, const std::function<void(Reader)>& use) {
    std::string text;
    try {
        text = files_.read(path);
    } catch (const base::InputError& error) {
        for (const base::Fault& fault : error.faults()) faults_.push_back(fault);
        return;
    }
    Sheet sheet(parse(path, text));
    if (sheet.document().whole) use(Reader(sheet));
    for (base::Fault& fault : sheet.take()) faults_.push_back(std::move(fault));
}

void Shelf::readAll(const std::string& folder, const std::function<void(Reader)>& use) {
    const std::vector<std::string> paths = files_.list(folder, ".yaml");
    if (paths.empty()) {
        base::Fault& empty = faults_.emplace_back();
        empty.kind = FaultKind::unreadable;
        empty.place.file = folder;
        empty.subject = "the folder";
        empty.found = "no .yaml file is in it";
    }
    for (const std::string& path : paths) read(path, use);
}

bool Shelf::measured(body::Analyte analyte) const {
    const auto& methods = assets_.knowledge.bench.methods;
    return std::any_of(methods.begin(), methods.end(),
                       [&](const lab::Method& known) { return known.analyte == analyte; });
}

void Shelf::addSource(Reader citation) {
    const std::string key = citation.node()->key;
    sourceKeys_.push_back(key);
    assets_.sources.push_back({key, citation.text()});
}

Sourced Shelf::provenance(Reader& map) {
    Sourced sourced;
    const bool listed = allowed_ == Sources::listed;
    Reader source = listed ? map.need("source") : map.find("source");
    if (!listed) {
        if (source) sourced.source = source.text();
    } else if (const auto at = source.oneOf(sourceKeys_, "source")) {
        sourced.source = sourceKeys_[*at];
    }
    Reader standing = listed ? map.need("standing") : map.find("standing");
    if (const auto at = standing.oneOf(standings(), "standing"))
        sourced.standing = static_cast<Standing>(*at);
    if (Reader note = map.find("note")) sourced.note = note.text();
    return sourced;
}

std::optional<double> Shelf::sourced(Reader reader, const std::string& name, const Range& range) {
    if (!reader) return std::nullopt;
    if (allowed_ == Sources::any && reader.isScalar()) return reader.quantity(range);
    Reader value = reader.need("value");
    const auto number = value.quantity(range);
    Reader span = reader.find("range");
    const auto ends = span ? readSpan(span, range) : std::nullopt;
    Sourced sourced = provenance(reader);
    reader.noMore();
    if (number && ends && !(*number >= ends->first && *number <= ends->second))
        value.fault(FaultKind::contradiction, value.node()->text,
                    "a value within the range beside it, " + span.node()->text);
    if (value.isScalar()) sourced.value = value.node()->text;
    if (span.isScalar()) sourced.range = span.node()->text;
    sourced.name = name;
    sourced.place = value.place();
    keep(std::move(sourced));
    return number;
}

std::optional<std::pair<double, double>> readSpan(Reader& reader, const Range& range) {
    if (!reader.isScalar()) {
        reader.fault(FaultKind::wrongShape, "", "two ends, as in '3..60 %'");
        return std::nullopt;
    }
    const std::string& text = reader.node()->text;
    const std::size_t dots = text.find("..");
    if (dots == std::string::npos) {
        reader.fault(FaultKind::wrongShape, text, "two ends, as in '3..60 %'");
        return std::nullopt;
    }
    const std::string last = text.substr(dots + 2);
    std::string first = text.substr(0, dots);
    // The unit may stand once, behind the second end.
    const auto lower = base::readQuantity(first), upper = base::readQuantity(last);
    if (lower && upper && lower->unit.empty()) first += " " + upper->unit;
    const Understood low = understand(first, range), high = understand(last, range);
    const Understood& worse = low.value ? high : low;
    if (!worse.value) {
        reader.fault(worse.kind, text, worse.allowed);
        return std::nullopt;
    }
    if (!(*low.value <= *high.value)) {
        reader.fault(FaultKind::wrongOrder, text, "the lower end first");
        return std::nullopt;
    }
    return std::pair(*low.value, *high.value);
}

void readSources(Shelf& shelf, Reader root) {
    for (const Reader& member : root.members()) shelf.addSource(member);
}

void readParameters(Shelf& shelf, Reader root, const std::string& prefix,
                    const std::function<void(const body::Visit&)>& eachOf,
                    const std::function<void(Reader&)>& rest) {
    std::map<std::string, Reader> sections{{"", root}}; // that were opened, by path
    const std::function<Reader&(const std::string&)> section =
        [&](const std::string& path) -> Reader& {
        if (const auto known = sections.find(path); known != sections.end()) return known->second;
        const std::size_t dot = path.rfind('.');
        const std::string above = dot == std::string::npos ? "" : path.substr(0, dot);
        const std::string key = dot == std::string::npos ? path : path.substr(dot + 1);
        return sections.emplace(path, section(above).need(key)).first->second;
    };
    eachOf([&](const body::Parameter& parameter) {
        const std::size_t dot = parameter.name.rfind('.');
        const std::string above = dot == std::string::npos ? "" : parameter.name.substr(0, dot);
        const std::string key =
            dot == std::string::npos ? parameter.name : parameter.name.substr(dot + 1);
        const Range range{parameter.unit,        parameter.least,    parameter.most, "",
                          parameter.unit == "1", parameter.molarMass};
        if (const auto number =
                shelf.sourced(section(above).need(key), prefix + parameter.name, range))
            *parameter.value = *number;
    });
    if (rest) rest(sections.at(""));
    for (auto& [path, reader] : sections) reader.noMore();
}

void readSpecies(Shelf& shelf, Reader root) {
    Reader kindName = root.need("species");
    const auto kind = readName(kindName, std::array{body::Kind::dog, body::Kind::cat}, "species");
    if (!kind) return;
    if (!shelf.load(*kind))
        kindName.fault(FaultKind::duplicateKey, std::string(name(*kind)), "one file a species");
    auto& knowledge = shelf.assets().knowledge;
    body::Species& species = *kind == body::Kind::dog ? knowledge.dog : knowledge.cat;
    species.kind = *kind;
    const std::string prefix = std::string(name(*kind)) + " ";
    readParameters(
        shelf, root, prefix, [&](const body::Visit& use) { body::eachParameter(species, use); },
        [&](Reader& rest) { readPopulation(shelf, rest, species); });
}

void readFindings(Shelf& shelf, Reader root) {
    for (Reader& item : root.items()) {
        lesson::FindingKind finding;
        finding.name = item.need("finding").text();
        finding.meaning = item.need("meaning").text();
        if (Reader degrees = item.find("degrees")) finding.degrees = degrees.texts();
        if (Reader unit = item.find("unit")) {
            finding.unit = unit.text();
            if (!finding.unit.empty() && !base::knownUnit(finding.unit))
                unit.fault(FaultKind::unknownUnit, finding.unit, "a unit such as 'Cel' or '/min'");
        }
        item.noMore();
        shelf.assets().knowledge.findings.push_back(std::move(finding));
    }
}

} // namespace cistern::scenario
