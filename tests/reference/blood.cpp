#include "reference/blood.h"

namespace reference {

using namespace cistern::body;

namespace {

constexpr std::size_t inMaturing = 15, inBands = 6, inStore = 21;

/// Each stage of a chain takes from the one before and gives to the next at one rate.
template<std::size_t stages>
void chain(const double* y, double* dy, double in, double rate, double lost = 0) {
    dy[0] = in - (rate + lost) * y[0];
    for (std::size_t i = 1; i < stages; ++i) dy[i] = rate * y[i - 1] - (rate + lost) * y[i];
}

template<std::size_t stages>
double sum(const double* y) {
    double all = 0;
    for (std::size_t i = 0; i < stages; ++i) all += y[i];
    return all;
}

double square(double x) {
    return x * x;
}

} // namespace

Blood::Blood(const Species& s) : red(s.redCells), white(s.whiteCells), platelet(s.platelets) {
    setRed();
    setWhite();
    setPlatelets();
}

void Blood::setRed() {
    healthyPlasma = red.bloodVolume * (1 - red.hematocrit);
    perDecade = 1 / red.hematocritPerDecade;
    steepness = red.steepness * std::log(10.0);
    rate.refill = rateOf(red.refillHalf);
    rate.contraction = 1 / red.contractionLag;
    rate.erythropoietin = 1 / red.erythropoietinLag;
    rate.erythroid = 3 / red.marrowTime;
    rate.released = 1 / red.marrowReticulocyteTime;
    rate.marrowLack = 1 / (red.marrowTime + red.marrowReticulocyteTime);
    rate.reticulocytes = 1 / red.reticulocyteLife;
    rate.young = 1 / red.youngLife;
    redCells = red.count * red.bloodVolume / (1 - red.spleenShare);
    output = redCells / red.life;
    perOutput = 1 / output;
    const double aged = red.life - red.youngLife - red.aggregateShare * red.reticulocyteLife;
    rate.ageing = 2 / aged;
    // Volume and hemoglobin of a mature cell follow from those of the whole film.
    const double fresh = output * red.aggregateShare * red.reticulocyteLife;
    const double young = output * red.youngLife, old = output * aged;
    volume = red.hematocrit / red.count * redCells /
             (fresh * red.reticulocyteVolume + young * red.youngVolume + old);
    hemoglobin = red.hemoglobin / red.count * redCells /
                 (fresh * red.reticulocyteHemoglobin + young * red.youngHemoglobin + old);
}

void Blood::setWhite() {
    rate.leaving = rateOf(white.bloodHalfLife);
    const double inBlood = red.bloodVolume / (1 - white.marginated);
    neutrophils = (white.neutrophils + white.bands) * inBlood;
    healthyBands = white.bands * inBlood;
    rate.maturing = static_cast<double>(inMaturing + inBands) / white.maturing;
    rate.stored = static_cast<double>(inStore) / white.stored;
    // Bands leave each of their stages at the rate that keeps the healthy count.
    const double made = rate.leaving * neutrophils;
    const double passed = 1 - white.bands / (white.neutrophils + white.bands);
    bandRelease = rate.maturing * (std::pow(passed, -1.0 / static_cast<double>(inBands)) - 1);
    storeAtRest = made * passed * white.stored;
    perStore = 1 / storeAtRest;
    perNeutrophils = 1 / neutrophils;
    rate.dividing = 3 / white.dividing;
    rate.marrowCall = 1 / white.stimulationLag;
    rate.releaseCall = 1 / white.releaseLag;
    rate.toxic = 1 / white.toxicLag;
    rate.monocyteOutput = 1 / white.monocyteMaking;
    rate.eosinophilOutput = 1 / white.eosinophilMaking;
    rate.monocytes = rateOf(white.monocyteHalfLife);
    rate.eosinophils = rateOf(white.eosinophilHalfLife);
}

void Blood::setPlatelets() {
    plateletsAtRest = platelet.count * red.bloodVolume / (1 - platelet.splenicShare);
    perPlatelets = 1 / plateletsAtRest;
    plateletsMade = plateletsAtRest / platelet.life;
    rate.plateletCall = 1 / platelet.callLag;
    rate.megakaryocytes = 1 / platelet.megakaryocytes;
    rate.platelets = 5 / platelet.life;
}

void Blood::rest(Vector& y) const {
    y[at::plasma] = healthyPlasma;
    std::fill_n(&y[at::erythroid], 3, output / rate.erythroid);
    y[at::marrowReticulocytes] = output * red.marrowReticulocyteTime;
    y[at::reticulocytes] = output * red.aggregateShare * red.reticulocyteLife;
    y[at::young] = output * red.youngLife;
    std::fill_n(&y[at::ageing], 2, output / rate.ageing);
    y[at::iron] = 1;

    const double made = rate.leaving * neutrophils;
    std::fill_n(&y[at::dividing], 3, made / rate.dividing);
    std::fill_n(&y[at::maturing], inMaturing, made / rate.maturing);
    double flow = made;
    for (std::size_t i = 0; i < inBands; ++i) {
        y[at::bands + i] = flow / (rate.maturing + bandRelease);
        flow = rate.maturing * y[at::bands + i];
    }
    std::fill_n(&y[at::stored], inStore, flow / rate.stored);
    y[at::bloodBands] = healthyBands;
    y[at::bloodSegmented] = neutrophils - healthyBands;
    y[at::lymphocytes] = white.lymphocytes * red.bloodVolume;
    y[at::monocytes] = white.monocytes * red.bloodVolume;
    y[at::eosinophils] = white.eosinophils * red.bloodVolume;
    y[at::monocyteOutput] = y[at::eosinophilOutput] = 1;

    y[at::megakaryocytes] = 1;
    std::fill_n(&y[at::platelets], 5, plateletsAtRest / 5);
}

void Blood::now(const Vector& y, const Drives& d, Now& n) const {
    const double spleen = red.spleenShare * (1 - n.contracted);
    n.drive = onset(y[at::erythropoietin], 0.1);
    const double old = y[at::ageing] + y[at::ageing + 1];
    n.lacking =
        y[at::reticulocyteLack] + y[at::youngLack] + y[at::ageingLack] + y[at::ageingLack + 1];
    n.cells = y[at::reticulocytes] + y[at::young] + old;
    n.redVolume =
        volume * (y[at::reticulocytes] * (red.reticulocyteVolume + red.volumeOfDrive * n.drive) +
                  y[at::young] * red.youngVolume + old - red.volumeOfLack * n.lacking);
    n.hemoglobin =
        hemoglobin * (y[at::reticulocytes] * red.reticulocyteHemoglobin +
                      y[at::young] * red.youngHemoglobin + old - red.hemoglobinOfLack * n.lacking);
    n.outside = 1 - spleen;
    n.plasma = y[at::plasma] * n.stretch;
    n.blood = n.plasma + n.outside * n.redVolume;
    n.hematocrit = n.outside * n.redVolume / n.blood;
    n.filled = n.stretch * (y[at::plasma] + (1 - red.spleenShare) * n.redVolume) / red.bloodVolume;

    n.broken = d[Drive::hemolysis] + red.lossOfInflammation * y[at::daily] +
               red.lossOfUremia * (1 - n.share);
    n.aged = rate.ageing * (y[at::ageing + 1] - red.hemoglobinOfLack * y[at::ageingLack + 1]);
    n.heme = 0.8 * (n.aged + n.broken * n.hemoglobin / hemoglobin) * perOutput + 0.2;
    n.lack = 1 - y[at::iron] * (1 + red.halfSupply) / (y[at::iron] + red.halfSupply) *
                     (1 - red.ironHeld * y[at::daily]);
}

void Blood::rates(const Vector& y, const Drives& d, Now& n, Vector& dy) const {
    dy[at::plasma] =
        rate.refill * (red.bloodVolume - (1 - red.spleenShare) * n.redVolume - y[at::plasma]) -
        d[Drive::bleeding] * y[at::plasma];
    dy[at::contraction] = rate.contraction * (d[Drive::fright] - y[at::contraction]) +
                          red.contractionOfBleeding * d[Drive::bleeding];
    redRates(y, d, n, dy);
    whiteRates(y, d, n, dy);
    neutrophilRates(y, d, n, dy);
    plateletRates(y, d, n, dy);
}

void Blood::redRates(const Vector& y, const Drives& d, Now& n, Vector& dy) const {
    const double capacity = -red.erythropoietinOfKidney * (1 - n.share) / (n.share + 0.5);
    dy[at::erythropoietin] =
        rate.erythropoietin *
        ((red.hematocrit - n.hematocrit) * perDecade + capacity -
         red.erythropoietinOfInflammation * y[at::daily] - y[at::erythropoietin]);
    const double called =
        red.outputMost / (1 + (red.outputMost - 1) * std::exp(-steepness * y[at::erythropoietin]));
    const double filling = 1 - red.hemoglobinOfLack * n.lack; // of a new cell with hemoglobin
    const double in = output * called * (1 - n.lack) / filling * (1 - d[Drive::marrowBlock]);
    chain<3>(&y[at::erythroid], &dy[at::erythroid], in, rate.erythroid);
    const double hurry = 1 + red.longerStay * n.drive;
    const double let = rate.released * hurry * y[at::marrowReticulocytes];
    dy[at::marrowReticulocytes] = rate.erythroid * y[at::erythroid + 2] - let;
    dy[at::marrowLack] = rate.marrowLack * (n.lack - y[at::marrowLack]);

    const double x = n.broken + d[Drive::bleeding] * n.outside;
    const double aggregated =
        red.aggregateShare + (1 - red.aggregateShare) * n.drive / (n.drive + 0.6);
    const double ripening = rate.reticulocytes / hurry;
    const auto blood = [&](const double* cells, double* dot, double released) {
        dot[0] = aggregated * released - (ripening + x) * cells[0];
        dot[1] = (1 - aggregated) * released + ripening * cells[0] - (rate.young + x) * cells[1];
        chain<2>(cells + 2, dot + 2, rate.young * cells[1], rate.ageing, x);
    };
    blood(&y[at::reticulocytes], &dy[at::reticulocytes], let);
    blood(&y[at::reticulocyteLack], &dy[at::reticulocyteLack], let * y[at::marrowLack]);

    const double back = n.aged + n.broken * (n.cells - red.hemoglobinOfLack * n.lacking);
    const double iron = y[at::iron];
    const double absorbed = red.ironAbsorption *
                            (1 + (red.ironAbsorptionMost - 1) * onset(1 - iron, 0.05)) *
                            (1 - red.ironHeld * y[at::daily]);
    const double lackDrive = d[Drive::ironLack];
    const double leaked = lackDrive > 0 ? onset(iron - (1 - lackDrive), 0.02) / 3 : 0;
    dy[at::iron] =
        (absorbed - red.ironAbsorption * iron + 3.4 * hemoglobin * (back - in * filling)) /
            red.ironStore -
        leaked;

    // The volume that cells give up but for bleeding, plasma takes over.
    const double beyond = 0.1 / (std::max(y[at::erythropoietin], 0.0) + 0.1);
    const double slope = 1 - beyond * beyond; // of drive over erythropoietin
    const double swelling =
        volume * (dy[at::reticulocytes] * (red.reticulocyteVolume + red.volumeOfDrive * n.drive) +
                  y[at::reticulocytes] * red.volumeOfDrive * slope * dy[at::erythropoietin] +
                  dy[at::young] * red.youngVolume + dy[at::ageing] + dy[at::ageing + 1] -
                  red.volumeOfLack * (dy[at::reticulocyteLack] + dy[at::youngLack] +
                                      dy[at::ageingLack] + dy[at::ageingLack + 1]));
    n.replaced = -(1 - red.spleenShare) * (swelling + d[Drive::bleeding] * n.outside * n.redVolume);
}

double Blood::marginated(const Vector& y, const Now& n) const {
    const double steady = white.marginated * (1 - white.freedByFright * n.contracted) *
                          (1 - white.freedByCortisol * n.cortisol);
    const double fast = y[at::fast];
    const double early = white.earlyClinging * fast * fast * onset(fast - y[at::daily], 0.05);
    return 1 - (1 - steady) * (1 - eased(early, 0.95));
}

void Blood::whiteRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double bled = d[Drive::bleeding], made = 1 - d[Drive::marrowBlock];
    const double lymphocytes = white.lymphocytes * red.bloodVolume *
                               (1 - white.lymphocytesOfCortisol * n.cortisol) *
                               (1 + white.lymphocytesOfInflammation * y[at::chronic]);
    dy[at::lymphocytes] =
        white.lymphocyteExchange * (lymphocytes - y[at::lymphocytes]) - bled * y[at::lymphocytes];
    dy[at::monocyteOutput] =
        rate.monocyteOutput * ((1 + white.monocytesOfInflammation * d[Drive::inflammation]) * made -
                               y[at::monocyteOutput]);
    dy[at::monocytes] =
        rate.monocytes *
            (white.monocytes * red.bloodVolume * y[at::monocyteOutput] - y[at::monocytes]) -
        bled * y[at::monocytes];
    dy[at::eosinophilOutput] =
        rate.eosinophilOutput *
        ((1 + white.eosinophilsOfParasites * d[Drive::parasites]) * made - y[at::eosinophilOutput]);
    const double eosinophils = white.eosinophils * red.bloodVolume * y[at::eosinophilOutput] *
                               (1 - white.eosinophilsOfCortisol * n.cortisol);
    dy[at::eosinophils] =
        rate.eosinophils * (eosinophils - y[at::eosinophils]) - bled * y[at::eosinophils];
}

