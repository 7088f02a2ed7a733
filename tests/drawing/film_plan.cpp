#include "drawing/film/draft.h"
#include "drawing/film/plan.h"
#include "film_slides.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>
#include <thread>
#include <tuple>

using namespace cistern;
using namespace cistern::drawing::film;
using body::Kind;
namespace mark = lab::mark;

namespace {

/// All that a cell is, for comparison to the last bit.
auto allOf(const Cell& c) {
    return std::tuple(c.seed, c.kind, c.animal, c.marks, c.x, c.y, c.z, c.radius, c.angle, c.squash,
                      c.dye, c.pallor, c.blue, c.flat, c.thick, c.group, c.dentCount);
}

bool same(const Cell& a, const Cell& b) {
    if (allOf(a) != allOf(b)) return false;
    for (int i = 0; i < a.dentCount; ++i) {
        const Dent &p = a.dents[i], &q = b.dents[i];
        if (std::tuple(p.x, p.y, p.reach, p.flat) != std::tuple(q.x, q.y, q.reach, q.flat))
            return false;
    }
    return true;
}

bool same(const std::vector<Cell>& a, const std::vector<Cell>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const Cell& p, const Cell& q) { return same(p, q); });
}

/// Blood on these patches [um3], by places 10 um apart.
double bloodOn(const Slide& slide, const Patches& patches) {
    constexpr double step = 10;
    double sum = 0;
    for (double y = patches.fromY * patchSide + step / 2; y < patches.endY * patchSide; y += step)
        for (double x = patches.fromX * patchSide + step / 2; x < patches.endX * patchSide;
             x += step)
            sum += lab::thickness(slide, x, y) * step * step;
    return sum;
}

using Wanted = std::function<bool(const Cell&)>;

double count(const std::vector<Cell>& cells, const Wanted& wanted) {
    return static_cast<double>(std::count_if(cells.begin(), cells.end(), wanted));
}

Wanted ofKind(FilmCell kind) {
    return [kind](const Cell& cell) { return cell.kind == kind; };
}

Wanted marked(FilmCell kind, std::uint16_t one) {
    return [=](const Cell& cell) { return cell.kind == kind && cell.has(one); };
}

bool isNeutrophil(const Cell& cell) {
    return cell.kind == FilmCell::segmented || cell.kind == FilmCell::band ||
           cell.kind == FilmCell::metamyelocyte;
}

bool plainRed(const Cell& cell) {
    return lab::isRed(cell.kind) && cell.kind != FilmCell::nucleatedRed;
}

/// Patches about the middle of the monolayer.
Patches middle(const Slide& slide, int wide, int high) {
    const lab::Reach reach = lab::reach(slide, lab::FilmArea::monolayer);
    const int x = static_cast<int>((reach.from + reach.to) / 2 / patchSide) - wide / 2;
    const int y = static_cast<int>(lab::filmWidth / 2 / patchSide) - high / 2;
    return {x, y, x + wide, y + high};
}

double perUm3(double perLiter9) {
    return perLiter9 * 1e-6;
}

} // namespace

TEST_CASE("A patch of film is the same whichever region is planned", "[drawing]") {
    const Kind kind = GENERATE(Kind::dog, Kind::cat);
    // Feathered edge, monolayer, between, thick body, and the film's corner.
    const auto place = GENERATE(std::pair(3, 40), std::pair(33, 75), std::pair(70, 20),
                                std::pair(160, 90), std::pair(1, 1));
    const int x = place.first, y = place.second;
    const Slide slide = films::crowd(kind);
    const auto wide = planEach(slide, {x - 1, y - 1, x + 4, y + 3});
    std::size_t all = 0;
    for (const auto& patch : wide) all += patch.size();
    CHECK(all > 200);
    const auto whole = [&](int i, int j) {
        return wide[static_cast<std::size_t>(5 * (j - y + 1) + i - x + 1)];
    };
    for (int j = y; j < y + 2; ++j)
        for (int i = x; i < x + 3; ++i) {
            INFO("patch " << i << ", " << j);
            CHECK(same(plan(slide, {i, j, i + 1, j + 1}), whole(i, j)));
        }
    const auto other = planEach(slide, {x + 1, y + 1, x + 3, y + 8});
    CHECK(same(other[0], whole(x + 1, y + 1)));
    CHECK(same(other[1], whole(x + 2, y + 1)));
}

