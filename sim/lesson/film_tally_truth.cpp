#include "lesson/film_tally.h"

namespace cistern::lesson {

TallyTruth tallyTruth(const lab::Slide& slide) {
    return tallyTruth(slide, lab::reach(slide, lab::FilmArea::monolayer));
}

} // namespace cistern::lesson
