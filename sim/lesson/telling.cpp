#include "lesson/telling.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lesson {

namespace {

std::vector<body::Snapshot> healthyTwin(const Lesson& lesson) {
    Case well = lesson.subject();
    well.insults.clear();
    return atDraws(well, lesson.knowledge());
}

std::string withUnit(const std::string& number, const lab::Writing& writing) {
    if (writing.unit == "1") return number;
    const std::string unit = base::shown(writing.unit);
    return number + (unit.starts_with("10") ? " × " : " ") + unit; // 14.3 × 10³/µL
}

} // namespace

Telling::Telling(const Lesson& subject, lab::Units wanted) : lesson(subject), units(wanted) {
    if (!lesson.committed()) throw std::logic_error("feedback is given after the commitment");
    twin = healthyTwin(lesson);
    last = lesson.taken().back().draw; // a commitment needs a draw
}

std::string Telling::she() const {
    const body::Sex sex = lesson.subject().who.sex;
    return sex == body::Sex::female || sex == body::Sex::spayedFemale ? "she" : "he";
}

std::string Telling::her() const {
    return she() == "she" ? "her" : "his";
}

std::string Telling::amount(double level, body::Analyte analyte) const {
    const lab::Bench& bench = lesson.knowledge().bench;
    return withUnit(lab::printed(level, analyte, bench, units),
                    bench.method(analyte).writing(units));
}

std::string Telling::amount(const lab::Result& result) const {
    const lab::Bench& bench = lesson.knowledge().bench;
    return withUnit(lab::printed(result, bench, units),
                    bench.method(result.analyte).writing(units));
}

std::string Telling::called(body::Analyte analyte) const {
    if (analyte == body::Analyte::USG) return "urine specific gravity";
    std::string name(body::name(analyte));
    std::replace(name.begin(), name.end(), '_', ' ');
    return name;
}

double Telling::filtered() const {
    return was().at(body::reading::gfr) / healthy().at(body::reading::gfr);
}

bool Telling::moved(const lab::Result& result, std::size_t draw) const {
    const double own = twin[draw].level(result.analyte);
    const double within = lesson.animal().own.within[static_cast<std::size_t>(result.analyte)] *
                          varying(own, result.analyte);
    const double analytic = result.halfWidth / 1.96;
    const bool up = result.value > own;
    if (result.bound == lab::Bound::below && up) return false; // the limit settles nothing
    if (result.bound == lab::Bound::above && !up) return false;
    return std::abs(result.value - own) > 1.96 * std::sqrt(within * within + analytic * analytic);
}

double varying(double level, body::Analyte analyte) {
    return level - lab::origin(analyte);
}

std::string percent(double share) {
    return base::rounded(100 * share, 1) + " %";
}

std::string plain(double value, int digits) {
    std::string text = base::significant(value, digits);
    if (text.find('.') == std::string::npos) return text;
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string fold(double ratio) {
    return ratio >= 10 ? base::rounded(ratio, 1) : plain(ratio, 2);
}

std::string span(double hours) {
    const bool inHours = hours < 72;
    const double count = inHours ? hours : hours / 24;
    const std::string number = count < 10 ? plain(count, 2) : base::rounded(count, 1);
    return number + (inHours ? " hour" : " day") + (number == "1" ? "" : "s");
}

std::string joined(const std::vector<std::string>& items) {
    return base::listed(items, "and");
}

std::string capital(std::string text) {
    const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
    const bool symbol = text.size() > 1 && !small(text[1]) && text[1] != ' '; // cTnI
    if (!text.empty() && small(text[0]) && !symbol)
        text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
}

} // namespace cistern::lesson
