// Tiles of a slide, drawn beside the window.
#include "desk/tiles.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <map>

using namespace cistern;
using namespace cistern::desk;

namespace {

constexpr double hundredth = 1e-2, thousandth = 1e-3; // of the numbers in a tile's name

lab::Slide dogs() {
    lab::Slide slide;
    slide.seed = 7;
    slide.red = 6.8;
    slide.white = 12;
    slide.platelets = 300;
    slide.of(lab::FilmCell::segmented) = .8;
    slide.of(lab::FilmCell::lymphocyte) = .2;
    return slide;
}

/// A small view of the monolayer under oil: few tiles, so that a test is soon over.
Microscope under(int power = 100) {
    Microscope out;
    out.slide = std::make_shared<const lab::Slide>(dogs());
    out.number = 1;
    out.power = power;
    const lab::Reach reach = lab::reach(*out.slide, lab::FilmArea::monolayer);
    out.middle = {(reach.from + reach.to) / 2, 9000};
    out.width = 60;
    out.focus = .5;
    out.box = {100, 80, 400, 300};
    out.within = out.box;
    return out;
}

/// Takes until nothing is behind, or a minute has passed: many times what it takes, also under a
/// sanitizer.
std::vector<Tile> all(Tiles& tiles) {
    using Clock = std::chrono::steady_clock;
    std::vector<Tile> out;
    const auto late = Clock::now() + std::chrono::minutes(1);
    while (tiles.behind() && Clock::now() < late) {
        for (Tile& one : tiles.take(100)) out.push_back(std::move(one));
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    for (Tile& one : tiles.take(1000)) out.push_back(std::move(one));
    return out;
}

/// The same place, drawn at once.
drawing::Pixels plainly(const lab::Slide& slide, const TileName& name) {
    const int part = name.coarse ? coarser : 1;
    const double scale = name.scale * thousandth, side = tileSide / scale;
    drawing::film::Stage stage(slide);
    return stage.seen(name.x * side, name.y * side, tileSide / part, tileSide / part,
                      drawing::film::opticsOf(name.power, static_cast<float>(scale / part),
                                              static_cast<float>(name.focus * hundredth)));
}

} // namespace

TEST_CASE("Every tile of a view comes, coarse before sharp, then its neighbors", "[desk]") {
    const Microscope view = under();
    Tiles tiles;
    tiles.look(view);
    CHECK(tiles.behind());
    const std::vector<Tile> drawn = all(tiles);
    CHECK(!tiles.behind());
    const std::vector<TileName> seen = tilesOf(view), near = tilesOf(view, 1);
    std::map<TileName, std::size_t> place;
    for (std::size_t i = 0; i < drawn.size(); ++i)
        CHECK(place.emplace(drawn[i].name, i).second); // none twice
    CHECK(drawn.size() == seen.size() + near.size());
    for (TileName name : near) REQUIRE(place.contains(name));
    std::size_t last = 0;
    for (TileName name : seen) {
        last = std::max(last, place.at(name));
        const std::size_t sharp = place.at(name);
        name.coarse = true;
        REQUIRE(place.contains(name));
        CHECK(place.at(name) < sharp);
    }
    CHECK(last == 2 * seen.size() - 1); // what is seen before what lies around it
    CHECK(tiles.secondsEach() > 0);
}

TEST_CASE("A tile holds the bytes of its place, and is seen where it lies", "[desk]") {
    const Microscope view = under();
    Tiles tiles;
    tiles.look(view);
    int sharp = 0, coarse = 0;
    for (const Tile& tile : all(tiles)) {
        const drawing::Pixels plain = plainly(*view.slide, tile.name);
        CHECK(tile.pixels.width == tileSide / (tile.name.coarse ? coarser : 1));
        CHECK((tile.pixels.width == plain.width && tile.pixels.height == plain.height));
        CHECK(tile.pixels.rgba == plain.rgba);
        ++(tile.name.coarse ? coarse : sharp);
        // Half a pixel of rounding, and a thousandth of a pixel per um across what is seen.
        const double most = .5 + view.width * thousandth;
        const double side = tileSide / (tile.name.scale * thousandth);
        const Point corner = view.inWindow({tile.name.x * side, tile.name.y * side});
        const Box box = placeOf(tile.name, view);
        CHECK(std::abs(box.x - corner.x) <= most);
        CHECK(std::abs(box.y - corner.y) <= most);
    }
    CHECK(sharp > 0);
    CHECK(coarse > 0);
}

TEST_CASE("Two threads draw what one draws", "[desk]") {
    const Microscope view = under(50);
    std::map<TileName, std::vector<std::uint8_t>> alone, both;
    for (const int threads : {1, 2}) {
        Tiles tiles(threads);
        tiles.look(view);
        for (Tile& tile : all(tiles))
            (threads == 1 ? alone : both)[tile.name] = std::move(tile.pixels.rgba);
    }
    CHECK(alone.size() == tilesOf(view).size() + tilesOf(view, 1).size());
    CHECK(alone == both);
}

TEST_CASE("What has left the view is no longer drawn", "[desk]") {
    const Microscope first = under();
    Microscope second = first;
    second.middle.y += 2000;
    Tiles tiles;
    tiles.look(first);
    tiles.look(second);
    const std::vector<Tile> drawn = all(tiles);
    const std::vector<TileName> wanted = tilesOf(second, 1);
    std::size_t left = 0;
    for (const Tile& tile : drawn) {
        TileName name = tile.name;
        name.coarse = false;
        left += std::find(wanted.begin(), wanted.end(), name) == wanted.end();
    }
    CHECK(left <= 1); // that was in work already
    CHECK(drawn.size() - left == wanted.size() + tilesOf(second).size());
}

TEST_CASE("Another slide is drawn under its own number", "[desk]") {
    const Microscope first = under();
    Microscope second = first;
    lab::Slide pink = *first.slide;
    pink.stain.blue = .45;
    second.slide = std::make_shared<const lab::Slide>(pink);
    second.number = 2;
    Tiles tiles(2);
    tiles.look(first);
    std::this_thread::sleep_for(std::chrono::milliseconds(30));
    tiles.look(second);
    std::size_t ofSecond = 0;
    for (const Tile& tile : all(tiles)) {
        CHECK(tile.pixels.rgba ==
              plainly(tile.name.slide == 1 ? *first.slide : pink, tile.name).rgba);
        ofSecond += tile.name.slide == 2;
    }
    CHECK(ofSecond == tilesOf(second).size() + tilesOf(second, 1).size());
}

TEST_CASE("A tile that was given is not drawn again until it is forgotten", "[desk]") {
    const Microscope view = under();
    Tiles tiles;
    tiles.look(view);
    const std::vector<Tile> drawn = all(tiles);
    tiles.look(view);
    CHECK(!tiles.behind());
    const TileName name = tilesOf(view).front();
    tiles.forget(name);
    tiles.look(view);
    const std::vector<Tile> again = all(tiles);
    REQUIRE(again.size() == 1); // its coarse one is still held
    CHECK(again.front().name == name);
}

TEST_CASE("No more tiles are handed over than are asked for", "[desk]") {
    const Microscope view = under();
    Tiles tiles;
    CHECK(tiles.take(3).empty());
    tiles.look(view);
    std::size_t handed = 0;
    const std::size_t wanted = tilesOf(view).size() + tilesOf(view, 1).size();
    for (int i = 0; i < 60000 && handed < wanted; ++i) {
        const std::size_t now = tiles.take(2).size();
        CHECK(now <= 2);
        handed += now;
        if (now == 0) std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    CHECK(handed == wanted);
}

TEST_CASE("Tiles that are at work go away in peace", "[desk]") {
    for (const int wait : {0, 1, 20}) { // [ms]
        Tiles tiles(2);
        tiles.look(under());
        std::this_thread::sleep_for(std::chrono::milliseconds(wait));
    }
    Tiles idle(3);
    Microscope nothing;
    idle.look(nothing);
    CHECK(!idle.behind());
}

TEST_CASE("Tiles lie side by side and cover what is seen at any scale", "[desk]") {
    for (const double wide : {311., 400., 641., 877., 1203.})
        for (const double um : {120., 240., 1200.})
            for (const double at : {0., 37.7, 9123.4, 17777.77, 30000.})
                for (const double down : {0., .35, .5}) { // a page is scrolled by parts of pixels
                    Microscope view = under();
                    view.width = um;
                    view.middle = {at, at * .6};
                    view.box = {100, 80 + down, wide, std::floor(wide * .75)};
                    const std::vector<TileName> names = tilesOf(view);
                    REQUIRE(!names.empty());
                    Box whole = placeOf(names.front(), view);
                    for (const TileName& name : names) {
                        const Box box = placeOf(name, view);
                        TileName next = name;
                        ++next.x;
                        CHECK(placeOf(next, view).x == box.right());
                        next = name;
                        ++next.y;
                        CHECK(placeOf(next, view).y == box.bottom());
                        CHECK(box.x == std::round(box.x));
                        const double right = std::max(whole.right(), box.right()),
                                     bottom = std::max(whole.bottom(), box.bottom());
                        whole.x = std::min(whole.x, box.x);
                        whole.y = std::min(whole.y, box.y);
                        whole.width = right - whole.x;
                        whole.height = bottom - whole.y;
                    }
                    INFO(wide << " px, " << um << " um, at " << at << " um, down " << down);
                    CHECK(whole.x <= view.box.x);
                    CHECK(whole.y <= view.box.y);
                    CHECK(whole.right() >= view.box.right());
                    CHECK(whole.bottom() >= view.box.bottom());
                }
}
