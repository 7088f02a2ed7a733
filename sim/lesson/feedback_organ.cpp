#include "base/text.h"
#include "lab/change.h"
#include "lesson/telling.h"

#include <algorithm>
#include <cmath>

namespace cistern::lesson {

namespace {

constexpr double loudFold = 2;     // leak from which an organ counts as loud
constexpr double soundWork = 0.75; // share of work from which it counts as sound
constexpr double aChange = 0.05;   // share of work worth a word between two draws
// Two factors agree if they differ by less than this: about what the analyzer cannot tell apart.
constexpr double agreement = 1.2;

bool alike(double a, double b) {
    return a < b * agreement && b < a * agreement;
}

/// The plasma pool that an organ's leading enzyme is; none for the kidney, which leaks no marker.
std::optional<body::Pool> pool(body::Tissue organ) {
    switch (organ) {
    case body::Tissue::liver:
        return body::Pool::ALT;
    case body::Tissue::bileDucts:
        return body::Pool::GGT;
    case body::Tissue::skeletalMuscle:
        return body::Pool::CK;
    case body::Tissue::bone:
        return body::Pool::boneALP;
    case body::Tissue::kidney:
        return std::nullopt;
    }
    return std::nullopt;
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

bool loud(const OrganTruth& truth) {
    return truth.leak >= loudFold;
}
bool sound(const OrganTruth& truth) {
    return truth.work >= 100 * soundWork;
}

std::string corner(const OrganTruth& truth) {
    if (truth.organ == body::Tissue::kidney) return sound(truth) ? "sound" : "spent";
    if (sound(truth)) return loud(truth) ? "sound and loud" : "sound and quiet";
    return loud(truth) ? "hurt and loud" : "spent and quiet";
}

std::string opened(const Telling& t, const OrganTruth& truth) {
    const std::string when =
        t.lesson.taken().size() > 1 ? "At the last draw " : "When the blood was drawn ";
    std::string text = when + percent(truth.work / 100) + " of " + t.her() + " " +
                       organName(truth.organ) + " worked";
    if (truth.organ != body::Tissue::kidney)
        text += ", and each living gram leaked " +
                (fold(truth.leak) == "1" ? "as in health"
                                         : fold(truth.leak) + " times what it leaks in health");
    return text + ": " + corner(truth) + ".";
}

/// "The printed ALT of 96 U/L is 2.4 times her own healthy 40 U/L; it lies inside the interval."
std::string levelSentence(const Telling& t, const Leading& leading) {
    const lab::Result& result = *leading.result;
    const double own = t.twin[leading.draw].level(result.analyte);
    std::string text = "The printed " + t.called(result.analyte) + " of " + t.amount(result);
    const std::string times = own > 0 ? fold(result.value / own) : "1";
    text += (times == "1" ? " is " : " is " + times + " times ") + t.her() + " own healthy " +
            t.amount(own, result.analyte);
    if (result.interval && result.flag == lab::Flag::none)
        text += ", and carries no flag";
    else if (result.interval)
        text += result.flag == lab::Flag::high ? ", and is flagged high" : ", and is flagged low";
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
        sum += ", more than that, because cells can live and leak without doing their work, can "
               "hold more of the enzyme, or have died and still seep";
    else if (inflow < product / agreement)
        sum += ", less than that, because part of it was still on its way or fewer cells were "
               "there to send it";
    if (alike(product, 1) && alike(inflow, 1))
        sum = "No more " + enzyme + " than the healthy flow went into " + t.her() + " blood then";
    out.push_back(sum + ".");

    if (level > inflow * agreement)
        out.push_back(
            "The level, " + fold(level) + " times " + t.her() +
            " own, stood above what that inflow holds up: it was draining from an earlier "
            "leak.");
    else if (level < inflow / agreement)
        out.push_back("The level, " + fold(level) + " times " + t.her() +
                      " own, had not caught up with that inflow: it was still filling.");
    if (!sound(truth) && truth.organ != body::Tissue::bone)
        out.push_back(
            "A whole " + organName(truth.organ) + " sending out " + fold(inflow) +
            " times its healthy flow would print the same number: the number alone cannot "
            "tell the two apart.");
    return out;
}

/// How long the level remembers.
std::vector<std::string> drainSentences(const Telling& t, const OrganTruth& truth, body::Pool pool,
                                        const lab::Result* leading) {
    const double halfLife = parameters(t, pool).halfLife;
    const double own = t.healthy().pool(pool), level = t.was().pool(pool);
    const std::string enzyme(body::name(pool));
    std::vector<std::string> out;
    std::string text =
        capital(enzyme) + " halves in " + span(halfLife) + " in " + t.her() + " blood";
    if (level > own * agreement && leading) {
        const double wait = halfLife > 12 ? 72 : 24;               // [h]
        const double floor = own * std::min(1.0, inflow(t, pool)); // what a spent organ holds up
        const double then = floor + (level - floor) * std::exp2(-wait / halfLife);
        text += "; without further leak about " + t.amount(then, leading->analyte) +
                " would be left after " + span(wait);
        const double limit = leading->interval ? leading->interval->high : 0;
        const double gone =
            limit > own ? halfLife * std::log2((level - floor) / (limit - floor)) : 0;
        if (gone > 0)
            text += " and the flag would be gone " +
                    (gone < 1 ? "within an hour" : "after " + span(gone));
    }
    out.push_back(text + ".");

    std::optional<double> ended;
    bool goingOn = false;
    for (const body::Insult& insult : t.lesson.subject().insults) {
        if (!insult.kind || insult.kind->tissue != truth.organ || insult.from >= t.was().hour)
            continue;
        if (insult.to >= t.was().hour) goingOn = true;
        ended = std::max(ended.value_or(insult.to), insult.to);
    }
    if (goingOn) {
        out.push_back("What acted on the " + organName(truth.organ) + " was still at work then.");
    } else if (ended) {
        const double since = t.was().hour - *ended;
        out.push_back("What acted on the " + organName(truth.organ) + " had ended " + span(since) +
                      " before, " + fold(since / halfLife) + " half-lives of " + enzyme +
                      ": of what was in the blood by then, " +
                      percent(std::exp2(-since / halfLife)) + " was left.");
    }
    return out;
}

/// Two draws: the pace of the fall against the pace of the drain, and what work did meanwhile.
std::vector<std::string> serialSentences(const Telling& t, const OrganTruth& truth, body::Pool pool,
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
    if (!lab::moved(*first.result, *second.result, wobble) && std::abs(now - then) < aChange)
        return {};
    std::vector<std::string> out;
    std::string text = capital(t.called(first.result->analyte)) + " went from " +
                       t.amount(*first.result) + " to " + t.amount(*second.result) + " in " +
                       span(time);
    const double own = t.twin[second.draw].level(first.result->analyte);
    const double a = first.result->value - own, b = second.result->value - own;
    if (a > own * (agreement - 1) && b > 0 && b < a) {
        const double pace = time * std::log(2.0) / std::log(a / b);
        text += ": what lay above " + t.her() + " own level halved every " + span(pace) +
                ", where the drain alone takes " + span(parameters(t, pool).halfLife);
    }
    text += "; meanwhile the work of the " + organName(truth.organ) + " went from " +
            percent(then) + " to " + percent(now);
    out.push_back(text + ".");
    if (second.result->value < first.result->value && now < then - aChange)
        out.push_back("A falling enzyme was not recovery here.");
    if (second.result->value > first.result->value && now > then + aChange)
        out.push_back("A rising enzyme was not a loss here.");
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

std::string filtrationSentence(const Telling& t) {
    const auto gfr = [](const body::Snapshot& at) { return at.value[body::reading::gfr]; };
    std::string text = "Creatinine does not leak from the kidney: muscle makes it and the kidney "
                       "drains it. " +
                       capital(t.she()) + " filtered " + base::significant(gfr(t.was()), 2) +
                       " mL/min/kg, " + percent(gfr(t.was()) / gfr(t.healthy())) + " of " +
                       t.her() + " healthy " + base::significant(gfr(t.healthy()), 2);
    const double filtered = gfr(t.was()) / gfr(t.healthy());
    if (filtered > t.was().work(body::Tissue::kidney) * agreement)
        text += "; the nephrons that were left each did more than their share";
    const double hydration = t.was().value[body::reading::hydration];
    if (hydration < 0.97) text += ", with " + percent(hydration) + " of " + t.her() + " body water";
    return text + ".";
}

std::string leakVerdict(const Band& band, double truth) {
    const std::string said =
        "Your leak band, " + fold(band.low) + " to " + fold(band.high) + " fold";
    if (truth > band.high)
        return said + ", ended " + fold(truth / band.high) + " times below the true " +
               fold(truth) + ": you took it for quieter than it was.";
    if (truth < band.low)
        return said + ", began " + fold(band.low / std::max(truth, leastLeak)) +
               " times above the true " + fold(truth) + ": you took it for louder than it was.";
    const double off = std::max(truth, leastLeak) / band.best;
    if (off < agreement && off > 1 / agreement)
        return said + ", held the truth, and your best value of " + fold(band.best) +
               " was close to it.";
    return said + ", held the truth; your best value of " + fold(band.best) + " was " +
           fold(off > 1 ? off : 1 / off) + " times too " + (off > 1 ? "low." : "high.");
}

std::string workVerdict(const Band& band, double truth) {
    const auto points = [](double x) {
        const std::string text = base::rounded(x, 1);
        return text + (text == "1" ? " point" : " points");
    };
    const std::string said = "Your work band, " + base::rounded(band.low, 1) + " to " +
                             base::rounded(band.high, 1) + " %";
    const std::string real = base::rounded(truth, 1) + " %";
    if (truth > band.high)
        return said + ", ended " + points(truth - band.high) + " below the true " + real +
               ": more worked than you allowed.";
    if (truth < band.low)
        return said + ", began " + points(band.low - truth) + " above the true " + real +
               ": less worked than you allowed.";
    const double off = band.best - truth;
    if (std::abs(off) < 5)
        return said + ", held the truth, and your best value of " + base::rounded(band.best, 1) +
               " % was close to it.";
    return said + ", held the truth; your best value of " + base::rounded(band.best, 1) +
           " % was " + points(std::abs(off)) + (off > 0 ? " too high." : " too low.");
}

/// Leak against work, in one sentence. `flagged`: the leading result is flagged high; `echo`: and
/// it only drains from an earlier leak.
std::string verdict(const OrganTruth& truth, bool echo, bool flagged) {
    if (truth.organ == body::Tissue::kidney)
        return sound(truth) ? "Work is what counts here, and most of it was there."
                            : "Work is what counts here, and a good part of it was gone.";
    if (loud(truth) && !sound(truth) && !flagged)
        return "Each cell leaked hard and few were left: together they print an ordinary number.";
    if (loud(truth))
        return sound(truth) ? "Leak was high and work was there: loud is not lost."
                            : "Leak and loss came together here, but the size of the one does not "
                              "give the size of the other.";
    if (echo)
        return sound(truth) ? "The number was still loud when the organ was quiet and at work: it "
                              "told of days before."
                            : "The number was still loud from an earlier leak; the organ behind it "
                              "was quiet and spent.";
    if (!sound(truth)) return "Little leaked and work was gone: quiet is not well.";
    const bool tests = !workTests(truth.organ).empty();
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
    const auto enzyme = pool(truth.organ);
    auto& say = out.sentences;
    say.push_back(opened(t, truth));
    const std::vector<Leading> seen = leadingOverTime(t, truth.organ);
    if (!seen.empty()) say.push_back(levelSentence(t, seen.back()));
    if (enzyme) {
        append(say, flowSentences(t, truth, *enzyme));
        const bool same = !seen.empty() && seen.back().draw == t.last;
        append(say, drainSentences(t, truth, *enzyme, same ? seen.back().result : nullptr));
        append(say, serialSentences(t, truth, *enzyme, seen));
    } else {
        say.push_back(filtrationSentence(t));
    }
    const bool alp =
        std::any_of(t.lesson.taken().begin(), t.lesson.taken().end(), [&](const Taken& taken) {
            return taken.draw == t.last && taken.report.find(body::Analyte::ALP);
        });
    if (alp && (truth.organ == body::Tissue::bone || truth.organ == body::Tissue::bileDucts))
        say.push_back(alpSentence(t));

    const OrganAnswer& said = t.lesson.answers().organs.at(truth.organ);
    say.push_back(leakVerdict(*said.leak, truth.leak));
    say.push_back(workVerdict(*said.work, truth.work));
    const Band naive = *t.lesson.marks().naive.answers.organs.at(truth.organ).work;
    if (!seen.empty() && std::abs(naive.best - truth.work) >= 15) // a miss worth telling
        say.push_back("A reader who takes a bigger number for a sicker organ would have said " +
                      base::rounded(naive.best, 1) + " % work, and missed by " +
                      base::rounded(std::abs(naive.best - truth.work), 1) + " points.");
    const bool flagged = !seen.empty() && seen.back().result->flag == lab::Flag::high;
    const bool echo = flagged && enzyme && level(t, *enzyme) > inflow(t, *enzyme) * agreement;
    say.push_back(verdict(truth, echo, flagged));
    return out;
}

} // namespace cistern::lesson
