#pragma once
#include "lab/assay/cup.h"
#include "lab/assay/optics.h"

#include <vector>

namespace cistern::lab {

/// Absorbance of serum at one wavelength through 1 cm, by what colors or clouds it.
struct Tint {
    double hemoglobin = 0; ///< per g/L
    double bilirubin = 0;  ///< per umol/L
    double turbidity = 0;  ///< per mmol/L of triglyceride that clouds
    double of(const Indices& color) const {
        return hemoglobin * color.hemolysis + bilirubin * color.icterus + turbidity * color.lipemia;
    }
};

/// What serum absorbs over the wavelengths.
struct Spectra {
    struct Point {
        double wavelength = 0; ///< [nm]
        double hemoglobin = 0; ///< oxygenated, of one heme [L/mmol/cm]
        double bilirubin = 0;  ///< on albumin [L/mmol/cm]
    };
    std::vector<Point> table;      ///< by rising wavelength
    double hemeMass = 16.1;        ///< hemoglobin for one heme [g/mmol]
    double turbidity = 0;          ///< absorbance for 1 mmol/L through 1 cm at `turbidityAt`
    double turbidityAt = 660;      ///< [nm]
    double turbidityExponent = 2;  ///< it falls with this power of the wavelength
    double dilution = 20;          ///< of the serum, for its indices
    std::vector<double> indicesAt; ///< wavelengths at which indices are read [nm]

    /// Straight between the table's points, the first or last of them beyond.
    Tint at(double wavelength) const;
};

void eachParameter(Spectra& spectra, const body::Visit& visit);

/// Color and cloud as the photometer finds them: the diluted serum's absorbance at several
/// wavelengths, split by least squares into the three and what the cuvette itself adds. Amounts
/// below zero read as zero; too dark to see through reads too low. Nothing is seen (all zero)
/// without at least four wavelengths.
Indices seen(const Indices& truth, const Spectra& spectra, const Photometer& photometer,
             double lamp, const Noise& noise);

} // namespace cistern::lab
