#pragma once
#include "body/names.h"
#include "body/parameter.h"

namespace cistern::lab {

/// Forms of red cells. "Young" is the share of red cells that are reticulocytes; shares are of all
/// red cells unless said otherwise.
struct RedFilmLaws {
    double howellJollyOfYoung;       ///< cells with such a body, per young cell
    double paleFrom, paleAll;        ///< filling lost, share of the own: first, and all cells pale
    double schistocytesOfPale;       ///< per pale cell: what holds little breaks early
    double keratocytesOfPale;        ///< the same
    double acanthocytesOfLiver;      ///< where none of the liver works
    double targetsOfCholesterol;     ///< per fold of cholesterol above the own
    double targetsOfYoung;           ///< per young cell: wide membranes with little in them
    double mostTargets;              ///< of both together
    double spreadOfYoung;            ///< added to the variation of diameters, per young cell
    double spreadOfPale;             ///< the same, per pale cell
    double rouleauxOfProtein;        ///< share in rows, per fold of globulin above the own
    double fibrinogenOfGlobulin;     ///< grams of globulin that stick as one of fibrinogen does
    double mostRouleaux;             ///< share in rows, at most
    double crenatedOfEdta;           ///< per fold of EDTA above a full tube's
    double crenatedOfHour;           ///< of standing beyond `crenatedAfter` [1/h]
    double crenatedAfter;            ///< [h]
    double crenatedOfUrea;           ///< per urea above `crenatedFromUrea` [L/mmol]
    double crenatedFromUrea;         ///< [mmol/L]
    double signsGrow, signsFadeHalf; ///< of what an illness leaves: time constant, half-life [h]
};

struct WhiteFilmLaws {
    double leftShiftFrom, leftShiftAll; ///< bands of all neutrophils: first metamyelocytes, most
    double metamyelocytes;              ///< of bands and younger, at most, share
    double toxicLeast, toxicFull;       ///< grade of the first toxic cell; share toxic at grade 1
    double reactive;                    ///< of lymphocytes, in health
    double reactiveOfInflammation;      ///< added per tenfold of acute-phase protein
    double reactiveOfYouth, youth;      ///< added in animals younger than this [h]
    double mostReactive;
    double basophils;            ///< of eosinophils and basophils, which are reported as one
    double hypersegmented;       ///< of segmented neutrophils, in health
    double hypersegmentedOfStay; ///< added where steroids keep all of them in blood
    double hypersegmentedOfHour; ///< added by standing beyond `agedAfter` [1/h]
    double mostHypersegmented;
    double drumstick;           ///< of females' segmented neutrophils
    double doubtful;            ///< between band and segmented
    double smudges;             ///< of all white cells and smudges, in fresh blood
    double smudgesOfHour;       ///< beyond `agedAfter` [1/h]
    double smudgesOfClot;       ///< per share of the white cells that a clot took
    double agedAfter, agedTime; ///< standing that leaves no mark; time constant after it [h]
};

/// How a film was spread, dried and stained: by the day's chance.
struct SlideLaws {
    double thickness;                      ///< standard deviation of its logarithm
    double dragLeast, dragMost;            ///< of the push, 0..1
    double tone;                           ///< of each part of the stain, at most, share
    double toneChance;                     ///< that it is too blue, or too pink
    double blueRed, blueBlue, blueNuclear; ///< stain of such a film, fold of a good one
    double pinkRed, pinkBlue, pinkNuclear;
    double waterChance, waterLeast, waterMost; ///< of holes; share of red cells with them
    double precipitateChance, precipitate, precipitateSpread; ///< [1/mm2] median, of its logarithm
};

/// What differs between dog and cat.
struct KindFilmLaws {
    double howellJolly;        ///< in health, share of red cells
    double heinz, heinzSpread; ///< in health, median; between animals, of its logarithm
    double rouleaux;           ///< in health, share in rows
    double largePlatelets;     ///< in health, share of platelets
    double largeOfLack;        ///< added where all platelets are missing
};

/// How blood becomes a film: parameters of assets/film.yaml.
struct FilmLaws {
    RedFilmLaws red{};
    WhiteFilmLaws white{};
    SlideLaws slide{};
    KindFilmLaws dog{}, cat{};
    const KindFilmLaws& of(body::Kind kind) const { return kind == body::Kind::dog ? dog : cat; }
};

/// Names, units and bounds of all parameters, in file order.
void eachParameter(FilmLaws& laws, const body::Visit& visit);

/// How much of what an illness leaves on red cells shows at an hour, 0..1: it grows while the
/// illness lasts and fades with the cells that bear it.
double signsShown(const RedFilmLaws& laws, double from, double to, double hour);

} // namespace cistern::lab
