// The questions of a reading: what is asked, what may be typed, and what becomes of it.
#include "base/text.h"
#include "base/units.h"
#include "report/words.h"
#include "terminal/input.h"
#include "terminal/pages.h"
#include "terminal/sitting.h"

#include <algorithm>

namespace cistern::terminal {

using lesson::Band;

namespace {

const std::string threeNumbers =
    " Three numbers on one line give most likely, low end and high end at once.\n\n";

const std::string evenHelp =
    "Give each line as many of 100 points as you would bet on it; \"even\" spreads what is left "
    "over this line and those below it. ";

/// What `?` answers where a band is asked for.
std::string bandHelp(std::string_view what) {
    return std::string(what) + threeNumbers + std::string(report::bandWords);
}

std::vector<std::string> words(const std::string& text) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t from = text.find_first_not_of(" \t", at);
        if (from == std::string::npos) break;
        at = std::min(text.find_first_of(" \t", from), text.size());
        out.push_back(text.substr(from, at - from));
    }
    return out;
}

} // namespace

double Sitting::number(const std::string& text, const std::string& unit, double least,
                       double most) const {
    const auto quantity = base::readQuantity(text);
    if (!quantity || (!quantity->unit.empty() && quantity->unit != unit))
        throw UsageError("\"" + text + "\" is not a number in " + unit +
                         "; write it like 12 or 0.5.");
    if (!(quantity->value >= least && quantity->value <= most))
        throw UsageError("The number must lie between " + report::shownNumber(least) + " and " +
                         report::shownNumber(most) + " " + unit + ".");
    return quantity->value;
}

double Sitting::askNumber(const std::string& question, double fallback, const std::string& unit,
                          double least, double most, const std::string& help) {
    const std::string shown = report::shownNumber(fallback);
    for (;;) {
        const std::string text = prompt_.ask(question, shown, help);
        try {
            return text == shown ? std::clamp(fallback, least, most)
                                 : number(text, unit, least, most);
        } catch (const UsageError& error) {
            prompt_.object(error.what());
        }
    }
}

Band Sitting::band(const std::string& unit, double least, double most,
                   const std::optional<Band>& before, const std::function<Band(double)>& around,
                   const std::string& help) {
    for (;;) {
        const std::string text = prompt_.ask("  most likely [" + unit + "]",
                                             before ? report::shownNumber(before->best) : "", help);
        try {
            if (const auto three = words(text); three.size() == 3) {
                const Band band{number(three[0], unit, least, most),
                                number(three[1], unit, least, most),
                                number(three[2], unit, least, most)};
                if (band.low <= band.best && band.best <= band.high) return band;
                throw UsageError("The most likely value must lie inside its band: write most "
                                 "likely, low end, high end.");
            }
            Band band = before.value_or(Band{});
            if (!before || text != report::shownNumber(before->best))
                band = around(number(text, unit, least, most));
            band.low =
                askNumber("  low end [" + unit + "]", band.low, unit, least, band.best, help);
            band.high =
                askNumber("  high end [" + unit + "]", band.high, unit, band.best, most, help);
            return band;
        } catch (const UsageError& error) {
            prompt_.object(error.what());
        }
    }
}

void Sitting::leak(body::Tissue organ) {
    const auto& said = lesson_.answers().organs;
    const auto before = said.contains(organ) ? said.at(organ).leak : std::nullopt;
    page_.heading(place() + report::capital(body::name(organ)) + ", leak");
    page_.paragraph(report::leakQuestion(organ, lesson_.questions().hour));
    if (at_ == first()) page_.paragraph(report::bandWords);
    const Band given = band(
        "fold", lesson::leastLeak, lesson::mostLeak, before,
        [](double best) {
            return Band{best, std::max(best / 2, lesson::leastLeak),
                        std::min(best * 2, lesson::mostLeak)};
        },
        bandHelp(report::leakHelp));
    unlessSame(before == given, lesson::SetLeak{organ, given});
}

