#include "base/units.h"
#include "scenario/asset_reader.h"

#include <algorithm>
#include <array>
#include <limits>
#include <tuple>

namespace cistern::scenario {

namespace {

using base::FaultKind;

constexpr double endless = std::numeric_limits<double>::infinity();

/// {unit: mg/dL, step: 0.1}
lab::Writing readWriting(Reader reader, body::Analyte analyte, double molarMass) {
    lab::Writing writing;
    Reader unit = reader.need("unit");
    writing.unit = unit.text();
    const auto factor = base::conversion(body::unit(analyte), writing.unit, molarMass);
    if (factor)
        writing.factor = *factor;
    else if (unit)
        unit.fault(base::knownUnit(writing.unit) ? FaultKind::wrongDimension
                                                 : FaultKind::unknownUnit,
                   writing.unit,
                   "a unit of the same kind as " + std::string(body::unit(analyte)) +
                       (molarMass > 0 ? "" : "; mass beside amount needs a 'molar mass'"));
    writing.step = reader.need("step").quantity({"1", 1e-6, 1e6, "", true}).value_or(1);
    reader.noMore();
    return writing;
}

/// Numbers of a method that is run on the machine, all with their sources.
void readMeasuring(Shelf& shelf, Reader& item, lab::Method& method, double molarMass) {
    const std::string unit(body::unit(method.analyte));
    const std::string prefix = "method " + std::string(name(method.analyte)) + ".";
    const Range level{unit, 0, endless, "", unit == "1", molarMass};
    const Range share{"1", 0, 1, "%"};

    Reader repeatability = item.need("repeatability");
    method.a = shelf.sourced(repeatability.need("a"), prefix + "a", level).value_or(0);
    method.b = shelf.sourced(repeatability.need("b"), prefix + "b", share).value_or(0);
    if (repeatability) repeatability.noMore();
    method.betweenRun =
        shelf.sourced(item.need("between run"), prefix + "between run", share).value_or(0);

    Reader range = item.need("range");
    Reader most = range.need("most");
    method.least = shelf.sourced(range.need("least"), prefix + "least", level).value_or(0);
    method.most = shelf.sourced(most, prefix + "most", level).value_or(1);
    if (range) range.noMore();
    if (!(method.least < method.most)) most.fault(FaultKind::wrongOrder, "", "more than 'least'");

    Reader dilution = item.need("dilution");
    Reader factor = dilution.need("factor");
    const Range folds{"1", 1, 1000, "", true};
    method.dilution = (factor.isMap() ? shelf.sourced(factor, prefix + "dilution", folds)
                                      : factor.quantity(folds))
                          .value_or(1);
    Reader spread = method.dilution > 1 ? dilution.need("spread") : dilution.find("spread");
    method.dilutionSpread = shelf.sourced(spread, prefix + "dilution spread", share).value_or(0);
    if (dilution) dilution.noMore();
}

} // namespace

void readMethods(Shelf& shelf, Reader root) {
    auto& methods = shelf.assets().knowledge.bench.methods;
    for (Reader& item : root.items()) {
        Reader name = item.need("analyte");
        const auto analyte = readName(name, body::analytes(), "analyte");
        if (!analyte) continue;
        if (shelf.measured(*analyte))
            name.fault(FaultKind::duplicateKey, name.text(), "each analyte once");
        lab::Method method;
        method.analyte = *analyte;
        method.words = item.need("words").text();
        method.principle = item.need("principle").text();
        method.specimen = item.need("specimen").text();
        method.group = item.need("group").text();
        if (Reader species = item.find("species")) {
            method.dog = method.cat = false;
            for (const Reader& one : species.items())
                if (const auto kind =
                        readName(one, std::array{body::Kind::dog, body::Kind::cat}, "species"))
                    (*kind == body::Kind::dog ? method.dog : method.cat) = true;
        }
        double molarMass = 0;
        if (Reader mass = item.find("molar mass"))
            molarMass = mass.quantity({"g/mol", 1, 1e6}).value_or(0);
        shelf.molarMass(*analyte) = molarMass;
        if (Reader calculated = item.find("calculated"))
            method.calculated = calculated.truth().value_or(false);
        if (!method.calculated) {
            readMeasuring(shelf, item, method, molarMass);
            readAssay(shelf, item, method);
        }
        method.conventional = readWriting(item.need("conventional"), *analyte, molarMass);
        method.si = readWriting(item.need("si"), *analyte, molarMass);
        item.noMore();
        methods.push_back(std::move(method));
    }
}

void readIntervals(Shelf& shelf, Reader root) {
    auto& bench = shelf.assets().knowledge.bench;
    const auto species =
        readName(root.need("species"), std::array{body::Kind::dog, body::Kind::cat}, "species");
    const auto share = shelf.sourced(
        root.need("counts as independent"),
        "counts as independent " + std::string(species ? name(*species) : ""), {"1", 0.1, 1, "%"});
    if (species && share) bench.independent[static_cast<std::size_t>(*species)] = *share;
    for (Reader& item : root.need("intervals").items()) {
        const auto analyte = readName(item.need("analyte"), body::analytes(), "analyte");
        if (!species || !analyte) continue;
        lab::Interval interval;
        interval.kind = *species;
        interval.analyte = *analyte;
        std::string written;
        if (Reader ages = item.find("ages")) {
            if (const auto span = readSpan(ages, {"h", 0, 1e6, "mo"}))
                std::tie(interval.fromAge, interval.toAge) = *span;
            if (ages.isScalar()) written = " " + ages.node()->text;
        }
        const std::string unit(body::unit(*analyte));
        const Range level{unit, 0, endless, "", unit == "1", shelf.molarMass(*analyte)};
        Reader low = item.need("low"), high = item.need("high");
        interval.low = low.quantity(level).value_or(0);
        interval.high = high.quantity(level).value_or(1);
        if (high && !(interval.low < interval.high))
            high.fault(FaultKind::wrongOrder, high.node()->text, "more than 'low'");
        if (Reader decision = item.find("decision limit"))
            interval.decision = decision.truth().value_or(false);
        Sourced sourced = shelf.provenance(item);
        item.noMore();
        interval.source = sourced.source;
        sourced.name =
            "interval " + std::string(name(*species)) + " " + std::string(name(*analyte)) + written;
        if (low.isScalar() && high.isScalar())
            sourced.value = low.node()->text + " to " + high.node()->text;
        sourced.place = item.place();
        shelf.keep(std::move(sourced));
        bench.intervals.push_back(std::move(interval));
    }
}

void readCounter(Shelf& shelf, Reader root) {
    lab::Counter counter;
    readParameters(shelf, root, "counter ",
                   [&](const body::Visit& use) { eachParameter(counter, use); });
    shelf.assets().knowledge.bench.counter = counter;
}

void readFilm(Shelf& shelf, Reader root) {
    lab::FilmLaws laws;
    readParameters(shelf, root, "film ", [&](const body::Visit& use) { eachParameter(laws, use); });
    shelf.assets().knowledge.bench.film = laws;
}

void readTests(Shelf& shelf, Reader root) {
    auto& bench = shelf.assets().knowledge.bench;
    for (Reader& item : root.items()) {
        lab::Test test;
        Reader name = item.need("test");
        test.name = name.text();
        if (bench.test(test.name)) name.fault(FaultKind::duplicateKey, test.name, "each test once");
        if (Reader missing = item.find("missing"))
            test.missing = missing.text();
        else if (Reader charts = item.find("control charts"))
            test.controls = charts.truth().value_or(false);
        else
            for (Reader& one : item.need("analytes").items())
                if (const auto analyte = readName(one, body::analytes(), "analyte")) {
                    if (!shelf.measured(*analyte))
                        one.fault(FaultKind::unknownName, one.text(), "an analyte with a method");
                    test.analytes.push_back(*analyte);
                }
        test.cost = shelf
                        .sourced(test.analytes.empty() ? item.find("cost") : item.need("cost"),
                                 "test " + test.name + ".cost", {"1", 0, 1000, "", true})
                        .value_or(test.cost);
        item.noMore();
        bench.tests.push_back(std::move(test));
    }
}

void readSpecimen(Shelf& shelf, Reader root) {
    lab::SpecimenLaws& laws = shelf.assets().knowledge.bench.specimen.emplace();
    readParameters(shelf, root, "specimen ",
                   [&](const body::Visit& visit) { lab::eachParameter(laws, visit); });
}

} // namespace cistern::scenario
