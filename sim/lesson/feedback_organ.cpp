#include "base/text.h"
#include "lab/change.h"
#include "lesson/organ.h"
#include "lesson/telling.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

constexpr double loudFold = 1.95;  // leak from which an organ counts as loud: it prints as 2
constexpr double soundWork = 0.75; // share of work from which it counts as sound
constexpr double spentWork = 0.25; // share below which it counts as spent
constexpr double aChange = 0.05;   // share of work worth a word between two draws
// Two factors agree if they differ by less than this: about what the analyzer cannot tell apart.
constexpr double agreement = 1.2;

bool alike(double a, double b) {
    return a < b * agreement && b < a * agreement;
}

const body::EnzymePool& parameters(const Telling& t, body::Pool pool) {
    return t.lesson.animal().own.pool[static_cast<std::size_t>(pool)];
}

std::string organName(body::Tissue organ) {
    return std::string(body::name(organ));
}

/// The result that led the learner, and the draw that it came from.
struct Leading {
    const lab::Result* result = nullptr;
    std::size_t draw = 0;
};

std::vector<Leading> leadingOverTime(const Telling& t, body::Tissue organ) {
    std::vector<Leading> found;
    std::optional<body::Analyte> analyte;
    std::vector<lab::Report> reports;
    for (const Taken& taken : t.lesson.taken()) reports.push_back(taken.report);
    if (const lab::Result* result = leadingResult(organ, reports)) analyte = result->analyte;
    if (!analyte) return found;
    for (const Taken& taken : t.lesson.taken())
        if (const lab::Result* result = taken.report.find(*analyte))
            found.push_back({result, taken.draw});
    return found;
}

/// Flow of an enzyme into the blood, and its level there, over those of the healthy twin at the
/// last draw. A healthy animal's flow is never 0: it holds up the healthy level.
double inflow(const Telling& t, body::Pool pool) {
    return t.was().release(pool) / t.healthy().release(pool);
}
double level(const Telling& t, body::Pool pool) {
    return t.was().pool(pool) / t.healthy().pool(pool);
}

/// Half-life of an enzyme as this animal drains it: what the kidney filters drains slower with it.
double halfLife(const Telling& t, body::Pool pool) {
    const body::EnzymePool& p = parameters(t, pool);
    return p.halfLife / (1 - p.renalShare + p.renalShare * t.filtered());
}

bool cellsLoud(const OrganTruth& truth) {
    return truth.leak >= loudFold;
}
/// Whether the organ as a whole is heard: its cells leak, and there are enough of them.
bool loud(const Telling& t, const OrganTruth& truth) {
    const std::optional<body::Pool> marker = organOf(truth.organ).marker;
    if (!cellsLoud(truth) || !marker) return cellsLoud(truth);
    return inflow(t, *marker) * t.healthy().leak(truth.organ) >= loudFold;
}
bool sound(const OrganTruth& truth) {
    return truth.work >= 100 * soundWork;
}
bool spent(const OrganTruth& truth) {
    return truth.work < 100 * spentWork;
}

std::string corner(const Telling& t, const OrganTruth& truth) {
    std::string text = sound(truth) ? "sound" : spent(truth) ? "spent" : "weakened";
    if (truth.work > 100 * agreement) text = "overdone";
    if (organOf(truth.organ).leaks) text += loud(t, truth) ? " and loud" : " and quiet";
    return text;
}

std::string opened(const Telling& t, const OrganTruth& truth) {
    const OrganPhrases& say = organOf(truth.organ).phrases;
    std::string text =
        t.lesson.taken().size() > 1 ? "At the last draw " : "When the blood was drawn ";
    text += percent(truth.work / 100) + " of " + t.her() + " " + say.worked;
    if (organOf(truth.organ).leaks)
        text +=
            ", and " + say.leaked +
            (fold(truth.leak) == "1" ? " as "
                                     : " " + fold(truth.leak) + " times as " + say.pace + " as ") +
            say.leakedWhole;
    return text + ": " + corner(t, truth) + ".";
}

