#pragma once
#include <vector>

namespace open_data {

/// The level in a plasma pool at given hours (ascending), stepped with the lags that step the body.
/// Neither function knows an exponential of its own.

/// A dose into the vein at hour 0. Plasma loses, and exchanges with a pool of tissue.
struct Bolus {
    double start;           ///< level at hour 0
    double loss, out, back; ///< rates [1/h]: of loss from plasma, from plasma to tissue, back

    /// The pools whose plasma follows a1 e^(-rate1 t) + a2 e^(-rate2 t), rates [1/h]. (Algebra of
    /// two compartments: Gibaldi & Perrier 1982, Pharmacokinetics, ch. 2, from memory.)
    static Bolus decaying(double a1, double rate1, double a2, double rate2);
};
std::vector<double> levels(const Bolus& bolus, const std::vector<double>& hours);

/// A dose swallowed at hour 0. The gut hands it to plasma; plasma loses it.
struct Swallowed {
    double dose;         ///< [mg/kg]
    double uptake, loss; ///< rates [1/h]: from gut to plasma, from plasma
    double clearance;    ///< of plasma [L/h/kg]; its volume is clearance / loss
};
std::vector<double> levels(const Swallowed& swallowed, const std::vector<double>& hours);

} // namespace open_data
