// What the ideal reader found, in sentences.
#include "base/text.h"
#include "lesson/organ.h"
#include "report/weigh.h"

#include <algorithm>
#include <cmath>

namespace cistern::report {

namespace {

/// "50,000".
std::string grouped(std::size_t number) {
    std::string text = std::to_string(number);
    for (std::size_t at = text.size(); at > 3;) text.insert(at -= 3, ",");
    return text;
}

double at(const std::vector<double>& values, std::size_t i) {
    return i < values.size() ? values[i] : 0;
}

struct Telling {
    const Weighing& weighing;
    const lab::Bench& bench;
    lab::Units units;
    const reader::Posterior& posterior = weighing.posterior;

    std::string share(double weight, double error) const {
        return shownShare(weight, error, posterior.effective);
    }
    std::string weight(std::size_t i) const {
        return share(posterior.weights[i], at(posterior.errors, i));
    }
    std::string name() const {
        return weighing.patient.name.empty() ? "this " + std::string(body::name(kind()))
                                             : weighing.patient.name;
    }
    body::Kind kind() const { return weighing.patient.who.kind; }

    std::string explanations() const;
    std::string organ(const reader::OrganBelief& one) const;
    std::string moved() const;
    std::string spoiled() const;
    std::string next() const;
    std::string trust() const;
};

std::string Telling::explanations() const {
    const std::string whence = "Of " + grouped(posterior.stories) +
                               " stories that may lie behind " + name() +
                               ", drawn from what happens to " + std::string(body::name(kind())) +
                               "s of this age and lived through, ";
    if (posterior.names.empty())
        return whence + "the numbers and the exam single out those below. The case asks for no "
                        "explanation.";
    constexpr double settled = 0.5;
    const std::vector<std::size_t> order = greatestFirst(posterior.weights);
    const std::size_t first = order[0];
    std::string text = whence;
    if (posterior.weights[first] > settled)
        text += "the numbers and the exam speak for \"" + posterior.names[first] +
                "\": " + weight(first) + " of 100 animals that look like this";
    else
        text += "the numbers and the exam settle on none; heaviest is \"" + posterior.names[first] +
                "\" with " + weight(first) + " of 100 animals that look like this";
    if (order.size() > 1)
        text += ", then \"" + posterior.names[order[1]] + "\" with " + weight(order[1]);
    text += ". Before anything was seen it was " + share(at(posterior.prior, first), 0) +
            " of 100, after the exam " + share(at(posterior.signs, first), 0) + ".";
    constexpr double worthSaying = 0.05;
    if (posterior.unlisted >= worthSaying)
        text += " Besides, " + share(posterior.unlisted, 0) +
                " of 100 such animals have something that is not on the list; they are left out "
                "here.";
    return text;
}

std::string Telling::organ(const reader::OrganBelief& one) const {
    const ShownPoints work = shownWork(one.work, posterior.effective);
    std::string text = "Work of the " + std::string(body::name(one.organ)) + ": " + work.median +
                       " % of a healthy one, nine chances in ten that it lies from " + work.low +
                       " to " + work.high + " %";
    if (lesson::organOf(one.organ).leaks) {
        const ShownPoints leak = shownLeak(one.leak, posterior.effective);
        text += "; leak " + leak.median + " fold, " + leak.low + " to " + leak.high;
    }
    return text + ".";
}

std::string Telling::moved() const {
    std::string text;
    for (const bool finding : {false, true}) {
        const reader::Moved* most = nullptr;
        for (const reader::Moved& one : posterior.moved)
            if (one.finding == finding && (!most || one.bits > most->bits)) most = &one;
        const int to = most ? towards(*most, posterior.prior) : -1;
        if (to < 0) continue;
        text += (text.empty() ? "" : " ") + std::string("Of the ") +
                (finding ? "findings" : "results") + ", each taken by itself, \"" +
                shownMoved(*most, weighing.question, bench, units) + "\" moves the reader most, " +
                shownBits(most->bits, 0) + " bits, towards \"" +
                posterior.names[static_cast<std::size_t>(to)] + "\".";
    }
    return text;
}

std::string Telling::spoiled() const {
    constexpr double worthSaying = 0.1;
    constexpr std::size_t mostNamed = 8;
    std::vector<std::string> names;
    double surely = 0;
    for (std::size_t i = 0; i < posterior.results.size(); ++i) {
        if (at(posterior.spoiled, i) < worthSaying) continue;
        surely = std::max(surely, posterior.spoiled[i]);
        names.push_back(std::string(body::name(posterior.results[i].analyte)) + " (" +
                        share(posterior.spoiled[i], 0) + ")");
    }
    for (std::string& one : names) std::replace(one.begin(), one.end(), '_', ' ');
    if (names.empty()) return "";
    if (names.size() > mostNamed)
        return "Moved by handling or machine rather than by the animal: " +
               std::to_string(names.size()) + " of " + std::to_string(posterior.results.size()) +
               " results, in up to " + share(surely, 0) + " of 100.";
    return "Moved by handling or machine rather than by the animal, in so many of 100: " +
           base::listed(names, "and") + ".";
}

std::string Telling::next() const {
    if (posterior.gains.empty()) return "";
    std::vector<double> bits, perCost;
    for (const reader::Gain& one : posterior.gains) {
        bits.push_back(one.bits);
        perCost.push_back(one.perCost());
    }
    const reader::Gain& most = posterior.gains[greatestFirst(bits)[0]];
    const reader::Gain& cheapest = posterior.gains[greatestFirst(perCost)[0]];
    constexpr double little = 0.05; // [bits]
    if (most.bits < little)
        return "No further test would tell much about these explanations; the most would be \"" +
               most.test + "\" with " + shownBits(most.bits, most.error) + " bits.";
    std::string text = "Of what was not yet done \"" + most.test + "\" would tell most, " +
                       shownBits(most.bits, most.error) + " bits on average";
    if (cheapest.test != most.test && cheapest.perCost() > 0)
        text += "; \"" + cheapest.test + "\" tells most for what it costs";
    return text + ".";
}

std::string Telling::trust() const {
    const std::string effective = base::rounded(std::floor(posterior.effective), 1);
    const std::string rounds =
        posterior.rounds > 1 ? " after " + std::to_string(posterior.rounds) + " rounds" : "";
    if (posterior.effective < fewEffective)
        return "Caution: the weight rests on only " + effective + " effective stories" + rounds +
               ", too few to trust tenths; more --animals make it firmer.";
    return "The weight rests on " + effective + " effective stories" + rounds + ".";
}

} // namespace

std::vector<std::string> weighTold(const Weighing& weighing, const lab::Bench& bench,
                                   lab::Units units) {
    const Telling telling{weighing, bench, units};
    std::vector<std::string> paragraphs{telling.explanations()};
    std::string organs;
    for (const reader::OrganBelief& one : weighing.posterior.organs)
        organs += (organs.empty() ? "" : " ") + telling.organ(one);
    for (std::string text :
         {organs, telling.moved(), telling.spoiled(), telling.next(), telling.trust()})
        if (!text.empty()) paragraphs.push_back(std::move(text));
    return paragraphs;
}

} // namespace cistern::report
