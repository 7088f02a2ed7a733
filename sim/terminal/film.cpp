#include "report/film.h"

#include "base/text.h"
#include "drawing/film/field.h"
#include "drawing/painter.h"
#include "lab/film/track.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"
#include "terminal/pages.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <memory>

namespace cistern::terminal {

namespace {

using drawing::film::Cell;
using lab::FilmCell;

struct Wanted {
    std::string file, draw = "1", area = "monolayer", field, power = "100", focus = "0",
                      size = "1000x1000", seed, out;
    bool key = false;
};

struct Size {
    int width = 0, height = 0; // [px]
};

Size readSize(const std::string& text) {
    const auto half = [&](std::string_view part) {
        int pixels = 0;
        const auto [end, error] = std::from_chars(part.data(), part.data() + part.size(), pixels);
        const bool sound = error == std::errc() && end == part.data() + part.size();
        if (!sound || pixels < 16 || pixels > 4000)
            throw UsageError("--size is \"" + text +
                             "\"; allowed: width x height in pixels, 16x16 to 4000x4000.");
        return pixels;
    };
    const std::size_t times = text.find('x');
    const std::string_view all = text;
    if (times == std::string::npos) return {half(all), half(all)};
    return {half(all.substr(0, times)), half(all.substr(times + 1))};
}

/// The plane in focus, above the glass [um].
float readFocus(const std::string& text) {
    double focus = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), focus);
    constexpr double most = 10; // [um], beyond which nothing can be told
    if (error != std::errc() || end != text.data() + text.size() || !(std::abs(focus) <= most))
        throw UsageError("--focus is \"" + text + "\"; allowed: -10 to 10 um above the glass.");
    return static_cast<float>(focus);
}

/// Width of a thousand pixels on the film [um], by power.
double acrossThousand(int power) {
    return power == 10 ? 1200 : power == 50 ? 240 : 120;
}

/// A field as it was asked for, and the slide that it lies on.
struct Field {
    lab::FilmArea area{};
    std::size_t number = 0, of = 0; ///< from 1
    lab::FilmField place{};
    Size size{};
    int power = 100;
    double scale = 1; ///< [px/um]
};

Field fieldOf(const Wanted& wanted, const lab::Slide& slide) {
    Field field;
    field.area = *lab::areaNamed(readWord("--area", wanted.area, {"edge", "monolayer", "body"}));
    field.power = std::stoi(readWord("--power", wanted.power, {"10", "50", "100"}));
    field.size = readSize(wanted.size);
    field.scale = 1000 / acrossThousand(field.power);
    const std::vector<lab::FilmField> all = lab::track(
        slide, field.area, field.size.width / field.scale, field.size.height / field.scale);
    field.of = all.size();
    field.number = wanted.field.empty() ? 1 : readCount("--field", wanted.field, 1, 1000000);
    if (field.number > field.of)
        throw UsageError("--field is " + wanted.field + ", but the " +
                         std::string(name(field.area)) + " of this film has " +
                         report::counted(field.of, "field") + " of this size.");
    field.place = all[field.number - 1];
    return field;
}

/// "Bramble, draw 2 at 72 h: monolayer, field 12 of 190, 100x, 120 by 120 um."
std::string placeWords(const lesson::Case& one, std::size_t draw, const Field& field) {
    return one.patient + ", draw " + std::to_string(draw + 1) + ": " +
           std::string(name(field.area)) + ", field " + std::to_string(field.number) + " of " +
           std::to_string(field.of) + ", " + std::to_string(field.power) + "x, " +
           base::rounded(field.place.width, 1) + " by " + base::rounded(field.place.height, 1) +
           " µm.";
}

std::size_t metOf(const std::vector<Cell>& cells, FilmCell kind) {
    return static_cast<std::size_t>(std::count_if(
        cells.begin(), cells.end(), [&](const Cell& cell) { return cell.kind == kind; }));
}

/// "2 spherocytes", "1 target cell".
std::string numberOf(std::size_t number, FilmCell kind) {
    return report::counted(number, std::string(name(kind)));
}

