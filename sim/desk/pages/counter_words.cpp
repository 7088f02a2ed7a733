#include "desk/pages/counter_words.h"

#include "base/text.h"
#include "base/units.h"
#include "report/words.h"

#include <algorithm>

namespace cistern::desk {

namespace {

using Values = std::map<std::string, std::string>;

std::string markerOf(const Played& one) {
    return report::spoken(body::name(one.play.organ().marker));
}

/// A level as the laboratory prints it, without unit.
std::string printed(const Telling& telling, const Played& one, double level) {
    const lab::Writing& writing =
        telling.bench->method(one.play.organ().marker).writing(telling.units);
    return base::rounded(level * writing.factor, writing.step);
}

Values values(const Telling& telling, const Played& one) {
    const lesson::LeakingOrgan& organ = one.play.organ();
    const std::string animal(body::name(organ.kind));
    return {{"organ",
             sentence(*telling.wording, "counter.organ." + std::string(body::name(organ.tissue)))},
            {"animal", animal},
            {"animals", animal + "s"},
            {"other", std::string(body::name(one.other.kind))},
            {"marker", markerOf(one)},
            {"share", percent(one.play.handles().work)},
            {"half", lasting(one.play.handles().halfLife)},
            {"usual half", lasting(organ.halfLife)},
            {"other half", lasting(one.other.halfLife)},
            {"fold", report::shownNumber(one.play.handles().leak)},
            {"times", report::shownNumber(
                          std::stod(base::significant(one.play.level() / organ.interval.high, 2)))},
            {"low", printed(telling, one, organ.interval.low)},
            {"high", printed(telling, one, organ.interval.high)}};
}

} // namespace

std::string lasting(double hours) {
    constexpr double day = 24;
    const bool long_ = hours >= 2 * day;
    const std::string number =
        report::shownNumber(std::stod(base::significant(long_ ? hours / day : hours, 2)));
    return number + (long_ ? " day" : " hour") + (number == "1" ? "" : "s");
}

bool bothAlike(const Played& one) {
    constexpr double fold = 1.3; // nobody would see the difference
    const double a = one.play.organ().halfLife, b = one.other.halfLife;
    return std::max(a, b) < fold * std::min(a, b);
}

std::string percent(double share) {
    return base::rounded(100 * share, 1) + "\xC2\xA0%"; // which no line parts
}

std::string sentence(const Telling& telling, const std::string& path, const Played& one) {
    return sentence(*telling.wording, "counter." + path, values(telling, one));
}

std::string reading(const Telling& telling, const Played& one) {
    const lab::Writing& writing =
        telling.bench->method(one.play.organ().marker).writing(telling.units);
    return markerOf(one) + " " + printed(telling, one, one.play.level()) + " " +
           base::shown(writing.unit);
}

std::string standing(const Telling& telling, const Played& one) {
    const bool high = one.play.level() > one.play.organ().interval.high;
    return sentence(telling, high ? "reading.high" : "reading.usual", one);
}

std::vector<std::string> plainWords(const Telling& telling, const Played& one) {
    std::vector<std::string> said;
    for (const lesson::Remark remark : lesson::remarks(one.play))
        if (remark != lesson::Remark::asInSpecies) // its handle says so
            said.push_back(sentence(telling, "say." + std::string(lesson::name(remark)), one));
    return said;
}

} // namespace cistern::desk
