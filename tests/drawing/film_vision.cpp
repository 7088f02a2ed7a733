// The film for those who lack one kind of cone: where two classes of cells look alike in color,
// something else must part them.
#include "drawing/film/field.h"
#include "drawing/film/forms.h"
#include "drawing/film/white_shape.h"
#include "film_cells.h"
#include "marks.h"
#include "vision.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <map>
#include <string>

using namespace cistern;
using namespace cistern::test;
namespace film = cistern::drawing::film;
using lab::FilmCell;

namespace {

/// Two colors nearer than this count as one. 2.3 is a difference just seen between areas side by
/// side (Mahy and others 1994, from memory); cells are looked at one after the other, so four
/// times that.
constexpr double together = 10; // CIE 1976
/// Cues whose means are so many standard deviations apart hold cells of two classes apart: of two
/// normal distributions 2.5 apart, 89 % are told right by one look.
constexpr double apart = 2.5;
constexpr std::uint64_t cells = 12; // of each class: a standard deviation within a quarter

enum Cue { size, nuclear, texture, pallor, granules, slender, width, neck, lobes, cueCount };
constexpr std::array<const char*, cueCount> cueNames{
    "size",     "share of dark", "contrast of texture", "pallor",          "number of granules",
    "rod form", "nuclear width", "neck of nucleus",     "number of lobes",
};

/// What an eye has of one cell.
struct Sight {
    Triple color{}; ///< mean of the cell, L*a*b*
    std::array<double, cueCount> cues{};
};

film::Cell formed(FilmCell kind, body::Kind animal, std::uint64_t seed) {
    lab::Slide slide;
    slide.kind = animal;
    slide.of(kind) = kind == FilmCell::discocyte ? 0 : 1;
    film::Cell cell;
    cell.seed = seed;
    cell.animal = animal;
    if (lab::isRed(kind))
        formRed(cell, slide, kind == FilmCell::nucleatedRed);
    else if (kind == FilmCell::platelet)
        formPlatelet(cell, slide);
    else if (kind == FilmCell::precipitate)
        formPrecipitate(cell);
    else
        formWhite(cell, slide, kind);
    return cell;
}

/// A cell under the oil lens and what belongs to it: the places that its dyes reach.
struct Portrait {
    drawing::Pixels pixels;
    std::vector<char> inside;
};

constexpr float half = 11, scale = 10; // [um] around the cell, [px/um]

Portrait portraitOf(const film::Cell& cell) {
    const film::Mixture mixture(lab::Stain{});
    const bool grains = cell.kind == FilmCell::precipitate;
    const film::Optics optics = film::opticsOf(100, scale, grains ? cell.z : 0);
    const int margin = film::spreadReach(film::spreadOf(optics));
    const int side = static_cast<int>(2 * half * scale), whole = side + 2 * margin;
    const auto corner = -static_cast<double>(half) - margin / static_cast<double>(scale);
    film::Density density(whole, whole, corner, corner, static_cast<double>(scale));
    film::paint(cell, {mixture, optics}, density);
    Portrait out{film::developed(density, optics, cell.seed, margin), {}};
    constexpr float least = .04F; // summed density of the palest cytoplasm, above any halo's
    for (int y = margin; y < margin + side; ++y)
        for (int x = margin; x < margin + side; ++x) {
            const float* at = density.row(y) + std::ptrdiff_t{3} * x;
            out.inside.push_back(at[0] + at[1] + at[2] > least);
        }
    return out;
}

double middleOf(const std::vector<double>& values) {
    double sum = 0;
    for (const double value : values) sum += value;
    return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

double spreadOf(const std::vector<double>& values) {
    const double mean = middleOf(values);
    double squares = 0;
    for (const double value : values) squares += (value - mean) * (value - mean);
    return values.size() < 2 ? 0 : std::sqrt(squares / static_cast<double>(values.size() - 1));
}

void countShape(const film::Cell& cell, Sight& sight) {
    if (!lab::isWhite(cell.kind)) return;
    const film::WhiteShape shape = film::whiteShape(cell);
    const auto count = static_cast<double>(shape.grains.size());
    double slenderness = count > 0 ? 0 : 1; // of granules that are not there nothing is seen
    for (const film::Grain& grain : shape.grains)
        slenderness += static_cast<double>(grain.along / grain.across) / count;
    sight.cues[granules] = count;
    sight.cues[slender] = slenderness;
    sight.cues[width] = static_cast<double>(shape.nucleus.widest());
    sight.cues[neck] = static_cast<double>(film::shaped(cell).neck);
    sight.cues[lobes] = film::shaped(cell).lobes;
}

/// What is measured through an eye: color and lightness of that eye, nothing of the model.
Sight seenBy(const Matrix& eye, const film::Cell& cell, const Portrait& portrait) {
    const auto width = static_cast<std::size_t>(portrait.pixels.width);
    std::vector<double> all, middle, rim, steps, lightness(portrait.inside.size());
    Triple light{};
    double dark = 0;
    const double radius = static_cast<double>(cell.radius);
    for (std::size_t i = 0; i < portrait.inside.size(); ++i) {
        if (!portrait.inside[i]) continue;
        const std::uint8_t* pixel = portrait.pixels.rgba.data() + 4 * i;
        const Triple here = times(eye, linear({pixel[0], pixel[1], pixel[2]}));
        lightness[i] = toLab(here)[0];
        for (std::size_t c = 0; c < 3; ++c) light[c] += here[c];
        all.push_back(lightness[i]);
        constexpr double darkest = 52; // L* of chromatin and blacker things
        dark += lightness[i] < darkest;
        const auto um = [&](std::size_t at) {
            return (static_cast<double>(at) + .5) / static_cast<double>(scale) -
                   static_cast<double>(half);
        };
        const double out = std::hypot(um(i % width), um(i / width)) / radius;
        if (out < .25) middle.push_back(lightness[i]);
        if (out > .55 && out < .8) rim.push_back(lightness[i]);
        constexpr std::size_t near = 5; // [px]: half a um, about a granule or a strand
        if (i % width >= near && portrait.inside[i - near])
            steps.push_back(std::fabs(lightness[i] - lightness[i - near]));
    }
    const auto count = static_cast<double>(all.size());
    for (double& part : light) part /= count;
    Sight sight{toLab(light), {}};
    const double area = count / static_cast<double>(scale * scale);
    sight.cues[size] = 2 * std::sqrt(area / 3.14159265);
    sight.cues[nuclear] = dark / count;
    sight.cues[texture] = middleOf(steps);
    sight.cues[pallor] = middleOf(middle) / middleOf(rim);
    countShape(cell, sight);
    return sight;
}

/// How far the granules of a cell are from the cytoplasm between them [CIE 1976], to an eye.
double granuleContrast(const Matrix& eye, const film::Cell& cell) {
    const Portrait portrait = portraitOf(cell);
    const film::WhiteShape shape = film::whiteShape(cell);
    const film::NucleusEdge nucleus(shape.nucleus);
    const auto colorAt = [&](float x, float y) {
        const float c = std::cos(cell.angle), s = std::sin(cell.angle);
        const auto pixel = [](float um) { return static_cast<int>((um + half) * scale); };
        const int at = pixel(x * s + y * c) * portrait.pixels.width + pixel(x * c - y * s);
        const std::uint8_t* rgb = portrait.pixels.rgba.data() + std::ptrdiff_t{4} * at;
        return times(eye, linear({rgb[0], rgb[1], rgb[2]}));
    };
    struct Mean {
        Triple sum{};
        double count = 0;
        void add(const Triple& light) {
            for (std::size_t i = 0; i < 3; ++i) sum[i] += light[i];
            ++count;
        }
        Triple color() const { return toLab({sum[0] / count, sum[1] / count, sum[2] / count}); }
    };
    Mean on, between;
    for (const film::Grain& grain : shape.grains)
        if (nucleus.at(grain.x, grain.y).distance > .3F) on.add(colorAt(grain.x, grain.y));
    const float reach = .85F * cell.radius;
    for (float y = -reach; y < reach; y += .2F)
        for (float x = -reach; x < reach; x += .2F) {
            if (std::hypot(x, y) > reach || nucleus.at(x, y).distance < .4F) continue;
            const bool free = std::none_of(
                shape.grains.begin(), shape.grains.end(), [&](const film::Grain& grain) {
                    return std::hypot(x - grain.x, y - grain.y) < grain.across + .1F;
                });
            if (free) between.add(colorAt(x, y));
        }
    return on.count > 0 && between.count > 0 ? difference(on.color(), between.color()) : 0;
}

using Class = std::vector<Sight>;

/// Mean of a class's color and of each cue's standard deviations between two classes.
struct Pair {
    double color = 0;
    Cue best = size;
    double by = 0;
};

Pair compared(const Class& a, const Class& b) {
    const auto color = [](const Class& all) {
        Triple mean{};
        for (const Sight& one : all)
            for (std::size_t c = 0; c < 3; ++c)
                mean[c] += one.color[c] / static_cast<double>(all.size());
        return mean;
    };
    const auto values = [](const Class& all, std::size_t cue) {
        std::vector<double> out;
        for (const Sight& one : all) out.push_back(one.cues[cue]);
        return out;
    };
    Pair out;
    out.color = difference(color(a), color(b));
    for (std::size_t cue = 0; cue < cueCount; ++cue) {
        const std::vector<double> u = values(a, cue), v = values(b, cue);
        const double off = std::fabs(middleOf(u) - middleOf(v));
        // What does not vary at all, such as "no granules", counts as if it did by a twentieth.
        const double spread =
            std::max(std::sqrt((spreadOf(u) * spreadOf(u) + spreadOf(v) * spreadOf(v)) / 2),
                     .05 * std::max(std::fabs(middleOf(u)), std::fabs(middleOf(v))));
        if (spread > 0 && off / spread > out.by) {
            out.by = off / spread;
            out.best = static_cast<Cue>(cue);
        }
    }
    return out;
}

/// Every pair that has to be told apart, through every eye.
template<class Act>
void eachPair(const Act& act) {
    const std::vector<std::pair<FilmCell, FilmCell>> others{
        {FilmCell::polychromatophil, FilmCell::discocyte},
        {FilmCell::spherocyte, FilmCell::discocyte},
        {FilmCell::platelet, FilmCell::precipitate}};
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat}) {
        std::map<FilmCell, std::vector<std::pair<film::Cell, Portrait>>> portraits;
        for (const FilmCell kind : lab::filmCells()) {
            const bool wanted = lab::isWhite(kind) ||
                                std::any_of(others.begin(), others.end(), [&](const auto& pair) {
                                    return pair.first == kind || pair.second == kind;
                                });
            for (std::uint64_t seed = 1; wanted && seed <= cells; ++seed) {
                const film::Cell cell = formed(kind, animal, seed);
                portraits[kind].emplace_back(cell, portraitOf(cell));
            }
        }
        for (const auto& [eye, matrix] : eyes) {
            std::map<FilmCell, Class> seen;
            for (const auto& [kind, all] : portraits)
                for (const auto& [cell, portrait] : all)
                    seen[kind].push_back(seenBy(matrix, cell, portrait));
            const auto pair = [&, name = eye](FilmCell a, FilmCell b) {
                act(animal, name, a, b, compared(seen[a], seen[b]));
            };
            for (const FilmCell a : lab::filmCells())
                for (const FilmCell b : lab::filmCells())
                    if (lab::isWhite(a) && lab::isWhite(b) && a < b) pair(a, b);
            for (const auto& [a, b] : others) pair(a, b);
        }
    }
}

} // namespace

