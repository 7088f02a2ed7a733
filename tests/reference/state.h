#pragma once
#include "body/insult.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace reference {

/// Where each pool sits in the solver's vector. Amounts are per kg body weight.
namespace at {
enum : std::size_t {
    // hormones: traces of inflammation, cortex, cortisol, thyroxine, adrenaline
    fast,
    daily,
    chronic,
    adrenal,
    stressed,
    given,
    own,
    excess,
    thyroid,
    effect,
    fright,
    // liver, in shares; leak as fold above healthy
    living,
    scar,
    dying,
    dyingMitochondria,
    leak,
    ducts,
    necrosis,
    adaptation,
    alpResponse,
    ggtResponse,
    steroidFast,
    steroidMiddle,
    steroidSlow,
    phenobarbital,
    // muscle, heart, pancreas, gut, fat of a meal
    muscle,
    muscleDying,
    muscleFluid,
    heart,
    heartDying,
    acini,
    acinarLeak,
    gut,
    fat,
    // water [L/kg], salt [mmol/kg], plasma at healthy stretch [L/kg], spleen
    water,
    salt,
    plasma,
    contraction,
    // nephrons, in shares; what is filtered [umol/kg], [mmol/kg], [umol/kg]
    nephrons,
    stunned,
    hyperfiltration,
    outflow,
    creatinine,
    urea,
    sdma,
    intake,
    muscleMass,
    // red cells [10*12/kg], each stage followed by its cells times their lack of iron
    erythropoietin,
    erythroid,
    marrowReticulocytes = erythroid + 3,
    marrowLack,
    reticulocytes,
    young,
    ageing,
    reticulocyteLack = ageing + 2,
    youngLack,
    ageingLack,
    iron = ageingLack + 2,
    // white cells [10*9/kg]
    marrowCall,
    releaseCall,
    dividing,
    maturing = dividing + 3,
    bands = maturing + 15,
    stored = bands + 6,
    bloodBands = stored + 21,
    bloodSegmented,
    toxicMarrow,
    toxicBlood,
    lymphocytes,
    monocyteOutput,
    monocytes,
    eosinophilOutput,
    eosinophils,
    // platelets [10*9/kg]
    plateletLack,
    megakaryocytes,
    platelets,
    // enzymes, as levels at healthy filling [U/L]
    growth = platelets + 5,
    enzyme,
    // bilirubin [umol/L], heme [fold], bile acids [umol/kg, umol/L], ammonia [umol/L]
    bilirubin = enzyme + cistern::body::poolCount,
    delta,
    heme,
    store,
    bileGut,
    acids,
    ammonia,
    // salts [mmol/kg], excreted fraction of phosphate
    potassium,
    phosphate,
    phosphateExcreted,
    // protein: whole pool and its part in plasma [g/kg]; levels at healthy filling; shares
    albumin,
    albuminPlasma,
    globulin,
    globulinPlasma,
    crp,
    saa,
    fibrinogen,
    factor7,
    factors,
    // sugar and fat [mmol/L]
    glucose,
    cholesterol,
    triglycerides,
    count
};
} // namespace at

using Vector = std::array<double, at::count>;

/// What acts from outside at a moment.
struct Drives {
    std::array<double, cistern::body::driveCount> value{};
    double operator[](cistern::body::Drive which) const {
        return value[static_cast<std::size_t>(which)];
    }
};

/// What follows from the pools at a moment and is needed by more than one part of the body.
struct Now {
    // hormones
    double held;         ///< aldosterone and cortisol that the cortex can still give, share
    double cortisol;     ///< effect on cells, share of the greatest
    double half;         ///< slow excess of cortisol, half of 1 at 1 mg/kg/d
    double root2, root4; ///< of what tissues feel of thyroxine
    double contracted;   ///< share of the spleen's store that is pressed out
    // liver and muscle
    double flowC, flowM; ///< what dying liver cells lose [share/h]
    double ductal, cholestasis, shunted, reached, work, made, calm;
    double shed, muscleFlow, heartFlow; ///< [share/h]
    // volumes
    double extracellular, stretch, plasma, redVolume, outside, blood, hematocrit, filled;
    // red cells
    double cells, lacking, hemoglobin, drive, aged, broken, lack, heme;
    double replaced; ///< volume that dying cells leave to plasma [L/kg/h]
    // kidney
    double share, filtration, clearance, perfusion, need, cleared, creatinine, creatinineMade,
        spilled;
    double proteinLost; ///< in urine [mg/kg/h]
    // protein and sugar
    double albumin, globulin, sensitivity;
};

inline const double ln2 = std::log(2.0);

/// What rounds a corner off where two lines are `gap` apart: a parabola within `width` of it.
inline double rounding(double gap, double width = 0.1) {
    const double within = std::max(width - std::abs(gap), 0.0);
    return within * within / (4 * width);
}
inline double positive(double x, double width = 0.1) {
    return std::max(x, 0.0) + rounding(x, width);
}
inline double eased(double a, double b) {
    return std::min(a, b) - rounding(a - b);
}
/// What lies above zero, setting in gently: x squared over x + width, which tends to x - width.
inline double onset(double x, double width) {
    return x > 0 ? x * x / (x + width) : 0;
}
/// A lack as it is felt: nothing up to zero, then by its third power at first, at last all of it.
inline double felt(double lack, double width) {
    const double above = std::max(lack, 0.0), square = above * above;
    return above * square / (square + width * width);
}
inline double join(double a, double b) {
    return 1 - (1 - a) * (1 - b);
}
/// The rate of a half-time.
inline double rateOf(double halfTime) {
    return ln2 / halfTime;
}

} // namespace reference
