#include "report/film.h"

#include "base/text.h"
#include "lesson/film_fields.h"
#include "report/words.h"

namespace cistern::report {

namespace {

using lab::FilmCell;

constexpr double perHundred = 100;

std::string whole(double value) {
    return base::rounded(value, 1);
}
/// A few of a field to a tenth, many to one.
std::string fewOrMany(double value) {
    return base::rounded(value, value < 10 ? 0.1 : 1);
}
/// "3 in 100", "2 in 1000", "fewer than 1 in 1000".
std::string among(double share) {
    constexpr double thousand = 1000, seldom = 0.0095;
    if (share >= seldom) return whole(perHundred * share) + " in 100";
    if (thousand * share >= 0.5) return whole(thousand * share) + " in 1000";
    return "fewer than 1 in 1000";
}

/// How much the sizes of red cells differ, by the variation of their diameters (chosen so that
/// health reads as little: 4.5 % in dogs, 5 % in cats, and some more by shape).
std::string sizesWord(double variation) {
    return variation < 0.075  ? "hardly differ"
           : variation < 0.1  ? "differ a little (anisocytosis 1+)"
           : variation < 0.13 ? "differ clearly (anisocytosis 2+)"
                              : "differ much (anisocytosis 3+)";
}

std::string pallorLine(const RedLook& look, body::Kind kind) {
    const double pale = look.share(look.met(FilmCell::hypochromic));
    if (pale >= 0.01)
        return "The middle is wide and pale, the rim thin, in " + among(pale) +
               " red cells (hypochromasia).";
    return kind == body::Kind::dog ? "Red cells are pale in the middle as a dog's are; none has a "
                                     "thin rim alone."
                                   : "A cat's red cells show little pallor, and so do these.";
}

std::string polychromasiaLine(const RedLook& look, body::Kind kind) {
    const double perField = look.perField(look.met(FilmCell::polychromatophil));
    const int grade = lesson::polychromasiaGrade(perField, kind);
    const std::string most = kind == body::Kind::dog ? "4" : "2"; // common practice
    return "Polychromasia: " + lesson::gradeWords(grade) + ", " + fewOrMany(perField) +
           " blue-gray cells in a field, " +
           among(look.share(look.met(FilmCell::polychromatophil))) + " red cells; up to " + most +
           " in a field are met in health.";
}

void addForms(std::vector<std::string>& lines, const RedLook& look, body::Kind kind) {
    const double spheres = look.perField(look.met(FilmCell::spherocyte));
    if (const auto grade = lesson::spherocyteGrade(spheres, kind); !grade)
        lines.push_back("Spherocytes are not judged in a cat, whose red cells have little pallor.");
    else if (*grade > 0)
        lines.push_back("Small round cells, dense and without pallor (spherocytes), " +
                        lesson::gradeWords(*grade) + ": " + fewOrMany(spheres) + " in a field.");
    struct Form {
        FilmCell cell;
        const char* looks;
    };
    constexpr double told = 0.005; // of red cells: fewer are met on any film
    bool any = false;
    for (const Form& form : {Form{FilmCell::echinocyte, "even short points all round"},
                             Form{FilmCell::acanthocyte, "few uneven knobs"},
                             Form{FilmCell::target, "a spot in the pale middle"},
                             Form{FilmCell::schistocyte, "helmets and torn pieces"},
                             Form{FilmCell::keratocyte, "a bite between two horns"}})
        if (const double share = look.share(look.met(form.cell)); share >= told) {
            lines.push_back(capital(lab::name(form.cell)) + "s (" + form.looks +
                            "): " + among(share) + " red cells.");
            any = true;
        }
    if (!any) lines.push_back("Hardly any other forms.");
}

void addGroups(std::vector<std::string>& lines, const RedLook& look) {
    const double rows = look.share(look.inRows), clusters = look.share(look.inClusters);
    constexpr double some = 0.03, many = 0.2;
    lines.push_back(rows < some   ? "They lie singly, hardly any in rows."
                    : rows < many ? "Some lie in rows like coins (rouleaux): " + among(rows) + "."
                                  : "Many lie in rows like coins (rouleaux): " + among(rows) + ".");
    constexpr double clear = 0.01;
    if (clusters >= clear)
        lines.push_back("Clusters like grapes hold " + among(clusters) +
                        " red cells (agglutination); rows fall apart in saline, such clusters do "
                        "not.");
}

void addBodies(std::vector<std::string>& lines, const RedLook& look) {
    constexpr double seen = 0.001;
    if (const double share = look.share(look.howellJolly); share >= seen)
        lines.push_back("One dark round dot (Howell-Jolly body): " + among(share) + " red cells.");
    if (const double share = look.share(look.heinz); share >= seen)
        lines.push_back("A pale nub at the rim (Heinz body): " + among(share) +
                        " red cells; new methylene blue would show it dark.");
    constexpr double wet = 0.01;
    if (const double share = look.share(look.water); share >= wet)
        lines.push_back("Bright holes that come and go with the focus in " + among(share) +
                        " red cells: the film dried slowly.");
}

FilmPart edgeTold(const lab::BloodCount& blood) {
    return {"Feathered edge",
            {blood.film.clumps
                 ? "Clumps of platelets lie here, so any count of single ones reads low."
                 : "No clumps of platelets lie here.",
             "Red cells lie flat and lose their pallor; their forms are not judged here."}};
}

FilmPart redTold(const lab::BloodCount& blood, const RedLook& look) {
    const body::Kind kind = blood.slide.kind;
    FilmPart part{"Monolayer: red cells", {}};
    if (!(look.cells > 0)) {
        part.lines.push_back("No red cells lie here.");
        return part;
    }
    part.lines.push_back("About " + whole(look.perField(look.cells)) +
                         " red cells in a field of the oil lens, " + whole(oilField) +
                         " µm across (mean of " +
                         counted(static_cast<std::size_t>(look.fields), "field") + ").");
    part.lines.push_back("They are " + base::rounded(look.diameter, 0.1) +
                         " µm wide on average, and their sizes " + sizesWord(look.variation) + ".");
    part.lines.push_back(pallorLine(look, kind));
    part.lines.push_back(polychromasiaLine(look, kind));
    addForms(part.lines, look, kind);
    addGroups(part.lines, look);
    addBodies(part.lines, look);
    return part;
}

FilmPart whiteTold(const lab::BloodCount& blood) {
    const lab::Film& film = blood.film;
    FilmPart part{"Monolayer: white cells", {}};
    if (film.cells == 0) {
        part.lines.push_back("No white cells were met.");
        return part;
    }
    part.lines.push_back("The laboratory told " + std::to_string(film.cells) +
                         " white cells apart. Bands are told with all younger ones, eosinophils "
                         "with basophils.");
    part.rows = differential(film);
    part.lines.push_back(
        film.nucleatedMet == 0
            ? "No nucleated red cells were met on the way."
            : counted(static_cast<std::size_t>(film.nucleatedMet), "nucleated red cell") +
                  (film.nucleatedMet == 1 ? " was" : " were") +
                  " met on the way: " + fewOrMany(film.nucleated()) + " per 100 white cells.");
    constexpr double clear = 0.005;
    part.lines.push_back(film.toxic < clear ? "No toxic neutrophils."
                                            : "Toxic change (blue, foamy cytoplasm) in " +
                                                  among(film.toxic) + " neutrophils.");
    if (film.old)
        part.lines.push_back("Cells are swollen and full of holes: the blood has stood for hours, "
                             "so vacuoles tell nothing.");
    return part;
}

FilmPart plateletsTold(const lab::BloodCount& blood, const RedLook& look) {
    const lab::Film& film = blood.film;
    FilmPart part{"Monolayer: platelets",
                  {fewOrMany(film.plateletsPerField) +
                   " single ones in a field; 15 for each make about " + whole(film.platelets) +
                   " 10*9/L."}};
    constexpr double some = 0.05;
    if (look.platelets > 0 && look.largePlatelets / look.platelets >= some)
        part.lines.push_back(
            "As wide as a red cell: " + among(look.largePlatelets / look.platelets) + " of them.");
    if (film.clumps) part.lines.push_back("Those in clumps are not in this estimate.");
    return part;
}

FilmPart stainTold(const lab::Slide& slide) {
    FilmPart part{"Spreading and stain", {}};
    constexpr double tooBlue = 1.25, tooPink = 0.75, dirty = 10; // [1/mm2]
    if (slide.stain.blue > tooBlue)
        part.lines.push_back("The stain took too blue: polychromasia and toxic change look like "
                             "more than they are.");
    else if (slide.stain.blue < tooPink)
        part.lines.push_back("The stain took too pink: polychromasia and toxic change look like "
                             "less than they are.");
    else
        part.lines.push_back("The stain took well.");
    if (slide.precipitate > dirty)
        part.lines.push_back("Grains of stain lie above the cells and between them, out of their "
                             "focus: no platelets, no bacteria.");
    return part;
}

} // namespace

std::vector<TallyRow> differential(const lab::Film& film) {
    std::vector<TallyRow> rows;
    if (film.cells == 0) return rows;
    for (std::size_t i = 0; i < lab::whiteKindCount; ++i) {
        const auto [low, high] = lab::printedLimits(film.kinds[i], film.cells);
        const std::string kind =
            i == 0 ? "segmented neutrophils" : std::string(body::name(lab::whiteKinds[i]));
        rows.push_back({kind, film.kinds[i], low, high});
    }
    return rows;
}

std::vector<FilmPart> filmTold(const lab::BloodCount& blood, const RedLook& look) {
    return {edgeTold(blood),
            redTold(blood, look),
            whiteTold(blood),
            plateletsTold(blood, look),
            {"Body", {"Cells lie over one another here: nothing is judged but clumps."}},
            stainTold(blood.slide)};
}

std::vector<FilmPart> filmTold(const lab::BloodCount& blood) {
    drawing::film::Stage stage(blood.slide);
    return filmTold(blood, lookedAt(stage));
}

} // namespace cistern::report
