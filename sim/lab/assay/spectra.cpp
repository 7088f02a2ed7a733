#include "lab/assay/spectra.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace cistern::lab {

Tint Spectra::at(double wavelength) const {
    Tint tint;
    tint.turbidity = turbidity * std::pow(wavelength / turbidityAt, -turbidityExponent);
    if (table.empty()) return tint;
    const auto after = std::find_if(table.begin(), table.end(), [&](const Point& point) {
        return point.wavelength >= wavelength;
    });
    const Point& high = after == table.end() ? table.back() : *after;
    const Point& low = after == table.begin() || after == table.end() ? high : *(after - 1);
    const double span = high.wavelength - low.wavelength;
    const double part = span > 0 ? (wavelength - low.wavelength) / span : 0;
    tint.hemoglobin = (low.hemoglobin + part * (high.hemoglobin - low.hemoglobin)) / hemeMass;
    constexpr double perMicromole = 1e-3;
    tint.bilirubin = (low.bilirubin + part * (high.bilirubin - low.bilirubin)) * perMicromole;
    return tint;
}

void eachParameter(Spectra& s, const body::Visit& visit) {
    visit({"heme", "g/mmol", &s.hemeMass, 10, 20});
    visit({"turbidity.absorbance", "1", &s.turbidity, 0, 10});
    visit({"turbidity.at", "nm", &s.turbidityAt, 200, 1100});
    visit({"turbidity.exponent", "1", &s.turbidityExponent, 0, 5});
    visit({"dilution", "1", &s.dilution, 1, 200});
}

Indices seen(const Indices& truth, const Spectra& spectra, const Photometer& photometer,
             double lamp, const Noise& noise) {
    constexpr Eigen::Index unknowns = 4; // three tints, and what the cuvette itself adds to all
    const auto count = static_cast<Eigen::Index>(spectra.indicesAt.size());
    if (count < unknowns) return {};
    constexpr double useful = 2; // absorbance: above it stray light tells; common practice
    Eigen::MatrixX4d tints(count, unknowns);
    Eigen::VectorXd absorbances(count);
    const double share = photometer.path / spectra.dilution;
    const double shift = photometer.cuvette * noise.normal();
    for (Eigen::Index i = 0; i < count; ++i) {
        const Tint tint = spectra.at(spectra.indicesAt[static_cast<std::size_t>(i)]);
        const double read = reading(photometer, tint.of(truth) * share + shift, lamp, noise);
        const double counts = read < useful ? 1 : 0;
        tints.row(i) << tint.hemoglobin, tint.bilirubin, tint.turbidity, 1;
        tints.row(i) *= counts;
        absorbances[i] = counts * read / share;
    }
    const Eigen::Vector4d found = tints.colPivHouseholderQr().solve(absorbances);
    return {std::max(found[0], 0.0), std::max(found[1], 0.0), std::max(found[2], 0.0)};
}

} // namespace cistern::lab
