#include "base/text.h"
#include "drawing/course_words.h"
#include "drawing/plane.h"

#include <cmath>
#include <stdexcept>

namespace cistern::drawing {

namespace {

std::string percent(double share) {
    return base::rounded(100 * share, 1) + " %";
}

std::string told(const PlanePoint& point) {
    return "work " + percent(point.work) + ", leak " + foldWords(point.leak) +
           (point.label.empty() ? "" : " (" + point.label + ")");
}

std::string told(const PlaneBox& box) {
    return "work " + percent(box.workLow) + " to " + percent(box.workHigh) + ", leak " +
           foldWords(box.leakLow) + " to " + foldWords(box.leakHigh);
}

bool holds(const PlaneBox& box, const PlanePoint& point) {
    return point.work >= box.workLow && point.work <= box.workHigh && point.leak >= box.leakLow &&
           point.leak <= box.leakHigh;
}

void check(const char* what, double work, double leak) {
    if (!std::isfinite(work) || !std::isfinite(leak))
        throw std::invalid_argument(std::string("plane: ") + what +
                                    " has a number that is not finite");
    if (!(leak > 0))
        throw std::invalid_argument(std::string("plane: ") + what +
                                    " has a leak that is not above zero");
}

void check(const char* what, const PlaneBox& box) {
    check(what, box.workLow, box.leakLow);
    check(what, box.workHigh, box.leakHigh);
    if (box.workLow > box.workHigh || box.leakLow > box.leakHigh)
        throw std::invalid_argument(std::string("plane: ") + what + " has ends in the wrong order");
}

} // namespace

void validate(const PlaneView& view) {
    for (const PlanePoint& point : view.path) check("the path", point.work, point.leak);
    for (const PlanePoint& point : view.cloud) check("the cloud", point.work, point.leak);
    if (view.truth) check("the truth", view.truth->work, view.truth->leak);
    if (view.answer) check("the answer", *view.answer);
    if (view.ideal) check("the ideal reader's answer", *view.ideal);
    if (!std::isfinite(view.textScale))
        throw std::invalid_argument("plane: text scale is not a finite number");
}

std::string words(const PlaneView& view) {
    std::string text = "Work across, leak upward.";
    if (view.truth) text += " The truth: " + told(*view.truth) + ".";
    if (!view.path.empty()) {
        text += " The path: ";
        bool first = true;
        for (std::size_t i = 0; i < view.path.size(); ++i) {
            const bool end = i == 0 || i + 1 == view.path.size();
            if (!end && view.path[i].label.empty()) continue;
            text += (first ? "" : "; ") + told(view.path[i]);
            first = false;
        }
        text += ".";
    }
    if (view.answer) {
        text += " The answer, 80 % sure: " + told(*view.answer) + ".";
        if (view.truth)
            text += holds(*view.answer, *view.truth) ? " It holds the truth."
                                                     : " It does not hold the truth.";
    }
    if (view.ideal) text += " The ideal reader, 80 % sure: " + told(*view.ideal) + ".";
    if (!view.cloud.empty())
        text += " The ideal reader's cloud has " + std::to_string(view.cloud.size()) + " points.";
    return text;
}

} // namespace cistern::drawing
