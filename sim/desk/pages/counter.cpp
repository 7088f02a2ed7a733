// The counter: an owner plays with one organ and three handles, for two minutes.
#include "desk/pages/counter_handles.h"
#include "desk/pages/counter_jar.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"

#include <algorithm>
#include <cmath>

namespace cistern::desk {

using body::Kind;
using lesson::FreePlay;
using lesson::LeakingOrgan;
namespace theme = drawing::theme;

namespace {

constexpr double speed = 6; // [h] of the animal's time in a second
constexpr double day = 24;  // [h]

Kind otherThan(Kind kind) {
    return kind == Kind::dog ? Kind::cat : Kind::dog;
}

class Counter : public Page {
public:
    explicit Counter(Session& session) : session_(session) {
        for (const Kind kind : {Kind::dog, Kind::cat})
            for (const LeakingOrgan& one : lesson::leakingOrgans(session.knowledge(), kind))
                organs_.push_back(one);
        startOver();
    }

    void build(Flow& flow) override {
        if (still())
            for (Played& one : jars_) one.play.settle();
        flow.columns({{both() ? 1.8 : 1.6, 26, [&](Flow& left) { picture(left); }},
                      {1, 21, [&](Flow& right) {
                           handleCards(right, telling(), jars_[turned_],
                                       [this](const auto& to) { jars_[turned_].play.turn(to); });
                           right.gap(handleGap);
                           words(right);
                       }}});
        seen_ = seen();
    }

    bool pass(double seconds) override {
        if (still() || paused_) return false;
        go(seconds * speed);
        return seen() != seen_;
    }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"1, 2, 3", "go to a handle; arrows turn it"},
                {"C", "the other animal"},
                {"P", "stop or start the clock"},
                {"J", "jump a day"},
                {"H", "hold this one and set up another beside it"},
                {"T", "two very different organs, one number"},
                {"R", "start over"}};
    }