TEST_CASE("A plan is the same every time, on any thread", "[drawing]") {
    const Slide slide = films::crowd(Kind::cat);
    const Patches patches{40, 70, 43, 73};
    const std::vector<Cell> once = plan(slide, patches);
    std::vector<std::vector<Cell>> others(4);
    std::vector<std::thread> threads;
    for (auto& other : others)
        threads.emplace_back([&slide, &patches, &other] { other = plan(slide, patches); });
    for (std::thread& thread : threads) thread.join();
    for (const auto& other : others) CHECK(same(once, other));

    Slide reseeded = slide;
    reseeded.seed += 1;
    CHECK_FALSE(same(once, plan(reseeded, patches)));
}

TEST_CASE("What the stain does moves no cell", "[drawing]") {
    const Slide slide = films::crowd(Kind::dog);
    Slide blue = slide;
    blue.stain.blue = 1.75;
    CHECK(same(plan(slide, {30, 70, 32, 72}), plan(blue, {30, 70, 32, 72})));
}

TEST_CASE("Cells lie on the film in the numbers their blood holds", "[drawing]") {
    const Kind kind = GENERATE(Kind::dog, Kind::cat);
    const Slide slide = films::crowd(kind);
    const Patches patches = middle(slide, 25, 40); // a thousand fields of 120 um
    const std::vector<Cell> cells = plan(slide, patches);
    const double blood = bloodOn(slide, patches);
    const double red = 1e-3 * slide.red * blood, white = perUm3(slide.white) * blood;
    const double platelets = perUm3(slide.platelets) * blood;

    double squares = 0;
    int counts = 0;
    const auto check = [&](const std::string& what, double expected, const Wanted& wanted) {
        INFO(what << " expected " << expected);
        const double met = count(cells, wanted);
        // Poisson: the variance is the mean. Beyond four deviations is one seed in 16,000.
        const double z = (met - expected) / std::sqrt(expected);
        CHECK(std::fabs(z) < 4);
        return z;
    };
    const auto checkKind = [&](FilmCell cell, double expected) {
        const double z =
            check("kind " + std::to_string(static_cast<int>(cell)), expected, ofKind(cell));
        squares += z * z;
        ++counts;
    };
    double formed = 0;
    for (std::size_t i = 0; i < lab::filmCellCount; ++i) {
        const auto cell = static_cast<FilmCell>(i);
        if (lab::isWhite(cell) || cell == FilmCell::smudge) checkKind(cell, white * slide.of(cell));
        if (!lab::isRed(cell) || slide.of(cell) <= 0) continue;
        checkKind(cell, red * slide.of(cell));
        formed += slide.of(cell);
    }
    checkKind(FilmCell::discocyte, red * (1 - formed));
    checkKind(FilmCell::nucleatedRed, white * slide.nucleated / 100);
    checkKind(FilmCell::platelet, platelets);
    checkKind(FilmCell::plateletClump, perUm3(slide.clumps) * blood);
    checkKind(FilmCell::precipitate, 1e-6 * slide.precipitate * 1000 * patchSide * patchSide);
    // Chi-square, 99.99 % point by Wilson and Hilferty 1931.
    const double per = 2 / (9. * counts);
    CHECK(squares < counts * std::pow(1 - per + 3.719 * std::sqrt(per), 3));

    const auto redWith = [](std::uint16_t one) {
        return [one](const Cell& cell) { return plainRed(cell) && cell.has(one); };
    };
    check("Howell-Jolly bodies", red * slide.howellJolly, redWith(mark::howellJolly));
    check("Heinz bodies", red * slide.heinz, redWith(mark::heinz));
    check("water holes", red * slide.water, redWith(mark::water));
    check("large platelets", platelets * slide.largePlatelets,
          marked(FilmCell::platelet, mark::large));
    const double segmented = white * slide.of(FilmCell::segmented);
    const double bands = white * slide.of(FilmCell::band);
    const double neutrophils = segmented + bands + white * slide.of(FilmCell::metamyelocyte);
    check("toxic", neutrophils * slide.toxic,
          [](const Cell& cell) { return isNeutrophil(cell) && cell.has(mark::toxic); });
    check("drumsticks", segmented * slide.drumstick, marked(FilmCell::segmented, mark::drumstick));
    check("hypersegmented", segmented * slide.hypersegmented,
          marked(FilmCell::segmented, mark::hypersegmented));
    check("doubtful bands", bands * slide.doubtful, marked(FilmCell::band, mark::doubtful));
    check("doubtful segmented", bands * slide.doubtful,
          marked(FilmCell::segmented, mark::doubtful));
    check("empty granules", white * slide.of(FilmCell::eosinophil) * slide.emptyGranules,
          marked(FilmCell::eosinophil, mark::emptyGranules));
    check("vacuoles by standing", white * slide.of(FilmCell::monocyte) * slide.aged,
          marked(FilmCell::monocyte, mark::vacuoles));

    // Rows and clusters come whole, so their counts scatter more: by groups of about 7 and 20.
    const double rows = count(cells, redWith(mark::inRouleau)) / red;
    const double clusters = count(cells, redWith(mark::agglutinated)) / red;
    CHECK(rows == Approx(slide.rouleaux).margin(4 * std::sqrt(slide.rouleaux * 7 / red)));
    CHECK(clusters ==
          Approx(slide.agglutinated).margin(4 * std::sqrt(slide.agglutinated * 20 / red)));
}

