// Every class of cell side by side.
#include "base/text.h"
#include "drawing/film/portrait.h"
#include "drawing/painter.h"
#include "drawing/theme.h"

#include <algorithm>
#include <string>

namespace cistern::drawing::film {

namespace {

struct Frame {
    FilmCell kind;
    std::uint16_t marks = 0;
    const char* words = ""; ///< where the name of the kind does not do
    bool many = false;      ///< a place full of them, not one alone
};

using lab::FilmCell;
namespace mark = lab::mark;
constexpr Frame frames[] = {{FilmCell::segmented},
                            {FilmCell::segmented},
                            {FilmCell::band},
                            {FilmCell::band},
                            {FilmCell::metamyelocyte},
                            {FilmCell::segmented, mark::toxic, "toxic neutrophil"},
                            {FilmCell::band, mark::toxic, "toxic band"},
                            {FilmCell::segmented, mark::hypersegmented, "hypersegmented"},
                            {FilmCell::segmented, mark::drumstick, "with a drumstick"},
                            {FilmCell::band, mark::doubtful, "doubtful"},
                            {FilmCell::lymphocyte},
                            {FilmCell::lymphocyte},
                            {FilmCell::reactiveLymphocyte},
                            {FilmCell::monocyte},
                            {FilmCell::monocyte},
                            {FilmCell::eosinophil},
                            {FilmCell::eosinophil},
                            {FilmCell::eosinophil, mark::emptyGranules, "empty granules"},
                            {FilmCell::basophil},
                            {FilmCell::smudge},
                            {FilmCell::platelet},
                            {FilmCell::platelet, mark::large, "large platelet"},
                            {FilmCell::plateletClump},
                            {FilmCell::discocyte, 0, "red cells", true},
                            {FilmCell::polychromatophil, 0, "polychromatophils", true},
                            {FilmCell::nucleatedRed},
                            {FilmCell::nucleatedRed},
                            {FilmCell::discocyte, mark::howellJolly, "Howell-Jolly bodies", true},
                            {FilmCell::discocyte, mark::heinz, "Heinz bodies", true},
                            {FilmCell::hypochromic, 0, "hypochromic", true},
                            {FilmCell::spherocyte, 0, "spherocytes", true},
                            {FilmCell::target, 0, "target cells", true},
                            {FilmCell::echinocyte, 0, "echinocytes", true},
                            {FilmCell::acanthocyte, 0, "acanthocytes", true},
                            {FilmCell::schistocyte, 0, "schistocytes", true},
                            {FilmCell::keratocyte, 0, "keratocytes", true},
                            {FilmCell::discocyte, mark::inRouleau, "rouleaux", true},
                            {FilmCell::discocyte, mark::agglutinated, "agglutination", true},
                            {FilmCell::discocyte, mark::water, "holes of slow drying", true},
                            {FilmCell::precipitate}};

constexpr int across = 8;

/// A cat's healthy red cells have no pallor that a spherocyte could lack: it is not asked for.
bool shownOf(const Frame& frame, body::Kind animal) {
    const std::vector<FilmCell> asked = lab::askedOf(animal);
    return std::find(asked.begin(), asked.end(), frame.kind) != asked.end();
}

} // namespace

Picture contactSheet(const std::vector<body::Kind>& animals, double side, double fine) {
    constexpr double gap = 12, words = 24, edge = 20, heading = 40;
    const Type plain{12, Weight::regular, theme::ink};
    const Type strong{17, Weight::semibold, theme::thoughtInk};
    Picture sheet;
    std::vector<Mark> marks;
    std::vector<std::string> whose;
    double y = edge;
    for (const body::Kind animal : animals) {
        const bool dog = animal == body::Kind::dog;
        whose.emplace_back(body::name(animal));
        const std::string title = std::string(dog ? "Dog" : "Cat") + ", each frame 24 µm wide";
        marks.emplace_back().is = hung(title, strong, Align::left, edge, y);
        y += heading;
        int column = 0;
        std::uint64_t seed = dog ? 100 : 500;
        for (const Frame& frame : frames) {
            const Sitter sitter{frame.kind, animal, ++seed, frame.marks};
            if (!shownOf(frame, animal)) continue;
            const Box box{edge + column * (side + gap), y, side, side};
            const int pixels = static_cast<int>(side * fine);
            auto image = std::make_shared<Pixels>(frame.many ? company(sitter, pixels)
                                                             : portrait(sitter, pixels));
            const std::string caption =
                *frame.words ? frame.words : std::string(lab::name(frame.kind));
            marks.emplace_back().is = Image{box, std::move(image), caption};
            marks.emplace_back().is =
                hung(caption, plain, Align::center, box.middle().x, box.bottom() + 4);
            if (++column == across) {
                column = 0;
                y += side + words + gap;
            }
        }
        if (column > 0) y += side + words + gap;
    }
    sheet.title = "Cells of blood films: " + base::listed(whose, "and");
    sheet.description = "Every class of cell that is drawn, each frame 24 µm wide";
    sheet.width = 2 * edge + across * (side + gap) - gap;
    sheet.height = y - gap + edge;
    sheet.marks.emplace_back().is =
        Shape{rectangle({0, 0, sheet.width, sheet.height}), theme::paper, std::nullopt};
    for (Mark& one : marks) sheet.marks.push_back(std::move(one));
    return sheet;
}

} // namespace cistern::drawing::film
