#include "lesson/feedback.h"

#include "base/text.h"
#include "lesson/organ.h"
#include "lesson/telling.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace cistern::lesson {

namespace {

// A true level counts as changed beyond this share of the animal's own, as unchanged within the
// smaller one; between the two nothing is said of it.
constexpr double changed = 0.25, unchanged = 0.05;

// A silent change is told if it is more than this share of the interval's width.
constexpr double worthTelling = 0.15;

bool has(const std::vector<std::string>& list, const std::string& name) {
    return std::find(list.begin(), list.end(), name) != list.end();
}

bool hasAnalyte(const std::vector<body::Analyte>& list, body::Analyte analyte) {
    return std::find(list.begin(), list.end(), analyte) != list.end();
}

/// The last result of an analyte and its draw.
struct Found {
    const lab::Result* result = nullptr;
    std::size_t draw = 0;
};

Found lastResult(const Telling& t, body::Analyte analyte) {
    Found found;
    for (const Taken& taken : t.lesson.taken())
        if (const lab::Result* result = taken.report.find(analyte)) found = {result, taken.draw};
    return found;
}

/// Share by which the true level differed from the healthy twin's.
double shift(const Telling& t, std::size_t draw, body::Analyte analyte) {
    const double own = varying(t.twin[draw].level(analyte), analyte);
    const double level = varying(t.lesson.inside(draw).level(analyte), analyte);
    if (own > 0) return level / own - 1;
    return level > 0 ? std::numeric_limits<double>::infinity() : 0; // none in health
}

/// "bile acids, 78 umol/L where 5 umol/L is her own"
std::string against(const Telling& t, const std::string& amount, std::size_t draw,
                    body::Analyte analyte) {
    return t.called(analyte) + ", " + amount + " where " +
           t.amount(t.twin[draw].level(analyte), analyte) + " is " + t.her() + " own";
}

/// True if a result that went up, or down, went the way in which lost work moves it.
bool asLost(WorkTest::Way lost, bool up) {
    return lost == WorkTest::Way::either || up == (lost == WorkTest::Way::up);
}

/// True if a draw that was taken offered a test with this analyte that the learner left out.
bool leftOut(const Telling& t, body::Analyte analyte) {
    for (std::size_t draw = 0; draw < t.lesson.chosen().size(); ++draw)
        for (const std::string& name : t.lesson.subject().draws[draw].tests) {
            const lab::Test* test = t.lesson.knowledge().bench.test(name);
            if (test && hasAnalyte(test->analytes, analyte) && !has(t.lesson.chosen()[draw], name))
                return true;
        }
    return false;
}

Paragraph told(const Telling& t) {
    Paragraph out{"What the results could tell", {}};
    for (const OrganTruth& truth : t.lesson.truth().organs)
        for (std::string& sentence : workSentences(t, truth))
            out.sentences.push_back(std::move(sentence));
    for (std::string& sentence : flagSentences(t)) out.sentences.push_back(std::move(sentence));
    return out;
}

Paragraph explained(const Telling& t) {
    Paragraph out{"What was going on", {}};
    const Truth& truth = t.lesson.truth();
    const Answers& said = t.lesson.answers();
    std::vector<std::string> names;
    double right = 0, most = 0;
    std::string favorite;
    for (const std::string& one : t.lesson.subject().explanations) {
        const auto at = said.points.find(one);
        const double points = at == said.points.end() ? 0 : at->second;
        if (has(truth.explanations, one)) {
            names.push_back(one);
            right += points;
        }
        if (points > most) {
            most = points;
            favorite = one;
        }
    }
    if (!names.empty()) {
        out.sentences.push_back("True here: " + joined(names) + ". You gave " +
                                base::rounded(right, 1) + " of 100 points to it.");
        constexpr double evenly = 1; // 100 points over six differ by so much
        if (!has(names, favorite) && most > right + evenly)
            out.sentences.push_back("Most of your points, " + base::rounded(most, 1) +
                                    ", went to " + favorite + ".");
    }
    if (!truth.next.empty() && said.next) {
        std::string text = "Your next step: " + *said.next + ".";
        if (*said.next == truth.next.front())
            text += " That is the best step here.";
        else if (has(truth.next, *said.next))
            text += " That is sensible; better still: " + truth.next.front() + ".";
        else
            text += " It would help little here; better: " + base::listed(truth.next) + ".";
        out.sentences.push_back(text);
    }
    return out;
}

Paragraph examined(const Telling& t) {
    Paragraph out{"What the exam could tell", {}};
    std::vector<std::string> present, absent;
    for (const Finding& finding : t.lesson.subject().exam) {
        if (finding.value) continue;
        if (finding.degree == "absent")
            absent.push_back(finding.name);
        else
            present.push_back(finding.degree.empty() ? finding.name
                                                     : finding.name + " (" + finding.degree + ")");
    }
    if (!present.empty()) out.sentences.push_back("Found: " + joined(present) + ".");
    if (!absent.empty())
        out.sentences.push_back("Looked for and not there: " + joined(absent) + ".");
    if (!t.lesson.subject().settles.empty())
        out.sentences.push_back("What settled it: " + t.lesson.subject().settles);
    return out;
}

Paragraph closing(const Case& subject) {
    Paragraph out{"To take home", {}};
    if (!subject.trap.empty()) out.sentences.push_back("The trap: " + subject.trap);
    if (!subject.debrief.empty()) out.sentences.push_back(subject.debrief);
    return out;
}

} // namespace