TEST_CASE("A field of the monolayer holds what is expected of one", "[drawing]") {
    // Derived, per oil field: field volume of 1/20,000 to 1/15,000 uL; field number 20, so that
    // 200 um are seen across. Red cells of a half-touching monolayer 250 to 400 in a dog, up to
    // 470; 350 to 600 in a cat. Common practice.
    const double field = 3.14159265 * 100 * 100; // [um2]
    struct Expected {
        Wanted wanted;
        double low, high;
    };
    const auto check = [&](const Slide& slide, const std::vector<Expected>& all) {
        const Patches patches = middle(slide, 8, 60); // 220 such fields
        const double fields = 8 * 60 * patchSide * patchSide / field;
        const std::vector<Cell> cells = plan(slide, patches);
        for (const Expected& one : all) {
            const double mean = count(cells, one.wanted) / fields;
            const double error = std::sqrt(mean / fields); // of a Poisson mean
            INFO(mean << " a field, expected " << one.low << " to " << one.high);
            CHECK(mean > one.low - 2 * error);
            CHECK(mean < one.high + 2 * error);
        }
    };
    const Wanted white = [](const Cell& c) { return lab::isWhite(c.kind); };
    const Wanted platelet = ofKind(FilmCell::platelet);
    const Wanted polychromatophil = ofKind(FilmCell::polychromatophil);
    Slide dog = films::healthy(Kind::dog);
    check(dog,
          {{plainRed, 250, 470}, {platelet, 15, 20}, {polychromatophil, 0, 4}, {white, .5, .7}});
    const Slide cat = films::healthy(Kind::cat);
    check(cat,
          {{plainRed, 350, 600}, {platelet, 15, 20}, {polychromatophil, 0, 2}, {white, .5, .7}});
    dog.white = 6;
    dog.platelets = 30;
    check(dog, {{white, .3, .4}, {platelet, 1.5, 2}});
    dog.white = 17;
    dog.platelets = 200;
    check(dog, {{white, .85, 1.1}, {platelet, 10, 13.3}});
    dog.white = 40;
    dog.platelets = 500;
    check(dog, {{white, 2, 2.7}, {platelet, 25, 33}});
}

