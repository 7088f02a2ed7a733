#include "drawing/tube.h"

#include "drawing/brushwork.h"
#include "drawing/theme.h"
#include "drawing/tube_parts.h"

#include <algorithm>
#include <cmath>

namespace cistern::drawing {

using namespace brushwork;

namespace {

/// The stopper: near the color that the trade gives each additive (ISO 6710:2017, from memory:
/// serum red and gold, EDTA lavender, heparin green, citrate light blue, fluoride grey), and a
/// pattern in a lighter tint.
enum class Pattern { plain, band, ribs, rings, studs, slants };
struct Stopper {
    Color color;
    Pattern pattern;
};

Stopper stopperOf(Additive additive) {
    switch (additive) {
    case Additive::clot:
        return {theme::clayDark, Pattern::plain};
    case Additive::gel:
        return {theme::work, Pattern::band};
    case Additive::edta:
        return {theme::thought, Pattern::ribs};
    case Additive::heparin:
        return {theme::balance, Pattern::rings};
    case Additive::citrate:
        return {mixed(theme::leakSoft, theme::leak, 0.35), Pattern::studs};
    case Additive::fluoride:
        break;
    }
    return {theme::stoneDark, Pattern::slants};
}

/// A number from 0 to 1 for each step, spread evenly by the golden ratio.
double spaced(int step, double from) {
    const double golden = 0.6180339887498949;
    return std::fmod(from + step * golden, 1.0);
}

class Drawer {
public:
    Drawer(const TubeView& view, const Box& box)
        : view_(view), plan_(tubePlan(view, box)), places_(plan_.places) {}

    Group draw() {
        group_.name = words(view_);
        const Box& glass = places_.glass;
        fill(group_, outline(glass), faded(theme::field, 0.9));
        contents();
        shine();
        stroke(group_, outline({glass.x + 1, glass.y, glass.width - 2, glass.height - 1}),
               theme::stoneDark, 2);
        nominal();
        stopper();
        label();
        for (std::size_t i = 0; i < plan_.beside.size(); ++i) leader(i);
        for (const std::vector<Text>* texts : {&plan_.beside, &plan_.below})
            for (const Text& text : *texts) group_.marks.emplace_back().is = text;
        return std::move(group_);
    }

private:
    const TubeView& view_;
    TubePlan plan_;
    const TubePlaces& places_;
    Group group_;

    /// A tube with a round bottom.
    static Path outline(const Box& box) {
        const double r = box.width / 2, low = box.bottom() - r;
        const double bend = 0.5523 * r; // a quarter circle, see rounded() in picture.cpp
        return Path()
            .move({box.x, box.y})
            .line({box.x, low})
            .curve({box.x, low + bend}, {box.x + r - bend, box.bottom()}, {box.x + r, box.bottom()})
            .curve({box.x + r + bend, box.bottom()}, {box.right(), low + bend}, {box.right(), low})
            .line({box.right(), box.y})
            .close();
    }

    Box hollow() const {
        const Box &inside = places_.inside, &glass = places_.glass;
        const double wall = inside.x - glass.x;
        return {inside.x, glass.y, inside.width, glass.height - wall};
    }

    /// A surface seen from a little above: its far rim.
    static Path surface(const Box& box) {
        const double dip = 0.09 * box.width;
        return Path()
            .move({box.x, box.y})
            .curve({box.x + box.width * 0.25, box.y - dip},
                   {box.right() - box.width * 0.25, box.y - dip}, {box.right(), box.y})
            .curve({box.right() - box.width * 0.25, box.y + dip},
                   {box.x + box.width * 0.25, box.y + dip}, {box.x, box.y})
            .close();
    }

    void contents() {
        Group inside{"contents", {}, outline(hollow()), {}};
        for (const TubeLayer& one : plan_.layers) fill(inside, rectangle(one.box), one.color);
        for (const TubeLayer& one : plan_.layers) details(inside, one);
        if (!plan_.layers.empty()) {
            const TubeLayer& top = plan_.layers.back();
            fill(inside, surface(top.box), mixed(top.color, theme::field, 0.3));
        }
        group_.marks.emplace_back().is = std::move(inside);
    }

