#include "lab/counter/pass.h"

#include "lab/counter/coincidence.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

constexpr double redPerMicroliter = 1e6;   // of 10*12/L
constexpr double smallPerMicroliter = 1e3; // of 10*9/L

/// A hole as it stands: how crowded its sensing space is and what it lets through.
struct Hole {
    const Channel& channel;
    double clogged;

    double open() const { return 1 - clogged; }
    /// Pulses are as high as the share of the current's path that a cell takes: for one cell as the
    /// inverse square of the open area (Coulter's principle).
    double height() const { return 1 / (open() * open()); }
    /// Share of the metered volume that passes before patience ends; flow goes with the area.
    double passed(double patience) const { return std::min(1., patience * open()); }
    /// Cells in the sensing space, of particles per uL of thinned blood.
    double crowding(double perMicroliter) const {
        return perMicroliter * sensingVolume(channel.aperture) * std::pow(open(), 1.5);
    }
    /// Particles from pulses in the metered volume, as the machine corrects them.
    double corrected(double pulses) const {
        const double space = sensingVolume(channel.aperture) / channel.metered;
        constexpr double fullest = 0.9; // more pulses than that the machine takes for that many
        return correctedCells(pulses, std::min(pulses * space, fullest));
    }
    /// Blood counted [uL].
    double blood() const { return channel.metered / channel.dilution; }
};

Hole hole(const Channel& channel, double clogged) {
    if (!(clogged >= 0 && clogged < 1))
        throw std::invalid_argument("a hole that is clogged altogether counts nothing");
    return {channel, clogged};
}

double logSpread(double variation) {
    return std::sqrt(std::log1p(variation * variation));
}
/// Median of a log-normal distribution with this mean.
double medianOf(double mean, double spread) {
    return mean * std::exp(-spread * spread / 2);
}

/// Platelets of the tube by how they swim [10*9/L].
struct Platelets {
    double single, large, clumps, clumpVolume; // [fL], mean

    Platelets(const Blood& blood, const CellSizes& sizes) {
        const double all = blood.platelets * (1 - blood.wear.plateletsLost);
        const double free = all * (1 - blood.wear.clumped);
        const double mean =
            sizes.platelet * std::exp(sizes.plateletSpread * sizes.plateletSpread / 2);
        single = free * (1 - blood.large);
        large = free * blood.large;
        clumps = plateletClumps(blood);
        clumpVolume = blood.wear.clumpSize * mean;
    }
};

/// Expected pulses of red cells, alone and two together, in the channels.
void expectRed(Sizes& sizes, const Counter& counter, const Blood& blood, double pulses,
               double together, double gain, double noise) {
    if (!(blood.red > 0)) return;
    // Young cells are larger, with the mean of all as given.
    const double young = std::clamp(blood.reticulocytes / 1000 / blood.red, 0., 1.);
    const double ripe =
        blood.volume * blood.wear.swelling / (1 - young + young * counter.reticulocyteVolume);
    const double spread = std::hypot(logSpread(counter.sizes(blood.kind).redSpread), noise);
    for (const auto& [share, fold] :
         {std::pair{1 - young, 1.}, std::pair{young, counter.reticulocyteVolume}}) {
        const double median = medianOf(ripe * fold * gain, spread);
        sizes.expect(pulses * share * (1 - together), median, spread);
        sizes.expect(pulses * share * together, median * (1 + counter.overlap), spread);
    }
}

/// The size between which platelets end and red cells begin, at most this far from either.
constexpr double aboveMostPlatelets = 1.5; // standard deviations of their logarithm
constexpr double belowMostRed = 2;

struct Gate {
    std::size_t first, divide, last;
};