std::vector<std::string> workSentences(const Telling& t, const OrganTruth& truth) {
    const std::string organ(body::name(truth.organ));
    const std::vector<WorkTest>& tests = organOf(truth.organ).workTests;
    if (tests.empty())
        return {"No result here measures what the " + organ +
                " does: its work is read from the exam."};
    if (truth.organ == body::Tissue::pancreas && truth.leak > 1 + changed)
        return {"TLI speaks of the work of the pancreas only while the pancreas does not leak."};
    std::vector<std::string> moved, otherWay, still, byChance, out;
    std::string left, never;
    bool albuminStill = false;
    for (const auto& [analyte, lost] : tests) {
        const Found found = lastResult(t, analyte);
        if (found.result) {
            const std::string text = against(t, t.amount(*found.result), found.draw, analyte);
            const bool went = t.moved(*found.result, found.draw);
            if (went && std::abs(shift(t, found.draw, analyte)) < unchanged) {
                byChance.push_back(capital(text) +
                                   (hasAnalyte(t.lesson.truth().distrusted, analyte)
                                        ? ": specimen or machine made that, "
                                        : ": that is chance, ") +
                                   "the true level had not moved.");
                continue;
            }
            const bool up = found.result->value > t.twin[found.draw].level(analyte);
            if (!went)
                still.push_back(t.called(analyte));
            else
                (asLost(lost, up) ? moved : otherWay).push_back(text);
            albuminStill = albuminStill || (!went && analyte == body::Analyte::albumin);
        } else if (std::abs(shift(t, t.last, analyte)) > changed &&
                   asLost(lost, shift(t, t.last, analyte) > 0) &&
                   t.lesson.knowledge().bench.find(analyte)) {
            const std::string text =
                against(t, t.amount(t.was().level(analyte), analyte), t.last, analyte);
            std::string& list = leftOut(t, analyte) ? left : never;
            list += (list.empty() ? "" : "; ") + text;
        }
    }
    const std::string about = "Of the results that speak of the work of the " + organ + ", ";
    if (!moved.empty()) {
        std::string text = about + "these had moved beyond what wobble and analyzer explain: ";
        for (std::size_t i = 0; i < moved.size(); ++i) text += (i == 0 ? "" : "; ") + moved[i];
        out.push_back(text + ".");
        if (!still.empty()) out.push_back("Not moved: " + joined(still) + ".");
        if (truth.work > 90 && truth.work < 110)
            out.push_back("The work was there all the same: no such result speaks of one thing "
                          "alone.");
    } else if (!still.empty()) {
        out.push_back(about +
                      (otherWay.empty() ? "none had moved from " + t.her() + " own: "
                                        : std::string("these had not moved: ")) +
                      joined(still) + ".");
    }
    if (!otherWay.empty()) {
        std::string text = "Moved, but not the way lost work moves it: ";
        for (std::size_t i = 0; i < otherWay.size(); ++i)
            text += (i == 0 ? "" : "; ") + otherWay[i];
        out.push_back(text + ".");
    }
    out.insert(out.end(), byChance.begin(), byChance.end());
    if (albuminStill && truth.organ == body::Tissue::liver && truth.work < 75)
        out.push_back("Albumin halves in " + span(t.lesson.animal().own.protein.albuminHalfLife) +
                      ", so a loss that is young does not show in it yet.");
    if (!left.empty()) out.push_back("You left out what would have told: " + left + ".");
    if (!never.empty()) out.push_back("Not on offer, but it would have told: " + never + ".");
    return out;
}