void Blood::neutrophilRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double store = sum<inStore>(&y[at::stored]);
    const double spent = felt(1 - store * perStore, 0.2);
    const double total = y[at::bloodBands] + y[at::bloodSegmented];
    const double missing = felt(1 - total * perNeutrophils, 0.2);
    const double fast = y[at::fast], call = y[at::marrowCall];
    dy[at::marrowCall] =
        rate.marrowCall * (join(d[Drive::inflammation], white.stimulationOfLack * missing) - call);
    const double signal = (fast + white.releaseOfCortisol * n.cortisol) / white.releaseMost;
    const double wanted =
        white.releaseMost * join(signal, white.releaseOfLack * missing / white.releaseMost);
    dy[at::releaseCall] = rate.releaseCall * (wanted - y[at::releaseCall]);

    const double made = rate.leaving * neutrophils * (1 + white.stimulatedInput * call);
    const double division = rate.dividing * (1 + white.stimulatedDivision * call);
    chain<3>(&y[at::dividing], &dy[at::dividing], made, division);
    const double hurry = 1 + white.stimulatedTransit * call;
    const double kM = hurry * rate.maturing, kS = hurry * rate.stored;
    const double segmentedRelease = white.release * y[at::releaseCall];
    const double bandsRelease =
        hurry * bandRelease +
        segmentedRelease * (white.bandsReleased + white.bandsOfEmptyStore * spent);
    chain<inMaturing>(&y[at::maturing], &dy[at::maturing],
                      division * y[at::dividing + 2] * (1 + white.stimulatedOutput * call) *
                          (1 - d[Drive::marrowBlock]),
                      kM);
    chain<inBands>(&y[at::bands], &dy[at::bands], kM * y[at::maturing + inMaturing - 1], kM,
                   bandsRelease);
    chain<inStore>(&y[at::stored], &dy[at::stored], kM * y[at::bands + inBands - 1], kS,
                   segmentedRelease);
    const double bands = bandsRelease * sum<inBands>(&y[at::bands]);
    const double segmented = segmentedRelease * store + kS * y[at::stored + inStore - 1];

    const double leaving = rate.leaving * (1 + white.tissueDemand * square(square(square(fast)))) *
                               (1 - white.stayOfCortisol * n.cortisol) *
                               (1 - white.stayOfInflammation * y[at::daily]) +
                           d[Drive::bleeding] * (1 - marginated(y, n));
    dy[at::bloodBands] = bands - leaving * y[at::bloodBands];
    dy[at::bloodSegmented] = segmented - leaving * y[at::bloodSegmented];
    const double rushed =
        fast * fast * (white.toxicFromFullStore + (1 - white.toxicFromFullStore) * spent);
    dy[at::toxicMarrow] = rate.toxic * (rushed - y[at::toxicMarrow]);
    dy[at::toxicBlood] = (bands + segmented) / total * (y[at::toxicMarrow] - y[at::toxicBlood]);
}