Gate gate(const Sizes& seen, const Counter& counter, const CellSizes& cells, double redMean) {
    const double from = cells.platelet * std::exp(aboveMostPlatelets * cells.plateletSpread);
    const double to =
        std::max(from * 1.2, redMean * std::exp(-belowMostRed * logSpread(cells.redSpread)));
    return {Sizes::nearest(counter.red.least), seen.valley(from, to),
            Sizes::nearest(counter.redMost)};
}

double normal(base::Chance& chance, double variation) {
    return 1 + variation * chance.normal();
}

/// Whether something swims there that is neither cell nor platelet: more pulses beyond all red
/// cells than a few, or more in the valley than the slopes on both sides leave there.
bool odd(const Sizes& seen, std::size_t divide, double redMean) {
    constexpr double giant = 3.2; // fold of the mean red cell: three together are rare
    constexpr double few = 10, perPulse = 1. / 300;
    const double all = seen.pulses(0, Sizes::channels);
    const double beyond =
        redMean > 0 ? seen.pulses(Sizes::nearest(giant * redMean), Sizes::channels) : 0;
    const double between = seen.pulses(divide - 1, divide + 1);
    return beyond > few || between > few + perPulse * all;
}

void countRed(Count& count, const Counter& counter, const Blood& blood, const Tuning& setting,
              base::Chance& chance) {
    const CellSizes& cells = counter.sizes(blood.kind);
    const Hole hole = lab::hole(counter.red, setting.redClogged);
    const double thinned = normal(chance, counter.red.thinning);
    const double gain = setting.size * normal(chance, counter.gainNoise) * hole.height();
    const double louder = 1 + counter.noiseOfClog * setting.redClogged;
    const double noise = counter.pulseNoise * louder;
    const double debris = counter.debris * louder * smallPerMicroliter;

    const Platelets platelets(blood, cells);
    const double red = blood.red * (1 - blood.wear.redLost) * redPerMicroliter;
    const double small =
        smallPerMicroliter * (platelets.single + platelets.large + platelets.clumps);
    const double passing = hole.passed(counter.patience) * hole.blood() * thinned;
    const double crowding = hole.crowding((red + small) * thinned / counter.red.dilution);
    const double pulses = passing * pulsesExtending(crowding);
    const double together = std::min(1., std::expm1(crowding)); // pulses that hold a second cell

    Sizes expected;
    expectRed(expected, counter, blood, pulses * red, together, gain, noise);
    const double plateletSpread = std::hypot(cells.plateletSpread, noise);
    const auto plateletsOf = [&](double number, double median, double spread) {
        expected.expect(pulses * smallPerMicroliter * number, median * gain, spread);
    };
    plateletsOf(platelets.single, cells.platelet, plateletSpread);
    plateletsOf(platelets.large, cells.platelet * counter.largePlatelet, plateletSpread);
    plateletsOf(platelets.clumps, medianOf(platelets.clumpVolume, counter.clumpSpread),
                counter.clumpSpread);
    // Dust and noise crowd at the lowest sizes.
    constexpr double dustMedian = 2.2, dustSpread = 0.4;
    expected.expect(passing * debris, dustMedian, dustSpread);

    count.sizes = expected.met(chance);
    const Sizes& seen = count.sizes;
    const auto [first, divide, last] = gate(seen, counter, cells, blood.volume);
    count.divide = divide;
    count.slow = hole.passed(counter.patience) < 1;
    const double all = seen.pulses(first, Sizes::channels);
    const double perPulse = all > 0 ? hole.corrected(all) / all : 1;
    const double perCount = perPulse / hole.blood();
    const double redPulses = seen.pulses(divide, last);
    count.red = setting.red * redPulses * perCount / redPerMicroliter;
    // The machine knows how much two cells together add on average, and takes it off.
    const double known = 1 + counter.overlap * (perPulse - 1);
    count.volume = seen.mean(divide, last) / known;
    count.redWidth = seen.variation(divide, last);
    // It also knows what share of sound platelets its gate holds, and how much dust a blank gives.
    const double held = shareBelow(Sizes::edge(divide), cells.platelet, plateletSpread) -
                        shareBelow(Sizes::edge(first), cells.platelet, plateletSpread);
    const double blank = counter.debris * (shareBelow(Sizes::edge(divide), dustMedian, dustSpread) -
                                           shareBelow(Sizes::edge(first), dustMedian, dustSpread));
    const double small9 =
        setting.red * seen.pulses(first, divide) * perCount / smallPerMicroliter - blank;
    count.platelets = setting.platelets * std::max(0., small9 / held);

    count.largeParticles = odd(seen, divide, count.volume);
}

