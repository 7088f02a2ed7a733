#include "desk/pages/film_view.h"

#include "base/chance.h"
#include "base/text.h"
#include "desk/widgets/button.h"
#include "desk/widgets/slider.h"
#include "drawing/film/nucleated.h"
#include "drawing/film/overview.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace cistern::desk {

using drawing::film::Cell;
namespace theme = drawing::theme;

namespace {

struct Power {
    int objective;
    double width; ///< of what is seen [um]
    const char* words;
};
// 120 um at the oil lens, so that a neutrophil is a tenth of what is seen.
constexpr std::array powers{Power{10, 1200, "× 10"}, Power{50, 240, "× 50"},
                            Power{100, 120, "× 100, oil"}};
constexpr double aspect = .75;                   // of what is seen, height over width
constexpr double focusMost = 4, focusStep = .25; // [um]
constexpr double firstOff = 2;                   // out of focus at first, at most [um]
constexpr double stepShare = .125;               // of what is seen, an arrow
constexpr double glideRate = 9;                  // of the way left, each second [1/s]
constexpr double travelShare = 1;                // of what is seen, each second
constexpr double toldEvery = 2;                  // the page tells where it travels [s]
constexpr double nearby = 2;                     // widths that are glided over, not jumped

Power powerOf(int objective) {
    for (const Power& one : powers)
        if (one.objective == objective) return one;
    return powers[0];
}

lab::Stain toned(lab::Stain stain, Tone tone) {
    // Chosen by eye: a long stain rinsed alkaline; a short one rinsed acid.
    const lab::Stain by = tone == Tone::blue   ? lab::Stain{.82, 1.75, 1.12}
                          : tone == Tone::pink ? lab::Stain{1.18, .45, .62}
                                               : lab::Stain{};
    stain.red *= by.red;
    stain.blue *= by.blue;
    stain.nuclear *= by.nuclear;
    return stain;
}

} // namespace

void FilmView::open(const lab::Slide& slide) {
    base::Chance chance(slide.seed, base::Purpose::drill, 0, 1); // of the hand at the stage
    plain_ = slide;
    goal_.reset();
    held_.reset();
    travels_ = false;
    lens_.rings.clear();
    lens_.power = powers[0].objective;
    lens_.width = powers[0].width;
    lens_.middle = {lab::filmLength * (.3 + .3 * chance.uniform()),
                    lab::filmWidth * (.3 + .4 * chance.uniform())};
    lens_.focus = std::round(firstOff * (2 * chance.uniform() - 1) / focusStep) * focusStep;
    stain(Tone::asStained);
    whole_ = std::make_shared<drawing::Pixels>(drawing::film::overview(plain_, 300));
}

void FilmView::stain(Tone tone) {
    tone_ = tone;
    lab::Slide slide = plain_;
    slide.stain = toned(slide.stain, tone);
    lens_.slide = std::make_shared<const lab::Slide>(slide);
    lens_.number = ++number_;
    stage_.emplace(slide);
}

double FilmView::height() const {
    return lens_.width * aspect;
}

double FilmView::area() const {
    return lens_.width * height();
}

lab::FilmArea FilmView::where() const {
    return lab::areaAt(plain_, lens_.middle.x);
}

void FilmView::moveTo(Point middle) {
    lens_.middle = {std::clamp(middle.x, 0., lab::filmLength),
                    std::clamp(middle.y, 0., lab::filmWidth)};
}

void FilmView::focusTo(double focus) {
    lens_.focus = std::clamp(std::round(focus / focusStep) * focusStep, -focusMost, focusMost);
}

void FilmView::setPower(int power) {
    const Power one = powerOf(power);
    lens_.power = one.objective;
    lens_.width = one.width;
}

