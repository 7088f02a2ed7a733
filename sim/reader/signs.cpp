#include "reader/signs.h"

#include <algorithm>
#include <cmath>
#include <limits>

// How rows of assets/priors are put to use: the rules stand in those files' notes and are judgement
// of this project, to be held against what is known of whole groups of animals.

namespace cistern::reader {

namespace {

/// Signs that take days to show: an insult younger than this [h] counts for this share of what it
/// adds.
constexpr double aDay = 24, withinADay = 0.5;

/// Body water as a share of body weight, in health: `water.total` of both species, in L/kg.
constexpr double waterOfWeight = 0.6;

/// No sign is certain, nor out of the question: examiners err, and notes are mixed up.
constexpr double leastChance = 1e-5;

double logit(double share) {
    return std::log(share / (1 - share));
}

double logistic(double x) {
    return 1 / (1 + std::exp(-x));
}

double certain(double chance) {
    return std::clamp(chance, leastChance, 1 - leastChance);
}

} // namespace

std::vector<Sign> signsOf(const std::vector<Stated>& findings, const Priors& priors,
                          body::Kind kind) {
    std::vector<Sign> signs;
    const auto add = [&](const std::string& name, bool there) {
        const bool twice = std::any_of(signs.begin(), signs.end(),
                                       [&](const Sign& one) { return one.name == name; });
        if (priors.sign(name) && !twice) signs.push_back({name, there});
    };
    for (const Stated& finding : findings)
        if (finding.there) add(finding.finding, *finding.there);
    for (const Stated& finding : findings) {
        if (!finding.value) continue;
        for (const Threshold& one : priors.thresholds) {
            if (one.finding != finding.finding) continue;
            const double limit = one.limit[static_cast<std::size_t>(kind)];
            add(one.sign, one.above ? *finding.value > limit : *finding.value < limit);
        }
    }
    return signs;
}

SignEvidence::SignEvidence(const Priors& priors, const Question& question)
    : priors_(&priors),
      kind_(static_cast<std::size_t>(question.who.kind)),
      presented_(question.presented()),
      stories_(priors, question) {
    for (const InsultPrior& one : priors.insults) insults_.push_back(&one);
    for (const InsultPrior& one : question.own) insults_.push_back(&one);
    for (const Sign& sign : question.signs) {
        Asked asked;
        asked.there = sign.there;
        asked.prior = priors.sign(sign.name);
        asked.checkUp = asked.usual = 0;
        if (asked.prior) {
            asked.checkUp = asked.prior->checkUp[kind_];
            asked.usual = asked.prior->complaint[kind_];
            for (const InsultPrior* insult : insults_) {
                const auto row = insult->shows[kind_].find(sign.name);
                asked.rows.push_back(row == insult->shows[kind_].end()
                                         ? std::numeric_limits<double>::quiet_NaN()
                                         : row->second);
            }
            for (const Link& link : asked.prior->links) {
                if (link.analyte || link.dryness) needsState_ = true;
                if (link.analyte &&
                    std::find(analytes_.begin(), analytes_.end(), *link.analyte) == analytes_.end())
                    analytes_.push_back(*link.analyte);
            }
        }
        asked_.push_back(std::move(asked));
    }
}

/// Insults at once: each adds its own chance to what is usual, as if they were independent; but one
/// that keeps a sign away (a row below the usual) keeps it away from the others too.
double SignEvidence::fromTables(const Asked& asked, double usual,
                                const std::vector<Cause>& causes) const {
    double without = 1 - usual, least = usual;
    for (const Cause& cause : causes) {
        const double row = asked.rows[cause.row];
        if (std::isnan(row)) continue;
        if (row < usual) {
            least = std::min(least, row);
            continue;
        }
        const double chance =
            asked.prior->graded
                ? logistic(logit(certain(row)) + priors_->gradedBy * cause.event->severity)
                : row;
        double added = std::max(0., 1 - (1 - chance) / (1 - usual));
        if (asked.prior->slow && presented_ - cause.insult.from < aDay) added *= withinADay;
        without *= 1 - added;
    }
    return least < usual ? least : 1 - without;
}

double SignEvidence::fromState(const Asked& asked, double usual, const std::vector<Cause>& causes,
                               const body::Snapshot& presented) const {
    double without = 1 - usual;
    for (const Link& link : asked.prior->links) {
        double x = 0;
        if (link.analyte) {
            x = presented.level(*link.analyte);
        } else if (link.dryness) {
            x = (1 - presented.at(body::reading::hydration)) * waterOfWeight;
        } else {
            const auto cause = std::find_if(causes.begin(), causes.end(), [&](const Cause& one) {
                return one.insult.kind == link.insult;
            });
            if (cause == causes.end() || cause->insult.to < presented_) continue;
            x = cause->insult.severity;
        }
        without *= 1 - link.ceiling * logistic((x - link.half[kind_]) / link.width[kind_]);
    }
    return 1 - without;
}

std::vector<double> SignEvidence::chances(const Story& story,
                                          const body::Snapshot& presented) const {
    std::vector<Cause> causes;
    causes.reserve(story.events.size());
    for (const Event& event : story.events) {
        const auto at = std::find(insults_.begin(), insults_.end(), event.prior);
        causes.push_back(
            {&event, stories_.insult(event), static_cast<std::size_t>(at - insults_.begin())});
    }
    std::vector<double> all;
    all.reserve(asked_.size());
    for (const Asked& asked : asked_) {
        if (!asked.prior) {
            all.push_back(1);
            continue;
        }
        const double usual = certain(story.checkUp ? asked.checkUp : asked.usual);
        const double there = asked.prior->links.empty()
                                 ? fromTables(asked, usual, causes)
                                 : fromState(asked, usual, causes, presented);
        // Who tells: some of what is there is missed, some is told that is not there.
        const double told =
            certain(there * (1 - asked.prior->missed) +
                    (1 - there) * asked.prior->calledWhenAbsent.value_or(asked.checkUp));
        all.push_back(asked.there ? told : 1 - told);
    }
    return all;
}

double SignEvidence::log(const std::vector<double>& chances) const {
    double sum = 0;
    for (std::size_t i = 0; i < chances.size(); ++i) {
        const SignPrior* prior = asked_[i].prior;
        sum += (prior && prior->general ? priors_->together : 1) * std::log(chances[i]);
    }
    return sum;
}

} // namespace cistern::reader
