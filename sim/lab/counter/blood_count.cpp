#include "lab/counter/blood_count.h"

#include "base/text.h"

#include <algorithm>

namespace cistern::lab {

using body::Analyte;

bool counted(Analyte analyte) {
    switch (analyte) {
    case Analyte::RBC:
    case Analyte::MCV:
    case Analyte::Hct:
    case Analyte::MCH:
    case Analyte::MCHC:
    case Analyte::reticulocytes:
    case Analyte::WBC:
    case Analyte::neutrophils:
    case Analyte::bands:
    case Analyte::lymphocytes:
    case Analyte::monocytes:
    case Analyte::eosinophils:
    case Analyte::platelets:
    case Analyte::toxic:
        return true;
    default:
        return false;
    }
}

bool BloodCount::corrected() const {
    return needsCorrection(film.nucleated());
}

std::optional<double> BloodCount::value(Analyte analyte) const {
    const double white = corrected() ? correctedWhite(count.white, film.nucleated()) : count.white;
    const double bands = film.bandsOfNeutrophils();
    switch (analyte) {
    case Analyte::RBC:
        return count.red;
    case Analyte::MCV:
        return count.volume;
    case Analyte::reticulocytes:
        return count.reticulocytes;
    case Analyte::WBC:
        return white;
    case Analyte::neutrophils:
        return count.neutrophils * (1 - bands);
    case Analyte::bands:
        return count.neutrophils * bands;
    case Analyte::lymphocytes: // the sorter took nucleated red cells for these
        return std::max(0., count.lymphocytes - (count.white - white));
    case Analyte::monocytes:
        return count.monocytes;
    case Analyte::eosinophils:
        return count.eosinophils;
    case Analyte::platelets:
        return count.platelets;
    case Analyte::toxic:
        return film.toxic;
    default:
        return std::nullopt;
    }
}

std::vector<std::string> BloodCount::remarks(bool filmRead) const {
    std::vector<std::string> lines;
    if (count.largeParticles)
        lines.push_back("The counter saw large particles between platelets and red cells or beyond "
                        "them: clumps or large platelets; look at the film.");
    if (filmRead && film.clumps)
        lines.push_back("Clumps of platelets at the feathered edge: the platelet count reads low; "
                        "about " +
                        base::rounded(film.plateletsPerField, 1) +
                        " single ones in a field of the oil lens.");
    if (count.slow) lines.push_back("Blood ran slowly through the counter: the counts may be low.");
    if (filmRead && film.old)
        lines.push_back("The cells on the film are swollen and full of holes: the blood has stood "
                        "for hours.");
    return lines;
}

std::vector<std::string> BloodCount::notes(Analyte analyte) const {
    if (!corrected() || (analyte != Analyte::WBC && analyte != Analyte::lymphocytes)) return {};
    return {"corrected for " + base::rounded(film.nucleated(), 1) +
            " nucleated red cells per 100 white cells"};
}

} // namespace cistern::lab
