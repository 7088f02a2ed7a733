#pragma once
#include "lab/report.h"

#include <utility>

/// A small bench built by hand, so that no test of the laboratory leans on asset files. Its
/// profiles are those of a good wet-chemistry system (design values, assumed); its intervals are
/// one published set of adult dogs, rounded (Jeffery 2021, J Vet Intern Med).
namespace hand {

namespace body = cistern::body;
namespace lab = cistern::lab;
using body::Analyte;

inline constexpr double creatininePerMg = 88.4; // umol/L per mg/dL, molar mass arithmetic

inline lab::Method method(Analyte analyte, double a, double b, double betweenRun, double least,
                          double most, lab::Writing conventional, lab::Writing si,
                          const char* group) {
    lab::Method m;
    m.analyte = analyte;
    m.a = a;
    m.b = b;
    m.betweenRun = betweenRun;
    m.least = least;
    m.most = most;
    m.dilution = 10;
    m.dilutionSpread = 0.02;
    m.conventional = std::move(conventional);
    m.si = std::move(si);
    m.group = group;
    m.specimen = "serum";
    return m;
}

inline lab::Bench bench() {
    constexpr const char *leaks = "what leaks", *works = "what works", *cleared = "what is cleared";
    lab::Bench bench;
    const auto add = [&](lab::Method m) { bench.methods.push_back(std::move(m)); };
    for (const Analyte enzyme : {Analyte::ALT, Analyte::ALP, Analyte::CK})
        add(method(enzyme, 1, 0.015, 0.01, 3, 500, {"U/L", 1, 1}, {"U/L", 1, 1}, leaks));
    add(method(Analyte::protein, 0.3, 0.01, 0.005, 20, 120, {"g/dL", 0.1, 0.1}, {"g/L", 1, 1},
               works));
    add(method(Analyte::albumin, 0.2, 0.01, 0.005, 10, 60, {"g/dL", 0.1, 0.1}, {"g/L", 1, 1},
               works));
    lab::Method globulin =
        method(Analyte::globulin, 0, 0, 0, 0, 0, {"g/dL", 0.1, 0.1}, {"g/L", 1, 1}, works);
    globulin.calculated = true;
    add(globulin);
    add(method(Analyte::urea, 0.08, 0.015, 0.01, 0.5, 40, {"mg/dL", 1 / 0.357, 1},
               {"mmol/L", 1, 0.1}, works));
    add(method(Analyte::glucose, 0.04, 0.01, 0.01, 0.5, 40, {"mg/dL", 1 / 0.0555, 1},
               {"mmol/L", 1, 0.1}, works));
    add(method(Analyte::bilirubin, 0.5, 0.015, 0.01, 1, 400, {"mg/dL", 1 / 17.1, 0.1},
               {"umol/L", 1, 1}, cleared));
    add(method(Analyte::bileAcids, 0.5, 0.03, 0.02, 1, 200, {"umol/L", 1, 1}, {"umol/L", 1, 1},
               cleared));
    add(method(Analyte::creatinine, 2, 0.015, 0.01, 10, 1500, {"mg/dL", 1 / creatininePerMg, 0.1},
               {"umol/L", 1, 1}, cleared));
    lab::Method gravity =
        method(Analyte::USG, 0.0005, 0.01, 0, 1, 1.06, {"1", 1, 0.001}, {"1", 1, 0.001}, cleared);
    gravity.dilution = 1;
    gravity.specimen = "urine";
    add(gravity);

    const auto healthy = [&](Analyte analyte, double low, double high) {
        bench.intervals.push_back({body::Kind::dog, analyte, 0, 1e9, low, high, "by hand"});
    };
    healthy(Analyte::ALT, 18, 100);
    healthy(Analyte::ALP, 9, 90);
    healthy(Analyte::CK, 35, 288);
    healthy(Analyte::protein, 55, 72);
    healthy(Analyte::albumin, 32, 41);
    healthy(Analyte::globulin, 22, 34);
    healthy(Analyte::urea, 3.6, 8.9);
    healthy(Analyte::glucose, 3.7, 6.1);
    healthy(Analyte::bilirubin, 0, 5.1);
    healthy(Analyte::bileAcids, 0, 10);
    healthy(Analyte::creatinine, 0.5 * creatininePerMg, 1.4 * creatininePerMg);

    bench.tests = {{"chemistry",
                    {Analyte::ALT, Analyte::ALP, Analyte::CK, Analyte::protein, Analyte::albumin,
                     Analyte::globulin, Analyte::urea, Analyte::glucose, Analyte::bilirubin,
                     Analyte::creatinine},
                    ""},
                   {"liver enzymes", {Analyte::ALP, Analyte::ALT}, ""},
                   {"bile acids", {Analyte::bileAcids}, ""},
                   {"kidney", {Analyte::creatinine}, ""},
                   {"proteins", {Analyte::globulin}, ""},
                   {"urine", {Analyte::USG}, ""},
                   {"blood count", {}, "Blood counts are not run in this laboratory."}};
    return bench;
}

/// The method of an analyte, to be changed by a test.
inline lab::Method& edit(lab::Bench& bench, Analyte analyte) {
    return const_cast<lab::Method&>(bench.method(analyte));
}

/// A method without any error of its own.
inline void makeExact(lab::Method& m) {
    m.a = m.b = m.betweenRun = m.dilutionSpread = 0;
}

/// A dog whose levels do not wobble unless a test says so.
inline body::Individual dog(std::uint64_t seed = 4711) {
    body::Individual animal{};
    animal.who.seed = seed;
    animal.who.age = 9 * 365.25 * 24;
    animal.who.weight = 18;
    return animal;
}

inline double& level(body::Snapshot& truth, Analyte analyte) {
    return truth
        .value[static_cast<std::size_t>(body::reading::analyte + static_cast<int>(analyte))];
}

/// A dog's levels in health, in the model's units.
inline body::Snapshot healthyLevels(double hour = 0) {
    body::Snapshot truth;
    truth.hour = hour;
    const auto set = [&](Analyte analyte, double value) { level(truth, analyte) = value; };
    set(Analyte::ALT, 30);
    set(Analyte::AST, 24);
    set(Analyte::ALP, 24);
    set(Analyte::GGT, 5);
    set(Analyte::CK, 81);
    set(Analyte::bilirubin, 3);
    set(Analyte::bileAcids, 3);
    set(Analyte::albumin, 37);
    set(Analyte::globulin, 27);
    set(Analyte::protein, 64);
    set(Analyte::glucose, 5);
    set(Analyte::urea, 5.7);
    set(Analyte::creatinine, 88.4);
    set(Analyte::cholesterol, 6.7);
    set(Analyte::triglycerides, 0.6);
    set(Analyte::USG, 1.03);
    return truth;
}

inline lab::Specimen specimen(double hour = 0, int number = 1) {
    lab::Specimen tube;
    tube.id = "4711-" + std::to_string(number);
    tube.hour = hour;
    tube.handling.fasted = 12;
    return tube;
}

} // namespace hand