/// White cells are left without their names: to name them is the reader's part.
void tell(Page& page, const Field& field, const std::vector<Cell>& cells) {
    std::size_t red = 0, white = 0;
    std::vector<std::string> forms;
    for (const FilmCell kind : lab::filmCells()) {
        const std::size_t met = metOf(cells, kind);
        if (lab::isWhite(kind)) white += met;
        if (!lab::isRed(kind) || kind == FilmCell::nucleatedRed) continue;
        red += met;
        if (kind != FilmCell::discocyte && met > 0) forms.push_back(numberOf(met, kind));
    }
    page.item(report::counted(red, "red cell") +
                  (forms.empty() ? ", all of one form."
                                 : ", among them " + base::listed(forms, "and") + "."),
              2);
    // A small dark nucleus in a red cell is met among white cells, and is to be named as they are.
    const std::size_t nucleated = white + metOf(cells, FilmCell::nucleatedRed);
    page.item(nucleated == 0 ? "No cell with a nucleus."
                             : report::counted(nucleated, "cell") + " with a nucleus, to be named.",
              2);
    if (const std::size_t smudges = metOf(cells, FilmCell::smudge))
        page.item(report::counted(smudges, "smeared nucleus without a cell") + ".", 2);
    const std::size_t platelets = metOf(cells, FilmCell::platelet);
    const double oil = 3.14159265358979 / 4 * report::oilField * report::oilField;
    const double perField =
        static_cast<double>(platelets) * oil / (field.place.width * field.place.height);
    std::string words = platelets == 0 ? "No platelet" : report::counted(platelets, "platelet");
    if (field.area == lab::FilmArea::monolayer && platelets > 0)
        words += "; a whole field of the oil lens would hold about " + base::rounded(perField, 1) +
                 ", which at 15 for each makes " +
                 base::rounded(lab::plateletEstimate(perField), 1) +
                 " 10*9/L: one field is too few to believe";
    page.item(words + ".", 2);
    if (const std::size_t clumps = metOf(cells, FilmCell::plateletClump))
        page.item(numberOf(clumps, FilmCell::plateletClump) + ".", 2);
    if (const std::size_t grains = metOf(cells, FilmCell::precipitate))
        page.item(report::counted(grains, "cluster") + " of stain grains above the cells.", 2);
}

std::string marksOf(const Cell& cell) {
    std::vector<std::string> marks;
    for (const std::uint16_t mark : lab::cellMarks)
        if (cell.has(mark)) marks.emplace_back(lab::markName(mark));
    return marks.empty() ? "" : " (" + base::listed(marks, "and") + ")";
}

/// Every cell that is more than an ordinary red cell or a platelet, from the left upper corner on,
/// and once for each kind what decides.
void tellKey(Page& page, const Field& field, std::vector<Cell> cells) {
    std::sort(cells.begin(), cells.end(), [](const Cell& a, const Cell& b) {
        return std::pair(a.y, a.x) < std::pair(b.y, b.x);
    });
    std::map<FilmCell, body::Kind> told;
    std::vector<std::vector<std::string>> rows;
    const auto pixel = [&](float at, double from) {
        return base::rounded((static_cast<double>(at) - from) * field.scale, 1);
    };
    for (const Cell& cell : cells) {
        const bool usual = cell.kind == FilmCell::discocyte || cell.kind == FilmCell::platelet;
        if (usual && marksOf(cell).empty()) continue;
        rows.push_back({pixel(cell.x, field.place.left), pixel(cell.y, field.place.top),
                        std::string(name(cell.kind)) + marksOf(cell)});
        told.emplace(cell.kind, cell.animal);
    }
    page.heading("The key");
    if (rows.empty()) {
        page.paragraph("Ordinary red cells and platelets alone.");
        return;
    }
    page.table({{"right", true}, {"down", true}, {"cell"}}, rows, 2);
    page.paragraph("Pixels from the left upper corner of the picture to the middle of a cell.");
    page.heading("What decides");
    for (const auto& [kind, animal] : told)
        page.hanging(report::capital(name(kind)), lab::telling(kind, animal), 26);
}

