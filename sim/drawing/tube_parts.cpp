#include "drawing/tube_parts.h"

#include "drawing/axis.h"
#include "drawing/brushwork.h"
#include "drawing/theme.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

using namespace brushwork;

double TubePlaces::fillAt(double y) const {
    return std::clamp((inside.bottom() - y) / (inside.bottom() - nominal), 0.0, mostFill);
}

namespace {

constexpr double wall = 3;          ///< thickness of the glass
constexpr double capShare = 0.12;   ///< of the tube's height
constexpr double widthShare = 0.2;  ///< of the tube's height
constexpr double gelShare = 0.07;   ///< of the inside
constexpr double wordsShare = 0.42; ///< of the box, at most, for the words below
constexpr double gap = 6, leader = 12, air = 4;

const Type nameType{16, Weight::semibold, theme::ink};
const Type quietType{13, Weight::regular, theme::muted};
const Type labelType{12, Weight::semibold, theme::ink};
const Type besideType{13, Weight::medium, theme::ink};

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument("a tube cannot be drawn: " + sentence);
}

void validate(const TubeView& view, const Box& box) {
    const auto share = [](double value, double most, const char* what) {
        if (!(value >= 0 && value <= most)) refuse(std::string(what) + " is out of range");
    };
    share(view.fill, mostFill, "its fill");
    share(view.cells, 1, "its share of cells");
    share(view.hemolysis, 1, "hemolysis");
    share(view.icterus, 1, "icterus");
    share(view.lipemia, 1, "lipemia");
    share(view.clot, 1, "its clot");
    if (view.turns && *view.turns < 0) refuse("its turns are below zero");
    share(view.wordsHeight, box.height / 2, "the height of its words");
    if (!(view.textScale > 0 && view.textScale <= 10)) refuse("its text scale is out of range");
    if (!(box.width >= 60 && box.height >= 150)) refuse("its box must be 60 wide and 150 high");
}

const std::string& labelWords(const TubeView& view) {
    const TubeWords& words = view.words;
    switch (view.additive) {
    case Additive::clot:
        return words.clotLabel;
    case Additive::gel:
        return words.gelLabel;
    case Additive::edta:
        return words.edta;
    case Additive::heparin:
        return words.heparin;
    case Additive::citrate:
        return words.citrate;
    case Additive::fluoride:
        break;
    }
    return words.fluoride;
}

class Planner {
public:
    Planner(const TubeView& view, const Box& box) : view_(view), box_(box) {}

    TubePlan plan() {
        const double bottom = wordsBelow();
        glass(bottom - box_.y);
        contents();
        wordsBeside();
        return std::move(plan_);
    }

private:
    const TubeView& view_;
    const Box& box_;
    TubePlan plan_;

    /// Lines under the tube, as large as fits; returns the bottom of the tube.
    double wordsBelow() {
        std::vector<std::pair<std::string, Type>> lines;
        if (!view_.name.empty()) lines.emplace_back(view_.name, nameType);
        if (view_.turns)
            lines.emplace_back(std::to_string(*view_.turns) + " " +
                                   (*view_.turns == 1 ? view_.words.turn : view_.words.turns),
                               quietType);
        if (!view_.caption.empty()) lines.emplace_back(view_.caption, quietType);
        if (lines.empty()) return box_.bottom() - view_.wordsHeight;
        double scale = view_.textScale;
        while (!hang(lines, scale) && scale > leastScale) scale *= shrink;
        while (!hang(lines, scale) && lines.size() > 1) lines.pop_back();
        const double needed = extent(plan_.below.back()).bottom() + gap;
        const double bottom = box_.bottom() - std::max(needed, view_.wordsHeight);
        for (Text& text : plan_.below) text.at.y += bottom + gap;
        return bottom;
    }

    /// Hangs the lines from zero; true if they fit.
    bool hang(const std::vector<std::pair<std::string, Type>>& lines, double scale) {
        plan_.below.clear();
        double top = 0, widest = 0;
        for (const auto& [line, type] : lines) {
            plan_.below.push_back(
                hung(line, sized(type, scale), Align::center, box_.middle().x, top, box_.width));
            widest = std::max(widest, widestWord(line, sized(type, scale)));
            top = extent(plan_.below.back()).bottom();
        }
        return top <= wordsShare * box_.height && widest <= box_.width;
    }

    /// Letters of the label, as large as its room allows.
    Text labelText(double width, double height) const {
        double scale = view_.textScale;
        const auto text = [&] {
            return hung(labelWords(view_), sized(labelType, scale), Align::center, 0, 0);
        };
        const auto fits = [&] {
            const Box size = extent(text());
            return size.width <= width && size.height <= height;
        };
        while (!fits() && scale > leastScale / 2) scale *= shrink;
        return text();
    }

