#include "body/constants.h"
#include "body/species.h"

#include <cmath>
#include <stdexcept>

namespace cistern::body {

namespace {

/// Share of the healthy conjugated level at which exchange with the liver begins to run dry.
/// Assumed.
constexpr double runningDry = 0.5;

} // namespace

void eachParameter(BilirubinParameters& p, const Visit& visit) {
    const Section bilirubin("bilirubin", visit);
    bilirubin("production", "umol/kg/h", p.production, 0.01, 10, bilirubinMass);
    bilirubin("space", "L/kg", p.space, 0.03, 1);
    bilirubin("unconjugated", "umol/L", p.unconjugated, 0.01, 20, bilirubinMass);
    bilirubin("conjugated", "umol/L", p.conjugated, 0.01, 20, bilirubinMass);
    bilirubin("back-flow", "1", p.backFlow, 0, 3);
    bilirubin("reserve of excretion", "1", p.reserve, 1.5, 50);
    bilirubin("renal threshold", "umol/L", p.renalThreshold, 0.1, 500, bilirubinMass);
    bilirubin("renal clearance", "L/kg/h", p.renalClearance, 0, 1);
    bilirubin("binding to albumin", "1/h", p.deltaRate, 0, 1);
    bilirubin("delta half-life", "h", p.deltaHalfLife, 10, 1000);
    bilirubin("heme lag", "h", p.hemeLag, 1, 100);
}

void setBile(const Species& s, Constants<double>& c) {
    const auto& p = s.bilirubin;
    auto& b = c.bile;
    b.hemeInflow = p.production / p.space;
    b.uptakeLevel = p.unconjugated - p.backFlow * p.conjugated;
    b.exchange = 1 / (1 + p.backFlow);
    b.renalClearance = p.renalClearance / p.space;
    b.renalThreshold = p.renalThreshold;
    b.renalAdaptation = s.liver.adaptationRenal;
    b.binding = p.deltaRate;
    b.emptying = runningDry * p.conjugated;
    b.deltaTime = p.deltaHalfLife / std::log(2.0);
    const double renal =
        b.renalClearance * p.conjugated * p.conjugated / (p.conjugated + p.renalThreshold);
    const double excreted = b.hemeInflow - renal - p.deltaRate * p.conjugated;
    if (!(excreted > 0))
        throw std::invalid_argument("more bilirubin leaves by urine and albumin than is made");
    b.excretionMost = p.reserve * excreted;
    b.excretionHalf = p.conjugated * (p.reserve - 1);
    c.rate.bile = {1 / b.deltaTime, 1 / p.hemeLag};
}

void restBile(const Species& s, const Constants<double>& c, double, State<double>& y) {
    y.bile.bilirubin = s.bilirubin.unconjugated + s.bilirubin.conjugated;
    y.bile.delta = c.bile.binding * s.bilirubin.conjugated * c.bile.deltaTime;
    y.bile.heme = 1;
}

} // namespace cistern::body
