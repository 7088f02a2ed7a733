#include "terminal/pages.h"

#include "base/text.h"
#include "lab/specimen/choices.h"
#include "lab/specimen/handling_words.h"
#include "lesson/organ.h"
#include "report/film.h"
#include "report/text.h"
#include "report/words.h"

#include <ostream>

namespace cistern::terminal {

namespace {

std::string joined(const std::vector<std::string>& parts, std::string_view between) {
    std::string text;
    for (const std::string& part : parts) text += (text.empty() ? "" : std::string(between)) + part;
    return text;
}

/// Its first letter small, to follow a colon.
std::string lowered(std::string_view text) {
    std::string out(text);
    out[0] = static_cast<char>(out[0] - 'A' + 'a');
    return out;
}

} // namespace

void bedsidePage(Page& page, const lesson::Case& one) {
    page.heading(one.title);
    page.paragraph(report::signalment(one) + ".");
    if (!one.level.empty() || one.minutes > 0) {
        std::string about = one.level.empty() ? "" : "Level: " + one.level + ".";
        if (one.minutes > 0)
            about += (about.empty() ? "" : " ") + std::string("Time: about ") +
                     report::counted(static_cast<std::size_t>(one.minutes), "minute") + ".";
        page.paragraph(about);
    }
    page.caution();
    if (!one.complaint.empty()) {
        page.heading("Complaint");
        page.prose(one.complaint);
    }
    if (!one.history.empty()) {
        page.heading("History");
        page.prose(one.history);
    }
    if (one.exam.empty()) return;
    page.heading("Exam");
    std::vector<std::string> absent;
    for (const lesson::Finding& finding : one.exam)
        if (finding.degree == "absent")
            absent.push_back(report::shownFinding(finding));
        else
            page.line("  " + report::capital(report::shownFinding(finding)));
    if (!absent.empty()) page.hanging("Looked for and not there:", base::listed(absent, "or"), 29);
}

void reportPage(Page& page, std::ostream& out, const lesson::Lesson& lesson, lab::Units units) {
    std::vector<lab::Report> reports;
    for (const lesson::Taken& draw : lesson.taken()) reports.push_back(draw.report);
    const lesson::Case& one = lesson.subject();
    page.blank();
    out << report::laboratoryReport({one.patient, one.who}, reports, lesson.knowledge().bench,
                                    lesson.knowledge().species(one.who.kind).within, units);
    page.bloodCaution();
}

void filmParts(Page& page, const lab::BloodCount& blood) {
    for (const report::FilmPart& part : report::filmTold(blood)) {
        page.blank();
        page.line(part.title);
        std::size_t line = 0;
        if (!part.rows.empty() && !part.lines.empty()) { // what they are comes first
            page.paragraph(part.lines[line++], 2);
            std::vector<std::vector<std::string>> rows;
            for (const report::TallyRow& row : part.rows)
                rows.push_back({row.kind, std::to_string(row.counted),
                                std::to_string(row.low) + " to " + std::to_string(row.high)});
            page.table({{"kind"}, {"counted", true}, {"of 100, 95 % limits", true}}, rows, 2);
        }
        for (; line < part.lines.size(); ++line) page.item(part.lines[line], 2);
    }
}

void filmPage(Page& page, const lesson::Lesson& lesson) {
    bool any = false;
    for (const lesson::Taken& draw : lesson.taken()) {
        if (!draw.report.blood) continue;
        any = true;
        page.heading("Draw " + std::to_string(draw.draw + 1) + ", the film");
        filmParts(page, *draw.report.blood);
    }
    if (!any) page.paragraph("No blood count was asked for, so no film was made.");
    page.blank();
}

void drawPage(Page& page, const lesson::Lesson& lesson, std::size_t draw) {
    const lesson::Draw& one = lesson.subject().draws[draw];
    page.heading(report::shownDraw(one, draw));
    for (std::size_t t = 0; t < one.tests.size(); ++t) {
        const lab::Test* test = lesson.knowledge().bench.test(one.tests[t]);
        std::vector<std::string> names;
        if (test)
            for (const body::Analyte analyte : test->analytes)
                names.push_back(report::spoken(body::name(analyte)));
        const std::string what = !names.empty()   ? joined(names, ", ")
                                 : !test          ? "not run here"
                                 : test->controls ? "how the controls of the other tests stand"
                                                  : test->missing;
        page.hanging(std::to_string(t + 1) + "  " + one.tests[t], what, 26);
    }
    const auto& chosen = lesson.chosen()[draw];
    const lab::Volume volume =
        lab::volume(lesson.knowledge().bench, lesson.animal(), lesson.handling()[draw],
                    chosen.empty() ? one.tests : chosen);
    if (!volume.tubes.empty()) page.paragraph(report::volumeWords(volume));
    page.paragraph(one.handedIn ? "It came already drawn; \"h\" shows what its tubes tell."
                                : "\"h\" handles its blood otherwise.");
}

void handlingPage(Page& page, const lesson::Lesson& lesson, std::size_t draw) {
    const lab::Handling& handling = lesson.handling()[draw];
    const std::string when = "Draw " + std::to_string(draw + 1);
    if (lesson.subject().draws[draw].handedIn) {
        const std::vector<std::string> seen = lab::shownByTubes(handling);
        page.heading(when + ", as it was handed in");
        page.paragraph(seen.empty() ? "Tubes and labels show nothing unusual; what else was done "
                                      "to them nobody wrote down."
                                    : report::capital(lab::inOne(seen)) + ".");
        return;
    }
    page.heading(when + ", as you will handle it");
    std::vector<std::vector<std::string>> rows;
    for (const lab::Choice& choice : lab::choices(handling))
        rows.push_back({choice.name, choice.now, choice.meaning});
    page.table({{"what"}, {"how"}, {"which is"}}, rows);
}

void questionsPage(Page& page, const lesson::Lesson& lesson) {
    const lesson::Questions ask = lesson.questions();
    page.heading("The questions");
    if (!ask.organs.empty()) page.paragraph("For leak and work: " + lowered(report::bandWords));
    int number = 0;
    const std::size_t others = 3; // explanations, next step, specimen
    const int at = ask.organs.size() + ask.leaks.size() + others > 9 ? 7 : 6; // room for "10."
    const auto put = [&](std::string_view text) {
        page.hanging(std::to_string(++number) + ".", text, at);
    };
    for (const body::Tissue organ : ask.organs) {
        if (lesson::organOf(organ).leaks)
            put(report::capital(body::name(organ)) + ", leak. " +
                report::leakQuestion(organ, ask.hour));
        put(report::capital(body::name(organ)) + ", work. " +
            report::workQuestion(organ, ask.hour));
    }
    const auto choices = [&](std::string_view question, const std::vector<std::string>& list) {
        if (list.empty()) return;
        put(question);
        for (const std::string& one : list) page.item(one, at);
    };
    choices(report::pointsQuestion, ask.explanations);
    choices(report::nextQuestion, ask.next);
    if (!ask.results.empty()) put(report::distrustQuestion);
}

void readingPage(Page& page, const lesson::Lesson& lesson) {
    const lesson::Questions ask = lesson.questions();
    const lesson::Answers& said = lesson.answers();
    page.heading("Your reading");
    int number = 0;
    const auto put = [&](const std::string& what, const std::string& answer) {
        page.hanging(std::to_string(++number) + "  " + what, answer.empty() ? "-" : answer, 30);
    };
    for (const body::Tissue organ : ask.organs) {
        const auto at = said.organs.find(organ);
        const lesson::OrganAnswer one =
            at == said.organs.end() ? lesson::OrganAnswer{} : at->second;
        const std::string who = report::capital(body::name(organ));
        if (lesson::organOf(organ).leaks)
            put(who + ", leak", one.leak ? report::shownBand(*one.leak, "fold") : "");
        put(who + ", work", one.work ? report::shownBand(*one.work, "%") : "");
    }
    if (!ask.explanations.empty()) {
        std::vector<std::string> parts;
        for (const std::string& name : ask.explanations)
            if (const auto at = said.points.find(name); at != said.points.end() && at->second > 0)
                parts.push_back(report::shownNumber(at->second) + " " + name);
        put("100 points", joined(parts, "; "));
    }
    if (!ask.next.empty()) put("Next step", said.next.value_or(""));
    std::vector<std::string> doubted;
    for (const body::Analyte analyte : said.distrusted)
        doubted.push_back(report::spoken(body::name(analyte)));
    put("Results not trusted", doubted.empty() ? "none" : joined(doubted, ", "));
}

} // namespace cistern::terminal
