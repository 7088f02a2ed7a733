#pragma once
#include "base/chance.h"
#include "body/red_sign.h"
#include "lab/counter/blood.h"
#include "lab/film/laws.h"
#include "lab/film/slide.h"

namespace cistern::lab {

/// What a film is made from: the cells of the EDTA tube as they truly are, and what else of the
/// animal and the tube leaves a mark on it. The defaults are those of health.
struct FilmBlood {
    Blood blood{};
    double redVariation = 0.135; ///< coefficient of variation of red cells' volume
    // over the animal's own healthy level
    double volume = 1;        ///< of its mature red cells
    double filling = 1;       ///< hemoglobin of the cells' volume
    double proteinExcess = 0; ///< globulin, and fibrinogen as so much of it, above 1
    double cholesterol = 1;
    double lymphocytes = 1;
    double platelets = 1;
    double acutePhase = 0; ///< tenfolds of CRP (dog) or SAA (cat)
    double liverWork = 1;  ///< share of the healthy
    double urea = 5;       ///< [mmol/L]
    double age = 35040;    ///< [h]
    bool female = false;
    double edtaExcess = 0; ///< folds of a full tube's EDTA, above 1
    body::RedSigns signs{};
};

/// The slide of a tube. `animal` is the chance that belongs to the animal for life, `day` that of
/// this film: thickness, stain, dirt, and the seed of where its cells lie. How many numbers are
/// taken from either hangs on nothing. Bands are as the laboratory reports them, with all younger
/// ones; eosinophils are reported with basophils; both are told apart on the slide. All white
/// cells, all neutrophils and all platelets add up to the tube's.
Slide made(const FilmLaws& laws, const FilmBlood& from, base::Chance& animal, base::Chance& day);

} // namespace cistern::lab
