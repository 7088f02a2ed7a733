#pragma once
#include "body/species.h"
#include "reference/state.h"

namespace reference {

/// Plasma volume, spleen, red cells and their iron, white cells, platelets.
class Blood {
public:
    explicit Blood(const cistern::body::Species& species);
    void rest(Vector& y) const;
    void now(const Vector& y, const Drives& d, Now& n) const;
    /// Also works out what volume red cells leave to plasma.
    void rates(const Vector& y, const Drives& d, Now& n, Vector& dy) const;

    /// Levels in [10*12/L], [g/L], shares, [fL], [pg], [g/L], [10*9/L].
    struct Levels {
        double redCells, hemoglobin, hematocrit, volume, content, concentration, reticulocytes;
        double segmented, bands, lymphocytes, monocytes, eosinophils, toxic, platelets;
        double redWork, redLeak, whiteWork, plateletWork, plateletLeak;
    };
    Levels levels(const Vector& y, const Drives& d, const Now& n) const;

    double healthyPlasma; ///< [L/kg]

private:
    cistern::body::RedCellParameters red;
    cistern::body::WhiteCellParameters white;
    cistern::body::PlateletParameters platelet;
    double output, perOutput, redCells, volume, hemoglobin; ///< healthy, of red cells
    double perDecade, steepness;
    double neutrophils, healthyBands, bandRelease, storeAtRest, perNeutrophils, perStore;
    double plateletsAtRest, perPlatelets, plateletsMade;
    struct {
        double refill, contraction, erythropoietin, erythroid, released, marrowLack, reticulocytes,
            young, ageing;
        double leaving, dividing, maturing, stored, marrowCall, releaseCall, toxic;
        double monocytes, monocyteOutput, eosinophils, eosinophilOutput;
        double plateletCall, megakaryocytes, platelets;
    } rate; ///< [1/h]

    void setRed();
    void setWhite();
    void setPlatelets();
    void redRates(const Vector& y, const Drives& d, Now& n, Vector& dy) const;
    void whiteRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void neutrophilRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    void plateletRates(const Vector& y, const Drives& d, const Now& n, Vector& dy) const;
    double marginated(const Vector& y, const Now& n) const;
    double plateletLoss(const Vector& y, const Drives& d) const;
};

} // namespace reference
