#pragma once
#include "body/species.h"
#include "reference/organs.h"

namespace reference {

/// What organs leak, make and clear: enzymes, bilirubin, bile acids, ammonia, proteins, sugar, fat.
class Solutes {
public:
    Solutes(const cistern::body::Species& species, const Organs& organs);
    /// The healthy animal at an age [h].
    void rest(Vector& y, double age) const;
    void now(const Vector& y, const Drives& d, Now& n) const;
    void rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;

    struct Levels {
        std::array<double, cistern::body::poolCount> enzyme, release;
        double liverLeak, ductLeak, boneLeak;
        double conjugated, delta, bilirubin;
        double crp, saa, fibrinogen, pt, aptt, cholesterol, triglycerides;
    };
    Levels levels(const Vector& y, const Drives& d, const Now& n) const;

private:
    /// One enzyme, as a rise of its level per hour for each thing that feeds it.
    struct Pool {
        double out, clearance;                         ///< [1/h], [L/kg/h]
        double living, leaking, cytosol, mitochondria; ///< of the liver
        double muscle, heart, redCells, acini, acinarLeak, other;
        double renal, inPlasma; ///< shares
    };
    /// A protein in plasma and tissue.
    struct TwoPools {
        double made, broken, returning, escape, level, perLevel, share;
    };
    std::array<Pool, cistern::body::poolCount> pool{};
    cistern::body::Species p;
    TwoPools albumin, globulin;
    double healthyPlasma;
    double uptake, exchange, bileMade, bileRenal, bileMost, bileHalf;
    double acidReach, acidMade, acidGut, acidStore, ammoniaReach, ammoniaMade;
    double perFiltration, perGlucose, perSugarSpace, perAcidSpace, perAmmoniaSpace;
    struct {
        double growth, heme, delta, emptying, crp, saa, fibrinogen, factor7, factors, cholesterol,
            triglycerides;
    } rate; ///< [1/h]

    void setPools(const Organs& organs);
    void setBile();
    TwoPools twoPools(double level, double halfLife, double share, double crossing) const;
    using Inflow = std::array<double, cistern::body::poolCount>;
    double boneShed(const Vector& y) const;
    Inflow inflow(const Vector& y, const Drives& d, const Now& n) const;
    void enzymeRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    double conjugated(const Vector& y) const;
    void bileRates(const Vector& y, const Now& n, Vector& dy) const;
    void portalRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void proteinRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void sugarRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
};

} // namespace reference
