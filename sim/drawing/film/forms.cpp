#include "drawing/film/forms.h"

#include "drawing/film/texture.h"

#include <utility>

namespace cistern::drawing::film {

namespace {

// Streams of a cell's own chance; the painters have the lower ones.
enum Stream : std::uint32_t { looks = 100, kinds = 101, marks = 102, heights = 103 };

/// Rather in the middle of a range than at its ends.
float amid(Dice& dice, float low, float high) {
    constexpr float spread = .28F; // of the range, standard deviation
    return std::clamp((low + high) / 2 + (high - low) * spread * dice.normal(), low, high);
}

float scattered(Dice& dice, float middle, float spread, float low, float high) {
    return std::clamp(middle * (1 + spread * dice.normal()), low, high);
}

FilmCell drawnForm(const Slide& slide, Dice& dice) {
    double u = dice.share();
    for (int i = static_cast<int>(FilmCell::polychromatophil);
         i < static_cast<int>(FilmCell::nucleatedRed); ++i) {
        const auto form = static_cast<FilmCell>(i);
        if (u < slide.of(form)) return form;
        u -= slide.of(form);
    }
    return FilmCell::discocyte;
}

void usualRed(Cell& cell, const Slide& slide, Dice& dice) {
    const bool cat = slide.kind == body::Kind::cat;
    constexpr float most = 2.6F; // standard deviations
    const auto mean = static_cast<float>(slide.redDiameter),
               cv = static_cast<float>(slide.redSpread);
    cell.radius = (cat ? 2.9F : 3.5F) * mean * (1 + cv * std::clamp(dice.normal(), -most, most));
    const float pallor = cat ? .14F : .66F, spread = cat ? .07F : .08F;
    cell.pallor = std::clamp(pallor + spread * dice.normal(), 0.F, .95F);
    cell.dye = 1 + .05F * dice.normal();
    cell.squash = 1 - .04F * std::fabs(dice.normal());
    cell.angle = dice.angle();
    cell.z = .12F * dice.normal();
}

// Sizes in um by Harvey, Reagan and Schalm (from memory), the rest by eye.
void formedRed(Cell& cell, Dice& dice) {
    const bool cat = cell.animal == body::Kind::cat;
    switch (cell.kind) {
    case FilmCell::polychromatophil:
        cell.radius = cat ? scattered(dice, 3.5F, .04F, 3.25F, 3.75F)
                          : scattered(dice, 4.15F, .05F, 3.75F, 4.5F);
        cell.pallor = dice.between(0, .12F);
        cell.dye *= .72F;
        cell.blue = dice.between(.11F, .22F);
        break;
    case FilmCell::hypochromic:
        cell.pallor = dice.between(.80F, .94F);
        cell.dye *= .82F;
        break;
    case FilmCell::spherocyte:
        cell.radius = scattered(dice, cat ? 2.22F : 2.55F, .05F, 1.9F, 2.9F);
        cell.squash = 1 - .01F * std::fabs(dice.normal());
        cell.pallor = 0;
        cell.dye *= 1.22F;
        break;
    case FilmCell::echinocyte:
        cell.radius *= .98F;
        cell.pallor = std::min(cell.pallor, .25F);
        break;
    case FilmCell::acanthocyte:
        cell.radius *= .93F;
        cell.pallor *= .5F;
        break;
    case FilmCell::target:
        cell.radius *= 1.05F;
        break;
    case FilmCell::schistocyte:
        cell.radius *= .86F;
        cell.pallor = 0;
        cell.dye *= 1.05F;
        break;
    case FilmCell::keratocyte:
        cell.radius *= .97F;
        break;
    case FilmCell::nucleatedRed:
        cell.radius = dice.between(4.0F, cat ? 4.5F : 4.9F);
        cell.pallor = 0;
        cell.dye *= .8F;
        cell.blue = dice.between(.02F, .20F);
        break;
    default:
        break;
    }
    cell.radius = std::clamp(cell.radius, 1.2F, mostRed);
}

/// Least and greatest diameter [um]: within those of Harvey, Reagan and Schalm (from memory);
/// smudges by eye.
std::pair<float, float> diameters(FilmCell kind, body::Kind animal) {
    switch (kind) {
    case FilmCell::segmented:
        return {12.F, 14.F};
    case FilmCell::band:
        return {12.3F, 14.5F};
    case FilmCell::metamyelocyte:
        return {13.F, 15.5F};
    case FilmCell::lymphocyte:
        return {7.8F, 9.F};
    case FilmCell::reactiveLymphocyte:
        return {11.F, 14.5F};
    case FilmCell::monocyte:
        return {15.5F, 19.F};
    case FilmCell::eosinophil:
        return animal == body::Kind::cat ? std::pair{12.F, 14.2F} : std::pair{12.5F, 16.F};
    case FilmCell::basophil:
        return {12.5F, 15.5F};
    default:
        return {13.F, 20.F};
    }
}

bool isNeutrophil(FilmCell kind) {
    return kind == FilmCell::segmented || kind == FilmCell::band || kind == FilmCell::metamyelocyte;
}

/// Chance that a cell of this kind is one that may be called band or segmented: of bands the
/// slide's share, and as many segmented ones.
double doubtful(const Slide& slide, FilmCell kind) {
    if (kind == FilmCell::band) return slide.doubtful;
    const double segmented = slide.of(FilmCell::segmented);
    if (kind != FilmCell::segmented || segmented <= 0) return 0;
    return std::min(1., slide.doubtful * slide.of(FilmCell::band) / segmented);
}

void markNeutrophil(Cell& cell, const Slide& slide) {
    Dice dice(cell.seed, marks);
    const double which = dice.share(), unclear = doubtful(slide, cell.kind);
    if (which < unclear)
        cell.marks |= lab::mark::doubtful;
    else if (cell.kind == FilmCell::segmented && which < unclear + slide.hypersegmented)
        cell.marks |= lab::mark::hypersegmented;
    if (dice.happens(slide.drumstick) && cell.kind == FilmCell::segmented)
        cell.marks |= lab::mark::drumstick;
    const bool toxic = dice.happens(slide.toxic);
    const float grade = static_cast<float>(slide.toxicGrade) + .15F * dice.normal();
    if (toxic) {
        constexpr float least = .05F; // a toxic cell shows it
        cell.marks |= lab::mark::toxic;
        cell.blue = std::clamp(grade, least, 1.F);
        cell.radius *= 1 + .07F * cell.blue;
    }
}

} // namespace

void formRed(Cell& cell, const Slide& slide, bool nucleated) {
    Dice look(cell.seed, looks), kind(cell.seed, kinds), dice(cell.seed, marks);
    cell.kind = nucleated ? FilmCell::nucleatedRed : drawnForm(slide, kind);
    usualRed(cell, slide, look);
    formedRed(cell, look);
    if (nucleated) return;
    if (dice.happens(slide.howellJolly)) cell.marks |= lab::mark::howellJolly;
    if (dice.happens(slide.heinz)) cell.marks |= lab::mark::heinz;
    if (dice.happens(slide.water)) cell.marks |= lab::mark::water;
}

void formWhite(Cell& cell, const Slide& slide, FilmCell kind) {
    Dice look(cell.seed, looks);
    cell.kind = kind;
    const auto [least, most] = diameters(kind, slide.kind);
    cell.radius = amid(look, least, most) / 2;
    cell.z = .25F * look.normal();
    cell.angle = look.angle();
    if (isNeutrophil(kind)) markNeutrophil(cell, slide);
    Dice dice(cell.seed, kinds);
    if (kind == FilmCell::eosinophil && dice.happens(slide.emptyGranules))
        cell.marks |= lab::mark::emptyGranules;
    if ((isNeutrophil(kind) || kind == FilmCell::monocyte) && dice.happens(slide.aged))
        cell.marks |= lab::mark::vacuoles;
}

void formPlatelet(Cell& cell, const Slide& slide) {
    Dice look(cell.seed, looks), kind(cell.seed, kinds);
    const bool cat = slide.kind == body::Kind::cat;
    cell.kind = FilmCell::platelet;
    const float n = look.normal();
    // Dog 2 to 4 um across, cat 2 to 6 (Harvey, from memory); log-normal by eye.
    cell.radius = cat ? std::clamp(1.5F * std::exp(.32F * n), 1.F, 3.F)
                      : std::clamp(1.35F * std::exp(.2F * n), 1.F, 2.F);
    if (kind.happens(slide.largePlatelets)) {
        cell.marks |= lab::mark::large;
        cell.radius = look.between(2.5F, 3.5F);
    }
    cell.z = .2F * look.normal();
    cell.angle = look.angle();
}

void formClump(Cell& cell, const Slide& slide) {
    Dice look(cell.seed, looks);
    cell.kind = FilmCell::plateletClump;
    // Platelets lie about as close as discs can at random. All by eye but the area of one, which
    // follows from its diameter (Harvey, from memory).
    const float area = slide.kind == body::Kind::cat ? 7.F : 5.F; // [um2]
    constexpr float packing = .7F, scatter = .5F, fewest = 3;
    const auto mean = static_cast<float>(slide.clumpSize);
    const float count = mean * std::exp(scatter * look.normal() - scatter * scatter / 2);
    cell.radius =
        std::clamp(std::sqrt(std::max(count, fewest) * area / (packing * pi)), 4.F, mostClump);
    cell.z = .4F;
    cell.angle = look.angle();
}

void formPrecipitate(Cell& cell) {
    Dice look(cell.seed, looks);
    cell.kind = FilmCell::precipitate;
    cell.radius = look.between(1.5F, 7);
    cell.z = look.between(.7F, 1.9F); // above the cells
}

void settleIn(Cell& cell, const Slide& slide, double thickness) {
    cell.flat = static_cast<float>(lab::flattening(slide, thickness));
    cell.thick = static_cast<float>(lab::heaping(slide, thickness));
    const bool white = isWhite(cell.kind) || cell.kind == FilmCell::smudge;
    if (white) cell.radius *= 1 - .18F * cell.thick;
    if (cell.kind == FilmCell::plateletClump) return;
    Dice dice(cell.seed, heights);
    cell.z += .5F * cell.thick * dice.normal(); // heaped cells lie at all heights
    if (!isRed(cell.kind)) return;
    cell.radius = std::min(cell.radius * (1 + .07F * cell.flat) * (1 - .05F * cell.thick), mostRed);
    cell.dye *= (1 - .16F * cell.flat) * (1 - .22F * cell.thick);
    cell.pallor *= 1 - .75F * cell.thick;
}

} // namespace cistern::drawing::film