/// "The printed ALT of 96 U/L is 2.4 times her own healthy 40 U/L; it lies inside the interval."
std::string levelSentence(const Telling& t, const Leading& leading) {
    const lab::Result& result = *leading.result;
    const double own = t.twin[leading.draw].level(result.analyte);
    std::string text = "The printed " + t.called(result.analyte) + " of " + t.amount(result);
    const std::string times = own > 0 ? fold(result.value / own) : "1";
    const std::string are = t.called(result.analyte).ends_with('s') ? "are" : "is"; // platelets
    text += " " + are;
    if (result.bound != lab::Bound::exact)
        text += std::string(" as ") + (result.bound == lab::Bound::below ? "low" : "high") +
                " as the method tells, where " + t.amount(own, result.analyte) + " is " + t.her() +
                " own";
    else
        text += (times == "1" ? " " : " " + times + " times ") + t.her() + " own healthy " +
                t.amount(own, result.analyte);
    if (result.interval && result.flag == lab::Flag::none)
        text += are == "is" ? ", and carries no flag" : ", and carry no flag";
    else if (result.interval)
        text += ", and " + are + " flagged " + (result.flag == lab::Flag::high ? "high" : "low");
    return text + ".";
}

/// Why the level is what it is: work x leak, and whether the blood has caught up with it.
std::vector<std::string> flowSentences(const Telling& t, const OrganTruth& truth, body::Pool pool) {
    const double twinLeak = t.healthy().leak(truth.organ);
    const double work = truth.work / 100, leak = truth.leak / twinLeak, product = work * leak;
    const double inflow = lesson::inflow(t, pool), level = lesson::level(t, pool);
    const std::string enzyme(body::name(pool));

    std::vector<std::string> out;
    if (!alike(twinLeak, 1))
        out.push_back("Any healthy animal of " + t.her() + " age leaks " + fold(twinLeak) +
                      " times what a grown one does: that is growth, not injury.");
    std::string sum = "Work times leak is " + percent(work) + " x " + fold(leak) + " = " +
                      fold(product) + "; the " + enzyme + " flowing into " + t.her() +
                      " blood was " + fold(inflow) + " times the healthy flow";
    if (inflow > product * agreement)
        sum += ", more than that, because part of it comes from elsewhere, or because cells can "
               "live and leak without doing their work, can hold more of it, or have died and "
               "still seep";
    else if (inflow < product / agreement)
        sum += ", less than that, because part of it comes from elsewhere, was still on its way, "
               "or had fewer cells to send it";
    if (alike(product, 1) && alike(inflow, 1))
        sum = "No more " + enzyme + " than the healthy flow went into " + t.her() + " blood then";
    out.push_back(sum + ".");

    const bool narrow = halfLife(t, pool) > parameters(t, pool).halfLife * agreement;
    if (level > inflow * agreement)
        out.push_back("The level, " + fold(level) + " times " + t.her() +
                      " own, stood above what that inflow holds up: " +
                      (narrow ? "the kidney drains " + enzyme + " and filtered only " +
                                    percent(t.filtered()) + " of what it does in health."
                              : "it was draining from an earlier leak."));
    else if (level < inflow / agreement)
        out.push_back("The level, " + fold(level) + " times " + t.her() +
                      " own, had not caught up with that inflow: it was still filling.");
    constexpr double ordinary = 0.4; // a flow that a whole organ may well send
    if (!sound(truth) && truth.organ != body::Tissue::bone && inflow > ordinary)
        out.push_back(
            "A whole " + organName(truth.organ) + " sending out " + fold(inflow) +
            " times its healthy flow would print the same number: the number alone cannot "
            "tell the two apart.");
    return out;
}

