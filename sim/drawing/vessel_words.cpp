#include "base/text.h"
#include "drawing/vessel.h"

#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

namespace {

std::string percent(double share) {
    return base::rounded(100 * share, 1) + " %";
}

} // namespace

void validate(const VesselView& view) {
    const auto finite = [](const char* name, double value) {
        if (!std::isfinite(value))
            throw std::invalid_argument(std::string("vessel: ") + name + " is not a finite number");
    };
    finite("work", view.work);
    finite("leak", view.leak);
    finite("size", view.size);
    finite("level", view.level);
    finite("mark", view.mark);
    finite("spout", view.spout);
    finite("phase", view.phase);
    finite("text scale", view.textScale);
    for (const Drop& drop : view.drops) {
        finite("x of a drop", drop.x);
        finite("y of a drop", drop.y);
        finite("size of a drop", drop.size);
    }
}

std::string words(const VesselView& view) {
    const std::string name = view.name.empty() ? "The organ" : view.name;
    std::string text = name + (view.caption.empty() ? "" : ", " + view.caption) +
                       ": a jar over a trough. Work is " + percent(view.work) +
                       " of healthy, leak " + base::significant(view.leak, 2) + " times healthy.";
    if (view.work < 1) text += " The wall above the break is gone.";
    text += " The trough stands at " + percent(view.level) + " of its height";
    if (view.mark >= 0)
        text += std::string(view.level > view.mark ? ", above" : ", not above") +
                " the healthy mark at " + percent(view.mark);
    text += ".";
    if (!view.reading.empty()) text += " It reads " + view.reading + ".";
    if (!view.levelWords.empty()) text += " " + view.levelWords + ".";
    return text + " The spout is open to " + percent(view.spout) + ".";
}

} // namespace cistern::drawing
