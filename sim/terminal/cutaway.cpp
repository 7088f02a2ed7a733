#include "base/text.h"
#include "base/units.h"
#include "lesson/feedback.h"
#include "lesson/organ.h"
#include "report/table.h"
#include "report/text.h"
#include "report/words.h"
#include "terminal/pages.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::terminal {

namespace {

constexpr int rulerCells = 40, barCells = 18;
constexpr double day = 24;               // [h]
constexpr double longInHours = 10 * day; // [h] a longer course is told in days

/// A scale of text on which values are set: "0.1 ....*.... 1000".
struct Ruler {
    double least, most;
    bool logarithmic;

    std::size_t cell(double value) const {
        const double held = std::clamp(value, least, most);
        const double share = logarithmic ? std::log(held / least) / std::log(most / least)
                                         : (held - least) / (most - least);
        return static_cast<std::size_t>(std::lround(share * rulerCells));
    }
    std::string truth(double value) const {
        std::string text(rulerCells + 1, '.');
        text[cell(value)] = '*';
        return text;
    }
    std::string band(const lesson::Band& band) const {
        std::string text(rulerCells + 1, '.');
        for (std::size_t i = cell(band.low); i <= cell(band.high); ++i) text[i] = '=';
        text[cell(band.best)] = 'o';
        return text;
    }
};

constexpr Ruler leakRuler{lesson::leastLeak, lesson::mostLeak, true};
constexpr Ruler workRuler{lesson::leastWork, lesson::mostWork, false};

void compare(Page& page, const std::string& what, const Ruler& ruler, const std::string& marks,
             double truth, const lesson::Band& answer, const std::optional<lesson::Band>& ideal) {
    const auto put = [&](const std::string& who, const std::string& number,
                         const std::string& rest) {
        page.line("  " + base::padRight(who, 12) + base::padLeft(number, 7) + "  " + rest);
    };
    put(what, "", marks);
    put("  truth", report::shownNumber(truth), ruler.truth(truth));
    const auto putBand = [&](const std::string& who, const lesson::Band& band) {
        put(who, report::shownNumber(band.best),
            ruler.band(band) + "  " + report::shownNumber(band.low) + " to " +
                report::shownNumber(band.high));
    };
    putBand("  you", answer);
    if (ideal) putBand("  ideal", *ideal);
}

/// What the ideal reader said of an organ; nothing if it was not compared.
lesson::OrganAnswer idealAnswer(const lesson::Lesson& lesson, body::Tissue organ) {
    const auto& ideal = lesson.marks().ideal;
    if (!ideal) return {};
    const auto at = ideal->answers.organs.find(organ);
    return at == ideal->answers.organs.end() ? lesson::OrganAnswer{} : at->second;
}

void openOrgan(Page& page, const lesson::Lesson& lesson, const lesson::OrganTruth& truth) {
    const lesson::OrganAnswer& said = lesson.answers().organs.at(truth.organ);
    const lesson::OrganAnswer ideal = idealAnswer(lesson, truth.organ);
    page.heading(report::capital(body::name(truth.organ)) + ", opened at " +
                 report::shownTime(lesson.truth().hour));
    if (said.leak)
        compare(page, "leak [fold]", leakRuler, "0.1       1         10        100       1000",
                truth.leak, *said.leak, ideal.leak);
    compare(page, "work [%]", workRuler, "0            50           100           150", truth.work,
            *said.work, ideal.work);
}

/// Hours worth showing: about a dozen in round steps from the first insult on, and the draws.
std::vector<double> watchedHours(const lesson::Lesson& lesson) {
    constexpr int most = 12;
    constexpr std::array steps{1, 2, 3, 6, 12, 24, 48, 72, 120, 168, 336, 720, 1440, 2160, 4380};
    const double last = lesson.truth().hour;
    const double first = std::min(lesson::firstInsult(lesson.subject()).value_or(last - 24), last);
    double step = std::ceil((last - first) / most / steps.back()) * steps.back();
    for (auto one = steps.rbegin(); one != steps.rend(); ++one)
        if ((last - first) / *one <= most) step = *one;
    std::vector<double> hours;
    for (double hour = first; hour < last; hour += step) hours.push_back(hour);
    for (const lesson::Taken& draw : lesson.taken()) hours.push_back(draw.report.specimen.hour);
    std::sort(hours.begin(), hours.end());
    hours.erase(std::unique(hours.begin(), hours.end()), hours.end());
    return hours;
}

std::string drawAt(const lesson::Lesson& lesson, double hour) {
    for (const lesson::Taken& draw : lesson.taken())
        if (draw.report.specimen.hour == hour) return "draw " + std::to_string(draw.draw + 1);
    return "";
}

/// How one organ's leak, its work and the result that people judge it by went over time.
void way(Page& page, const lesson::Lesson& lesson, body::Tissue organ, lab::Units units) {
    std::vector<lab::Report> reports;
    for (const lesson::Taken& draw : lesson.taken()) reports.push_back(draw.report);
    const lab::Result* leading = lesson::leadingResult(organ, reports);
    if (!leading) return;
    const body::Analyte analyte = leading->analyte;
    const lab::Bench& bench = lesson.knowledge().bench;
    const lab::Method& method = bench.method(analyte);
    const std::string unit = base::shown(method.writing(units).unit);
    const std::vector<double> hours = watchedHours(lesson);
    const body::Course course =
        body::simulate(lesson::plan(lesson.subject(), lesson.knowledge(), hours));
    double most = 0;
    for (std::size_t i = 0; i < course.size(); ++i)
        most = std::max(most, course.at(i).level(analyte));
    page.heading("The way there: " + std::string(body::name(organ)) + " and " +
                 report::spoken(body::name(analyte)));
    page.paragraph("The truth, before any day-to-day wobble and before the analyzer.");
    const bool days = hours.back() - hours.front() > longInHours;
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < course.size(); ++i) {
        const body::Snapshot one = course.at(i);
        const double level = one.level(analyte);
        rows.push_back({report::number(days ? std::round(10 * one.hour / day) / 10 : one.hour),
                        report::shownNumber(one.leak(organ)),
                        base::rounded(100 * one.work(organ), 1),
                        lab::printed(level, analyte, bench, units),
                        bar(most > 0 ? level / most : 0, barCells), drawAt(lesson, one.hour)});
    }
    const auto still = [&](const std::vector<std::string>& row) {
        return std::equal(row.begin() + 1, row.begin() + 4, rows.front().begin() + 1);
    };
    if (std::all_of(rows.begin(), rows.end(), still)) {
        const std::string leak =
            lesson::organOf(organ).leaks ? "leak " + rows[0][1] + " fold, " : "";
        page.paragraph("Nothing moved: " + leak + "work " + rows[0][2] + " %, " +
                       report::spoken(body::name(analyte)) + " " + rows[0][3] + " " + unit + ".");
        return;
    }
    std::vector<Column> columns = {{days ? "time [d]" : "time [h]", true},
                                   {"leak [fold]", true},
                                   {"work [%]", true},
                                   {report::spoken(body::name(analyte)) + " [" + unit + "]", true},
                                   {"", true},
                                   {"", false}};
    if (!lesson::organOf(organ).leaks) {
        columns.erase(columns.begin() + 1);
        for (auto& row : rows) row.erase(row.begin() + 1);
    }
    page.table(columns, rows);
}

