#include "drawing/film/portrait.h"

#include "drawing/film/field.h"
#include "drawing/film/forms.h"
#include "drawing/film/paint.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing::film {

namespace {

constexpr double middleX = 4020, middleY = 9060; // of a patch in the monolayer [um]

/// Red cells of a healthy animal and nothing else.
Slide plain(const Sitter& sitter) {
    Slide slide;
    slide.kind = sitter.animal;
    slide.seed = sitter.seed;
    slide.red = sitter.animal == body::Kind::dog ? 5 : 6.5; // a little airy
    return slide;
}

/// A slide on which every cell that can be is as the sitter.
Slide full(const Sitter& sitter) {
    Slide slide = plain(sitter);
    slide.of(sitter.kind) = sitter.kind == FilmCell::discocyte ? 0 : 1;
    const auto has = [&](std::uint16_t one) { return sitter.marks & one ? 1. : 0.; };
    slide.howellJolly = has(lab::mark::howellJolly);
    slide.heinz = has(lab::mark::heinz);
    slide.water = has(lab::mark::water);
    slide.toxic = has(lab::mark::toxic);
    slide.toxicGrade = .75;
    slide.hypersegmented = has(lab::mark::hypersegmented);
    slide.drumstick = has(lab::mark::drumstick);
    slide.doubtful = has(lab::mark::doubtful);
    slide.emptyGranules = has(lab::mark::emptyGranules);
    slide.largePlatelets = has(lab::mark::large);
    slide.clumpSize = 25;
    return slide;
}

Cell seated(const Sitter& sitter) {
    const Slide slide = full(sitter);
    Cell cell;
    cell.seed = sitter.seed;
    cell.animal = sitter.animal;
    if (lab::isRed(sitter.kind))
        formRed(cell, slide, sitter.kind == FilmCell::nucleatedRed);
    else if (sitter.kind == FilmCell::platelet)
        formPlatelet(cell, slide);
    else if (sitter.kind == FilmCell::plateletClump)
        formClump(cell, slide);
    else if (sitter.kind == FilmCell::precipitate)
        formPrecipitate(cell);
    else
        formWhite(cell, slide, sitter.kind);
    cell.x = static_cast<float>(middleX);
    cell.y = static_cast<float>(middleY);
    return cell;
}

std::vector<Cell> around(const Slide& slide, int patches) {
    const auto at = [](double um) { return static_cast<int>(std::floor(um / patchSide)); };
    return plan(slide, {at(middleX) - patches, at(middleY) - patches, at(middleX) + patches + 1,
                        at(middleY) + patches + 1});
}

} // namespace

Pixels portrait(const Sitter& sitter, int side, const lab::Stain& stain) {
    const Cell chosen = seated(sitter);
    const double width = std::max(portraitWidth, 2.6 * static_cast<double>(chosen.radius));
    const Optics optics = opticsOf(100, static_cast<float>(side / width),
                                   sitter.kind == FilmCell::precipitate ? chosen.z : 0);
    Slide slide = plain(sitter);
    slide.stain = stain;
    const Mixture mixture(stain);
    const Light light{mixture, optics};
    const int margin = spreadReach(spreadOf(optics));
    const double scale = static_cast<double>(optics.scale);
    Density density(side + 2 * margin, side + 2 * margin, middleX - width / 2 - margin / scale,
                    middleY - width / 2 - margin / scale, scale);
    paintGround(slide, light, density);
    constexpr double overlap = .3; // [um]: neighbors touch, and do not lie over it
    for (const Cell& cell : around(slide, 0)) {
        const double off = std::hypot(static_cast<double>(cell.x) - middleX,
                                      static_cast<double>(cell.y) - middleY);
        const bool over = sitter.kind == FilmCell::precipitate;
        if (over || off > static_cast<double>(cell.radius + chosen.radius) - overlap)
            paint(cell, light, density);
    }
    paint(chosen, light, density);
    return developed(density, optics, sitter.seed, margin);
}

Pixels company(const Sitter& sitter, int side, const lab::Stain& stain) {
    Slide slide = full(sitter);
    slide.stain = stain;
    if (lab::isRed(sitter.kind) && sitter.kind != FilmCell::discocyte)
        slide.of(sitter.kind) = .7; // ordinary ones beside them
    slide.rouleaux = sitter.marks & lab::mark::inRouleau ? .7 : 0;
    slide.agglutinated = sitter.marks & lab::mark::agglutinated ? .6 : 0;
    const std::vector<Cell> cells = around(slide, 1);
    // The place where most of what is wanted lies, looked for about each cell in turn.
    constexpr double near = portraitWidth / 2;
    const auto wanted = [&](const Cell& cell) {
        return sitter.marks ? (cell.marks & sitter.marks) != 0 : cell.kind == sitter.kind;
    };
    Point best{middleX, middleY};
    double most = -1;
    for (const Cell& middle : cells) {
        if (std::abs(static_cast<double>(middle.x) - middleX) > patchSide ||
            std::abs(static_cast<double>(middle.y) - middleY) > patchSide)
            continue;
        double count = 0;
        for (const Cell& cell : cells) {
            const double off = std::hypot(static_cast<double>(cell.x - middle.x),
                                          static_cast<double>(cell.y - middle.y));
            if (off < near) count += wanted(cell) ? 1 : .2;
        }
        constexpr double enough = 8; // more would hide one another
        const bool grouped = slide.rouleaux + slide.agglutinated > 0;
        if (!grouped && count > enough) count = 2 * enough - count;
        if (count > most) {
            most = count;
            best = {static_cast<double>(middle.x), static_cast<double>(middle.y)};
        }
    }
    Stage stage(slide);
    const Optics optics = opticsOf(100, static_cast<float>(side / portraitWidth));
    return stage.seen(best.x - near, best.y - near, side, side, optics);
}

} // namespace cistern::drawing::film
