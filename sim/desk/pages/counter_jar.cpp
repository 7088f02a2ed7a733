#include "desk/pages/counter_jar.h"

#include "desk/pages/counter_handles.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double healthyDepth = 0.3;                // of the most that the healthy have
constexpr int doublings = 6;                        // from there to the brim
constexpr double healthyDrops = 5, mostDrops = 120; // [1/s]

/// Lines on the trough's right wall, from the healthy most on, each twice the one below. Those that
/// would touch the reading, or one another, go without their words.
void scale(Sheet& sheet, const drawing::VesselPlaces& at, double letters) {
    const drawing::Type type{letters, drawing::Weight::medium, theme::ink, false, true};
    const double right = at.trough.right(), tick = .5 * at.thickness + 4;
    double free = at.trough.bottom();
    for (int i = 0; i < doublings; ++i) {
        const double y = at.trough.bottom() - at.trough.height * depth(std::exp2(i), 1);
        sheet.add(Shape{drawing::polyline({{right - tick, y}, {right, y}}), std::nullopt,
                        Stroke{theme::ink, 1.2, {}}});
        const std::string words = std::to_string(1 << i) + " ×";
        drawing::Text text = drawing::hung(words, type, Align::right, right - tick - 4, 0);
        const double high = drawing::extent(text).height;
        text.at.y += y - high / 2;
        const Box box = drawing::extent(text);
        const bool clear = std::none_of(at.texts.begin(), at.texts.end(), [&](const auto& other) {
            const Box taken = drawing::extent(other);
            return taken.x < box.right() && taken.right() + letters > box.x &&
                   taken.y < box.bottom() && taken.bottom() > box.y;
        });
        const bool inWaves = box.y < at.water.y + at.wave && box.bottom() > at.water.y - at.wave;
        if (!clear || inWaves || box.bottom() > free || box.y < at.trough.y) continue;
        free = box.y;
        sheet.add(std::move(text));
    }
}

} // namespace

double depth(double level, double most) {
    const double fold = level / most;
    if (!(fold > 0)) return 0;
    if (fold <= 1) return healthyDepth * fold;
    return std::min(1., healthyDepth + (1 - healthyDepth) * std::log2(fold) / doublings);
}

drawing::VesselView vesselOf(const Telling& telling, const Played& one, const CounterJar& jar) {
    const lesson::LeakingOrgan& organ = one.play.organ();
    const lesson::Handles& at = one.play.handles();
    drawing::VesselView view;
    view.name = sentence(telling, "title", one);
    view.caption = jar.caption;
    view.work = at.work;
    view.leak = at.leak;
    view.level = depth(one.play.level(), organ.interval.high);
    view.mark = healthyDepth;
    view.spout = drainShare(at.halfLife);
    view.reading = reading(telling, one);
    view.levelWords = standing(telling, one);
    if (view.level >= 1) view.levelWords += ", " + sentence(telling, "reading.brim", one);
    view.measures = jar.measures;
    return view;
}

double drawJar(Sheet& sheet, const Telling& telling, const Played& one, const CounterJar& jar,
               const Box& box) {
    drawing::VesselView view = vesselOf(telling, one, jar);
    view.textScale = sheet.letters().scale;
    const drawing::VesselPlaces at = drawing::places(view, box);
    sheet.add(drawing::vessel(view, box));
    const double em = sheet.letters().em;
    scale(sheet, at, std::clamp(.055 * at.trough.height, .75 * em, 1.5 * em));
    const double healthy = one.play.organ().release(one.play.organ().healthy());
    const auto drops = [&](double flow) {
        return std::min(mostDrops, healthyDrops * flow / healthy);
    };
    sheet.add(Dripping{jar.id, at, drops(one.play.entering()), drops(one.play.leaving()), {}});
    return at.trough.height;
}

} // namespace cistern::desk
