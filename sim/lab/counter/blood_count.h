#pragma once
#include "lab/counter/film.h"
#include "lab/counter/pass.h"
#include "lab/film/slide.h"

#include <optional>
#include <string>
#include <vector>

namespace cistern::lab {

/// One tube of blood through the counter and on a film, and what is reported from both. A film is
/// made of every count, so that no result hangs on what was asked for.
struct BloodCount {
    Count count;
    Film film;
    Slide slide{}; ///< what lies on the glass: no result is read from it

    bool corrected() const; ///< nucleated red cells were taken off the white cells
    /// A result in the model's unit; nothing for what is not counted.
    std::optional<double> value(body::Analyte analyte) const;
    /// What the machine remarks, and whoever reads the film if it is looked at: in plain words,
    /// never a diagnosis.
    std::vector<std::string> remarks(bool filmRead) const;
    /// What stands beside one result: how it was corrected.
    std::vector<std::string> notes(body::Analyte analyte) const;
};

/// Whether an analyte comes from the counter or the film, or is calculated from such.
bool counted(body::Analyte analyte);

} // namespace cistern::lab
