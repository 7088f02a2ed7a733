#pragma once
#include "base/chance.h"
#include "lab/counter/counter.h"

#include <utility>

namespace cistern::lab {

/// How the reader of films judges that day: factors, about 1.
struct FilmReader {
    double bands = 1, toxic = 1;
};

/// What a stained film shows.
struct Film {
    int cells = 0;                           ///< white cells told apart
    std::array<int, whiteKindCount> kinds{}; ///< of these, by whiteKinds
    int nucleatedMet = 0;                    ///< nucleated red cells met on the way
    double toxic = 0;                        ///< share of as many neutrophils
    double plateletsPerField = 0;            ///< mean of the fields
    double platelets = 0;                    ///< estimate from it [10*9/L]
    bool clumps = false;                     ///< clumps of platelets at the feathered edge
    bool old = false;                        ///< cells show that the blood has stood

    /// Share of neutrophils that are bands; 0 if none was met.
    double bandsOfNeutrophils() const;
    double nucleated() const; ///< nucleated red cells per 100 white cells
};

/// Reads a film: cells met one by one, a hundred or two; ten fields for platelets; the feathered
/// edge. Throws std::invalid_argument for blood that validate() refuses.
Film readFilm(const Counter& counter, const Blood& blood, const FilmReader& reader,
              base::Chance& chance);

/// How many of n cells are of a kind that holds this share of all, met one by one.
int countOf(int n, double share, base::Chance& chance);

/// Limits in % as differential tables print them: the lower rounded down, the upper up. Ruemke
/// 1985.
std::pair<int, int> printedLimits(int k, int n);

/// White cells without the nucleated red cells among them, which are told per 100 white cells.
/// Common practice; done where there are more than 5 (eClinPath; human texts: 5 or more).
double correctedWhite(double counted, double nucleatedPer100);
bool needsCorrection(double nucleatedPer100);

/// Platelets [10*9/L] from their mean number in a field of the oil lens: 15 to 20 for each.
/// Cornell; Tasker 1999 (20, cats).
double plateletEstimate(double perField, double perPlatelet = 15);

} // namespace cistern::lab
