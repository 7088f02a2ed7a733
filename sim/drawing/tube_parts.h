#pragma once
#include "drawing/tube.h"

#include <string>
#include <vector>

/// The parts of a tube before they are drawn.
namespace cistern::drawing {

/// One layer of what is in the glass, from the bottom up.
struct TubeLayer {
    enum class Kind { gel, blood, cells, clear };
    Kind kind = Kind::blood;
    Box box;
    Color color;
    std::string words;
};

/// All that has a place.
struct TubePlan {
    TubePlaces places;
    std::vector<TubeLayer> layers;
    Text label;
    std::vector<Text> below; ///< name, turns, caption
    std::vector<Text> beside;
    std::vector<Point> pointed; ///< where in the glass each word beside it belongs (x: its wall)
};

TubePlan tubePlan(const TubeView& view, const Box& box);

/// True if blood should clot in it.
bool clots(Additive additive);

/// How serum or plasma looks: straw, dyed by hemoglobin and bilirubin, clouded by fat.
Color serumColor(const TubeView& view);
/// The same in words; "" if it looks as it should.
std::string serumWords(const TubeView& view);

Color bloodColor();
Color cellsColor();

} // namespace cistern::drawing