/// How long the level remembers.
std::vector<std::string> drainSentences(const Telling& t, body::Pool pool,
                                        const lab::Result* leading) {
    const double halfLife = lesson::halfLife(t, pool);
    const double own = t.healthy().pool(pool), level = t.was().pool(pool);
    const std::string enzyme(body::name(pool));
    std::vector<std::string> out;
    std::string text =
        capital(enzyme) + " halves in " + span(halfLife) + " in " + t.her() + " blood";
    if (level > own * agreement && leading) {
        const double wait = halfLife > 12 ? 72 : 24; // [h]
        const double slower = halfLife / parameters(t, pool).halfLife;
        const double floor = // what a spent organ holds up
            std::min(level, own * slower * std::min(1.0, inflow(t, pool)));
        const double then = floor + (level - floor) * std::exp2(-wait / halfLife);
        text += "; without further leak about " + t.amount(then, leading->analyte) +
                " would be left after " + span(wait);
        const double limit = leading->interval ? leading->interval->high : 0;
        const double gone =
            limit > floor ? halfLife * std::log2((level - floor) / (limit - floor)) : 0;
        if (gone > 0 && leading->flag == lab::Flag::high)
            text += " and the flag would be gone " +
                    (gone < 1 ? "within an hour" : "after " + span(gone));
    }
    out.push_back(text + ".");
    return out;
}

/// Whether what acted on the organ had ended, and how much of its enzyme was left since.
std::vector<std::string> actingSentences(const Telling& t, const OrganTruth& truth,
                                         std::optional<body::Pool> pool) {
    std::optional<double> ended;
    bool goingOn = false;
    for (const body::Insult& insult : t.lesson.subject().insults) {
        if (!insult.kind || insult.kind->tissue != truth.organ || insult.from >= t.was().hour)
            continue;
        if (insult.to >= t.was().hour) goingOn = true;
        ended = std::max(ended.value_or(insult.to), insult.to);
    }
    const std::string acted = "What acted on the " + organName(truth.organ);
    if (goingOn) return {acted + " was still at work then."};
    if (!ended) return {};
    const double since = t.was().hour - *ended;
    std::string text = acted + " had ended " + span(since) + " before";
    if (pool) {
        const double halvings = since / halfLife(t, *pool), left = std::exp2(-halvings);
        text += ", " + (halvings > 10 ? "more than ten" : fold(halvings)) + " half-lives of " +
                std::string(body::name(*pool)) + ": of what was in the blood by then, " +
                (left < 0.01 ? "next to nothing" : percent(left)) + " was left";
    }
    return {text + "."};
}

/// "; meanwhile each living gram leaked first 28 and then 1 times as much as in health, and the
/// work of the pancreas stayed at 100 %"
std::string meanwhile(body::Tissue tissue, const body::Snapshot& before,
                      const body::Snapshot& after) {
    const Organ& organ = organOf(tissue);
    std::string text = "; meanwhile ";
    if (organ.leaks && !alike(before.leak(tissue), after.leak(tissue)))
        text += organ.phrases.leaked + " first " + fold(before.leak(tissue)) + " and then " +
                fold(after.leak(tissue)) + " times as " + organ.phrases.pace + " as " +
                organ.phrases.leakedWhole + ", and ";
    const std::string then = percent(before.work(tissue)), now = percent(after.work(tissue));
    return text + "the work of the " + organName(tissue) +
           (then == now ? " stayed at " + now : " went from " + then + " to " + now);
}

/// Two draws: the pace of the fall against the pace of the drain, and what leak and work did
/// meanwhile.
std::vector<std::string> serialSentences(const Telling& t, const OrganTruth& truth,
                                         std::optional<body::Pool> pool,
                                         const std::vector<Leading>& seen) {
    if (seen.size() < 2) return {};
    const Leading &first = seen.front(), &second = seen.back();
    const body::Snapshot &before = t.lesson.inside(first.draw),
                         &after = t.lesson.inside(second.draw);
    const double time = after.hour - before.hour;
    if (!(time > 0)) return {};
    const double then = before.work(truth.organ), now = after.work(truth.organ);
    const double wobble =
        t.lesson.animal().own.within[static_cast<std::size_t>(first.result->analyte)];
    if (!lab::moved(*first.result, *second.result, wobble) && std::abs(now - then) < aChange &&
        alike(before.leak(truth.organ), after.leak(truth.organ)))
        return {};
    std::vector<std::string> out;
    std::string text = capital(t.called(first.result->analyte)) + " went from " +
                       t.amount(*first.result) + " to " + t.amount(*second.result) + " in " +
                       span(time);
    const double own = t.twin[second.draw].level(first.result->analyte);
    const double a = first.result->value - own, b = second.result->value - own;
    if (pool && b > own * (agreement - 1) && b < a) { // nearer to her own it tells no pace
        const double pace = time * std::log(2.0) / std::log(a / b), drain = halfLife(t, *pool);
        text += ": what lay above " + t.her() + " own level halved every " + span(pace) +
                ", where the drain alone takes " + span(drain);
        if (pace < drain / agreement) text += " (no fall is faster: the rest was chance)";
    }
    out.push_back(text + meanwhile(truth.organ, before, after) + ".");
    if (clue(truth.organ, first.result->analyte)->output) return out;
    if (second.result->value < first.result->value && now < then - aChange)
        out.push_back("A falling number was not recovery here.");
    if (second.result->value > first.result->value && now > then + aChange)
        out.push_back("A rising number was not a loss here.");
    return out;
}

