#include "terminal/pages.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/specimen/choices.h"
#include "lab/specimen/handling_words.h"
#include "lab/specimen/volume.h"
#include "lesson/organ.h"
#include "report/text.h"
#include "terminal/input.h"

#include <cmath>
#include <ostream>

namespace cistern::terminal {

const std::string_view bandWords =
    "Give a most likely value and a band that you would bet on four to one: one chance in ten that "
    "the truth lies below it, one in ten above. A narrow band earns more when it holds and costs "
    "more when it misses; honest doubt is the best policy.";
const std::string_view pointsQuestion =
    "Spread 100 points over what may be going on: as many as you would bet on each.";
const std::string_view nextQuestion = "What would you do next?";
const std::string_view distrustQuestion =
    "Which results would you not trust (specimen, handling, machine)?";

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

std::string shownBand(const lesson::Band& band, const std::string& unit) {
    return shownNumber(band.best) + " " + unit + " (" + shownNumber(band.low) + " to " +
           shownNumber(band.high) + ")";
}

/// "1.5 mL of about 310 mL of blood, 0.5 %: ..."
std::string volumeWords(const lab::Volume& volume) {
    constexpr double percent = 100;
    const double share = percent * volume.share();
    std::string text = "Takes " + base::rounded(volume.taken, 0.1) + " mL (" +
                       base::listed(volume.tubes, "and") + ") of about " +
                       base::significant(volume.blood, 2) +
                       " mL of blood: " + base::significant(share, 2) + " %.";
    if (volume.share() > lab::healthyShare)
        text += " That is more than even a healthy animal can spare at once, a tenth.";
    else if (volume.share() > lab::sickShare)
        text += " A sick, anemic or very small animal spares about one percent a day, a healthy "
                "one ten, not more often than every few weeks.";
    return text;
}

} // namespace

std::string shownNumber(double value) {
    std::string text = base::significant(value, std::abs(value) >= 1000 ? 4 : 3);
    if (text.find('.') == std::string::npos) return text;
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text;
}

std::string signalment(const lesson::Case& one) {
    return one.patient + ", " + report::signalment(one.who) + ", body condition " +
           std::to_string(one.who.condition) + " of 9, seed " + std::to_string(one.who.seed);
}

std::string shownFinding(const lesson::Finding& finding) {
    std::string text = finding.name;
    if (finding.value) {
        text += " " + shownNumber(*finding.value);
        if (!finding.unit.empty()) text += " " + base::shown(finding.unit);
    }
    if (!finding.degree.empty() && finding.degree != "absent") text += " (" + finding.degree + ")";
    return text;
}

std::string shownDraw(const lesson::Draw& draw, std::size_t number) {
    std::string text = "Draw " + std::to_string(number + 1) + " at " + report::shownTime(draw.at);
    if (!draw.handling.vein.empty()) text += ", " + draw.handling.vein + " vein";
    if (draw.handling.fasted) text += ", fasted " + report::shownTime(*draw.handling.fasted);
    return text;
}

void bedsidePage(Page& page, const lesson::Case& one) {
    page.heading(one.title);
    page.paragraph(signalment(one) + ".");
    if (!one.level.empty() || one.minutes > 0) {
        std::string about = one.level.empty() ? "" : "Level: " + one.level + ".";
        if (one.minutes > 0)
            about += (about.empty() ? "" : " ") + std::string("Time: about ") +
                     counted(static_cast<std::size_t>(one.minutes), "minute") + ".";
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
            absent.push_back(shownFinding(finding));
        else
            page.line("  " + capital(shownFinding(finding)));
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

void drawPage(Page& page, const lesson::Lesson& lesson, std::size_t draw) {
    const lesson::Draw& one = lesson.subject().draws[draw];
    page.heading(shownDraw(one, draw));
    for (std::size_t t = 0; t < one.tests.size(); ++t) {
        const lab::Test* test = lesson.knowledge().bench.test(one.tests[t]);
        std::vector<std::string> names;
        if (test)
            for (const body::Analyte analyte : test->analytes)
                names.push_back(spoken(body::name(analyte)));
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
    if (!volume.tubes.empty()) page.paragraph(volumeWords(volume));
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
                                    : capital(lab::inOne(seen)) + ".");
        return;
    }
    page.heading(when + ", as you will handle it");
    std::vector<std::vector<std::string>> rows;
    for (const lab::Choice& choice : lab::choices(handling))
        rows.push_back({choice.name, choice.now, choice.meaning});
    page.table({{"what"}, {"how"}, {"which is"}}, rows);
}

std::string leakQuestion(body::Tissue organ, double hour) {
    const lesson::OrganPhrases& say = lesson::organOf(organ).phrases;
    return say.leakAsked + " at " + report::shownTime(hour) + ", in fold of " + say.leakWhole +
           "? 1 = as " + say.leakedWhole + ", 10 = ten times; 0.1 to 1000.";
}

std::string workQuestion(body::Tissue organ, double hour) {
    const lesson::OrganPhrases& say = lesson::organOf(organ).phrases;
    return say.workAsked + " at " + report::shownTime(hour) + ", in % of " + say.workWhole +
           "? 100 = all of it, 25 = a quarter; 0 to 150, which stands for more as well.";
}

void questionsPage(Page& page, const lesson::Lesson& lesson) {
    const lesson::Questions ask = lesson.questions();
    page.heading("The questions");
    if (!ask.organs.empty()) page.paragraph("For leak and work: " + lowered(bandWords));
    int number = 0;
    const std::size_t others = 3; // explanations, next step, specimen
    const int at = ask.organs.size() + ask.leaks.size() + others > 9 ? 7 : 6; // room for "10."
    const auto put = [&](std::string_view text) {
        page.hanging(std::to_string(++number) + ".", text, at);
    };
    for (const body::Tissue organ : ask.organs) {
        if (lesson::organOf(organ).leaks)
            put(capital(body::name(organ)) + ", leak. " + leakQuestion(organ, ask.hour));
        put(capital(body::name(organ)) + ", work. " + workQuestion(organ, ask.hour));
    }
    const auto choices = [&](std::string_view question, const std::vector<std::string>& list) {
        if (list.empty()) return;
        put(question);
        for (const std::string& one : list) page.item(one, at);
    };
    choices(pointsQuestion, ask.explanations);
    choices(nextQuestion, ask.next);
    if (!ask.results.empty()) put(distrustQuestion);
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
        const std::string who = capital(body::name(organ));
        if (lesson::organOf(organ).leaks)
            put(who + ", leak", one.leak ? shownBand(*one.leak, "fold") : "");
        put(who + ", work", one.work ? shownBand(*one.work, "%") : "");
    }
    if (!ask.explanations.empty()) {
        std::vector<std::string> parts;
        for (const std::string& name : ask.explanations)
            if (const auto at = said.points.find(name); at != said.points.end() && at->second > 0)
                parts.push_back(shownNumber(at->second) + " " + name);
        put("100 points", joined(parts, "; "));
    }
    if (!ask.next.empty()) put("Next step", said.next.value_or(""));
    std::vector<std::string> doubted;
    for (const body::Analyte analyte : said.distrusted)
        doubted.push_back(spoken(body::name(analyte)));
    put("Results not trusted", doubted.empty() ? "none" : joined(doubted, ", "));
}

} // namespace cistern::terminal
