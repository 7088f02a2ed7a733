// What the texts of a case quote is what its report prints.
#include "base/file.h"
#include "lab/report.h"
#include "lesson/case.h"
#include "scenario/at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <regex>
#include <set>

using namespace cistern;

namespace {

struct Quote {
    std::string digits;
    double value;
    double step; ///< of its last digit
};

/// Numbers of a text that stand alone: not "12h", not in "1:10", not "T4".
std::vector<Quote> quotes(const std::string& text) {
    static const std::regex number(R"((^|[^\w.:])(\d+(\.(\d+))?)(?![\w:]|\.\d))");
    std::vector<Quote> found;
    for (std::sregex_iterator it(text.begin(), text.end(), number), end; it != end; ++it) {
        const std::string digits = (*it)[2];
        found.push_back({digits, std::strtod(digits.c_str(), nullptr),
                         std::pow(10.0, -static_cast<double>((*it)[4].length()))});
    }
    return found;
}

/// Every number that a reader of the case has before them: results, limits, measured findings.
std::vector<double> numbersOf(const lesson::Case& one, const lesson::Knowledge& knowledge) {
    std::vector<double> numbers;
    const body::Individual animal = lesson::patient(one, knowledge);
    const auto truth = lesson::atDraws(one, knowledge);
    for (std::size_t d = 0; d < one.draws.size(); ++d)
        for (const lab::Result& result :
             lesson::report(one, knowledge, animal, truth[d], d, one.draws[d].tests).results) {
            const lab::Bench& bench = knowledge.bench;
            numbers.push_back(std::strtod(
                lab::printedNumber(result, bench, lab::Units::conventional).c_str(), nullptr));
            if (!result.interval) continue;
            for (const double limit : {result.interval->low, result.interval->high})
                numbers.push_back(std::strtod(
                    lab::printed(limit, result.analyte, bench, lab::Units::conventional).c_str(),
                    nullptr));
        }
    for (const lesson::Finding& finding : one.exam)
        if (finding.value) numbers.push_back(*finding.value);
    return numbers;
}

/// Numbers that tell something else: half-lives, another dog's urine, a rule.
const std::set<std::pair<std::string, std::string>> others{
    {"six_days_after_the_fence", "22"}, {"six_days_after_the_fence", "60"},
    {"the_fourth_one_today", "4"}, // 4-1s
    {"the_same_creatinine", "1.057"},   {"three_tubes_in_a_week", "60"},
    {"two_from_one_shed_dog", "60"}};

} // namespace

TEST_CASE("numbers in the texts of a case are those that its report prints", "[scenario]") {
    const lesson::Knowledge& knowledge = test::assets().knowledge;
    const base::Disk disk;
    int quoted = 0;
    for (const std::string& path : disk.list(CISTERN_SOURCE "/scenarios", ".yaml")) {
        const lesson::Case one = scenario::readCase(disk, path, knowledge);
        const std::vector<double> numbers = numbersOf(one, knowledge);
        for (const Quote& quote : quotes(one.trap + "\n" + one.settles)) {
            if (others.count({one.name, quote.digits})) continue;
            ++quoted;
            INFO(one.name << " quotes " << quote.digits);
            CHECK(std::any_of(numbers.begin(), numbers.end(), [&](double printed) {
                return std::abs(printed - quote.value) <= 0.501 * quote.step;
            }));
        }
    }
    CHECK(quoted > 30);
}
