#include "reader/passage.h"

#include "lab/bench.h"

#include <algorithm>
#include <cmath>
#include <numbers>

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
    hidden_ = one.handedIn && bench.specimen;
    if (!bench.specimen) return;
    const lab::NeedleLaws& needle = bench.specimen->needle;
    needle_ = (one.handling.vein == "jugular" ? needle.hemolysisFast : needle.hemolysisSlow) +
              needle.hemolysisOfAttempt * (one.handling.attempts - 1);
    plain_ = seen_->hemolysis < brokenFrom &&
             alike(through(one.handling, nullptr, false).handled,
                   through(lab::Handling{}, nullptr, false).handled, healthy_);
}

double Passage::levelOf(const double* level, Analyte analyte) const {
    const auto item = static_cast<std::size_t>(analyte);
    return level && column_[item] >= 0 ? level[column_[item]] : healthy_[item];
}

Passage::Came Passage::through(const lab::Handling& handling, const double* level,
                               bool rich) const {
    const auto levels = [&](Analyte analyte) { return levelOf(level, analyte); };
    const auto come = [&](const lab::Drawn& drawn) {
        return lab::handled(*bench_->specimen, animals_[rich], levels, handling,
                            lab::cleanHemolysis, drawn);
    };
    Came out{come({})};
    out.free = out.handled.serum.color.hemolysis;
    const double broken = seen_->hemolysis - out.free;
    if (broken < brokenFrom - lab::cleanHemolysis) return out;
    lab::Drawn needle;
    needle.hemolysis = broken;
    out.handled = come(needle);
    return out;
}

std::optional<Passage::Came> Passage::came(const double* level, const Story& story,
                                           const Stories& stories) const {
    if (!bench_->specimen) return std::nullopt;
    const bool slipped = sample_ < story.slips.size() && story.slips[sample_].mishap >= 0;
    if (plain_ && !slipped) return std::nullopt;
    return through(stories.handling(story, sample_), level, story.potassiumRich);
}

double Passage::logIndex(double free) const {
    // A clean draw scatters by its spread, what is set free by a tenth, as animals' cells differ.
    constexpr double share = 0.1;
    // Least density, so that no color makes a story impossible: one in a thousand over 10 g/L.
    constexpr double anywhere = 1e-4;
    const lab::NeedleLaws& laws = bench_->specimen->needle;
    const auto normal = [](double x, double spread) {
        return std::exp(-x * x / 2) / (spread * std::sqrt(2 * std::numbers::pi));
    };
    const double spread = std::hypot(lab::cleanHemolysis * lab::cleanHemolysisSpread, share * free);
    const double more = seen_->hemolysis - free;
    double density = (1 - needle_) * normal(more / spread, spread) + anywhere;
    if (more > 0)
        density += needle_ * normal(std::log(more / laws.hemolysisSize) / laws.hemolysisSpread,
                                    laws.hemolysisSpread * more);
    return std::log(density);
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