bool FilmView::pass(double seconds, bool still) {
    if (travels_) {
        // Along the film, and back a view further down at the ends of the area.
        const lab::Reach reach = lab::reach(plain_, where());
        const double row = std::floor(lens_.middle.y / height());
        const bool outward = static_cast<long>(row) % 2 == 0;
        Point to = lens_.middle;
        to.x += (outward ? 1 : -1) * travelShare * lens_.width * seconds;
        const double half = std::min(lens_.width / 2, reach.length() / 2);
        if ((outward && to.x > reach.to - half) || (!outward && to.x < reach.from + half)) {
            to.x = outward ? reach.to - half : reach.from + half;
            to.y += height();
            if (to.y >= lab::filmWidth) {
                travels_ = false;
                return true;
            }
        }
        moveTo(to);
        untold_ += seconds;
        if (untold_ < toldEvery) return false;
        untold_ = 0;
        return true;
    }
    if (!goal_) return false;
    if (still) {
        moveTo(*goal_);
        goal_.reset();
        return true;
    }
    const double share = 1 - std::exp(-glideRate * seconds);
    const Point off{goal_->x - lens_.middle.x, goal_->y - lens_.middle.y};
    if (std::hypot(off.x, off.y) < .002 * lens_.width) {
        moveTo(*goal_);
        goal_.reset();
        return true;
    }
    moveTo({lens_.middle.x + share * off.x, lens_.middle.y + share * off.y});
    return false;
}

std::optional<Cell> FilmView::at(Point place) {
    constexpr double reach = 20; // [um]: no cell is larger
    std::optional<Cell> found;
    double nearest = 1e9;
    for (const Cell& cell :
         stage_->cells({place.x - reach, place.y - reach, 2 * reach, 2 * reach})) {
        const double off = std::hypot(static_cast<double>(cell.x) - place.x,
                                      static_cast<double>(cell.y) - place.y) -
                           static_cast<double>(cell.radius);
        if (off < nearest) {
            nearest = off;
            found = cell;
        }
    }
    if (nearest > 0) found.reset();
    return found;
}

void FilmView::pull(Point at, Grip grip, const Choose& choose) {
    constexpr double still = 4; // [px]: a press, not a pull
    if (grip == Grip::taken) {
        goal_.reset();
        travels_ = false;
        held_ = lens_.onSlide(at);
        taken_ = at;
        pulled_ = false;
        return;
    }
    if (!held_) return;
    pulled_ |= std::hypot(at.x - taken_.x, at.y - taken_.y) > still;
    const Point now = lens_.onSlide(at);
    if (pulled_) moveTo({lens_.middle.x + held_->x - now.x, lens_.middle.y + held_->y - now.y});
    if (grip != Grip::let) return;
    held_.reset();
    if (pulled_) return;
    if (lens_.power == powers[0].objective)
        goal_ = now;
    else if (const auto cell = this->at(now))
        choose(*cell);
}

std::string FilmView::says() const {
    return "The film, lens × " + std::to_string(lens_.power) + ", " +
           std::string(lab::name(where())) + ", " + base::rounded(lens_.middle.x / 1000, .1) +
           " mm from the tip. Arrows move it, N goes to the next nucleated cell, a wheel "
           "focuses.";
}

void FilmView::build(Flow& flow, const Choose& choose, double room) {
    const double width = std::min(flow.width(), room / aspect);
    const Box line = flow.room(width * aspect);
    lens_.box = {std::round(line.x + (line.width - width) / 2), std::round(line.y),
                 std::floor(width), std::floor(width * aspect)};
    lens_.within = lens_.box;
    Sheet& sheet = flow.sheet();
    sheet.add(drawing::Shape{drawing::rectangle(lens_.box), drawing::rgb(0xF2EEEC), {}});
    Control control{"lens", Control::Kind::handle, says(), lens_.box};
    control.glides = true;
    control.drag = [this, choose](Point at, Grip grip) { pull(at, grip, choose); };
    control.step = [this](int across, int up) {
        travels_ = false;
        const Point from = goal_.value_or(lens_.middle);
        goal_ = Point{std::clamp(from.x + across * stepShare * lens_.width, 0., lab::filmLength),
                      std::clamp(from.y - up * stepShare * lens_.width, 0., lab::filmWidth)};
    };
    control.wheel = [this](double notches) { focusTo(lens_.focus + notches * focusStep); };
    control.key = "L"; // brings the focus to it
    sheet.add(std::move(control));
}