std::string alpSentence(const Telling& t) {
    using body::Pool;
    const double liver = t.was().pool(Pool::liverALP), bone = t.was().pool(Pool::boneALP),
                 steroid = t.was().pool(Pool::steroidALP);
    return "Of " + t.her() + " ALP, " + t.amount(bone, body::Analyte::ALP) + " came from bone, " +
           t.amount(liver, body::Analyte::ALP) + " from the liver and " +
           t.amount(steroid, body::Analyte::ALP) +
           " was the form that cortisol calls for; the printed number is their sum.";
}

/// A truth beyond the most that may be answered counts as that.
std::string counted(const std::string& shown, double real, double most, const std::string& unit) {
    return real > most ? shown + " (counted as " + base::rounded(most, 1) + unit + ")" : shown;
}

std::string leakVerdict(const Band& band, double real) {
    const double truth = std::min(real, mostLeak);
    const std::string shown = counted(fold(real), real, mostLeak, "");
    const std::string said =
        "Your leak band, " + fold(band.low) + " to " + fold(band.high) + " fold";
    if (truth > band.high)
        return said + ", ended " + fold(truth / band.high) + " times below the true " + shown +
               ": you took it for quieter than it was.";
    if (truth < band.low)
        return said + ", began " + fold(band.low / std::max(truth, leastLeak)) +
               " times above the true " + shown + ": you took it for louder than it was.";
    const double off = std::max(truth, leastLeak) / band.best;
    if (off < agreement && off > 1 / agreement)
        return said + ", held the truth, and your best value of " + fold(band.best) +
               " was close to it.";
    return said + ", held the truth; your best value of " + fold(band.best) + " was " +
           fold(off > 1 ? off : 1 / off) + " times too " + (off > 1 ? "low." : "high.");
}

std::string workVerdict(const Band& band, double real) {
    const double truth = std::min(real, mostWork);
    constexpr double aPoint = 0.5; // by less a band has not missed: it would print as 0 points
    const auto points = [](double x) {
        const std::string text = base::rounded(x, 1);
        return text + (text == "1" ? " point" : " points");
    };
    const std::string said = "Your work band, " + base::rounded(band.low, 1) + " to " +
                             base::rounded(band.high, 1) + " %";
    const std::string shown = counted(base::rounded(real, 1) + " %", real, mostWork, " %");
    if (truth > band.high + aPoint)
        return said + ", ended " + points(truth - band.high) + " below the true " + shown +
               ": more worked than you allowed.";
    if (truth < band.low - aPoint)
        return said + ", began " + points(band.low - truth) + " above the true " + shown +
               ": less worked than you allowed.";
    const double off = band.best - truth;
    if (std::abs(off) < 5)
        return said + ", held the truth, and your best value of " + base::rounded(band.best, 1) +
               " % was close to it.";
    return said + ", held the truth; your best value of " + base::rounded(band.best, 1) +
           " % was " + points(std::abs(off)) + (off > 0 ? " too high." : " too low.");
}

std::string workAlone(const OrganTruth& truth) {
    const std::string text = "Work is what counts here, and ";
    if (truth.work > 100 * agreement) return text + "there was more of it than in health.";
    return text + (sound(truth)   ? "most of it was there."
                   : spent(truth) ? "most of it was gone."
                                  : "a good part of it was gone.");
}