    void details(Group& to, const TubeLayer& layer) const {
        switch (layer.kind) {
        case TubeLayer::Kind::blood:
            clotIn(to, layer.box);
            break;
        case TubeLayer::Kind::cells:
            if (!clots(view_.additive)) buffyCoat(to, layer.box);
            break;
        case TubeLayer::Kind::clear: {
            const double left = clots(view_.additive) ? 1 - view_.clot : view_.clot;
            strands(to, layer.box, left, mixed(theme::field, theme::work, 0.28));
            clouds(to, layer.box);
            break;
        }
        case TubeLayer::Kind::gel:
            stroke(to, rectangle(layer.box), faded(theme::stoneDark, 0.7), 1);
            break;
        }
    }

    /// White cells and platelets on top of the red ones.
    static void buffyCoat(Group& to, const Box& cells) {
        const double thick = std::clamp(0.03 * cells.height, 1.5, 4.0);
        fill(to, rectangle({cells.x, cells.y, cells.width, thick}),
             mixed(theme::field, theme::clay, 0.25));
    }

    /// A clot shrinks from the glass as it forms; first come strands.
    void clotIn(Group& to, const Box& blood) const {
        if (view_.clot <= 0) return;
        const Color dark = mixed(cellsColor(), theme::ink, 0.35);
        const double edge = 0.12 * blood.width * view_.clot;
        const Box body{blood.x + edge, blood.y + edge, blood.width - 2 * edge, blood.height - edge};
        if (body.height > 0)
            fill(to, rounded(body, blood.width / 3), faded(dark, 0.75 * view_.clot));
        strands(to, blood, view_.clot, dark);
    }

    /// Threads that hang in the liquid, more the larger the share.
    static void strands(Group& to, const Box& box, double share, Color color) {
        constexpr int most = 12;
        constexpr double thin = 1.1;
        const double sway = 0.22 * box.width;
        Group threads{"strands", {}, rectangle(box), {}};
        for (int i = 0; i < static_cast<int>(std::lround(share * most)); ++i) {
            const double x = box.x + box.width * (0.1 + 0.8 * spaced(i, 0.31));
            const double y = box.y + box.height * (0.02 + 0.4 * spaced(i, 0.77));
            const double length = box.height * (0.3 + 0.35 * spaced(i, 0.13));
            const double way = i % 2 == 0 ? sway : -sway;
            stroke(threads,
                   Path().move({x, y}).curve({x + way, y + length / 3},
                                             {x - way, y + length * 2 / 3},
                                             {x + way / 3, y + length}),
                   color, thin + (i % 3) * 0.5);
        }
        if (!threads.marks.empty()) to.marks.emplace_back().is = std::move(threads);
    }

    /// Fat as drifting specks, so that turbid serum is not told by its tint alone.
    void clouds(Group& to, const Box& box) const {
        constexpr double perSpeck = 55; // square pixels, at the most turbid
        const int specks = static_cast<int>(view_.lipemia * box.width * box.height / perSpeck);
        Group fat{"fat", {}, rectangle(box), {}};
        for (int i = 0; i < specks; ++i)
            fill(fat,
                 circle(
                     {box.x + box.width * spaced(i, 0.2), box.y + box.height * (i + 0.5) / specks},
                     0.8 + 0.8 * spaced(i, 0.5)),
                 faded(theme::stoneDark, 0.5));
        if (!fat.marks.empty()) to.marks.emplace_back().is = std::move(fat);
    }

    /// Light from the left: a bright streak, a shaded side.
    void shine() {
        const Box box = hollow();
        Group light{"", {}, outline(box), {}};
        const double top = places_.cap.bottom() + 2, high = box.bottom() - top;
        fill(light, rounded({box.x + 0.12 * box.width, top, 0.12 * box.width, 0.9 * high}, 6),
             faded(theme::field, 0.28));
        fill(light, rectangle({box.right() - 0.2 * box.width, top, 0.2 * box.width, high}),
             faded(theme::ink, 0.07));
        fill(light, rectangle({box.right() - 0.09 * box.width, top, 0.09 * box.width, high}),
             faded(theme::ink, 0.07));
        group_.marks.emplace_back().is = std::move(light);
    }

