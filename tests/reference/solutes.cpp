#include "reference/solutes.h"

namespace reference {

using namespace cistern::body;
using Which = cistern::body::Pool;

Solutes::Solutes(const Species& s, const Organs& organs)
    : p(s), healthyPlasma(s.redCells.bloodVolume * (1 - s.redCells.hematocrit)) {
    setPools(organs);
    setBile();
    albumin = twoPools(p.protein.albumin, p.protein.albuminHalfLife, p.protein.plasmaShare,
                       p.protein.exchange);
    globulin = twoPools(p.protein.globulin, p.protein.globulinHalfLife,
                        p.protein.globulinPlasmaShare, p.protein.globulinExchange);
    perFiltration = 1 / p.kidney.filtration;
    perGlucose = 1 / p.sugar.glucose;
    perSugarSpace = 1 / p.sugar.space;
    perAcidSpace = 1 / p.bileAcids.space;
    perAmmoniaSpace = 1 / p.ammonia.space;
    rate.growth = 1 / p.bone.growthLag;
    rate.heme = 1 / p.bilirubin.hemeLag;
    rate.cholesterol = 1 / p.sugar.cholesterolLag;
    rate.triglycerides = 1 / p.sugar.triglycerideLag;
    rate.crp = rateOf(p.acutePhase.crpHalfLife);
    rate.saa = rateOf(p.acutePhase.saaHalfLife);
    rate.fibrinogen = rateOf(p.acutePhase.fibrinogenHalfLife);
    rate.factor7 = rateOf(p.clotting.factor7HalfLife);
    rate.factors = rateOf(p.clotting.factorsHalfLife);
}

void Solutes::setPools(const Organs& organs) {
    for (Which which : pools()) {
        const auto j = static_cast<std::size_t>(which);
        const EnzymePool& e = p.pool[j];
        Pool& q = pool[j];
        const double perVolume = 1 / e.volume, liver = p.liver.mass * e.liverContent * perVolume;
        q.out = rateOf(e.halfLife);
        q.clearance = e.volume * q.out;
        const double whole = e.setPoint * q.out;
        q.muscle = p.muscle.recovery * p.muscle.mass * e.muscleContent * perVolume;
        q.heart = p.heart.recovery * p.heart.mass * e.heartContent * perVolume;
        q.redCells = e.redCellContent * perVolume;
        q.acini = e.pancreaticShare * whole;
        q.acinarLeak = e.acinarGain * q.acini;
        q.other = e.otherShare * whole;
        const double left =
            whole - q.muscle * organs.muscleShed - q.heart * organs.heartShed - q.acini - q.other;
        // What is left is the liver's, if it holds any of this enzyme.
        const bool digestive =
            which == Which::lipase || which == Which::amylase || which == Which::TLI;
        if (digestive)
            q.other += left;
        else if (which != Which::CK && which != Which::cTnI && which != Which::boneALP)
            q.living = left;
        const double soluble = 1 - e.mitochondrialShare;
        q.leaking = soluble * q.living;
        q.cytosol = soluble * e.cytosolYield * liver;
        q.mitochondria = e.mitochondrialShare * e.mitochondrialYield * liver;
        q.renal = e.renalShare;
        q.inPlasma = std::min(1.0, healthyPlasma * perVolume);
    }
}

void Solutes::setBile() {
    const auto& b = p.bilirubin;
    const double C = b.conjugated;
    uptake = b.unconjugated - b.backFlow * C;
    exchange = 1 / (1 + b.backFlow);
    bileMade = b.production / b.space;
    bileRenal = b.renalClearance / b.space;
    const double excreted = bileMade - bileRenal * C * C / (C + b.renalThreshold) - b.deltaRate * C;
    bileMost = b.reserve * excreted;
    bileHalf = C * (b.reserve - 1);
    rate.delta = rateOf(b.deltaHalfLife);

    const auto& a = p.bileAcids;
    acidReach = -std::log(1 - a.extraction);
    const double portal =
        (a.plasmaFlow * a.extraction + a.renalClearance) * a.fasting / (1 - a.extraction);
    const double secreted = portal / (1 - a.lossPerPass);
    acidMade = secreted - a.extraction * (portal + a.plasmaFlow * a.fasting);
    acidGut = secreted / a.uptake;
    acidStore = a.pool - acidGut - a.fasting * a.space;
    rate.emptying = a.storedShare * secreted / acidStore;

    const auto& n = p.ammonia;
    ammoniaReach = -std::log(1 - n.extraction);
    ammoniaMade = (a.plasmaFlow * n.extraction + n.elsewhere) * n.level / (1 - n.extraction);
}

Solutes::TwoPools Solutes::twoPools(double level, double halfLife, double share,
                                    double crossing) const {
    TwoPools two{};
    two.level = level;
    two.perLevel = 1 / level;
    two.share = share;
    two.broken = rateOf(halfLife);
    two.escape = crossing * healthyPlasma;
    two.returning = crossing * share / (1 - share) - two.broken;
    two.made = two.broken * level * healthyPlasma / share;
    return two;
}

void Solutes::rest(Vector& y, double age) const {
    const double month = 30.4375 * 24;
    y[at::growth] =
        p.bone.growthAtOneMonth * std::exp((month - std::max(age, 0.0)) / p.bone.growthLag);
    for (std::size_t j = 0; j < poolCount; ++j) y[at::enzyme + j] = p.pool[j].setPoint;
    y[at::enzyme + static_cast<std::size_t>(Which::boneALP)] *= 1 + y[at::growth];
    y[at::bilirubin] = p.bilirubin.unconjugated + p.bilirubin.conjugated;
    y[at::delta] = p.bilirubin.deltaRate * p.bilirubin.conjugated / rate.delta;
    y[at::heme] = 1;
    y[at::store] = acidStore;
    y[at::bileGut] = acidGut;
    y[at::acids] = p.bileAcids.fasting;
    y[at::ammonia] = p.ammonia.level;
    y[at::albuminPlasma] = albumin.level * healthyPlasma;
    y[at::albumin] = y[at::albuminPlasma] / albumin.share;
    y[at::globulinPlasma] = globulin.level * healthyPlasma;
    y[at::globulin] = y[at::globulinPlasma] / globulin.share;
    y[at::crp] = p.acutePhase.crp;
    y[at::saa] = p.acutePhase.saa;
    y[at::fibrinogen] = p.acutePhase.fibrinogen;
    y[at::factor7] = y[at::factors] = 1;
    y[at::glucose] = p.sugar.glucose;
    y[at::cholesterol] = p.sugar.cholesterol;
    y[at::triglycerides] = p.sugar.triglycerides;
}

void Solutes::now(const Vector& y, const Drives& d, Now& n) const {
    n.albumin = y[at::albuminPlasma] / n.plasma;
    n.globulin = y[at::globulinPlasma] / n.plasma;
    n.sensitivity = (1 - d[Drive::insulinLack]) / (1 + p.steroid.insulinResistance * y[at::excess]);
}

void Solutes::rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    enzymeRates(y, d, n, dy);
    bileRates(y, n, dy);
    portalRates(y, d, n, dy);
    proteinRates(y, d, n, dy);
    sugarRates(y, d, n, dy);
}

