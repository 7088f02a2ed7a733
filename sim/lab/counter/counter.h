#pragma once
#include "body/parameter.h"
#include "lab/counter/blood.h"

namespace cistern::lab {

/// One side of the counter: blood thinned and drawn through a hole.
struct Channel {
    double aperture = 0; ///< diameter of the hole [um]
    double dilution = 0; ///< volumes in which one volume of blood is thinned
    double metered = 0;  ///< thinned blood that is drawn through [uL]
    double thinning = 0; ///< coefficient of variation of one dilution to the next, 0..1
    double least = 0;    ///< smaller pulses are not counted [fL]
};

/// What cells and machine are like in a species.
struct CellSizes {
    double redSpread = 0;      ///< coefficient of variation of red cells' volume, 0..1
    double platelet = 0;       ///< median volume of platelets [fL]
    double plateletSpread = 0; ///< standard deviation of its logarithm
    double nucleatedFrom = 0;  ///< reticulocytes above which nucleated cells come [10*9/L]
    double nucleatedShare = 0; ///< nucleated cells per reticulocyte above that
};

/// A blood cell counter by impedance, with a sorter by scattered light and a stain for
/// reticulocytes, and the people at the microscope and the capillary beside it.
struct Counter {
    Channel red, white;
    double redMost = 0;            ///< larger pulses are not counted as red cells [fL]
    double overlap = 0;            ///< of a second cell's height that adds to a first, share
    double pulseNoise = 0;         ///< coefficient of variation of the height of one pulse
    double gainNoise = 0;          ///< of the gain, from sample to sample
    double debris = 0;             ///< pulses of dust and noise among the platelets, as [10*9/L]
    double reticulocyteVolume = 0; ///< over that of mature red cells
    double largePlatelet = 0;      ///< volume of a giant platelet over the median
    double clumpSpread = 0;        ///< standard deviation of the logarithm of clumps' size
    double sorted = 0;             ///< white cells sorted, at most
    double stained = 0;            ///< red cells looked at for reticulocytes
    double stainNoise = 0;         ///< coefficient of variation of the gate around reticulocytes
    double patience = 0;           ///< time a metered volume may take, fold of the usual
    double noiseOfClog = 0;        ///< rise of pulse noise and debris per share clogged, folds
    // at the bench
    double filmCells = 0;      ///< white cells told apart on a film
    double filmFields = 0;     ///< fields of the oil lens looked at for platelets
    double fieldPlatelets = 0; ///< blood's platelets for each in a field [10*9/L]
    double filmDensity = 0;    ///< coefficient of variation of the thickness of films
    double edgeBlood = 0;      ///< blood whose clumps are swept to the edge that is looked at [uL]
    double packingSpread = 0;  ///< coefficient of variation of a capillary's filling and spin
    double scaleSpread = 0;    ///< standard deviation of setting the scale, share of the tube
    double scaleLine = 0;      ///< readings fall on these, share of the tube
    CellSizes dog, cat;

    const CellSizes& sizes(body::Kind kind) const { return kind == body::Kind::dog ? dog : cat; }
};

/// Names, units and bounds of all parameters.
void eachParameter(Counter& counter, const body::Visit& visit);

/// Nucleated red cells per 100 white cells that a marrow sends out which regenerates as hard as the
/// blood's reticulocytes tell. From memory (Harvey): some to dozens in strong regeneration.
double nucleatedCells(const Counter& counter, body::Kind kind, double reticulocytes,
                      double whiteCells);

} // namespace cistern::lab