    /// How far it should be filled: dashes over the glass, a notch on either side.
    void nominal() {
        const Box& glass = places_.glass;
        const double y = places_.nominal, out = 5;
        line(group_, {glass.x + 2, y}, {glass.right() - 2, y}, faded(theme::field, 0.8), 3.2);
        line(group_, {glass.x + 2, y}, {glass.right() - 2, y}, theme::ink, 1.4, {4, 3});
        line(group_, {glass.x - out, y}, {glass.x + 1, y}, theme::ink, 1.6);
        line(group_, {glass.right() - 1, y}, {glass.right() + out, y}, theme::ink, 1.6);
    }

    void stopper() {
        const Box& cap = places_.cap;
        const auto [color, pattern] = stopperOf(view_.additive);
        const Color mark = mixed(color, theme::field, 0.62);
        const double r = std::min(5.0, 0.25 * cap.height);
        Group one{"stopper", {}, rounded(cap, r), {}};
        fill(one, rectangle(cap), color);
        const auto bar = [&](double from, double high) {
            fill(one, rectangle({cap.x, cap.y + from * cap.height, cap.width, high * cap.height}),
                 mark);
        };
        if (pattern == Pattern::band) bar(0.36, 0.28);
        if (pattern == Pattern::rings) {
            bar(0.24, 0.13);
            bar(0.63, 0.13);
        }
        constexpr int count = 7;
        for (int i = 0; i < count; ++i) {
            const double x = cap.x + cap.width * (i + 0.5) / count;
            if (pattern == Pattern::ribs)
                line(one, {x, cap.y}, {x, cap.bottom()}, mark, 0.04 * cap.width);
            if (pattern == Pattern::studs)
                fill(
                    one,
                    circle({x, cap.y + (i % 2 == 0 ? 0.32 : 0.68) * cap.height}, 0.045 * cap.width),
                    mark);
            if (pattern == Pattern::slants)
                line(one, {x - 0.08 * cap.width, cap.bottom()}, {x + 0.08 * cap.width, cap.y}, mark,
                     0.04 * cap.width);
        }
        fill(one, rectangle({cap.x, cap.bottom() - 2, cap.width, 2}), faded(theme::ink, 0.25));
        group_.marks.emplace_back().is = std::move(one);
    }

    void label() {
        const Box& box = places_.label;
        fill(group_, rounded(box, 2.5), theme::field);
        stroke(group_, rounded(box, 2.5), theme::stoneDark, 1);
        group_.marks.emplace_back().is = plan_.label;
    }

    /// From a layer, or the line, to its word.
    void leader(std::size_t i) {
        const Point from = plan_.pointed[i];
        const Box words = extent(plan_.beside[i]);
        constexpr double out = 2, before = 2;
        line(group_, {from.x + out, from.y}, {words.x - before, words.middle().y}, theme::stoneDark,
             1);
    }
};

std::string percent(double share) {
    return std::to_string(std::lround(100 * share)) + " %";
}

} // namespace

Group tube(const TubeView& view, const Box& box) {
    return Drawer(view, box).draw();
}

std::string words(const TubeView& view) {
    std::string told = (view.name.empty() ? "A tube" : "A tube, " + view.name) + ": filled to " +
                       percent(view.fill) + " of its line";
    if (view.turns) told += ", turned " + std::to_string(*view.turns) + " times";
    if (view.clot > 0) told += ", " + percent(view.clot) + " clotted";
    if (!view.spun) return told + ", not spun.";
    const std::string look = serumWords(view);
    const std::string liquid = clots(view.additive) ? view.words.serum : view.words.plasma;
    told += ", spun; the " + liquid + " is " + (look.empty() ? "clear" : look);
    return told + ".";
}

} // namespace cistern::drawing
