// The sheet of all cells, against the one that the README shows. CISTERN_RENEW=1 takes it anew:
// look at every frame before committing it.
#include "approved_picture.h"
#include "drawing/film/forms.h"
#include "drawing/film/nucleus.h"
#include "drawing/film/portrait.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>
#include <variant>
#include <vector>

using namespace cistern;
using namespace cistern::drawing;
using namespace cistern::test;

namespace {

const std::string outcome = CISTERN_BUILD "/film-pictures/";

constexpr double side = 140; // [px] of a frame: the whole sheet stays under 2.5 MB

Picture sheet() {
    return film::contactSheet({body::Kind::dog, body::Kind::cat}, side, 1);
}

/// The last bits of a compiler's sums may move an edge by a shade. A granule of 1 um2 that is not
/// there changes 0.17 % of a frame, a cell of another seed more than 10 %.
constexpr Likeness frameLike{16, 0.005};
/// Names and title: letters may be set a little differently by another Pango.
constexpr Likeness sheetLike{48, 0.002};

/// How a nucleus closes: not at all, or round a hole.
struct Closing {
    bool closed = false;
    double across = 0; ///< of the hole, were it round [um]
};

/// Floods the outside of a nucleus; what stays dry beside it is a hole. A gap narrower than the
/// ragged edge of chromatin does not count as one.
Closing closing(const drawing::film::Cell& cell) {
    constexpr float step = .1F, ragged = .15F; // [um]
    constexpr int half = 90;
    constexpr std::size_t across = 2 * half + 1;
    const drawing::film::NucleusEdge edge(drawing::film::nucleusOf(cell));
    std::vector<char> free(across * across);
    for (std::size_t y = 0; y < across; ++y)
        for (std::size_t x = 0; x < across; ++x) {
            const auto at = [&](std::size_t i) { return step * (static_cast<float>(i) - half); };
            free[y * across + x] = edge.at(at(x), at(y)).distance > ragged;
        }
    std::vector<std::size_t> next{0};
    free[0] = 0;
    while (!next.empty()) {
        const std::size_t at = next.back(), x = at % across, y = at / across;
        next.pop_back();
        const auto wet = [&](std::size_t to) {
            if (free[to]) next.push_back(to);
            free[to] = 0;
        };
        if (x > 0) wet(at - 1);
        if (x + 1 < across) wet(at + 1);
        if (y > 0) wet(at - across);
        if (y + 1 < across) wet(at + across);
    }
    double dry = 0;
    for (const char one : free) dry += one;
    const double area = dry * static_cast<double>(step * step);
    return {dry > 0, 2 * std::sqrt(area / 3.14159265) + (dry > 0 ? 2 * double{ragged} : 0)};
}

} // namespace

TEST_CASE("every frame of the sheet of cells looks as it was approved", "[drawing]") {
    const Picture picture = sheet();
    const std::string bytes = png(picture);
    constexpr std::size_t most = 2500000; // bytes: a README is loaded over slow lines, too
    CHECK(bytes.size() < most);
    approvePicture("cells", bytes, outcome, sheetLike);
    const Pixels now = readPng(bytes), approved = approvedPicture("cells", bytes);
    REQUIRE(now.width == approved.width);
    REQUIRE(now.height == approved.height);
    int frames = 0;
    bool alike = true;
    for (const Mark& mark : picture.marks) {
        const auto* image = std::get_if<Image>(&mark.is);
        if (!image) continue;
        const Box& box = image->box;
        const auto part = [&](const Pixels& of) {
            return cut(of, static_cast<int>(box.x), static_cast<int>(box.y),
                       static_cast<int>(box.width), static_cast<int>(box.height));
        };
        const double share = differenceOf(part(approved), part(now), frameLike.channel).share;
        INFO(image->description << " at " << box.x << ", " << box.y << ": " << 100 * share
                                << " % of the pixels differ; see " << outcome);
        CHECK(share <= frameLike.share);
        alike = alike && share <= frameLike.share;
        ++frames;
    }
    if (!alike) keepDifference("cells", outcome, approved, now, frameLike.channel);
    CHECK(frames > 70);
}

TEST_CASE("the sheet holds every class of cell that is asked of an animal, under its name",
          "[drawing]") {
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat}) {
        constexpr double small = 16;
        const Picture picture = film::contactSheet({animal}, small, 1);
        std::set<std::string> words, seen;
        for (const Mark& mark : picture.marks) {
            if (const auto* text = std::get_if<Text>(&mark.is)) words.insert(text->lines.front());
            if (const auto* image = std::get_if<Image>(&mark.is)) seen.insert(image->description);
        }
        for (const lab::FilmCell cell : lab::askedOf(animal)) {
            const std::string name(lab::name(cell));
            const bool red = lab::isRed(cell); // these lie many in a frame: "target cells"
            INFO(name);
            CHECK(std::any_of(seen.begin(), seen.end(), [&](const std::string& one) {
                const std::string first = name.substr(0, name.find(' '));
                return one == name || (red && one.starts_with(first));
            }));
        }
        for (const std::string& one : seen) CHECK(words.count(one) == 1);
        const bool spheres = seen.count("spherocytes") == 1;
        CHECK(spheres == (animal == body::Kind::dog));
    }
}

TEST_CASE("the nucleus of a band stays open, or is a ring with a hole that is seen", "[drawing]") {
    int closed = 0, all = 0;
    for (const body::Kind animal : {body::Kind::dog, body::Kind::cat})
        for (const double toxic : {0., 1.})
            for (std::uint64_t seed = 1; seed <= 100; ++seed) {
                lab::Slide slide;
                slide.kind = animal;
                slide.toxic = toxic;
                drawing::film::Cell cell;
                cell.seed = seed;
                cell.animal = animal;
                formWhite(cell, slide, lab::FilmCell::band);
                const Closing found = closing(cell);
                CAPTURE(seed, toxic, found.across);
                constexpr double least = 2.8; // [um]: wider than the band is beside it
                if (found.closed) CHECK(found.across >= least);
                closed += found.closed;
                ++all;
            }
    // Rings are what toxic marrow lets go, about 1 in 8 of its bands: 1 in 16 of these. 4 standard
    // deviations of 400 draws are 20.
    CHECK(closed > all / 16 - 20);
    CHECK(closed < all / 16 + 20);
}