TEST_CASE("Cells are as large as their kind", "[drawing]") {
    // Diameters [um] of Harvey; Reagan; Schalm, from memory, by kind, dog and cat.
    struct Size {
        FilmCell kind;
        double dog[2], cat[2];
    };
    const Size sizes[] = {{FilmCell::segmented, {10, 15}, {10, 15}},
                          {FilmCell::band, {12, 15}, {12, 15}},
                          {FilmCell::metamyelocyte, {13, 16}, {13, 16}},
                          {FilmCell::lymphocyte, {7, 9}, {7, 9}},
                          {FilmCell::reactiveLymphocyte, {10, 15}, {10, 15}},
                          {FilmCell::monocyte, {15, 20}, {15, 20}},
                          {FilmCell::eosinophil, {12, 18}, {12, 15}},
                          {FilmCell::basophil, {12, 18}, {12, 18}},
                          {FilmCell::polychromatophil, {7.5, 9}, {6.5, 7.5}},
                          {FilmCell::nucleatedRed, {8, 10}, {8, 10}}};
    const Kind kind = GENERATE(Kind::dog, Kind::cat);
    const Slide slide = films::crowd(kind);
    const std::vector<Cell> cells = plan(slide, middle(slide, 8, 30));
    for (const Size& size : sizes) {
        INFO("kind " << static_cast<int>(size.kind));
        const auto& [low, high] = kind == Kind::dog ? size.dog : size.cat;
        CHECK(count(cells, ofKind(size.kind)) > 10);
        const double off = count(cells, [&, least = low, most = high](const Cell& cell) {
            const double across = 2 * static_cast<double>(cell.radius);
            constexpr double rounding = 1e-4;
            // Toxic neutrophils are 12 to 18.
            const double top = cell.has(mark::toxic) ? 18 : most;
            return cell.kind == size.kind && (across < least - rounding || across > top + rounding);
        });
        CHECK(off == 0);
    }
    double area = 0, discs = 0, spheres = 0, sphere = 0;
    for (const Cell& cell : cells) {
        const double r = cell.radius;
        const double most = cell.has(mark::large) ? 7 : kind == Kind::dog ? 4 : 6; // platelets
        if (cell.kind == FilmCell::platelet) CHECK((2 * r >= 2 && 2 * r <= most));
        if (cell.kind == FilmCell::plateletClump) CHECK((r >= 4 && r <= 25));
        if (cell.kind == FilmCell::spherocyte) sphere += 2 * r, ++spheres;
        if (cell.kind == FilmCell::discocyte) area += 2 * r, ++discs;
    }
    // 7.0 and 5.8 um (Harvey, from memory); spheres of the same volume 5.1 and 4.4. A hundredth is
    // more than four standard errors of either mean.
    CHECK(area / discs == Approx(kind == Kind::dog ? 7.0 : 5.8).epsilon(0.01));
    CHECK(sphere / spheres == Approx(kind == Kind::dog ? 5.1 : 4.4).epsilon(0.02));
}

