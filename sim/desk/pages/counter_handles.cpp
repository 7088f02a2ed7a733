#include "desk/pages/counter_handles.h"

#include "base/text.h"
#include "desk/widgets/slider.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

namespace theme = drawing::theme;

namespace {

/// A track whose values rise from end to end by equal folds (`folds`) or equal amounts.
struct Track {
    double first, last; ///< at its left and right end
    double home;        ///< where the handle snaps: healthy
    bool folds = true;

    double share(double value) const {
        const double whole = folds ? std::log(last / first) : last - first;
        return (folds ? std::log(value / first) : value - first) / whole;
    }
    /// A value that a person would write: two digits, or whole percent.
    double tidy(double value) const {
        value = folds ? std::stod(base::significant(value, 2)) : std::round(100 * value) / 100;
        return std::clamp(value, std::min(first, last), std::max(first, last));
    }
    double at(double share_) const {
        constexpr double near = .015;
        if (std::abs(share_ - share(home)) < near) return home;
        return tidy(folds ? first * std::pow(last / first, share_)
                          : first + share_ * (last - first));
    }
    /// So many steps on; a home that lies between is a stop.
    double stepped(double from, int steps) const {
        constexpr double fold = 1.1, amount = .02;
        const double way = last > first ? steps : -steps;
        const double to = tidy(folds ? from * std::pow(fold, way) : from + amount * way);
        return (from - home) * (to - home) < 0 ? home : to;
    }
};

constexpr Track leakTrack{lesson::Handles::leastLeak, lesson::Handles::mostLeak, 1};
constexpr Track workTrack{0, lesson::Handles::mostWork, 1, false};
constexpr Track drainTrack(double home) {
    return {lesson::Handles::mostHalfLife, lesson::Handles::leastHalfLife, home};
}

/// One handle: what it is called, where it stands, what moves it.
struct Turned {
    std::string id, key, value, hint;
    drawing::Tones tones;
    drawing::Color ink;
    Track track;
    double at;
    std::function<void(double)> turn;
};

void handleCard(Flow& flow, const Telling& telling, const Turned& one) {
    const auto word = [&](const char* which) {
        return sentence(*telling.wording, "counter.handle." + one.id + "." + which);
    };
    flow.card("", "", [&](Flow& card) {
        Handle handle;
        handle.id = one.id;
        handle.says = word("name") + ": " + one.value;
        handle.share = one.track.share(one.at);
        handle.slide = [one](double share, Grip) { one.turn(one.track.at(share)); };
        handle.step = [one](int steps) { one.turn(one.track.stepped(one.at, steps)); };
        handle.key = one.key;
        slider(card, {word("name"),
                      one.value,
                      one.tones,
                      one.ink,
                      {handle},
                      0,
                      handle.share,
                      word("least"),
                      word("most"),
                      {one.track.share(one.track.home)}});
        card.gap(.45);
        card.text(one.hint);
    });
}

std::string leakHint(double leak) {
    return leak < .8 ? "less" : leak < 1.5 ? "usual" : leak < 15 ? "more" : "flood";
}

std::string workHint(double work) {
    return work > 1.02   ? "more"
           : work >= .98 ? "whole"
           : work >= .5  ? "most"
           : work >= .2  ? "some"
                         : "spent";
}

} // namespace

double drainShare(double halfLife) {
    return drainTrack(1).share(halfLife);
}

void handleCards(Flow& flow, const Telling& telling, const Played& one,
                 const std::function<void(const lesson::Handles&)>& turn) {
    const lesson::Handles at = one.play.handles();
    const auto said = [&](const std::string& path) { return sentence(telling, path, one); };
    const auto turned = [at, turn](double lesson::Handles::*which) {
        return [at, turn, which](double value) {
            lesson::Handles next = at;
            next.*which = value;
            turn(next);
        };
    };
    handleCard(flow, telling,
               {"leak",
                "1",
                at.leak == 1 ? said("handle.leak.usual") : said("handle.leak.fold"),
                said("leak." + leakHint(at.leak)),
                {theme::leak, theme::leakSoft},
                theme::leakInk,
                leakTrack,
                at.leak,
                turned(&lesson::Handles::leak)});
    flow.gap(handleGap);
    handleCard(flow, telling,
               {"work",
                "2",
                at.work == 1 ? said("handle.work.usual") : said("handle.work.share"),
                said("work." + workHint(at.work)),
                {theme::work, theme::workSoft},
                theme::workInk,
                workTrack,
                at.work,
                turned(&lesson::Handles::work)});
    flow.gap(handleGap);
    std::string drain(lesson::name(lesson::remarks(one.play).back()));
    if (drain == lesson::name(lesson::Remark::asInSpecies) && bothAlike(one)) drain = "as in both";
    handleCard(flow, telling,
               {"drain",
                "3",
                said("handle.drain.half"),
                said("drain." + drain),
                {theme::thought, theme::thoughtSoft},
                theme::thoughtInk,
                drainTrack(one.play.organ().halfLife),
                at.halfLife,
                turned(&lesson::Handles::halfLife)});
}

} // namespace cistern::desk