void FilmView::handles(Flow& flow) {
    std::vector<Choice> lenses;
    for (const Power& one : powers)
        lenses.push_back({"power." + std::to_string(one.objective), one.words,
                          one.objective == lens_.power, [this, one] { setPower(one.objective); },
                          "", ""});
    std::vector<Choice> tones;
    const auto tone = [&](Tone one, const char* id, const char* words) {
        tones.push_back({id, words, tone_ == one, [this, one] { stain(one); }});
    };
    tone(Tone::asStained, "stain.as", "as stained");
    tone(Tone::blue, "stain.blue", "stained long");
    tone(Tone::pink, "stain.pink", "stained short");
    const double share = (lens_.focus + focusMost) / (2 * focusMost);
    Slider focus;
    focus.name = "Focus";
    focus.value = (lens_.focus > 0 ? "+" : "") + base::rounded(lens_.focus, .01) + " µm";
    focus.tones = drawing::tonesOf(drawing::Meaning::cleared);
    focus.ink = theme::ink;
    focus.handles.push_back({"focus", "Focus " + base::rounded(lens_.focus, .01) + " µm", share,
                             true, [this](double to, Grip) { focusTo((2 * to - 1) * focusMost); },
                             [this](int steps) { focusTo(lens_.focus + steps * focusStep); }, "F"});
    focus.from = std::min(share, .5);
    focus.to = std::max(share, .5);
    flow.columns({{1.9, 24,
                   [&](Flow& left) {
                       choices(left, "Lens", lenses);
                       left.gap(.3);
                       choices(left, "Stain", tones);
                       left.gap(.3);
                       slider(left, focus);
                       left.gap(.3);
                       ticks(left, "Stage",
                             {{"travel", "let the film travel under the lens", travels_,
                               [this] {
                                   travels_ = !travels_;
                                   goal_.reset();
                               },
                               "", "T"}});
                   }},
                  {1, 12, [&](Flow& right) { whole(right); }}});
}

void FilmView::whole(Flow& flow) {
    flow.small("Whole film, edge at the left");
    flow.gap(.25);
    const double high = flow.width() * lab::filmWidth / lab::filmLength;
    overview_ = flow.room(high);
    Sheet& sheet = flow.sheet();
    drawing::Group film{"the whole film", {}, {}, {}};
    film.marks.emplace_back().is = drawing::Image{overview_, whole_, "the whole film"};
    const double scale = overview_.width / lab::filmLength;
    const double half = std::max(3., lens_.width * scale / 2);
    const Point at{overview_.x + lens_.middle.x * scale, overview_.y + lens_.middle.y * scale};
    for (const auto& [color, wide] :
         {std::pair{theme::field, 4.}, std::pair{theme::thoughtInk, 2.}})
        film.marks.emplace_back().is =
            drawing::Shape{drawing::rectangle({at.x - half, at.y - half, 2 * half, 2 * half}),
                           {},
                           drawing::Stroke{color, wide, {}}};
    sheet.add(film);
    Control control{"whole", Control::Kind::handle, "The whole film; press where the lens is to go",
                    overview_};
    control.drag = [this](Point to, Grip) {
        goal_.reset();
        travels_ = false;
        const double um = lab::filmLength / overview_.width;
        moveTo({(to.x - overview_.x) * um, (to.y - overview_.y) * um});
    };
    control.step = [this](int across, int up) {
        constexpr double part = 500; // [um]
        goal_.reset();
        moveTo({lens_.middle.x + across * part, lens_.middle.y - up * part});
    };
    sheet.add(std::move(control));
}

std::optional<Cell> FilmView::nextNucleated(const std::set<std::uint64_t>& told) {
    return drawing::film::nextNucleated(*stage_, goal_.value_or(lens_.middle), told);
}

void FilmView::bring(const Cell& cell) {
    travels_ = false;
    if (lens_.power == powers[0].objective) setPower(100);
    goal_ = Point{static_cast<double>(cell.x), static_cast<double>(cell.y)};
    const Point off{goal_->x - lens_.middle.x, goal_->y - lens_.middle.y};
    const double far = std::hypot(off.x, off.y), most = nearby * lens_.width;
    if (far > most) // the rest of the way is not looked at
        moveTo({goal_->x - off.x / far * most, goal_->y - off.y / far * most});
}

} // namespace cistern::desk
