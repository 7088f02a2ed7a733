#pragma once
#include "body/species.h"
#include "reference/state.h"

namespace reference {

/// Water and salt, nephrons and what they filter, and the salts of blood.
class Fluids {
public:
    explicit Fluids(const cistern::body::Species& species);
    void rest(Vector& y) const;
    /// Volumes and working nephrons, before blood is known.
    void nowWater(const Vector& y, Now& n) const;
    /// Filtration, once blood is known.
    void nowKidney(const Vector& y, const Drives& d, Now& n) const;
    void rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;

    struct Levels {
        double urea, creatinine, sdma, sodium, potassium, chloride, tco2, gap, calcium, phosphate,
            magnesium, gravity, proteinRatio, kidneyLeak;
    };
    Levels levels(const Vector& y, const Now& n) const;

    double healthyFiltration; ///< [L/kg/h]

private:
    cistern::body::WaterParameters water;
    cistern::body::KidneyParameters kidney;
    cistern::body::SaltParameters salt;
    cistern::body::SteroidParameters steroid;
    double glucose, threshold, albumin;
    double healthyPlasma, cellSodium;
    double creatinineMade, sdmaMade, ureaClearance, needAtRest, proteinMade;
    double potassiumAmount, phosphateAmount, phosphateIntake, gap;
    double perExtracellular, perTotal, perFiltration, perNeedSpan, perAlbumin;
    struct {
        double water, stunned, hyperfiltration, outflow, intake, muscleMass, phosphateExcreted;
    } rate; ///< [1/h]

    void saltRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    double gravity(const Vector& y, const Now& n) const;
};

} // namespace reference
