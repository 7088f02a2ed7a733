#include "report/text.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/change.h"
#include "lab/specimen/handling_words.h"
#include "report/control.h"
#include "report/table.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>

namespace cistern::report {

namespace {

using base::padLeft;
using base::padRight;
using body::Analyte;

constexpr int pageWidth = 80;    // cells
constexpr std::size_t aside = 4; // draws in one table

// Columns of a single draw and of draws side by side, in cells.
constexpr int testWidth = 16, resultWidth = 9, unitWidth = 9, flagWidth = 4, intervalWidth = 21,
              doubtWidth = 12;
constexpr int narrowTest = 16, narrowUnit = 9, narrowInterval = 15, drawWidth = 10;

void addLine(std::string& page, std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    page += line + "\n";
}

void addWrapped(std::string& page, std::string_view text, int indent = 0) {
    for (const std::string& line : base::wrapped(text, pageWidth - indent))
        addLine(page, std::string(static_cast<std::size_t>(indent), ' ') + line);
}

/// What is not from blood says so: "USG (urine)".
std::string label(const lab::Method& method) {
    return spoken(name(method.analyte)) + (method.specimen == "urine" ? " (urine)" : "");
}

std::string unitOf(const lab::Method& method, lab::Units units) {
    return base::shown(method.writing(units).unit);
}

std::string flagOf(const lab::Result& result) {
    return result.flag == lab::Flag::high ? "H" : result.flag == lab::Flag::low ? "L" : "";
}

std::string intervalOf(const lab::Result& result, const lab::Bench& bench, lab::Units units) {
    return result.interval ? printedInterval(result, bench, units) : "-";
}

using Draw = const lab::Report*;

/// Methods with a result in any of the draws, by group in the order in which groups first appear.
std::vector<std::pair<std::string, std::vector<const lab::Method*>>>
grouped(const lab::Bench& bench, const std::vector<Draw>& draws) {
    std::vector<std::pair<std::string, std::vector<const lab::Method*>>> groups;
    for (const lab::Method& method : bench.methods) {
        const auto has = [&](Draw draw) { return draw->find(method.analyte) != nullptr; };
        if (std::none_of(draws.begin(), draws.end(), has)) continue;
        auto group = std::find_if(groups.begin(), groups.end(),
                                  [&](const auto& g) { return g.first == method.group; });
        if (group == groups.end()) group = groups.insert(group, {method.group, {}});
        group->second.push_back(&method);
    }
    return groups;
}

void addSpecimen(std::string& page, const lab::Report& report, std::size_t draw) {
    const lab::Specimen& s = report.specimen;
    std::string line =
        "Draw " + std::to_string(draw) + " at " + shownTime(s.hour) + ": specimen " + s.id;
    if (!s.handling.vein.empty()) line += ", " + s.handling.vein;
    if (s.handling.fasted) line += ", fasted " + number(*s.handling.fasted) + " h";
    line += ". Serum: hemolysis " + base::rounded(s.seen.hemolysis, 0.01) + " g/L (" +
            hemolysisWord(s) + "), icterus " + base::rounded(s.seen.icterus, 1) + " " +
            base::shown("umol/L") + " (" + icterusWord(s) + "), lipemia " +
            base::rounded(s.seen.lipemia, 0.1) + " mmol/L (" + lipemiaWord(s) + ").";
    const auto lines = base::wrapped(line, pageWidth - 2);
    for (std::size_t i = 0; i < lines.size(); ++i) addLine(page, (i ? "  " : "") + lines[i]);
    if (const std::string handled = lab::inOne(lab::shownByTubes(s.handling)); !handled.empty())
        addWrapped(page, "Handled: " + handled + ".", 2);
    for (const std::string& warning : report.warnings) addWrapped(page, warning, 2);
}

void addTable(std::string& page, const lab::Report& report, const lab::Bench& bench,
              lab::Units units) {
    addLine(page, padRight("test", testWidth) + padLeft("result", resultWidth) + " " +
                      padRight("", flagWidth) + padRight("unit", unitWidth) +
                      padLeft("healthy middle 95 %", intervalWidth) + padLeft("doubt", doubtWidth));
    for (const auto& [group, methods] : grouped(bench, {&report})) {
        addLine(page, group);
        for (const lab::Method* method : methods) {
            const lab::Result& result = *report.find(method->analyte);
            const std::string doubt = printedHalfWidth(result, bench, units);
            addLine(page, padRight("  " + label(*method), testWidth) +
                              padLeft(printed(result, bench, units), resultWidth) + " " +
                              padRight(flagOf(result), flagWidth) +
                              padRight(unitOf(*method, units), unitWidth) +
                              padLeft(intervalOf(result, bench, units), intervalWidth) +
                              padLeft(doubt.empty() ? "" : "± " + doubt, doubtWidth));
        }
    }
}

constexpr double daysFrom = 48; // [h]: later times are told in days

std::string days(double hour) {
    return number(std::round(hour / 24 * 10) / 10) + " d";
}

/// For the head of a column: "36 h", "-40 d".
std::string briefTime(double hour) {
    return std::abs(hour) < daysFrom ? number(hour) + " h" : days(hour);
}

/// A result and its flag in a cell, flags under one another.
std::string cell(const lab::Result* result, const lab::Bench& bench, lab::Units units) {
    if (!result) return padLeft("", drawWidth);
    return padLeft(printed(*result, bench, units), drawWidth - 2) + " " +
           padRight(flagOf(*result), 1);
}

void addTable(std::string& page, const std::vector<Draw>& draws, std::size_t first,
              const lab::Bench& bench, lab::Units units) {
    std::string heads = padRight("test", narrowTest) + padRight("unit", narrowUnit) +
                        padLeft("healthy 95 %", narrowInterval);
    std::string hours = padRight("", narrowTest + narrowUnit + narrowInterval);
    for (std::size_t i = 0; i < draws.size(); ++i) {
        heads += padLeft("draw " + std::to_string(first + i), drawWidth - 2) + "  ";
        hours += padLeft(briefTime(draws[i]->specimen.hour), drawWidth - 2) + "  ";
    }
    addLine(page, heads);
    addLine(page, hours);
    for (const auto& [group, methods] : grouped(bench, draws)) {
        addLine(page, group);
        for (const lab::Method* method : methods) {
            std::string interval, cells;
            for (Draw draw : draws) {
                const lab::Result* result = draw->find(method->analyte);
                if (result) interval = intervalOf(*result, bench, units);
                cells += cell(result, bench, units);
            }
            addLine(page, padRight("  " + label(*method), narrowTest) +
                              padRight(unitOf(*method, units), narrowUnit) +
                              padLeft(interval, narrowInterval) + cells);
        }
    }
}

/// "ALT up, albumin down": what moved between two draws beyond chance; empty if nothing did.
std::string movedBetween(const lab::Report& before, const lab::Report& now, const lab::Bench& bench,
                         const std::array<double, body::analyteCount>& within) {
    std::string moves;
    for (const lab::Method& method : bench.methods) {
        const lab::Result* then = before.find(method.analyte);
        const lab::Result* later = now.find(method.analyte);
        if (!then || !later) continue;
        if (!moved(*then, *later, within[static_cast<std::size_t>(method.analyte)])) continue;
        moves += (moves.empty() ? "" : ", ") + label(method) +
                 (later->value > then->value ? " up" : " down");
    }
    return moves;
}

void addMoves(std::string& page, const std::vector<lab::Report>& reports, const lab::Bench& bench,
              const std::array<double, body::analyteCount>& within) {
    if (reports.size() < 2) return;
    addWrapped(page, "Moved by more than the analyzer and an animal's day-to-day wobble do by "
                     "themselves:");
    for (std::size_t i = 1; i < reports.size(); ++i) {
        const std::string moves = movedBetween(reports[i - 1], reports[i], bench, within);
        addWrapped(page,
                   "draw " + std::to_string(i) + " to draw " + std::to_string(i + 1) + ": " +
                       (moves.empty() ? "nothing" : moves),
                   2);
    }
}

/// "Draw 2 - ", "Draws 2 and 4 - "; nothing where all draws are meant.
std::string lead(const std::vector<std::string>& draws, std::size_t all) {
    if (draws.size() == all) return "";
    return (draws.size() == 1 ? "Draw " : "Draws ") + base::listed(draws, "and") + " - ";
}

/// Notes on results and tests not run, each sentence once for all the draws that it belongs to.
void addNotes(std::string& page, const std::vector<Draw>& draws) {
    std::vector<std::pair<std::string, std::vector<std::string>>> notes;
    const auto add = [&](const std::string& sentence, std::size_t draw) {
        auto note = std::find_if(notes.begin(), notes.end(),
                                 [&](const auto& n) { return n.first == sentence; });
        if (note == notes.end()) note = notes.insert(note, {sentence, {}});
        note->second.push_back(std::to_string(draw + 1));
    };
    for (std::size_t i = 0; i < draws.size(); ++i) {
        std::vector<std::pair<std::string, std::vector<std::string>>> same; // note, of which
        for (const lab::Result& result : draws[i]->results)
            for (const std::string& note : result.notes) {
                auto at = std::find_if(same.begin(), same.end(),
                                       [&](const auto& known) { return known.first == note; });
                if (at == same.end()) at = same.insert(at, {note, {}});
                at->second.push_back(spoken(name(result.analyte)));
            }
        for (const auto& [note, which] : same)
            add(base::listed(which, "and") + ": " + note + ".", i);
        for (const std::string& sentence : draws[i]->notRun) add(sentence, i);
        if (draws[i]->controls)
            for (const std::string& sentence : controlSentences(*draws[i]->controls))
                add(sentence, i);
    }
    for (const auto& [sentence, which] : notes)
        addWrapped(page, lead(which, draws.size()) + sentence);
}

/// What flags and intervals can and cannot say.
/// One in twenty, by formula and as animals have it.
void addFlagsExplained(std::string& page, const std::vector<lab::Report>& reports,
                       const lab::Bench& bench, body::Kind kind) {
    std::size_t most = 0;
    for (const lab::Report& report : reports)
        most = std::max(most, static_cast<std::size_t>(std::count_if(
                                  report.results.begin(), report.results.end(),
                                  [](const lab::Result& r) { return r.interval.has_value(); })));
    if (most == 0) return;
    const int k = static_cast<int>(most);
    const std::string counted = base::rounded(100 * lab::chanceOfOneOutside(k), 1),
                      held = base::rounded(100 * lab::chanceOfOneOutside(k, kind, bench), 1);
    addWrapped(page,
               "H above, L below the middle 95 % of healthy animals. One healthy result in twenty "
               "falls outside; with " +
                   std::to_string(k) + (k == 1 ? " test, " : " tests, ") + counted +
                   " of 100 healthy animals would have at least one if tests were independent" +
                   (held == counted ? "." : "; they are not, and about " + held + " have."));
}

} // namespace

std::string laboratoryReport(const Patient& patient, const std::vector<lab::Report>& reports,
                             const lab::Bench& bench,
                             const std::array<double, body::analyteCount>& within, lab::Units units,
                             Draws layout) {
    const bool together = layout == Draws::together && reports.size() > 1;
    std::string page;
    const std::string system =
        std::string(units == lab::Units::si ? "SI" : "conventional") + " units";
    addLine(page, "Laboratory report" + padLeft(system, pageWidth - 17));
    addWrapped(page, (patient.name.empty() ? "" : patient.name + ", ") + signalment(patient.who));
    addLine(page, "");
    for (std::size_t i = 0; i < reports.size(); ++i) {
        addSpecimen(page, reports[i], i + 1);
        if (together) continue;
        addLine(page, "");
        addTable(page, reports[i], bench, units);
        addLine(page, "");
    }
    std::vector<Draw> draws;
    for (const lab::Report& report : reports) draws.push_back(&report);
    for (std::size_t i = 0; together && i < draws.size(); i += aside) {
        const auto from = draws.begin() + static_cast<std::ptrdiff_t>(i);
        const auto to = from + static_cast<std::ptrdiff_t>(std::min(aside, draws.size() - i));
        addLine(page, "");
        addTable(page, {from, to}, i + 1, bench, units);
    }
    if (together) addLine(page, "");
    addNotes(page, draws);
    addMoves(page, reports, bench, within);
    if (!together && !reports.empty())
        addWrapped(page, "Doubt: 19 times in 20 the analyzer lands within this of the specimen's "
                         "true content.");
    addFlagsExplained(page, reports, bench, patient.who.kind);
    addLine(page, "");
    addWrapped(page, caution);
    return page;
}

std::string_view name(lab::Units units) {
    return units == lab::Units::si ? "si" : "conventional";
}

std::string_view name(body::Sex sex) {
    switch (sex) {
    case body::Sex::female:
        return "female";
    case body::Sex::spayedFemale:
        return "spayed female";
    case body::Sex::male:
        return "male";
    case body::Sex::neuteredMale:
        return "neutered male";
    }
    return "";
}

namespace {

std::string ageWords(double hours) {
    const double weeks = hours / (7 * 24);
    const double years = hours * base::conversion("h", "y").value_or(0);
    if (weeks < 16) return base::rounded(weeks, 1) + " wk";
    if (years < 2) return base::rounded(years * 12, 1) + " mo";
    return number(years < 3 ? std::round(2 * years) / 2 : std::round(years)) + " y";
}

} // namespace

std::string signalment(const body::Signalment& who) {
    return std::string(body::name(who.kind)) + ", " + std::string(name(who.sex)) + ", " +
           ageWords(who.age) + ", " + base::rounded(who.weight, who.weight < 10 ? 0.1 : 1) + " kg";
}

std::string shownTime(double hour) {
    const std::string hours = number(hour) + " h";
    return std::abs(hour) < daysFrom ? hours : hours + " (" + days(hour) + ")";
}

} // namespace cistern::report