    void glass(double height) {
        constexpr double labelShare = 0.16; // of the tube's height, at most
        TubePlaces& places = plan_.places;
        plan_.label = labelText(box_.width - 2 * gap, labelShare * height);
        const Box letters = extent(plan_.label);
        const double cap = std::clamp(capShare * height, 12.0, 40.0);
        const double most = box_.width * 0.66;
        const double width = std::min(std::clamp(widthShare * height, 24.0, 66.0), most);
        const double left = leftOfGlass(width, letters.width);
        const double over = std::max(3.0, 0.1 * width); // the stopper's rim
        places.cap = {left - over, box_.y, width + 2 * over, cap};
        const double neck = 0.7 * cap;
        places.glass = {left, box_.y + neck, width, height - neck};
        const double high = letters.height + 2;
        const double wide = std::max(width + 4, letters.width + 2 * air);
        places.label = {left + width / 2 - wide / 2, places.cap.bottom() + air, wide, high};
        plan_.label.at.x = left + width / 2;
        plan_.label.at.y += places.label.y + 1;
        const double top = places.label.bottom() + air, floor = places.glass.bottom() - wall;
        const double gel = view_.additive == Additive::gel ? gelShare * (floor - top) : 0;
        places.inside = {left + wall, top, width - 2 * wall, floor - gel - top};
        places.nominal = places.inside.bottom() - places.inside.height / mostFill;
        if (gel > 0 && !view_.spun) layer(TubeLayer::Kind::gel, floor, gel, view_.words.gel);
    }

    /// The glass stands in the middle, or further left where words beside it need the room.
    double leftOfGlass(double width, double label) const {
        const double middle = box_.middle().x - width / 2;
        const double least = box_.x + std::max(0.1 * width + 1, (label + 2 * air - width) / 2);
        const double words = widestBeside();
        const double wanted = box_.right() - words - leader - air - width;
        return wanted < least ? middle : std::min(middle, wanted);
    }

    std::vector<std::string> sideWords() const {
        const TubeWords& words = view_.words;
        std::vector<std::string> all{words.full};
        if (view_.additive == Additive::gel) all.push_back(words.gel);
        if (!view_.spun) {
            all.push_back(words.blood);
            return all;
        }
        all.push_back(clots(view_.additive) ? words.clot : words.cells);
        const std::string look = serumWords(view_);
        all.push_back(clots(view_.additive) ? words.serum : words.plasma);
        if (!look.empty()) all.push_back(look);
        return all;
    }

    double widestBeside() const {
        double widest = 0;
        for (const std::string& words : sideWords())
            widest = std::max(widest, measure(words, sized(besideType, view_.textScale)).width);
        return widest;
    }

    /// Adds a layer that stands on `bottom`; returns its top.
    double layer(TubeLayer::Kind kind, double bottom, double height, const std::string& words) {
        const Box box{plan_.places.inside.x, bottom - height, plan_.places.inside.width, height};
        const Color color = kind == TubeLayer::Kind::gel ? mixed(theme::stone, theme::field, 0.45)
                            : kind == TubeLayer::Kind::blood ? bloodColor()
                            : kind == TubeLayer::Kind::cells ? cellsColor()
                                                             : serumColor(view_);
        plan_.layers.push_back({kind, box, color, words});
        return box.y;
    }

    void contents() {
        TubePlaces& places = plan_.places;
        const TubeWords& words = view_.words;
        const double floor = places.glass.bottom() - wall;
        const double gel = floor - places.inside.bottom();
        const double height = view_.fill * (places.inside.bottom() - places.nominal);
        places.liquid = {places.inside.x, places.inside.bottom() - height, places.inside.width,
                         height};
        if (!view_.spun) {
            if (height > 0)
                layer(TubeLayer::Kind::blood, places.inside.bottom(), height, words.blood);
            return;
        }
        double top = floor;
        if (height * view_.cells > 0)
            top = layer(TubeLayer::Kind::cells, top, height * view_.cells,
                        clots(view_.additive) ? words.clot : words.cells);
        if (gel > 0) top = layer(TubeLayer::Kind::gel, top, gel, words.gel);
        if (height * (1 - view_.cells) > 0)
            layer(TubeLayer::Kind::clear, top, height * (1 - view_.cells),
                  clots(view_.additive) ? words.serum : words.plasma);
    }

    /// A word for each layer and for the line, right of the glass; none if they have no room.
    void wordsBeside() {
        const TubePlaces& places = plan_.places;
        const Type type = sized(besideType, view_.textScale);
        const double left = places.glass.right() + leader;
        if (left + widestBeside() > box_.right()) return;
        const double right = places.glass.right();
        std::vector<Text> texts{hung(view_.words.full, type, Align::left, left, 0)};
        plan_.pointed = {{right, places.nominal}};
        for (const TubeLayer& one : plan_.layers) {
            texts.push_back(hung(one.words, type, Align::left, left, 0));
            if (const std::string look = serumWords(view_);
                one.kind == TubeLayer::Kind::clear && !look.empty())
                texts.back().lines.push_back(look);
            plan_.pointed.push_back({right, one.box.middle().y});
        }
        std::vector<double> wanted, heights;
        double all = 0;
        for (std::size_t i = 0; i < texts.size(); ++i) {
            wanted.push_back(plan_.pointed[i].y);
            heights.push_back(extent(texts[i]).height);
            all += heights.back();
        }
        const double top = places.label.bottom() + 1, bottom = places.glass.bottom();
        if (all > bottom - top) {
            plan_.pointed.clear();
            return;
        }
        const std::vector<double> middles = spread(wanted, heights, top, bottom);
        for (std::size_t i = 0; i < texts.size(); ++i)
            texts[i].at.y += middles[i] - heights[i] / 2 - extent(texts[i]).y;
        plan_.beside = std::move(texts);
    }
};

} // namespace

TubePlan tubePlan(const TubeView& view, const Box& box) {
    validate(view, box);
    return Planner(view, box).plan();
}

TubePlaces tubePlaces(const TubeView& view, const Box& box) {
    return tubePlan(view, box).places;
}

} // namespace cistern::drawing
