#include "base/parallel.h"
#include "base/text.h"
#include "lesson/balance.h"
#include "report/table.h"
#include "report/words.h"
#include "terminal/check.h"
#include "terminal/input.h"
#include "terminal/progress.h"

#include <cmath>

namespace cistern::terminal {

namespace {

std::string points(double mark) {
    return base::rounded(mark, 1);
}

/// "+0.12".
std::string signedNumber(double value) {
    const std::string text = base::rounded(value, 0.01);
    return (value >= 0 && text != "0.00" ? "+" : "") + text;
}

std::vector<std::string> row(const lesson::CaseFigures& one) {
    const std::string leads = one.leading ? report::spoken(body::name(*one.leading)) + " " +
                                                base::significant(one.fold, one.fold < 1 ? 1 : 2)
                                          : "-";
    const std::string lost =
        one.organ ? std::string(body::name(*one.organ)) + " " + base::rounded(one.lost, 1) : "-";
    const std::string name =
        one.weight == 1 ? one.name : one.name + " x" + report::number(one.weight);
    return {name, leads, lost, points(one.ideal), points(one.naive), points(one.shrug)};
}

std::string correlationWords(const lesson::Balance& balance) {
    if (!balance.correlation)
        return "All cases are equally loud or lost equally much: there is nothing to correlate.";
    std::string text = "Rank correlation of the leading result with lost work: " +
                       signedNumber(*balance.correlation);
    if (balance.limits)
        text += " (95 %: " + signedNumber(balance.limits->first) + " to " +
                signedNumber(balance.limits->second) + ", " +
                report::counted(balance.pairs, "case") + ")";
    return text + ".";
}

std::string verdict(const lesson::Balance& balance) {
    std::vector<std::string> faults;
    if (!balance.loudIsNoSickness())
        faults.push_back(!balance.correlation       ? "loudness and loss do not both differ"
                         : *balance.correlation > 0 ? "loud means sick too often"
                                                    : "quiet means sick too often");
    if (!balance.idealDoesWell())
        faults.emplace_back("the ideal reader does not do better than the others");
    if (!balance.naiveGainsNothing())
        faults.emplace_back("the naive reader does better than a shrug");
    if (faults.empty())
        return "The set is balanced: a loud result does not tell how sick the organ is, the ideal "
               "reader does best, and the naive reader no better than a shrug.";
    return "The set is not balanced: " + base::listed(faults, "and") + ".";
}

} // namespace

void tellSet(World& world, Page& page, const std::string& named, const scenario::Set& set,
             const lesson::Knowledge& knowledge) {
    std::vector<lesson::CaseFigures> figures;
    int minutes = 0;
    {
        Progress progress(world);
        reader::Effort effort;
        effort.animals = lesson::lessonAnimals;
        effort.threads = base::threadsHere();
        for (const scenario::SetCase& entry : set.cases) {
            progress.show(static_cast<double>(figures.size()) /
                              static_cast<double>(set.cases.size()),
                          entry.name);
            const lesson::Case one = scenario::readCase(world.files, entry.path, knowledge);
            minutes += entry.minutes > 0 ? entry.minutes : one.minutes;
            figures.push_back(
                lesson::figures(one, knowledge, lesson::readers(one, knowledge, effort)));
            figures.back().weight = entry.weight;
        }
    }
    const lesson::Balance balance = lesson::balance(figures);
    page.paragraph(named + ": ok: \"" + set.title + "\", a set of " +
                   report::counted(set.cases.size(), "case") + ", " +
                   report::counted(static_cast<std::size_t>(set.seats), "seat") +
                   (minutes > 0 ? ", " + std::to_string(minutes) + " minutes" : ""));
    std::vector<std::vector<std::string>> rows;
    for (const lesson::CaseFigures& one : figures) rows.push_back(row(one));
    rows.push_back({"all, by weight", "", "", points(balance.ideal), points(balance.naive),
                    points(balance.shrug)});
    page.table({{"case", false},
                {"leads [fold]", false},
                {"lost [%]", false},
                {"ideal", true},
                {"naive", true},
                {"shrug", true}},
               rows);
    page.paragraph(correlationWords(balance));
    if (set.minutes > 0 && minutes > set.minutes)
        page.paragraph("Its cases take " + std::to_string(minutes) + " minutes, more than the " +
                       std::to_string(set.minutes) + " of the set.");
    page.paragraph(verdict(balance));
}

} // namespace cistern::terminal