TEST_CASE("White cells of the monolayer lie apart, and nothing lies beyond the film", "[drawing]") {
    Slide slide = films::crowd(Kind::dog);
    slide.white = 200; // so that many would meet by chance
    const std::vector<Cell> cells = plan(slide, middle(slide, 10, 20));
    std::vector<Cell> large;
    std::copy_if(cells.begin(), cells.end(), std::back_inserter(large), [](const Cell& cell) {
        return lab::isWhite(cell.kind) || cell.kind == FilmCell::smudge ||
               cell.kind == FilmCell::plateletClump;
    });
    CHECK(large.size() > 100);
    int over = 0;
    for (std::size_t i = 0; i < large.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            over += std::hypot(large[i].x - large[j].x, large[i].y - large[j].y) <
                    large[i].radius + large[j].radius;
    CHECK(over == 0);

    // All four corners and the frayed tip.
    int beyond = 0, all = 0;
    for (const Patches& patches :
         {Patches{-2, -2, 5, 4}, Patches{-2, 146, 5, 152}, Patches{247, -2, 253, 2},
          Patches{247, 147, 253, 153}, Patches{-1, 60, 5, 80}})
        for (const Cell& cell : plan(slide, patches)) {
            ++all;
            beyond += lab::thickness(slide, cell.x, cell.y) <= 0;
        }
    CHECK(all > 1000);
    CHECK(beyond == 0);
}

TEST_CASE("Red cells of the monolayer make room, and a few lie over one another", "[drawing]") {
    const Slide slide = films::healthy(Kind::dog);
    const std::vector<Cell> cells = plan(slide, middle(slide, 3, 3));
    std::vector<Cell> reds;
    std::copy_if(cells.begin(), cells.end(), std::back_inserter(reds), plainRed);
    double over = 0, touching = 0, dented = 0;
    for (const Cell& a : reds) {
        bool touches = false, covered = false;
        for (const Cell& b : reds) {
            if (&a == &b) continue;
            const float far = std::hypot(a.x - b.x, a.y - b.y) / (a.radius + b.radius);
            touches |= far < 1.02F;
            covered |= far < .93F;
        }
        touching += touches;
        over += covered;
        dented += a.dentCount > 0;
    }
    const auto all = static_cast<double>(reds.size());
    // About half touch (common practice): between 4 and 9 of 10 counts as such.
    CHECK(touching / all > 0.4);
    CHECK(touching / all < 0.9);
    // 12 pairs of 100 lie over one another by more than a tenth; a cell has two or three neighbors.
    CHECK(over / all < 0.4);
    CHECK(over > 0);
    CHECK(dented / all > 0.3);
}

TEST_CASE("Large cells and clumps gather at the feathered edge, and none is lost", "[drawing]") {
    Slide slide = films::healthy(Kind::dog);
    slide.white = 120;
    slide.clumps = 3;
    slide.clumpSize = 15;
    const lab::Gathering gathering(slide);
    const Patches strip{0, 70, 250, 76}; // the whole length
    std::vector<Cell> cells;
    for (int y = strip.fromY; y < strip.endY; ++y)
        for (int x = strip.fromX; x < strip.endX; ++x) Patch(slide, gathering, x, y).strew(cells);

    const lab::Reach edge = lab::reach(slide, lab::FilmArea::edge);
    const auto atEdge = [&](const Cell& cell) { return static_cast<double>(cell.x) < edge.to; };
    const auto large = [](const Cell& cell) {
        return lab::isWhite(cell.kind) && cell.kind != FilmCell::lymphocyte;
    };
    const auto edgeOnly = [&](const Wanted& wanted) {
        return count(cells, [&](const Cell& cell) { return atEdge(cell) && wanted(cell); });
    };
    const auto white = [](const Cell& cell) { return lab::isWhite(cell.kind); };
    const double truth = 1 - slide.of(FilmCell::lymphocyte);
    const double met = edgeOnly(white), share = edgeOnly(large) / met;
    CHECK(share > truth + 2 * std::sqrt(truth * (1 - truth) / met));

    const Wanted clump = ofKind(FilmCell::plateletClump);
    const double clumps = count(cells, clump);
    const double swept =
        count(cells, [&](const Cell& cell) { return clump(cell) && cell.x < 1500; });
    CHECK(swept / clumps > 0.5);

    // Four Poisson deviations, and 3 % for the frayed tip, whose mean thickness stands for all.
    const double blood = bloodOn(slide, strip);
    const auto conserved = [&](const Wanted& wanted, double expected) {
        CHECK(count(cells, wanted) ==
              Approx(expected).margin(4 * std::sqrt(expected) + 0.03 * expected));
    };
    conserved(clump, perUm3(slide.clumps) * blood);
    conserved(white, perUm3(slide.white) * blood);
    conserved(ofKind(FilmCell::monocyte),
              perUm3(slide.white) * slide.of(FilmCell::monocyte) * blood);
    conserved(plainRed, 1e-3 * slide.red * blood);
}