TEST_CASE("cells that look alike in color to an eye differ to it in something else", "[drawing]") {
    int alike = 0;
    eachPair([&](body::Kind animal, const char* eye, FilmCell a, FilmCell b, const Pair& pair) {
        if (pair.color >= together) return;
        ++alike;
        INFO(body::name(animal) << ", " << eye << ": " << lab::name(a) << " and " << lab::name(b)
                                << " are " << pair.color << " apart in color; best cue "
                                << cueNames[pair.best]);
        CHECK(pair.by >= apart);
    });
    CHECK(alike > 10); // or the bound would say nothing
}

TEST_CASE("granules stand out from their cytoplasm to every eye", "[drawing]") {
    // Twice a difference that is just seen between areas side by side (2.3, see above).
    constexpr double seen = 4.6;
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat})
        for (const FilmCell kind : {FilmCell::eosinophil, FilmCell::basophil})
            for (const auto& [name, eye] : eyes) {
                double sum = 0;
                for (std::uint64_t seed = 1; seed <= cells; ++seed)
                    sum += granuleContrast(eye, formed(kind, animal, seed));
                INFO(body::name(animal) << ", " << name << ": " << lab::name(kind));
                CHECK(sum / static_cast<double>(cells) >= seen);
            }
}

TEST_CASE("the colors and cues of cells, pair by pair, as a table", "[.table]") {
    eachPair([&](body::Kind animal, const char* eye, FilmCell a, FilmCell b, const Pair& pair) {
        std::printf("%-3s %-12s %-22s %-22s %5.1f  %-20s %5.1f%s\n",
                    std::string(body::name(animal)).c_str(), eye, std::string(lab::name(a)).c_str(),
                    std::string(lab::name(b)).c_str(), pair.color, cueNames[pair.best], pair.by,
                    pair.color < together ? (pair.by < apart ? "  NOT APART" : "  by the cue")
                                          : "");
    });
}
