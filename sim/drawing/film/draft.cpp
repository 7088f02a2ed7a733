#include "drawing/film/draft.h"

#include "drawing/film/forms.h"

namespace cistern::drawing::film {

namespace {

constexpr double perRed = 1e-3, perWhite = 1e-6; // cells in 1 um3 of blood of 10*12/L, of 10*9/L

// Streams of a patch: one for each kind of cell, and these.
enum Stream : std::uint32_t { reds = 40, nucleated = 41 };

// Red cells cluster mildly, by eye.
constexpr double keptLeast = .42, keptMore = .9;
constexpr float gatherings = .022F; // [1/um]
constexpr int gatherTries = 6;

} // namespace

Patch::Patch(const Slide& slide, const lab::Gathering& gathering, int x, int y)
    : slide_(slide),
      gathering_(gathering),
      x_(x),
      y_(y),
      left_(x * patchSide),
      top_(y * patchSide) {
    if (left_ + patchSide <= 0 || top_ + patchSide <= 0 || left_ >= lab::filmLength ||
        top_ >= lab::filmWidth)
        return;
    constexpr double step = patchSide / parts, area = step * step;
    for (int i = 0; i < parts; ++i)
        for (int j = 0; j < parts; ++j) {
            const double px = left_ + (i + .5) * step, py = top_ + (j + .5) * step;
            const double t = thicknessAt(px, py);
            columns_[i] += t * area;
            if (t > 0) covered_ += area;
            if (t > thickest_.thickness)
                thickest_ = {static_cast<float>(px), static_cast<float>(py), t};
        }
    for (const double column : columns_) blood_ += column;
    constexpr double between = 1.03; // the thickest place lies between those looked at
    most_ = thickest_.thickness * between;
}

Dice Patch::dice(std::uint32_t stream) const {
    return Dice(seedOf(slide_.seed, x_, y_, 0), stream);
}

Cell Patch::cell(std::uint32_t stream, int n) const {
    constexpr int room = 20; // bits for cells of one stream
    Cell cell;
    cell.seed = seedOf(slide_.seed, x_, y_, (stream + 1) << room | static_cast<std::uint32_t>(n));
    cell.animal = slide_.kind;
    return cell;
}

double Patch::expected(FilmCell kind, double concentration) const {
    constexpr double step = patchSide / parts;
    double sum = 0;
    for (int i = 0; i < parts; ++i)
        sum += columns_[i] * gathering_.at(kind, left_ + (i + .5) * step);
    return concentration * sum;
}

std::optional<Patch::Spot> Patch::spot(Dice& dice, double inset) const {
    constexpr int tries = 60;
    const double room = patchSide - 2 * inset;
    const auto inside = [&](double share, double from) { return from + inset + share * room; };
    for (int i = 0; i < tries; ++i) {
        const double x = inside(dice.share(), left_), y = inside(dice.share(), top_);
        const double t = thicknessAt(x, y);
        if (t > 0 && dice.happens(t / most_))
            return Spot{static_cast<float>(x), static_cast<float>(y), t};
    }
    // A patch of which hardly anything is film: where it is thickest, if that is not too near.
    const double x = static_cast<double>(thickest_.x) - left_;
    const double y = static_cast<double>(thickest_.y) - top_;
    if (std::min(x, y) < inset || std::max(x, y) > inset + room) return std::nullopt;
    return thickest_;
}

bool Patch::clear(float x, float y, float radius) const {
    return std::none_of(taken_.begin(), taken_.end(), [&](const Taken& other) {
        return std::hypot(other.x - x, other.y - y) < other.radius + radius;
    });
}

std::optional<Patch::Spot> Patch::clearSpot(Dice& dice, float radius, int tries) const {
    constexpr float apart = .5F; // [um]
    std::optional<Spot> found;
    for (int i = 0; i < tries; ++i) {
        found = spot(dice, static_cast<double>(radius));
        if (!found || clear(found->x, found->y, radius + apart)) break;
    }
    return found;
}

void Patch::strewLarge(FilmCell kind, double concentration) {
    const auto stream = static_cast<std::uint32_t>(kind);
    Dice chance = dice(stream);
    const int count = chance.poisson(expected(kind, concentration));
    constexpr int tries = 60;
    for (int i = 0; i < count; ++i) {
        Cell one = cell(stream, i);
        if (kind == FilmCell::plateletClump)
            formClump(one, slide_);
        else
            formWhite(one, slide_, kind);
        const auto at = clearSpot(chance, one.radius, tries);
        if (!at) continue;
        one.x = at->x;
        one.y = at->y;
        settleIn(one, slide_, at->thickness);
        taken_.push_back({one.x, one.y, one.radius});
        cells_->push_back(one);
    }
}

void Patch::strewWhite() {
    double all = 0;
    const auto each = [&](auto&& act) {
        for (int i = static_cast<int>(FilmCell::segmented); i <= static_cast<int>(FilmCell::smudge);
             ++i)
            act(static_cast<FilmCell>(i));
    };
    each([&](FilmCell kind) { all += slide_.of(kind); });
    if (all <= 0) return;
    each([&](FilmCell kind) { strewLarge(kind, slide_.white * perWhite * slide_.of(kind) / all); });
}

void Patch::strewSingle(Cell& one) {
    // The first place that is neither taken nor too lonely; after some tries any.
    Dice chance(one.seed, 110);
    const auto seed = static_cast<std::uint32_t>(slide_.seed) + 17;
    std::optional<Spot> at;
    for (int i = 0; i < gatherTries; ++i) {
        at = spot(chance);
        if (!at) return;
        const float company = layered(at->x * gatherings, at->y * gatherings, seed, 2);
        const double heaped = lab::heaping(slide_, at->thickness);
        constexpr float half = .5F; // pushing does the rest
        if (chance.happens(keptLeast + keptMore * static_cast<double>(company) + heaped) &&
            clear(at->x, at->y, one.radius * half))
            break;
    }
    one.x = at->x;
    one.y = at->y;
    settleIn(one, slide_, at->thickness);
    cells_->push_back(one);
}

void Patch::strewRed() {
    Dice few = dice(nucleated);
    const double nucleatedPerWhite = slide_.nucleated / 100;
    const int cores = few.poisson(blood_ * slide_.white * perWhite * nucleatedPerWhite);
    for (int i = 0; i < cores; ++i) {
        Cell one = cell(nucleated, i);
        formRed(one, slide_, true);
        strewSingle(one);
    }
    const int count = dice(reds).poisson(blood_ * slide_.red * perRed);
    std::vector<Cell> all(static_cast<std::size_t>(count));
    for (int i = 0; i < count; ++i) {
        all[static_cast<std::size_t>(i)] = cell(reds, i);
        formRed(all[static_cast<std::size_t>(i)], slide_);
    }
    for (std::size_t i = layGroups(all); i < all.size(); ++i) strewSingle(all[i]);
}

void Patch::strewPlatelets() {
    const auto stream = static_cast<std::uint32_t>(FilmCell::platelet);
    Dice chance = dice(stream);
    const int count = chance.poisson(expected(FilmCell::platelet, slide_.platelets * perWhite));
    for (int i = 0; i < count; ++i) {
        Cell one = cell(stream, i);
        formPlatelet(one, slide_);
        const auto at = spot(chance);
        if (!at) continue;
        one.x = at->x;
        one.y = at->y;
        settleIn(one, slide_, at->thickness);
        cells_->push_back(one);
    }
}

void Patch::strewPrecipitate() {
    constexpr double perUm2 = 1e-6; // of 1/mm2
    const auto stream = static_cast<std::uint32_t>(FilmCell::precipitate);
    Dice chance = dice(stream);
    const int count = chance.poisson(slide_.precipitate * perUm2 * covered_);
    for (int i = 0; i < count; ++i) {
        Cell one = cell(stream, i);
        formPrecipitate(one);
        const auto at = spot(chance);
        if (!at) continue;
        one.x = at->x;
        one.y = at->y;
        cells_->push_back(one);
    }
}

void Patch::strew(std::vector<Cell>& cells) {
    if (blood_ <= 0) return;
    cells_ = &cells;
    // Large things first, for they do not move and others keep clear of them.
    if (slide_.clumps > 0) strewLarge(FilmCell::plateletClump, slide_.clumps * perWhite);
    strewWhite();
    strewRed();
    strewPlatelets();
    strewPrecipitate();
}

} // namespace cistern::drawing::film