void countReticulocytes(Count& count, const Counter& counter, const Blood& blood,
                        const Tuning& setting, base::Chance& chance) {
    const double share =
        blood.red > 0 ? std::clamp(blood.reticulocytes / 1000 / blood.red, 0., 1.) : 0;
    const double gated = std::clamp(share * normal(chance, counter.stainNoise), 0., 1.);
    const double young = chance.poisson(counter.stained * gated);
    const double others = chance.poisson(counter.stained * (1 - gated));
    if (young > 0)
        count.reticulocytes = setting.reticulocytes * young / (young + others) * count.red * 1000;
}

void countWhite(Count& count, const Counter& counter, const Blood& blood, const Tuning& setting,
                base::Chance& chance) {
    const CellSizes& cells = counter.sizes(blood.kind);
    const Hole hole = lab::hole(counter.white, setting.whiteClogged);
    const double thinned = normal(chance, counter.white.thinning);
    const Platelets platelets(blood, cells);
    // Red cells are dissolved; nuclei, clumps and giant platelets remain.
    const double least = counter.white.least / hole.height();
    const auto above = [&](double number, double median, double spread) {
        return number * (1 - shareBelow(least, median, spread));
    };
    const double kept = 1 - blood.wear.whiteLost;
    const double nucleated = kept * blood.nucleated / 100 * whiteCells(blood);
    const double others =
        nucleated +
        above(platelets.clumps, medianOf(platelets.clumpVolume, counter.clumpSpread),
              counter.clumpSpread) +
        above(platelets.single, cells.platelet, cells.plateletSpread) +
        above(platelets.large, cells.platelet * counter.largePlatelet, cells.plateletSpread);
    const double all = kept * whiteCells(blood) + others;
    const double crowding =
        hole.crowding(all * smallPerMicroliter * thinned / counter.white.dilution);
    const double pulses = chance.poisson(all * smallPerMicroliter * thinned * hole.blood() *
                                         hole.passed(counter.patience) * pulsesExtending(crowding));
    count.slow = count.slow || hole.passed(counter.patience) < 1;
    count.white = setting.white * hole.corrected(pulses) / hole.blood() / smallPerMicroliter;

    // What is neither of these is small, round and dark: it is taken for a lymphocyte.
    const auto& w = blood.white;
    const std::array<double, 4> kinds{kept * (w[0] + w[1]), kept * w[2] + others, kept * w[3],
                                      kept * w[4]};
    const double looked = std::min(counter.sorted, pulses);
    std::array<double, 4> found{};
    double sum = 0;
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        found[i] = all > 0 ? chance.poisson(looked * kinds[i] / all) : 0;
        sum += found[i];
    }
    const double each = sum > 0 ? count.white / sum : 0;
    count.neutrophils = found[0] * each;
    count.lymphocytes = found[1] * each;
    count.monocytes = found[2] * each;
    count.eosinophils = found[3] * each;
}

} // namespace

Count pass(const Counter& counter, const Blood& blood, const Tuning& setting,
           base::Chance& redChance, base::Chance& whiteChance) {
    validate(blood);
    Count count;
    countRed(count, counter, blood, setting, redChance);
    countReticulocytes(count, counter, blood, setting, redChance);
    countWhite(count, counter, blood, setting, whiteChance);
    return count;
}

} // namespace cistern::lab