void Sitting::workShare(body::Tissue organ) {
    constexpr double about = 15; // [%] offered on either side, to be overruled
    const auto& said = lesson_.answers().organs;
    const auto before = said.contains(organ) ? said.at(organ).work : std::nullopt;
    page_.heading(place() + report::capital(body::name(organ)) + ", work");
    page_.paragraph(report::workQuestion(organ, lesson_.questions().hour));
    const Band given = band(
        "%", lesson::leastWork, lesson::mostWork, before,
        [=](double best) {
            return Band{best, std::max(best - about, lesson::leastWork),
                        std::min(best + about, lesson::mostWork)};
        },
        bandHelp(report::workHelp));
    unlessSame(before == given, lesson::SetWork{organ, given});
}

bool Sitting::askPoints(std::map<std::string, double>& given) {
    const std::vector<std::string>& list = lesson_.subject().explanations;
    double rest = 100;
    std::map<std::string, double> points;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const bool last = i + 1 == list.size();
        const double fallback = given.contains(list[i]) ? std::min(given.at(list[i]), rest)
                                : last                  ? rest
                                                        : 0;
        for (;;) {
            page_.paragraph(std::to_string(i + 1) + ". " + list[i], 2);
            const std::string text = prompt_.ask(
                "     points, " + report::shownNumber(rest) + " left",
                report::shownNumber(fallback), evenHelp + std::string(report::pointsHelp));
            try {
                if (text == "even") {
                    const double each = rest / static_cast<double>(list.size() - i);
                    for (std::size_t j = i; j < list.size(); ++j) points[list[j]] = each;
                    given = points;
                    return true;
                }
                const double one = text == report::shownNumber(fallback)
                                       ? fallback
                                       : number(text, "points", 0, 100);
                if (one > rest + 1e-9)
                    throw UsageError("Only " + report::shownNumber(rest) + " points are left.");
                points[list[i]] = one;
                rest = std::max(rest - one, 0.0);
                break;
            } catch (const UsageError& error) {
                prompt_.object(error.what());
            }
        }
    }
    given = points;
    if (complete(points)) return true;
    prompt_.object(report::shownNumber(rest) + " points are left over; go round once more.");
    return false;
}

void Sitting::points() {
    page_.heading(place() + "What is going on");
    page_.paragraph(std::string(report::pointsQuestion) + " \"even\" spreads what is left.");
    std::map<std::string, double> given = lesson_.answers().points;
    while (!askPoints(given)) {
    }
    unlessSame(given == lesson_.answers().points, lesson::SetPoints{given});
}

void Sitting::next() {
    const std::vector<std::string>& list = lesson_.subject().next;
    const auto& before = lesson_.answers().next;
    page_.heading(place() + "What next");
    page_.paragraph(report::nextQuestion);
    const auto at = before ? std::find(list.begin(), list.end(), *before) : list.end();
    const std::size_t chosen =
        prompt_.choose(list, at == list.end() ? -1 : static_cast<int>(at - list.begin()),
                       std::string(report::nextHelp));
    unlessSame(before == list[chosen], lesson::SetNext{list[chosen]});
}

void Sitting::distrust() {
    const std::vector<body::Analyte> results = lesson_.questions().results;
    std::vector<std::string> names;
    std::string before;
    for (std::size_t i = 0; i < results.size(); ++i) {
        names.push_back(report::spoken(body::name(results[i])));
        const auto& said = lesson_.answers().distrusted;
        if (std::find(said.begin(), said.end(), results[i]) != said.end())
            before += (before.empty() ? "" : " ") + std::to_string(i + 1);
    }
    page_.heading(place() + "The specimen");
    page_.paragraph(report::distrustQuestion);
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i)
        list += (i ? ", " : "") + std::to_string(i + 1) + "\u00a0" + names[i];
    page_.paragraph(list, 2);
    for (;;) {
        const std::string text =
            prompt_.ask("Numbers or names", before.empty() ? "none" : before,
                        std::string(report::distrustHelp) +
                            " \"none\" trusts them all; doubting a sound result costs as well.");
        try {
            std::vector<body::Analyte> doubted;
            if (text != "none")
                for (const std::size_t i : readChoices(text, names)) doubted.push_back(results[i]);
            unlessSame(doubted == lesson_.answers().distrusted, lesson::SetDistrusted{doubted});
            return;
        } catch (const UsageError& error) {
            prompt_.object(error.what());
        }
    }
}

} // namespace cistern::terminal