double Solutes::boneShed(const Vector& y) const {
    return (1 + y[at::growth]) * (1 + p.bone.turnoverOfThyroxine * onset(y[at::effect] - 1, 0.1));
}

Solutes::Inflow Solutes::inflow(const Vector& y, const Drives& d, const Now& n) const {
    Inflow in{};
    const double hemolyzed = d[Drive::hemolysis] * n.cells;
    const auto soluble = [&](Which which) {
        const auto j = static_cast<std::size_t>(which);
        const Pool& q = pool[j];
        in[j] = y[at::living] * (q.living + q.leaking * y[at::leak]) + q.cytosol * n.flowC +
                q.mitochondria * n.flowM + q.muscle * n.muscleFlow + q.heart * n.heartFlow +
                q.redCells * hemolyzed + q.other;
    };
    for (Which which :
         {Which::ALT, Which::AST, Which::GLDH, Which::SDH, Which::CK, Which::LDH, Which::cTnI})
        soluble(which);
    for (Which which : {Which::lipase, Which::amylase, Which::TLI}) {
        const auto j = static_cast<std::size_t>(which);
        const Pool& q = pool[j];
        in[j] = q.other + y[at::acini] * (q.acini + q.acinarLeak * y[at::acinarLeak]);
    }
    // Bound to membranes: cells make more of it (content) and bile acids wash more of it off.
    const auto& liver = p.liver;
    const auto membrane = [&](Which which, double content, double wash) {
        const auto j = static_cast<std::size_t>(which);
        in[j] = content * (y[at::living] * pool[j].living * wash + pool[j].cytosol * n.flowC);
    };
    const double wash = 1 + liver.alpWashGain * y[at::alpResponse];
    membrane(Which::liverALP,
             1 + liver.alpContentGain * y[at::alpResponse] * n.calm +
                 p.steroid.liverAlpGain * y[at::steroidFast],
             wash + p.phenobarbital.alpWashGain * y[at::phenobarbital]);
    membrane(Which::steroidALP, 1 + p.steroid.steroidAlpGain * y[at::steroidSlow], wash);
    membrane(Which::GGT,
             1 + liver.ggtContentGain * y[at::ggtResponse] * n.calm +
                 p.steroid.ggtGain * y[at::steroidFast] * y[at::steroidMiddle],
             1 + liver.ggtWashGain * y[at::ggtResponse]);
    const auto bone = static_cast<std::size_t>(Which::boneALP);
    in[bone] = p.pool[bone].setPoint * pool[bone].out * boneShed(y);
    return in;
}

