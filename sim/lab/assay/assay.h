#pragma once
#include "lab/assay/spectra.h"

#include <string>
#include <variant>

namespace cistern::lab {

/// Sample and reagent of one cuvette.
struct Volumes {
    double sample = 10, total = 120; ///< [uL]
    double fraction() const { return sample / total; }
};

/// What makes or eats color at a steady pace: an enzyme in the sample, or a substance that keeps a
/// cycle of enzymes turning. Amounts in the cuvette, in mmol/L.
struct Kinetic {
    Photometer photometer;
    Tint tint; ///< of the serum at the wavelength
    Volumes volumes;
    double wavelength = 339;       ///< [nm]
    double absorption = 6.3;       ///< of the indicator [L/mmol/cm]
    double turnover = 1;           ///< activity that one unit of the analyte keeps up [U/L]
    double substrate = 500;        ///< at the start
    double affinity = 1;           ///< half rate at this much substrate (Michaelis-Menten)
    bool falls = false;            ///< the indicator is used up, not formed
    double indicator = 0.18;       ///< at the start; where it is formed, the most that can be
    double indicatorAffinity = 0;  ///< half rate at this much indicator; 0: none is felt
    double coupling = 0;           ///< activity of the second enzyme [U/L]; 0: there is none
    double couplingAffinity = 0.1; ///< its half rate, of what passes between the two
    double q10 = 2;                ///< how much faster 10 K warmer
    double delay = 90, read = 180,
           interval = 6;               ///< from the start to the first reading, on, step [s]
    double blank = 0, blankSpread = 0; ///< of the reagent alone [absorbance/min], with the reaction
    double limit = 0.1;                ///< absorbance: no reading beyond it is used
    double reaction = 0;               ///< spread of the reaction itself, share
    double calibration = 1;            ///< of the factor, by a calibrator
};

/// What ends as a color, or goes there by a rate in proportion to the amount.
struct EndPoint {
    Photometer photometer;
    Tint tint, second; ///< of the serum at the two wavelengths
    Volumes volumes;
    double wavelength = 540;    ///< [nm]
    double otherWavelength = 0; ///< is subtracted [nm]; 0: there is none
    double color = 1;           ///< absorbance of one unit in the cuvette through 1 cm
    bool falls = false;         ///< the color is used up
    double capacity = 1; ///< what the reagent can turn over, in the analyte's unit in the cuvette
    double reagent = 0;  ///< absorbance of the reagent, besides what falls
    double blankSpread = 0;    ///< of the reagent's absorbance
    double pace = 3;           ///< of the reaction [1/min]
    double q10 = 2;            ///< of the pace
    bool blanked = true;       ///< the same cuvette is read at `from` and subtracted
    double from = 0, to = 300; ///< the two readings [s]
    double reaction = 0;       ///< spread of the reaction itself, share
    double calibration = 1;    ///< units of the sample for one of absorbance
};

/// A membrane that lets one ion set its voltage; the sample is diluted first.
struct Electrode {
    Photometer photometer; ///< its pipettes
    Volumes volumes;
    double charge = 1;
    double slope = 1;      ///< share of Nernst's
    double noise = 0.1;    ///< of a reading [mV]
    double carry = 0;      ///< spread of what is left of the sample before [mmol/L]
    double others = 0;     ///< what other ions count for, as amount of this one in the sample
    double standard = 100; ///< the amount at which the voltage is zero
    double water = 0.93;   ///< share of water for which it is calibrated
};

/// An antibody's four-parameter curve: signal = end + (start - end) / (1 + (x / middle)^steepness).
struct Ligand {
    Photometer photometer; ///< its pipettes
    Volumes volumes;
    double start = 100, end = 1e6; ///< light counted without any and with endless analyte
    double middle = 50;            ///< amount at half of the way, in the analyte's unit
    double steepness = 1;
    double washing = 0.03;     ///< spread of the signal from binding and washing, share
    double temperature = 0.01; ///< more label bound for 1 K warmer, share
};

/// Light bent by what is dissolved.
struct Refractometer {
    double eye = 0.0007;       ///< spread of where the eye puts the line [specific gravity]
    double line = 0.001;       ///< step of the scale
    double temperature = 1e-4; ///< a warmer sample reads less [1/K]
};

/// Time until a clot is seen.
struct Timer {
    Photometer photometer; ///< its pipettes
    Volumes volumes;
    double detection = 0.1; ///< spread of the moment it is seen [s]
    double reaction = 0;    ///< spread of the reaction itself, share
    double q10 = 1.5;       ///< clots that much faster 10 K warmer
    double reagent = 0.3;   ///< and with this one of the reagent's
    double thinning = 0.5;  ///< the time goes with this negative power of the plasma's share
    double atOne = 0; ///< [s] for one unit, if an amount is made of the time; 0: the time itself
    double power = 1; ///< the time falls with this power of the amount
};

using Assay =
    std::variant<std::monostate, Kinetic, EndPoint, Electrode, Ligand, Refractometer, Timer>;

void eachParameter(Kinetic& assay, const body::Visit& visit);
void eachParameter(EndPoint& assay, const body::Visit& visit);
void eachParameter(Electrode& assay, const body::Visit& visit);
void eachParameter(Ligand& assay, const body::Visit& visit);
void eachParameter(Refractometer& assay, const body::Visit& visit);
void eachParameter(Timer& assay, const body::Visit& visit);
// Those that a method may leave out; their defaults change nothing.
void eachOption(Kinetic& assay, const body::Visit& visit);
void eachOption(EndPoint& assay, const body::Visit& visit);
void eachOption(Timer& assay, const body::Visit& visit);

/// What is poured together for one reading, and the machine's state.
struct Setting {
    double content = 0; ///< of the analyte, above its origin, in the model's unit
    Indices color{};
    double solids = 0.07;
    double taken = 1;  ///< share of the sample's volume that the probe took up
    double lot = 1;    ///< share of the reagent's working substance that is left
    double lamp = 1;   ///< share of its light
    double warm = 0;   ///< [K] too warm
    bool check = true; ///< bent traces are caught
};

/// What comes of it.
struct Signal {
    double content = 0;   ///< as calibrated, above the analyte's origin
    bool bent = false;    ///< no straight part, or the reagent is used up: not to be believed
    std::string remark{}; ///< in plain words, if there is something to say
    Trace trace{};
};

Signal run(const Kinetic& assay, const Setting& setting, const Noise& noise);
Signal run(const EndPoint& assay, const Setting& setting, const Noise& noise);
Signal run(const Electrode& assay, const Setting& setting, const Noise& noise);
Signal run(const Ligand& assay, const Setting& setting, const Noise& noise);
Signal run(const Refractometer& assay, const Setting& setting, const Noise& noise);
Signal run(const Timer& assay, const Setting& setting, const Noise& noise);

/// Lets a calibrator of this content, free of noise, set the scale; what is calibrated in closed
/// form stays as it is. Throws std::invalid_argument if the calibrator cannot be read.
void calibrate(Assay& assay, double content);

/// The sample's share of a cuvette as it was truly poured.
double poured(const Volumes& volumes, const Photometer& photometer, double taken,
              const Noise& noise);

} // namespace cistern::lab
