#pragma once
#include "body/names.h"
#include "body/parameter.h"

namespace cistern::lab {

/// At the vein. A vein is fast (jugular) or slow (all others); chances per draw.
struct NeedleLaws {
    double hemolysisFast, hemolysisSlow, hemolysisOfAttempt; ///< chance; of each further attempt
    double hemolysisSize, hemolysisSpread; ///< free hemoglobin [g/L], median; log-normal spread
    double clotSlow, clotOfAttempt;        ///< chance that an EDTA tube clots a little
    double clotSize;                       ///< of such a clot, over the largest
};

/// Turning the tubes over.
struct MixingLaws {
    double gentle;                          ///< turns that break no cell
    double broken;                          ///< share of red cells, by each further turn
    double platelets, whiteCells, redCells; ///< share caught in the largest clot
    double clumped;                         ///< greatest share of platelets in clumps
    double clumpSize;                       ///< platelets in one
    double clotVisibleFrom;                 ///< thread seen by whoever looks, share of the largest
};

/// What red cells keep and spill. Enzymes and phosphate per gram of their hemoglobin.
struct CellLaws {
    double potassium, richPotassium; ///< [mmol/L] of cells; of those that kept it
    double LDH, AST;                 ///< [U/g]
    double phosphate;                ///< [mmol/g]
};

/// Tubes and what they hold. EDTA in g per liter of blood in a full tube.
struct TubeLaws {
    double edta, edtaMass, edtaOsmoles;         ///< [g/L], [g/mol], particles [mmol/g]
    double osmolality, rigid;                   ///< of plasma [mmol/L]; share of a cell that stays
    double swollenBack;                         ///< of shrinkage, in the counter's diluent, share
    double refraction;                          ///< EDTA read as protein [g/g]
    double carriedOver, toppedUp;               ///< share of the serum that came with EDTA
    double calciumHalf, magnesiumHalf, alpHalf; ///< EDTA that leaves half to be read [mmol/L]
    double chelation;                           ///< steepness of that
    double citrate;                             ///< volumes of blood to one of citrate
    double ptOfDilution, apttOfDilution;        ///< power of the share of plasma
    double fluorideShift, fluorideLag;          ///< share of glucose; until it stops the cells [h]
};

/// Standing. Rates at the room's usual temperature unless said otherwise.
struct WaitLaws {
    double q10;                         ///< of what cells do: fold per 10 K
    double glycolysisAt;                ///< temperature of the rates of glycolysis [Cel]
    double ofWhiteCells;                ///< share of glucose eaten by a usual number of white cells
    double saltLeak, enzymeLeak;        ///< share of what cells hold [1/h]
    double acid;                        ///< bicarbonate used, per glucose eaten [mol/mol]
    double ammonia;                     ///< formed in an hour [umol/L]
    double bilirubinRoom, bilirubinSun; ///< destroyed by light [1/h]
    double swelling, mostSwelling;      ///< of red cells [1/h]; share
    double plateletLoss;                ///< [1/h]
};

struct SpinLaws {
    double fibrinUntil, fibrinLoss; ///< [h]; of the probe's volume at most, share
    double settling;                ///< pull times time that leaves 1/e of loose cells [min]
    double loose;                   ///< share of the volume that is cells before any spin
    double haze;                    ///< of all loose cells, as triglyceride [mmol/L]
    double shortFrom;               ///< missing share that the probe reports
};

/// What differs between dog and cat.
struct BloodLaws {
    double glycolysis;             ///< share of glucose in the first hour, 0..1
    double plateletPotassium;      ///< released as serum clots [mmol/L per 10*9/L]
    double clumpsFast, clumpsSlow; ///< chance that platelets clump, by vein
    double clumpsUnmixed;          ///< the same, in a tube that was not mixed
    double clumpsOfTime;           ///< further platelets that clump [1/h]
};

/// How handling changes blood: parameters of assets/specimen.yaml. Every law counts from a tube
/// handled as usual (usualTube, Handling{}), to which published intervals belong: such a tube is
/// left as it is.
struct SpecimenLaws {
    NeedleLaws needle{};
    MixingLaws mixing{};
    CellLaws cells{};
    TubeLaws tubes{};
    WaitLaws wait{};
    SpinLaws spin{};
    BloodLaws dog{}, cat{};
    const BloodLaws& of(body::Kind kind) const { return kind == body::Kind::dog ? dog : cat; }
};

/// Calls `visit` with every parameter, in file order.
void eachParameter(SpecimenLaws& laws, const body::Visit& visit);

} // namespace cistern::lab
