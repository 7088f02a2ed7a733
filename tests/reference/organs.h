#pragma once
#include "body/species.h"
#include "reference/state.h"

namespace reference {

/// Hormones, liver, muscle and heart, pancreas and gut: the parts that lead and are not led.
class Organs {
public:
    explicit Organs(const cistern::body::Species& species);
    void rest(Vector& y) const;
    void now(const Vector& y, const Drives& d, Now& n) const;
    void rates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;

    double cortisol(const Vector& y, const Now& n) const; ///< [nmol/L]

    double muscleShed; ///< healthy shedding of muscle and heart, share of content [1/h]
    double heartShed;

private:
    cistern::body::HormoneParameters hormone;
    cistern::body::LiverParameters liver;
    cistern::body::SteroidParameters steroid;
    cistern::body::PhenobarbitalParameters phenobarbital;
    cistern::body::MuscleParameters muscle;
    cistern::body::DigestionParameters digestion;
    double liverReserve, acidPortal; // of urea's maker; of portal flow in the whole
    struct {
        double fast, daily, chronic, cortisol, excess, thyroid, effect, fright;
        double dying, dyingMitochondria, leak, ducts, necrosis, adaptation, response;
        double steroidFast, steroidMiddle, steroidSlow, phenobarbital;
        double muscleDying, heartDying, acinarLeak, gut, fat;
    } rate; ///< [1/h]

    void hormoneRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void liverRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void softRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
};

} // namespace reference
