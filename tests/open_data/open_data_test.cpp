// Two data sets that ship with R, fitted by the pools of this program. The data are those of R's
// package datasets, as CSV:
//   indometh.csv  Kwan et al. 1976, J Pharmacokinet Biopharm 4:255: indomethacin into the
//                 vein of six people; plasma level [ug/mL]
//   theoph.csv    Boeckmann, Sheiner & Beal 1994, NONMEM Users Guide: theophylline swallowed by
//                 twelve people; weight [kg], dose [mg/kg], level [mg/L]
#include "base/file.h"
#include "open_data/fit.h"
#include "open_data/pools.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <map>
#include <memory>
#include <sstream>

using namespace open_data;

namespace {

const std::string folder = CISTERN_SOURCE "/tests/open_data/";

std::vector<std::vector<std::string>> rows(const std::string& csv) {
    std::vector<std::vector<std::string>> all;
    std::istringstream lines(csv);
    std::string line;
    std::getline(lines, line); // the header
    while (std::getline(lines, line)) {
        std::istringstream fields(line);
        auto& row = all.emplace_back();
        for (std::string field; std::getline(fields, field, ',');) row.push_back(field);
    }
    return all;
}

struct Subject {
    double dose = 0;
    Numbers hours, levels;
};
using Subjects = std::map<std::string, Subject>;

std::string stored(const std::string& set) {
    return cistern::base::Disk().read(folder + set + ".csv");
}

Subjects indometh() {
    Subjects all;
    for (const auto& row : rows(stored("indometh"))) {
        all[row.at(0)].hours.push_back(std::stod(row.at(1)));
        all[row.at(0)].levels.push_back(std::stod(row.at(2)));
    }
    return all;
}

Subjects theoph() {
    Subjects all;
    for (const auto& row : rows(stored("theoph"))) {
        Subject& subject = all[row.at(0)];
        subject.dose = std::stod(row.at(2));
        subject.hours.push_back(std::stod(row.at(3)));
        subject.levels.push_back(std::stod(row.at(4)));
    }
    return all;
}

/// Parameters as R's SSbiexp has them: A1, lrc1, A2, lrc2.
Model bolusModel(const Numbers& hours) {
    return [hours](const Numbers& p) {
        return levels(Bolus::decaying(p[0], std::exp(p[1]), p[2], std::exp(p[3])), hours);
    };
}
/// Parameters as R's SSfol has them: lKe, lKa, lCl.
Model swallowedModel(double dose, const Numbers& hours) {
    return [dose, hours](const Numbers& p) {
        return levels(Swallowed{dose, std::exp(p[1]), std::exp(p[0]), std::exp(p[2])}, hours);
    };
}

// One start for all subjects, from the look of the data alone: a level of 2 ug/mL that halves in
// half an hour and a tenth of it that halves in five; a dose that is taken up in an hour and lost
// in ten, from half a liter per kg.
const Numbers bolusStart{2, 0.3, 0.2, -2};
const Numbers swallowedStart{-2.3, 0, -3};

Fit fitted(const Subject& subject) {
    return subject.dose > 0
               ? fit(swallowedModel(subject.dose, subject.hours), subject.levels, swallowedStart)
               : fit(bolusModel(subject.hours), subject.levels, bolusStart);
}

/// Largest error of a, as a share of the largest b.
double apart(const Numbers& a, const Numbers& b) {
    double worst = 0, largest = 0;
    for (std::size_t i = 0; i < b.size(); ++i) {
        if (!std::isfinite(a.at(i))) return a[i]; // fails every comparison
        worst = std::max(worst, std::abs(a[i] - b[i]));
        largest = std::max(largest, std::abs(b[i]));
    }
    return worst / largest;
}

/// What R printed, to the digits that it printed.
struct Printed {
    Numbers estimate, error;
    double spread;
};
void check(const Fit& found, const Printed& printed, double spreadDigit) {
    const double half = 0.501e-4; // half a digit of the last place, four are printed
    CHECK(found.converged);
    for (std::size_t i = 0; i < printed.estimate.size(); ++i) {
        CAPTURE(i);
        CHECK(std::abs(found.estimate.at(i) - printed.estimate[i]) <= half);
        CHECK(std::abs(found.error.at(i) - printed.error[i]) <= half);
    }
    CHECK(std::abs(found.spread - printed.spread) <= 0.501 * spreadDigit);
}

} // namespace

