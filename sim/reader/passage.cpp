#include "reader/passage.h"

#include "lab/bench.h"

#include <algorithm>
#include <cmath>

namespace cistern::reader {

namespace {

using body::Analyte;

/// Share of a healthy level below which what handling does is not worth its time.
constexpr double negligible = 1e-3;

bool alike(const lab::Handled& a, const lab::Handled& b,
           const std::array<double, body::analyteCount>& level) {
    for (const auto specimen : {&lab::Handled::serum, &lab::Handled::plasma, &lab::Handled::citrate,
                                &lab::Handled::blood, &lab::Handled::urine})
        for (const Analyte analyte : body::analytes()) {
            const double x = level[static_cast<std::size_t>(analyte)];
            const double off = (a.*specimen).amount(analyte, x) - (b.*specimen).amount(analyte, x);
            if (std::abs(off) > negligible * x) return false;
        }
    return true;
}

} // namespace

Passage::Passage(const Question& question, std::size_t sample, const lab::Bench& bench,
                 const body::Species& species, const Wanted& wanted)
    : bench_(&bench), sample_(sample), seen_(&question.samples[sample].report.specimen.seen) {
    const Sample& one = question.samples[sample];
    body::Signalment who = question.who;
    for (const bool rich : {false, true}) {
        who.potassiumRichCells = rich;
        animals_[rich] = body::median(species, who);
    }
    const body::Snapshot rest =
        body::simulate(body::Plan{animals_[false], {}, one.hour, {one.hour}, {}, body::allParts})
            .at(0);
    const auto hour = std::find(wanted.hours.begin(), wanted.hours.end(), one.hour);
    for (const Analyte analyte : body::analytes()) {
        const auto item = static_cast<std::size_t>(analyte);
        healthy_[item] = rest.level(analyte);
        column_[item] =
            hour == wanted.hours.end()
                ? -1
                : wanted.column(static_cast<std::size_t>(hour - wanted.hours.begin()), analyte)
                      .value_or(-1);
    }
    if (bench.specimen)
        plain_ = seen_->hemolysis < brokenFrom &&
                 alike(through(one.handling, nullptr, false),
                       through(lab::Handling{}, nullptr, false), healthy_);
}

double Passage::levelOf(const double* level, Analyte analyte) const {
    const auto item = static_cast<std::size_t>(analyte);
    return level && column_[item] >= 0 ? level[column_[item]] : healthy_[item];
}

lab::Handled Passage::through(const lab::Handling& handling, const double* level, bool rich) const {
    const auto levels = [&](Analyte analyte) { return levelOf(level, analyte); };
    const auto come = [&](const lab::Drawn& drawn) {
        return lab::handled(*bench_->specimen, animals_[rich], levels, handling,
                            lab::cleanHemolysis, drawn);
    };
    lab::Handled out = come({});
    const double broken = seen_->hemolysis - out.serum.color.hemolysis;
    if (broken < brokenFrom - lab::cleanHemolysis) return out;
    lab::Drawn needle;
    needle.hemolysis = broken;
    return come(needle);
}

std::optional<lab::Handled> Passage::handled(const double* level, const Story& story,
                                             const Stories& stories) const {
    if (!bench_->specimen) return std::nullopt;
    const bool slipped = sample_ < story.slips.size() && story.slips[sample_].mishap >= 0;
    if (plain_ && !slipped) return std::nullopt;
    return through(stories.handling(story, sample_), level, story.potassiumRich);
}

lab::Alteration Passage::usual(const double* level, Analyte analyte) const {
    lab::Alteration change;
    if (analyte != Analyte::K || !bench_->specimen) return change;
    const body::Individual& animal = animals_[false];
    change.plus = bench_->specimen->of(animal.who.kind).plateletPotassium *
                  (levelOf(level, Analyte::platelets) - animal.own.platelets.count);
    return change;
}

double Passage::solids(const double* level) const {
    return lab::solidsIn(animals_[false], levelOf(level, Analyte::protein),
                         levelOf(level, Analyte::triglycerides));
}

} // namespace cistern::reader
