#include "report/words.h"

#include "base/text.h"
#include "base/units.h"
#include "lab/specimen/handling_words.h"
#include "lesson/organ.h"
#include "report/table.h"
#include "report/text.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

namespace cistern::report {

const std::string_view bloodCaution =
    "Restraint, sharps and blood are hazards: follow your practice's protocol and local law.";

const std::string_view bandWords =
    "Give a most likely value and a band that you would bet on four to one: one chance in ten that "
    "the truth lies below it, one in ten above. A narrow band earns more when it holds and costs "
    "more when it misses; honest doubt is the best policy.";
const std::string_view pointsQuestion =
    "Spread 100 points over what may be going on: as many as you would bet on each.";
const std::string_view nextQuestion = "What would you do next?";
const std::string_view distrustQuestion =
    "Which results would you not trust (specimen, handling, machine)?";

const std::string_view leakHelp =
    "Leak is release per gram of living tissue over the animal's own healthy release: 1 = as in "
    "health, 10 = ten times. It is what fills the blood with the organ's enzymes, together with "
    "how much tissue there is and how slowly the enzyme drains. The kidney and the gut leak "
    "protein; red cells and platelets are lost.";
const std::string_view workHelp =
    "Work is the share of the healthy organ that still functions, in %: 100 = all of it. An organ "
    "can leak much and work well, or leak little because little of it is left.";
const std::string_view pointsHelp =
    "Points on what is not true cost; points spread by honest doubt cost least.";
const std::string_view nextHelp = "One step: the one that would tell or help most from here.";
const std::string_view distrustHelp =
    "Results that the specimen, its handling or the machine may have spoiled.";

std::string spoken(std::string_view name) {
    std::string words(name);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
}

std::string shownUnits(std::string text) {
    constexpr std::pair<std::string_view, std::string_view> all[] = {
        {" um", " µm"}, {" 10*9/L", " × 10⁹/L"}, {" 10*12/L", " × 10¹²/L"}};
    for (const auto& [plain, written] : all)
        for (std::size_t at = text.find(plain); at != std::string::npos;) {
            const std::size_t end = at + plain.size();
            const bool word =
                end < text.size() && std::isalpha(static_cast<unsigned char>(text[end]));
            if (!word) text.replace(at, plain.size(), written);
            at = text.find(plain, at + plain.size());
        }
    return text;
}

std::string capital(std::string_view text) {
    std::string out(text);
    if (!out.empty()) out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
    return out;
}

std::string counted(std::size_t number, const std::string& thing) {
    return std::to_string(number) + " " + thing + (number == 1 ? "" : "s");
}

std::string shownNumber(double value) {
    std::string text = base::significant(value, std::abs(value) >= 1000 ? 4 : 3);
    if (text.find('.') == std::string::npos) return text;
    while (text.ends_with('0')) text.pop_back();
    if (text.ends_with('.')) text.pop_back();
    return text;
}

std::string signalment(const lesson::Case& one) {
    return one.patient + ", " + signalment(one.who) + ", body condition " +
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
    std::string text = "Draw " + std::to_string(number + 1) + " at " + shownTime(draw.at);
    if (!draw.handling.vein.empty()) text += ", " + draw.handling.vein + " vein";
    if (draw.handling.fasted) text += ", fasted " + shownTime(*draw.handling.fasted);
    return text;
}

std::string shownSeverity(double severity, const body::InsultKind& kind) {
    const double factor = base::conversion(kind.unit, kind.shownUnit).value_or(1);
    return number(severity * factor) + (kind.shownUnit == "1" ? "" : " " + kind.shownUnit);
}

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

std::string leakQuestion(body::Tissue organ, double hour) {
    const lesson::OrganPhrases& say = lesson::organOf(organ).phrases;
    return say.leakAsked + " at " + shownTime(hour) + ", in fold of " + say.leakWhole +
           "? 1 = as " + say.leakedWhole + ", 10 = ten times; 0.1 to 1000.";
}

std::string workQuestion(body::Tissue organ, double hour) {
    const lesson::OrganPhrases& say = lesson::organOf(organ).phrases;
    return say.workAsked + " at " + shownTime(hour) + ", in % of " + say.workWhole +
           "? 100 = all of it, 25 = a quarter; 0 to 150, which stands for more as well.";
}

std::string shownBand(const lesson::Band& band, const std::string& unit) {
    return shownNumber(band.best) + " " + unit + " (" + shownNumber(band.low) + " to " +
           shownNumber(band.high) + ")";
}

std::string shortName(std::string reader) {
    const std::string_view before = "the ", after = " reader";
    if (reader.starts_with(before)) reader.erase(0, before.size());
    if (reader.ends_with(after)) reader.erase(reader.size() - after.size());
    return reader;
}

std::string partName(const lesson::Mark& mark) {
    const std::string part(lesson::name(mark.part));
    return mark.organ ? capital(body::name(*mark.organ)) + ", " + part : capital(part);
}

std::vector<std::string> wayOfTheBlood(const lesson::Lesson& lesson) {
    std::vector<std::string> lines;
    for (const lesson::Taken& draw : lesson.taken())
        for (const std::string& one : lab::said(draw.report.specimen.handling))
            lines.push_back("draw " + std::to_string(draw.draw + 1) + ": " + one);
    for (const std::string& one : lab::said(lesson.subject().machine)) lines.push_back(one);
    return lines;
}

} // namespace cistern::report