TEST_CASE("Two exchanging pools follow the biexponential curve, and gut and plasma Bateman's",
          "[published]") {
    // 1e-6 of the highest level, where data have three digits. The rates span those of the data.
    for (const double fast : {0.2, 0.8, 1.75})
        for (const double slow : {-1.8, -0.4})
            for (const double share : {0.09, 0.3}) {
                const double a1 = 3 * (1 - share), a2 = 3 * share;
                const Numbers hours{0, 0.25, 0.5, 0.75, 1, 1.25, 2, 3, 4, 5, 6, 8};
                Numbers curve;
                for (const double t : hours)
                    curve.push_back(a1 * std::exp(-std::exp(fast) * t) +
                                    a2 * std::exp(-std::exp(slow) * t));
                CAPTURE(fast, slow, share);
                CHECK(apart(bolusModel(hours)({a1, fast, a2, slow}), curve) <= 1e-6);
            }
    for (const double uptake : {-0.4, 0.6, 2.2})
        for (const double loss : {-2.9, -2.2}) {
            const double ka = std::exp(uptake), ke = std::exp(loss), clearance = std::exp(-3.4);
            const Numbers hours{0, 0.27, 0.58, 1.02, 2.02, 3.62, 5.08, 7.07, 9, 12.15, 24.17};
            Numbers curve; // H. Bateman 1910, Proc Cambridge Philos Soc 15:423
            for (const double t : hours)
                curve.push_back(4 * ke * ka / clearance / (ka - ke) *
                                (std::exp(-ke * t) - std::exp(-ka * t)));
            CAPTURE(uptake, loss);
            CHECK(apart(swallowedModel(4, hours)({loss, uptake, -3.4}), curve) <= 1e-6);
        }
}

TEST_CASE("Fitted to indomethacin, the pools give the published estimates", "[published]") {
    // R, tests/Examples/stats-Ex.Rout.save, example of SSbiexp: subject 1
    check(fitted(indometh().at("1")),
          {{2.0293, 0.5794, 0.1915, -1.7878}, {0.1099, 0.1247, 0.1106, 0.7871}, 0.04103}, 1e-5);
    // All six as if they were one: Pinheiro & Bates 2000, Mixed-Effects Models in S and S-PLUS,
    // section 6.2 (from memory; R prints the same)
    Subject all;
    for (const auto& [name, one] : indometh()) {
        all.hours = one.hours; // the same for everyone
        all.levels.insert(all.levels.end(), one.levels.begin(), one.levels.end());
    }
    const Model one = bolusModel(all.hours);
    const Model six = [&](const Numbers& p) {
        const Numbers once = one(p);
        Numbers often;
        for (int i = 0; i < 6; ++i) often.insert(often.end(), once.begin(), once.end());
        return often;
    };
    check(fit(six, all.levels, bolusStart),
          {{2.7734, 0.8864, 0.6067, -1.0919}, {0.2533, 0.2222, 0.2671, 0.4089}, 0.1745}, 1e-4);
}

TEST_CASE("Fitted to theophylline, the pools give the published estimates", "[published]") {
    // R, tests/Examples/stats-Ex.Rout.save, example of SSfol: subject 1
    check(fitted(theoph().at("1")), {{-2.9196, 0.5752, -3.9159}, {0.1709, 0.1728, 0.1273}, 0.732},
          1e-3);
}

#ifdef CISTERN_RSCRIPT

namespace {

/// What fits.R prints.
std::string r(const std::string& arguments) {
    const std::string command =
        "'" CISTERN_RSCRIPT "' --vanilla '" + folder + "fits.R' " + arguments;
    const std::unique_ptr<FILE, int (*)(FILE*)> out(popen(command.c_str(), "r"), pclose);
    REQUIRE(out);
    std::string text;
    for (int c; (c = std::fgetc(out.get())) != EOF;) text += static_cast<char>(c);
    return text;
}

} // namespace

TEST_CASE("The stored data sets are R's own, byte for byte", "[published]") {
    for (const char* set : {"indometh", "theoph"}) CHECK(r(set) == stored(set));
}

TEST_CASE("The pools give every subject the estimates and errors of R's nls", "[published]") {
    for (const auto& [set, subjects, parameters] :
         {std::tuple("indometh", indometh(), 4u), {"theoph", theoph(), 3u}}) {
        // A ten-thousandth of the standard error: nls stops where the fit could still move by a
        // hundred-thousandth of the spread of the data.
        const auto table = rows(r(std::string(set) + " nls"));
        REQUIRE(table.size() == subjects.size() * parameters);
        for (std::size_t line = 0; line < table.size(); line += parameters) {
            const std::string& name = table[line].at(0);
            const Fit found = fitted(subjects.at(name));
            CAPTURE(set, name);
            CHECK(found.converged);
            for (std::size_t i = 0; i < parameters; ++i) {
                const double estimate = std::stod(table[line + i].at(2));
                const double error = std::stod(table[line + i].at(3));
                CAPTURE(table[line + i].at(1), estimate, error);
                CHECK(std::abs(found.estimate[i] - estimate) <= 1e-4 * error);
                CHECK(std::abs(found.error[i] / error - 1) <= 1e-4);
            }
        }
    }
}

#endif