private:
    Session& session_;
    std::vector<LeakingOrgan> organs_; ///< of both species
    std::vector<Played> jars_;         ///< one, or two side by side
    std::size_t turned_ = 0;           ///< the one that the handles turn
    double hour_ = 0;
    bool paused_ = false;
    std::vector<double> troughs_; ///< their heights [px]
    std::string seen_;            ///< when the page was laid out

    bool still() const { return session_.settings().still; }
    bool both() const { return jars_.size() > 1; }
    const LeakingOrgan& organ() const { return jars_[turned_].play.organ(); }
    Telling telling() const {
        return {&session_.assets().wording, &session_.knowledge().bench, session_.settings().units};
    }
    std::string said(const std::string& path) const {
        return sentence(telling(), path, jars_[turned_]);
    }

    const LeakingOrgan* find(Kind kind, body::Tissue tissue) const {
        for (const LeakingOrgan& one : organs_)
            if (one.kind == kind && one.tissue == tissue) return &one;
        return nullptr;
    }

    Played played(const LeakingOrgan& organ) const {
        const LeakingOrgan* other = find(otherThan(organ.kind), organ.tissue);
        return {FreePlay(organ), other ? *other : organ};
    }

    void startOver() {
        jars_ = {played(organs_.at(0))};
        turned_ = 0;
        hour_ = 0;
        paused_ = false;
    }

    /// Another organ under the same leak and work; it begins healthy, and its own blood clears it.
    void choose(Kind kind, body::Tissue tissue) {
        const LeakingOrgan* to = find(kind, tissue);
        if (!to || to == &organ()) return;
        const lesson::Handles at = jars_[turned_].play.handles();
        jars_[turned_] = played(*to);
        jars_[turned_].play.turn({at.leak, at.work, to->halfLife});
        if (!both()) hour_ = 0;
    }

    void hold() {
        const Played one = jars_[turned_];
        jars_.assign(both() ? 1 : 2, one);
        turned_ = jars_.size() - 1;
    }

    /// One large, sound and leaking, one spent and leaking more: the same level.
    void twoOfOneNumber() {
        constexpr double loud = 6, spent = .1;
        const LeakingOrgan own = organ();
        Played sound = played(own), last = sound;
        sound.play.turn({loud, 1, own.halfLife});
        const auto leak = own.leakHolding(sound.play.held(), {1, spent, own.halfLife});
        last.play.turn({leak.value_or(lesson::Handles::mostLeak), spent, own.halfLife});
        sound.play.settle();
        last.play.settle();
        jars_ = {sound, last};
        turned_ = 1;
    }

    void go(double hours) {
        hour_ += hours;
        for (Played& one : jars_) one.play.pass(hours);
    }

    std::string clock() const {
        const int hours = static_cast<int>(hour_ / speed) * static_cast<int>(speed);
        const int ofDay = hours % static_cast<int>(day);
        return sentence(*telling().wording, "counter.clock.time",
                        {{"day", std::to_string(hours / static_cast<int>(day) + 1)},
                         {"hour", std::string(ofDay < 10 ? "0" : "") + std::to_string(ofDay)}});
    }

    /// All that time can change on the page, to the pixel.
    std::string seen() const {
        std::string out = clock();
        for (std::size_t i = 0; i < jars_.size() && i < troughs_.size(); ++i) {
            const FreePlay& play = jars_[i].play;
            out += "|" + reading(telling(), jars_[i]) + standing(telling(), jars_[i]) +
                   std::to_string(
                       std::lround(troughs_[i] * depth(play.level(), play.organ().interval.high)));
            for (const lesson::Remark remark : lesson::remarks(play)) out += lesson::name(remark);
        }
        return out;
    }

    void picture(Flow& flow) {
        flow.card("", "", [&](Flow& card) {
            what(card);
            card.gap(.7);
            Sheet trial(card.sheet().setting());
            Flow below(trial, card.x(), 0, card.width(), 0);
            time(below);
            const double em = card.em();
            const double high =
                card.left(below.y() + .7 * em, std::max(20 * em, .45 * trial.setting().height));
            vessels(card, high);
            card.gap(.7);
            time(card);
        });
    }

    /// Which animal and organ.
    void what(Flow& flow) {
        std::vector<Choice> animals, tissues;
        for (const Kind kind : {Kind::dog, Kind::cat}) {
            const std::string name(body::name(kind));
            const bool on = kind == organ().kind;
            animals.push_back({"species." + name, name, on,
                               [this, kind] { choose(kind, organ().tissue); }, "", on ? "" : "C"});
        }
        for (const LeakingOrgan& one : organs_)
            if (one.kind == organ().kind)
                tissues.push_back({"organ." + std::string(body::name(one.tissue)),
                                   sentence(*telling().wording,
                                            "counter.organ." + std::string(body::name(one.tissue))),
                                   one.tissue == organ().tissue,
                                   [this, tissue = one.tissue] { choose(organ().kind, tissue); }});
        flow.columns({{1, 12, [&](Flow& left) { choices(left, "Animal", animals); }},
                      {2.4, 20, [&](Flow& right) { choices(right, "Organ", tissues); }}},
                     .5);
    }

    void vessels(Flow& flow, double high) {
        troughs_.clear();
        if (!both()) {
            const CounterJar jar{"jar", said("picture"), false};
            troughs_.push_back(drawJar(flow.sheet(), telling(), jars_[0], jar, flow.room(high)));
            return;
        }
        const auto one = [this, high](std::size_t i) {
            return [this, high, i](Flow& column) { jar(column, i, high); };
        };
        flow.columns({{1, 13, one(0)}, {1, 13, one(1)}}, .8);
    }

    /// One of two: framed if the handles turn it.
    void jar(Flow& flow, std::size_t i, double high) {
        const double em = flow.em();
        const Box frame = flow.room(high);
        const bool on = i == turned_;
        const std::string id = i == 0 ? "jar.first" : "jar.second";
        flow.sheet().add(
            drawing::Shape{drawing::rounded(frame, .6 * em), on ? theme::field : theme::panel,
                           drawing::Stroke{on ? theme::ink : theme::line, on ? 1.5 : 1., {}}});
        const Box inside{frame.x + .5 * em, frame.y + .5 * em, frame.width - em, frame.height - em};
        const std::string caption = said(on ? "turned" : "other");
        troughs_.push_back(drawJar(flow.sheet(), telling(), jars_[i], {id, caption, true}, inside));
        Control control{id, Control::Kind::choice,
                        sentence(telling(), "title", jars_[i]) + ", " +
                            reading(telling(), jars_[i]) + ": " + caption,
                        frame};
        control.on = on;
        control.press = [this, i] { turned_ = i; };
        flow.sheet().add(std::move(control));
    }

    void time(Flow& flow) {
        if (still()) {
            flow.small(said("clock.still"));
        } else {
            const drawing::Type& strong = flow.letters().strong;
            // As wide as any: the words beside it do not move.
            const double wide = drawing::measure("Day 888, 00:00", strong).width + flow.em();
            Flow beside(flow.sheet(), flow.x() + wide, flow.y() + .1 * flow.em(),
                        flow.width() - wide, flow.floor());
            beside.small(sentence(*telling().wording, "counter.clock.speed",
                                  {{"hours", std::to_string(static_cast<int>(speed))}}) +
                         " " + said("scale"));
            flow.write(clock(), strong);
            flow.room(std::max(flow.y(), beside.y()) - flow.y());
        }
        flow.gap(.6);
        std::vector<Button> list;
        if (!still())
            list = {{"pause", paused_ ? "Go on" : "Pause", [this] { paused_ = !paused_; }, "P"},
                    {"jump", "Jump a day", [this] { go(day); }, "J"}};
        list.push_back({"hold", both() ? "Only this one" : "Compare", [this] { hold(); }, "H"});
        list.push_back({"two", "Same number", [this] { twoOfOneNumber(); }, "T", false,
                        "Two very different organs with the same number"});
        list.push_back({"over", "Start over", [this] { startOver(); }, "R"});
        buttons(flow, list);
    }

    void words(Flow& flow) {
        flow.card("In plain words", "", [&](Flow& card) {
            for (const std::string& sentence : plainWords(telling(), jars_[turned_])) {
                card.text(sentence);
                card.gap(.35);
            }
            if (both()) card.text(sameNumber());
            card.gap(.3);
            card.small(said("caution"));
        });
    }

    /// Two organs of one kind that give one number and yet are very different; else empty.
    std::string sameNumber() const {
        constexpr double alike = .05, apart = .3;
        const FreePlay *more = &jars_[0].play, *less = &jars_[1].play;
        if (more->handles().work < less->handles().work) std::swap(more, less);
        const bool same = more->organ().kind == less->organ().kind &&
                          more->organ().tissue == less->organ().tissue &&
                          std::abs(more->level() / less->level() - 1) < alike;
        if (!same || more->handles().work - less->handles().work < apart) return "";
        return sentence(*telling().wording, "counter.say.same number",
                        {{"organ", said("organ." + std::string(body::name(organ().tissue)))},
                         {"more", percent(more->handles().work)},
                         {"less", percent(less->handles().work)}});
    }
};

} // namespace

std::unique_ptr<Page> counterPage(Session& session) {
    return std::make_unique<Counter>(session);
}

} // namespace cistern::desk