double Blood::plateletLoss(const Vector& y, const Drives& d) const {
    const double fast = y[at::fast];
    return d[Drive::plateletDeath] + platelet.usedInInflammation * square(fast * fast * fast) +
           d[Drive::bleeding] * (1 - platelet.splenicShare);
}

void Blood::plateletRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const double share = sum<5>(&y[at::platelets]) * perPlatelets, w = y[at::plateletLack];
    dy[at::plateletLack] = rate.plateletCall * (1 - share - w);
    const double answer = w + std::sqrt(w * w + 1) + platelet.callOfLack * felt(w, 0.15);
    const double wanted = answer * (1 + platelet.callOfInflammation * y[at::daily] +
                                    platelet.callOfIronLack * n.lack);
    const double called = platelet.mostOutput * eased(wanted / platelet.mostOutput, 1);
    dy[at::megakaryocytes] =
        rate.megakaryocytes * (called * (1 - d[Drive::marrowBlock]) - y[at::megakaryocytes]);
    chain<5>(&y[at::platelets], &dy[at::platelets], plateletsMade * y[at::megakaryocytes],
             rate.platelets, plateletLoss(y, d));
}

Blood::Levels Blood::levels(const Vector& y, const Drives& d, const Now& n) const {
    Levels out{};
    const double perBlood = 1 / n.blood;
    out.redCells = n.outside * n.cells * perBlood;
    out.hemoglobin = n.outside * n.hemoglobin * perBlood;
    out.hematocrit = n.hematocrit;
    out.volume = 1000 * n.redVolume / n.cells;
    out.content = n.hemoglobin / n.cells;
    out.concentration = n.hemoglobin / n.redVolume;
    out.reticulocytes = 1000 * n.outside * y[at::reticulocytes] * perBlood;
    out.redWork = n.outside * n.hemoglobin / (red.hemoglobin * red.bloodVolume);
    out.redLeak = 1 + d[Drive::hemolysis] * red.life;

    const double seen = (1 - marginated(y, n)) * perBlood;
    out.bands = seen * y[at::bloodBands];
    out.segmented = seen * y[at::bloodSegmented];
    out.toxic = y[at::toxicBlood];
    const double pressed = n.contracted;
    out.lymphocytes = y[at::lymphocytes] * perBlood * (1 + white.lymphocytesOfFright * pressed);
    out.monocytes =
        y[at::monocytes] * perBlood *
        (1 + white.monocytesOfCortisol * n.cortisol + white.monocytesOfFright * pressed);
    out.eosinophils = y[at::eosinophils] * perBlood;
    out.whiteWork = sum<inStore>(&y[at::stored]) / storeAtRest;

    const double platelets = sum<5>(&y[at::platelets]);
    out.platelets =
        platelets * (1 - platelet.splenicShare) * perBlood * (1 + platelet.ofContraction * pressed);
    out.plateletWork = platelets / plateletsAtRest;
    out.plateletLeak = 5 * y[at::platelets + 4] / platelets + plateletLoss(y, d) * platelet.life;
    return out;
}

} // namespace reference