void marksTable(Page& page, const lesson::Marks& marks) {
    std::vector<const lesson::Sheet*> sheets = {&marks.learner};
    if (marks.ideal) sheets.push_back(&*marks.ideal);
    sheets.push_back(&marks.shrug);
    sheets.push_back(&marks.naive);
    std::vector<Column> columns = {{"part", false}, {"weight [%]", true}};
    for (const lesson::Sheet* sheet : sheets)
        columns.push_back({report::shortName(sheet->reader), true});
    std::vector<std::vector<std::string>> rows;
    for (std::size_t i = 0; i < marks.learner.parts.size(); ++i) {
        const lesson::Mark& mark = marks.learner.parts[i];
        rows.push_back({report::partName(mark), base::rounded(100 * mark.weight, 1)});
        for (const lesson::Sheet* sheet : sheets)
            rows.back().push_back(base::rounded(sheet->parts[i].points, 1));
    }
    rows.push_back({"The whole", "100"});
    for (const lesson::Sheet* sheet : sheets) rows.back().push_back(base::rounded(sheet->total, 1));
    page.table(columns, rows);
    page.blank();
    for (const lesson::Sheet* sheet : sheets)
        if (!sheet->how.empty()) page.paragraph(report::capital(sheet->reader) + ": " + sheet->how);
}

/// What befell the blood on its way, and what was wrong with the machines: told now.
void wayOfTheBlood(Page& page, const lesson::Lesson& lesson) {
    const std::vector<std::string> lines = report::wayOfTheBlood(lesson);
    if (lines.empty()) return;
    page.heading("Between the vein and the printout");
    for (const std::string& line : lines) page.item(line, 2);
}

} // namespace

void cutawayPage(Page& page, const lesson::Lesson& lesson, lab::Units units) {
    for (const lesson::OrganTruth& truth : lesson.truth().organs) openOrgan(page, lesson, truth);
    page.blank();
    page.paragraph(lesson.marks().ideal
                       ? "* is the truth, o the most likely value, = the band: yours, and the "
                         "ideal reader's of the same exam and results."
                       : "* is the truth, o your most likely value, = your band.");
    for (const lesson::OrganTruth& truth : lesson.truth().organs)
        way(page, lesson, truth.organ, units);
    wayOfTheBlood(page, lesson);
}

void marksPage(Page& page, const lesson::Lesson& lesson, lab::Units units) {
    const lesson::Marks& marks = lesson.marks();
    page.heading("Marks: " + lesson::inWords(marks.learner.total));
    marksTable(page, marks);
    page.paragraph("100 is perfect. Marks may fall below 0 where a narrow band missed: that is the "
                   "price that keeps honest doubt the best policy.");
    for (const lesson::Paragraph& one : lesson::feedback(lesson, units)) {
        page.heading(one.heading);
        for (const std::string& sentence : one.sentences) page.prose(sentence);
    }
}

} // namespace cistern::terminal
