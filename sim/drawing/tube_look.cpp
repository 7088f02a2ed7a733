#include "drawing/brushwork.h"
#include "drawing/theme.h"
#include "drawing/tube_parts.h"

namespace cistern::drawing {

using namespace brushwork;

bool clots(Additive additive) {
    return additive == Additive::clot || additive == Additive::gel;
}

Color bloodColor() {
    return mixed(cellsColor(), theme::clay, 0.12);
}

Color cellsColor() {
    constexpr double deep = 0.45; // between brick and the deep red of ochre glazed with plum
    return mixed(mixed(theme::clayDark, theme::thought, 0.5), glazed(theme::work, theme::thought),
                 deep);
}

Color serumColor(const TubeView& view) {
    constexpr double red = 1.5, yellow = 1.1, milk = 0.85; // layers of dye, share of white, at 1
    const Color straw = mixed(theme::workSoft, theme::field, 0.35);
    const Color tinted =
        dyed(dyed(straw, mixed(theme::clayDark, theme::thought, 0.5), red * view.hemolysis),
             theme::work, yellow * view.icterus);
    return mixed(tinted, theme::field, milk * view.lipemia);
}

std::string serumWords(const TubeView& view) {
    // Below `seen` the eye sees nothing; from `strong` on it sees the stronger word.
    constexpr double seen = 0.1, strong = 0.5;
    const TubeWords& words = view.words;
    std::string told;
    const auto add = [&](const std::string& word) { told += (told.empty() ? "" : ", ") + word; };
    if (view.hemolysis >= seen) add(view.hemolysis >= strong ? words.red : words.pink);
    if (view.icterus >= seen) add(words.yellow);
    if (view.lipemia >= seen) add(view.lipemia >= strong ? words.milky : words.cloudy);
    return told;
}

} // namespace cistern::drawing