void Solutes::enzymeRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const Inflow in = inflow(y, d, n);
    const double perFilled = 1 / n.filled, g = n.filtration * perFiltration;
    for (std::size_t j = 0; j < poolCount; ++j) {
        const Pool& q = pool[j];
        const double cleared = 1 - q.renal + q.renal * g;
        dy[at::enzyme + j] =
            in[j] -
            (q.out * cleared * perFilled + d[Drive::bleeding] * q.inPlasma) * y[at::enzyme + j];
    }
    dy[at::growth] = -rate.growth * y[at::growth];
}

/// What of the exchangeable pool is conjugated: exchange with the liver is fast, so the rest is at
/// the level at which living cells take up what heme brings.
double Solutes::conjugated(const Vector& y) const {
    const double free = y[at::heme] * uptake / y[at::living];
    return positive((y[at::bilirubin] - free) * exchange, 0.5 * p.bilirubin.conjugated);
}

void Solutes::bileRates(const Vector& y, const Now& n, Vector& dy) const {
    const auto& b = p.bilirubin;
    const double C = conjugated(y);
    dy[at::heme] = rate.heme * (n.heme - y[at::heme]);
    const double pumped = bileMost * y[at::living] * (1 - n.cholestasis) * C / (bileHalf + C);
    const double passed = bileRenal * (1 + p.liver.adaptationRenal * y[at::adaptation]) * C * C /
                          (C + b.renalThreshold);
    dy[at::bilirubin] = bileMade * y[at::heme] - pumped - passed - b.deltaRate * C;
    dy[at::delta] = b.deltaRate * C - rate.delta * y[at::delta];
}

void Solutes::portalRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const auto& a = p.bileAcids;
    const double met = y[at::living] / n.reached, flow = a.plasmaFlow * n.reached;
    const double caught = 1 - std::exp(-acidReach * met);
    const double portal = (1 - a.lossPerPass) * a.uptake * y[at::bileGut];
    const double cleared = flow * caught * y[at::acids];
    const double bile = caught * (1 - n.shunted) * portal + cleared + acidMade;
    const double flowing = (1 - n.cholestasis) * bile;
    const bool meal = d[Drive::meal] > 0;
    const double fill = meal ? a.mealStoredShare : a.storedShare;
    const double emptied = (meal ? rate.emptying + a.mealEmptying : rate.emptying) * y[at::store];
    dy[at::store] = fill * flowing - emptied;
    dy[at::bileGut] = (1 - fill) * flowing + emptied - a.uptake * y[at::bileGut];
    dy[at::acids] = (portal * (1 - caught * (1 - n.shunted)) + n.cholestasis * bile - cleared -
                     a.renalClearance * y[at::acids]) *
                    perAcidSpace;

    const auto& m = p.ammonia;
    const double taken = 1 - std::exp(-ammoniaReach * met);
    dy[at::ammonia] =
        (ammoniaMade * (1 + m.ofMeal * d[Drive::meal]) * (1 - taken * (1 - n.shunted)) -
         (flow * taken + m.elsewhere) * y[at::ammonia]) *
        perAmmoniaSpace;
}