/// Leak against work, in one sentence. `flagged`: the leading result is flagged high; `echo`: and
/// it only drains from an earlier leak; `spoiled`: specimen or machine made the number.
std::string verdict(const Telling& t, const OrganTruth& truth, bool echo, bool flagged,
                    bool spoiled) {
    const Organ& organ = organOf(truth.organ);
    const bool loud = lesson::loud(t, truth);
    if (!organ.leaks || (!organ.marker && !loud)) return workAlone(truth);
    if (spoiled) return "The number tells of its way to the printout and not of the organ.";
    if (organ.marker && cellsLoud(truth) && !sound(truth) && !flagged)
        return "Each cell leaked hard and few were left: together they print an ordinary number.";
    if (loud)
        return sound(truth) ? "Leak was high and work was there: loud is not lost."
                            : "Leak and loss came together here, but the size of the one does not "
                              "give the size of the other.";
    if (echo)
        return sound(truth) ? "The number was still loud when the organ was quiet and at work: it "
                              "told of days before."
                            : "The number was still loud from an earlier leak; the organ behind it "
                              "was quiet, and not well.";
    if (!sound(truth))
        return std::string("Little leaked and ") + (spent(truth) ? "most" : "a good part") +
               " of the work was gone: quiet is not well.";
    const bool tests = !organ.workTests.empty();
    return std::string("Little leaked and the work was there; silence alone does not show that, ") +
           (tests ? "the tests of work and the exam do." : "the exam does.");
}

void append(std::vector<std::string>& to, const std::vector<std::string>& more) {
    to.insert(to.end(), more.begin(), more.end());
}

} // namespace

Paragraph organParagraph(const Telling& t, const OrganTruth& truth) {
    Paragraph out;
    out.heading = "The " + organName(truth.organ);
    auto& say = out.sentences;
    say.push_back(opened(t, truth));
    const std::vector<Leading> seen = leadingOverTime(t, truth.organ);
    if (!seen.empty()) say.push_back(levelSentence(t, seen.back()));
    const auto enzyme = markerOf(
        truth.organ, seen.empty() ? std::nullopt : std::optional(seen.back().result->analyte));
    if (enzyme) {
        append(say, flowSentences(t, truth, *enzyme));
        const bool same = !seen.empty() && seen.back().draw == t.last;
        append(say, drainSentences(t, *enzyme, same ? seen.back().result : nullptr));
    } else {
        append(say, functionSentences(t, truth));
    }
    append(say, actingSentences(t, truth, enzyme));
    append(say, serialSentences(t, truth, enzyme, seen));
    const bool alp =
        std::any_of(t.lesson.taken().begin(), t.lesson.taken().end(), [&](const Taken& taken) {
            return taken.draw == t.last && taken.report.find(body::Analyte::ALP);
        });
    if (alp && (truth.organ == body::Tissue::bone || truth.organ == body::Tissue::bileDucts))
        say.push_back(alpSentence(t));

    const OrganAnswer& said = t.lesson.answers().organs.at(truth.organ);
    if (said.leak) say.push_back(leakVerdict(*said.leak, truth.leak));
    say.push_back(workVerdict(*said.work, truth.work));
    const Band naive = *t.lesson.marks().naive.answers.organs.at(truth.organ).work;
    const double missed = std::abs(naive.best - std::min(truth.work, mostWork));
    if (!seen.empty() && missed >= 15) // worth telling
        say.push_back(std::string("A reader who takes ") +
                      (clue(truth.organ, seen.back().result->analyte)->output
                           ? "the number for the organ"
                           : "a bigger number for a sicker organ") +
                      " would have said " + base::rounded(naive.best, 1) +
                      " % work, and missed by " + base::rounded(missed, 1) + " points.");
    const bool flagged = !seen.empty() && seen.back().result->flag == lab::Flag::high;
    const bool echo = flagged && enzyme && level(t, *enzyme) > inflow(t, *enzyme) * agreement;
    const std::vector<body::Analyte>& faulty = t.lesson.truth().distrusted;
    const bool spoiled = !seen.empty() && std::find(faulty.begin(), faulty.end(),
                                                    seen.back().result->analyte) != faulty.end();
    say.push_back(verdict(t, truth, echo, flagged, spoiled));
    return out;
}

} // namespace cistern::lesson