/// The blood of a draw as the laboratory counted it. A film can be made of any EDTA tube, so it is
/// made here even where the case asks for none.
lab::BloodCount bloodOf(const lesson::Case& one, const lesson::Knowledge& knowledge,
                        std::size_t draw) {
    const std::vector<std::string> tests = {"blood count", "film"};
    const std::vector<body::Snapshot> truth =
        lesson::atDraws(one, knowledge, lesson::partsFor(tests, knowledge.bench, one.who.kind));
    lab::Report report =
        lesson::report(one, knowledge, lesson::patient(one, knowledge), truth[draw], draw, tests);
    if (!report.blood) throw UsageError("This laboratory counts no blood, so it makes no film.");
    return std::move(*report.blood);
}

std::size_t readDraw(const Wanted& wanted, const lesson::Case& one) {
    if (one.draws.empty()) throw UsageError(one.name + " has no draw, so no film was made.");
    return readCount("--draw", wanted.draw, 1, one.draws.size()) - 1;
}

bool asked(const lesson::Draw& draw, const lab::Bench& bench) {
    const std::vector<body::Analyte> measured = bench.analytes(draw.tests);
    return std::any_of(measured.begin(), measured.end(),
                       [](body::Analyte analyte) { return lab::counted(analyte); });
}

int film(World& world, const Wanted& wanted) {
    if (!wanted.out.empty() && !wanted.out.ends_with(".png"))
        throw UsageError("--out is \"" + wanted.out + "\"; the name of a field ends in .png.");
    const float focus = readFocus(wanted.focus);
    readSize(wanted.size);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Case one = readCase(world, assets.knowledge, wanted.file, wanted.seed);
    const std::size_t draw = readDraw(wanted, one);
    const lab::BloodCount blood = bloodOf(one, assets.knowledge, draw);
    const Field field = fieldOf(wanted, blood.slide);
    drawing::film::Stage stage(blood.slide);
    if (!wanted.out.empty()) {
        const drawing::film::Optics optics =
            drawing::film::opticsOf(field.power, static_cast<float>(field.scale), focus);
        deliver(world, wanted.out,
                drawing::png(stage.seen(field.place.left, field.place.top, field.size.width,
                                        field.size.height, optics)));
        if (!wanted.key) return done;
    }
    const lab::FilmField& at = field.place;
    const std::vector<Cell> cells = stage.cells({at.left, at.top, at.width, at.height});
    Page page(world.out, world.styled);
    page.heading(one.title + ": the film");
    page.paragraph(placeWords(one, draw, field));
    if (!asked(one.draws[draw], assets.knowledge.bench))
        page.paragraph("The case asks for no film of this draw; it was made all the same, of the "
                       "same tube.");
    page.blank();
    tell(page, field, cells);
    if (wanted.key)
        tellKey(page, field, cells);
    else if (wanted.field.empty())
        filmParts(page, blood);
    page.blank();
    page.caution();
    return done;
}

} // namespace

Job declareFilm(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    const Option option = optionsOf(app);
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    option("--draw", wanted->draw, "Which of the case's draws, from 1; 1 if left out.", "N");
    option("--area", wanted->area, "edge, monolayer (left out) or body.", "NAME");
    option("--field", wanted->field,
           "Which field of the area, from 1; left out: the first, and the film as a whole in "
           "words.",
           "K");
    option("--power", wanted->power, "10, 50 or 100 (left out), which is the oil lens.", "N");
    option("--focus", wanted->focus, "Plane in focus above the glass, -10 to 10; 0 if left out.",
           "UM");
    option("--size", wanted->size, "Of the picture in pixels; 1000x1000 if left out.", "WxH");
    option("--seed", wanted->seed,
           "Another animal, by number; what the case lets vary is drawn within its ranges.", "N");
    app.add_flag("--key", wanted->key, "Tells the name of every cell, its place and what decides.");
    option("--out", wanted->out, "Draws the field into a .png, whole or not at all.", "FILE");
    app.footer("A stained film of the draw's EDTA tube, drawn from the animal's own counts. "
               "Fields follow one another up, along and down, as a reader goes; in one of 120 µm "
               "at 100x there is often no white cell. Without --out the field is told in words; "
               "white cells keep their names until --key.");
    return [wanted](World& world) { return film(world, *wanted); };
}

} // namespace cistern::terminal
