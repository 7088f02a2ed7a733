#include "lab/report.h"

#include "lab/draw.h"
#include "lab/specimen/seen.h"

#include <algorithm>
#include <cmath>

namespace cistern::lab {

namespace {

using body::Analyte;

/// Why a test gives nothing for an animal of this kind; "" if it does.
std::string lack(const Bench& bench, const Test& test, body::Kind kind) {
    if (!test.missing.empty()) return test.missing;
    if (test.controls) return "";
    if (test.analytes.empty()) return "This laboratory does not run " + test.name + ".";
    const auto fits = [&](Analyte one) { return bench.method(one).serves(kind); };
    if (std::any_of(test.analytes.begin(), test.analytes.end(), fits)) return "";
    return "This laboratory does not run " + test.name + " in a " + std::string(name(kind)) + ".";
}

} // namespace

const Result* Report::find(body::Analyte analyte) const {
    const auto found = std::find_if(results.begin(), results.end(),
                                    [&](const Result& r) { return r.analyte == analyte; });
    return found == results.end() ? nullptr : &*found;
}

Report measure(const Bench& bench, const body::Individual& animal, const body::Snapshot& truth,
               const Specimen& specimen, const std::vector<std::string>& tests,
               std::uint64_t number, const Machine& machine) {
    checkNumber(number);
    Draw draw{bench, animal, truth, number, machine, specimen};
    handle(draw);

    Report report;
    report.specimen = draw.specimen;
    if (bench.specimen) {
        report.clotted = clotSeen(*bench.specimen, draw.handled);
        report.shortSample = fibrinMet(*bench.specimen, draw.drawn);
    }
    // refuses unknown tests
    const std::vector<Analyte> panel = bench.analytes(tests, animal.who.kind);
    for (const std::string& test : tests)
        if (std::string why = lack(bench, *bench.test(test), animal.who.kind); !why.empty())
            report.notRun.push_back(std::move(why));
    if (bench.counter &&
        std::any_of(panel.begin(), panel.end(), [](Analyte one) { return counted(one); }))
        report.blood = draw.blood = countBlood(draw);
    for (const Analyte analyte : panel) {
        const Method& method = bench.method(analyte);
        if (!method.calculated) {
            report.results.push_back(measured(draw, method));
            continue;
        }
        std::string why;
        if (auto result = calculated(draw, method, why))
            report.results.push_back(std::move(*result));
        else
            report.notRun.push_back(why);
    }
    if (std::any_of(tests.begin(), tests.end(),
                    [&](const std::string& test) { return bench.test(test)->controls; }))
        report.controls =
            controlState(bench, panel, machine, animal.who.seed, number,
                         [&](const Method& method) { return runOf(draw, method.analyte); });
    report.warnings = warnings(draw, report);
    return report;
}

namespace {

double chanceOf(double results) {
    constexpr double inside = 0.95; // of the healthy, by what an interval is
    return -std::expm1(results * std::log(inside));
}

} // namespace

double chanceOfOneOutside(int k) {
    return chanceOf(k);
}

double chanceOfOneOutside(int k, body::Kind kind, const Bench& bench) {
    return chanceOf(k * bench.independent[static_cast<std::size_t>(kind)]);
}

} // namespace cistern::lab