void Solutes::proteinRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const auto& q = p.protein;
    const double bled = d[Drive::bleeding], kidney = d[Drive::kidneyProteinLoss],
                 gut = d[Drive::gutProteinLoss];
    const auto move = [&](const TwoPools& two, std::size_t whole, double level, double leaky,
                          double made, double lost) {
        const double inPlasma = y[whole + 1];
        dy[whole] = made - two.broken * y[whole] - lost - bled * inPlasma + two.level * n.replaced;
        dy[whole + 1] = made - two.escape * leaky * level * n.stretch +
                        two.returning * (y[whole] - inPlasma) - two.broken * inPlasma - lost -
                        bled * inPlasma + two.level * n.replaced;
    };
    const double folds = n.albumin * albumin.perLevel, inflamed = y[at::daily];
    const double wanted = 1 + q.demandGain * (1 - folds);
    move(albumin, at::albumin, n.albumin, 1 + q.escapeOfInflammation * inflamed,
         albumin.made * eased(wanted, q.reserve * n.work) *
             (1 - q.albuminOfInflammation * inflamed),
         (kidney + gut) * folds);
    move(globulin, at::globulin, n.globulin, 1,
         globulin.made * (1 + q.globulinOfInflammation * y[at::chronic]),
         (q.globulinLostByKidney * kidney + q.globulinLostByGut * gut) * n.globulin *
             albumin.perLevel);

    const auto& acute = p.acutePhase;
    dy[at::crp] = rate.crp * (acute.crp * (1 + acute.crpGain * inflamed) - y[at::crp]);
    dy[at::saa] = rate.saa * (acute.saa * (1 + acute.saaGain * inflamed) - y[at::saa]);
    dy[at::fibrinogen] =
        rate.fibrinogen * (acute.fibrinogen * (1 + acute.fibrinogenGain * inflamed) * n.made -
                           y[at::fibrinogen]) -
        bled * y[at::fibrinogen];
    dy[at::factor7] = rate.factor7 * (n.work - y[at::factor7]) - bled * y[at::factor7];
    dy[at::factors] = rate.factors * (n.work - y[at::factors]) - bled * y[at::factors];
}

void Solutes::sugarRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const {
    const auto& q = p.sugar;
    const double folds = y[at::glucose] * perGlucose, frightened = y[at::fright];
    const double wish =
        n.sensitivity * (1 - q.insulinOfFright * frightened) * (1 + q.insulinGain * (folds - 1));
    const double insulin = std::min(positive(wish), q.insulinMost);
    const double demand = 3 / (1 + 2 * insulin) * (1 - q.demandOfCortisol * (1 - n.held));
    const double made = (1 - q.kidneyShare) * eased(demand, q.liverMost * n.work) +
                        q.kidneyShare * eased(demand, q.liverMost / 2);
    dy[at::glucose] = (q.output * (made * (1 + q.outputOfFright * frightened) -
                                   (q.insulinFree + (1 - q.insulinFree) * insulin) * folds) -
                       n.spilled) *
                      perSugarSpace;
    const double missing = 1 - n.sensitivity;
    const double cholesterol =
        q.cholesterol * n.made / n.root2 * (1 + 2 * p.steroid.cholesterol * n.half) *
        (1 + q.cholesterolInsulin * missing) * (1 + q.cholesterolBile * n.ductal) *
        (1 + q.cholesterolOfKidneyLoss * d[Drive::kidneyProteinLoss]) /
        (1 + q.cholesterolOfGutLoss * d[Drive::gutProteinLoss]);
    dy[at::cholesterol] = rate.cholesterol * (cholesterol - y[at::cholesterol]);
    const double triglycerides = q.triglycerides * (1 + 2 * q.triglycerideCortisol * n.half) *
                                 (1 + q.triglycerideInsulin * missing);
    dy[at::triglycerides] = rate.triglycerides * (triglycerides - y[at::triglycerides]);
}

Solutes::Levels Solutes::levels(const Vector& y, const Drives& d, const Now& n) const {
    Levels out{};
    const double perFilled = 1 / n.filled;
    const Inflow in = inflow(y, d, n);
    for (std::size_t j = 0; j < poolCount; ++j) {
        out.enzyme[j] = y[at::enzyme + j] * perFilled;
        out.release[j] = in[j] * p.pool[j].volume;
    }
    const Pool& alt = pool[static_cast<std::size_t>(Which::ALT)];
    out.liverLeak = (y[at::living] * (alt.living + alt.leaking * y[at::leak]) +
                     alt.cytosol * n.flowC + alt.mitochondria * n.flowM) /
                    (y[at::living] * alt.living);
    out.boneLeak = boneShed(y);
    const auto ggt = static_cast<std::size_t>(Which::GGT);
    out.ductLeak = in[ggt] / (y[at::living] * pool[ggt].living);

    out.delta = y[at::delta] / n.stretch;
    out.conjugated = conjugated(y) / n.stretch + out.delta;
    out.bilirubin = y[at::bilirubin] / n.stretch + out.delta;
    out.crp = y[at::crp] * perFilled;
    out.saa = y[at::saa] * perFilled;
    out.fibrinogen = y[at::fibrinogen] * perFilled;
    out.pt = p.clotting.pt * (1 + p.clotting.ptGain * (1 / y[at::factor7] - 1));
    out.aptt = p.clotting.aptt * (1 + p.clotting.apttGain * (1 / y[at::factors] - 1));
    out.cholesterol = y[at::cholesterol] / n.stretch;
    out.triglycerides = y[at::triglycerides] / n.stretch + y[at::fat];
    return out;
}

} // namespace reference