std::vector<std::string> flagSentences(const Telling& t) {
    std::vector<std::string> out, idle, hidden;
    for (const body::Analyte analyte : t.lesson.questions().results) {
        const Found found = lastResult(t, analyte);
        if (!found.result || !found.result->interval) continue;
        if (hasAnalyte(t.lesson.truth().distrusted, analyte)) continue; // see doubtSentences
        const auto& limits = found.result->interval;
        const double own = t.twin[found.draw].level(analyte);
        const double off = shift(t, found.draw, analyte);
        const std::string text = t.called(analyte) + " " + t.amount(*found.result);
        if (found.result->flag != lab::Flag::none && std::abs(off) < unchanged)
            idle.push_back(text);
        else if (found.result->flag == lab::Flag::none && std::abs(off) > changed &&
                 std::abs(t.lesson.inside(found.draw).level(analyte) - own) >
                     worthTelling * (limits->high - limits->low) &&
                 t.moved(*found.result, found.draw))
            hidden.push_back(text + " (own " + t.amount(own, analyte) + ")");
    }
    int results = 0;
    for (const lab::Result& result : t.lesson.taken().back().report.results)
        results += result.interval.has_value();
    if (!idle.empty())
        out.push_back(
            "Flagged, though nothing had moved it from " + t.her() + " own level: " + joined(idle) +
            ". Of " + std::to_string(results) +
            " results of a healthy animal at least one is flagged about " +
            base::rounded(100 * lab::chanceOfOneOutside(results, t.lesson.subject().who.kind,
                                                        t.lesson.knowledge().bench),
                          1) +
            " times in 100.");
    if (!hidden.empty())
        out.push_back("Not flagged, though far from " + t.her() + " own level: " + joined(hidden) +
                      ". The interval belongs to many animals, not to this one.");
    return out;
}

namespace {

/// "In her own blood then: K 4.6 mmol/L (printed 9.5 mmol/L)", of the first draw that was spoiled.
std::string spoiled(const Telling& t) {
    const Taken& draw = t.lesson.taken().front();
    std::vector<std::string> levels;
    for (const body::Analyte analyte : t.lesson.truth().distrusted)
        if (const lab::Result* result = draw.report.find(analyte))
            levels.push_back(t.called(analyte) + " " +
                             t.amount(t.lesson.inside(draw.draw).level(analyte), analyte) +
                             " (printed " + t.amount(*result) + ")");
    return levels.empty() ? "" : "In " + t.her() + " own blood then: " + joined(levels) + ".";
}

} // namespace

std::vector<std::string> doubtSentences(const Telling& t) {
    const std::vector<body::Analyte>& faulty = t.lesson.truth().distrusted;
    const std::vector<body::Analyte>& doubted = t.lesson.answers().distrusted;
    std::vector<std::string> caught, missed, wronged, out;
    for (const body::Analyte analyte : t.lesson.questions().results) {
        const bool bad = hasAnalyte(faulty, analyte), doubt = hasAnalyte(doubted, analyte);
        if (bad && doubt) caught.push_back(t.called(analyte));
        if (bad && !doubt) missed.push_back(t.called(analyte));
        if (!bad && doubt) wronged.push_back(t.called(analyte));
    }
    if (!caught.empty()) out.push_back("Rightly doubted: " + joined(caught) + ".");
    if (!missed.empty()) out.push_back("Trusted, but it deserved doubt: " + joined(missed) + ".");
    if (!wronged.empty()) out.push_back("Doubted, but it was sound: " + joined(wronged) + ".");
    if (std::string levels = spoiled(t); !levels.empty()) out.push_back(std::move(levels));
    return out;
}

std::vector<Paragraph> feedback(const Lesson& lesson, lab::Units units) {
    const Telling t(lesson, units);
    std::vector<Paragraph> all;
    for (const OrganTruth& truth : lesson.truth().organs) all.push_back(organParagraph(t, truth));
    all.push_back(told(t));
    all.push_back({"The specimen", doubtSentences(t)});
    all.push_back(explained(t));
    all.push_back(examined(t));
    for (Paragraph& one : readerParagraphs(t)) all.push_back(std::move(one));
    all.push_back(closing(lesson.subject()));
    std::erase_if(all, [](const Paragraph& one) { return one.sentences.empty(); });
    return all;
}

} // namespace cistern::lesson
