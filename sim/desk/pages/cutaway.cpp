// The cutaway: the animal opened, from the first insult to the last draw, and the marks.
#include "base/text.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "desk/widgets/slider.h"
#include "desk/widgets/table.h"
#include "lesson/feedback.h"
#include "report/text.h"
#include "report/words.h"
#include "view/course.h"
#include "view/opened.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace cistern::desk {

namespace theme = drawing::theme;

namespace {

constexpr std::size_t steps = 240; // of a story
constexpr double lasts = 14;       // [s] a story played from end to end
constexpr double healthyDrops = 5; // a second, at the healthy release
constexpr double mostDrops = 300;  // a second
constexpr std::size_t shownLevels = 4;
constexpr double day = 24; // [h]

class Cutaway : public Page {
public:
    explicit Cutaway(Session& session) : session_(session) {}

    void build(Flow& flow) override {
        const lesson::Lesson& lesson = session_.lesson();
        settle(lesson);
        time(flow);
        flow.gap(1.1);
        flow.columns({{1.02, 26,
                       [&](Flow& left) {
                           vessels(left, lesson);
                           left.gap(1.1);
                           told(left, lesson);
                       }},
                      {1, 26, [&](Flow& right) {
                           plane(right, lesson);
                           right.gap(1.1);
                           course(right, lesson);
                           right.gap(1.1);
                           marks(right, lesson);
                       }}});
    }

    bool pass(double seconds) override {
        const double done = session_.reader().progress();
        const bool weighed = std::exchange(done_, done) != done && !session_.lesson().ideal();
        if (!playing_) return weighed;
        const std::size_t before = at();
        share_ = std::min(1., share_ + seconds / lasts);
        playing_ = share_ < 1;
        return weighed || at() != before || !playing_;
    }

    bool busy() const override { return !session_.lesson().ideal(); }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"P", "play the story, or stop it"},
                {", and .", "a day back, a day on"},
                {"O", "the next organ"}};
    }

private:
    Session& session_;
    unsigned seen_ = 0;
    body::Tissue organ_{};
    std::optional<body::Course> story_;
    std::map<body::Tissue, view::OrganStory> opened_;
    lab::Units units_{};
    std::vector<lesson::Paragraph> told_;
    bool toldIdeal_ = false;               ///< with what the ideal reader made of it
    std::optional<drawing::Group> course_; ///< drawn in `courseBox_`
    Box courseBox_{};
    double share_ = 1; ///< of the story
    bool playing_ = false;
    double done_ = 0;

    void settle(const lesson::Lesson& lesson) {
        const lab::Units units = session_.settings().units;
        const bool ideal = lesson.ideal() != nullptr;
        if (seen_ == session_.lessonNumber() && units == units_ && ideal == toldIdeal_) return;
        told_ = lesson::feedback(lesson, units);
        toldIdeal_ = ideal;
        course_.reset();
        if (seen_ == session_.lessonNumber() && units == units_) return;
        const lesson::Case& one = lesson.subject();
        const bool another = seen_ != session_.lessonNumber();
        seen_ = session_.lessonNumber();
        units_ = units;
        if (another) story_ = view::story(one, session_.knowledge(), steps);
        opened_.clear();
        const auto openable = view::openable(one, session_.knowledge().bench);
        for (const body::Tissue organ : openable)
            opened_.emplace(organ,
                            view::organStory(one, session_.knowledge(), *story_, organ, units));
        if (!another) return;
        share_ = 1;
        playing_ = false;
        organ_ = openable.empty() ? one.organs.front()
                                  : view::furthest(openable, story_->at(story_->size() - 1));
    }

    std::size_t at() const {
        return static_cast<std::size_t>(
            std::lround(share_ * static_cast<double>(story_->size() - 1)));
    }
    double hour() const { return story_->hours()[at()]; }

    void go(double hour) {
        const double from = story_->hours().front(), to = story_->hours().back();
        share_ = std::clamp((hour - from) / (to - from), 0., 1.);
        playing_ = false;
    }

    /// "297 d before the last draw", "at the last draw".
    std::string when() const {
        const double back = story_->hours().back() - hour();
        if (back < .5) return "at the last draw";
        constexpr double inDays = 3 * day;
        return (back < inDays ? base::rounded(back, 1) + " h"
                              : base::rounded(back / day, 1) + " d") +
               " before the last draw";
    }

    /// The time stands on the page itself, so that a projector shows it with every card.
    void time(Flow& flow) {
        const double from = story_->hours().front(), to = story_->hours().back();
        Slider one;
        one.name = "From the first insult to the last draw";
        one.value = when();
        one.ink = theme::ink;
        one.tones = {theme::ink, theme::line};
        one.to = share_;
        for (const lesson::Taken& draw : session_.lesson().taken())
            one.ticks.push_back(
                std::clamp((draw.report.specimen.hour - from) / (to - from), 0., 1.));
        Handle handle;
        handle.id = "time";
        handle.says = "Time: " + when();
        handle.share = share_;
        handle.slide = [this](double share, Grip) {
            share_ = share;
            playing_ = false;
        };
        handle.step = [this](int many) {
            share_ = std::clamp(share_ + many / static_cast<double>(steps), 0., 1.);
            playing_ = false;
        };
        one.handles.push_back(std::move(handle));
        // Side by side where there is room, whatever a projector does with cards.
        const double em = flow.em(), buttonsWidth = 19 * em;
        const bool beside = flow.width() > buttonsWidth + 26 * em;
        Flow left(flow.sheet(), flow.x(), flow.y(),
                  beside ? flow.width() - buttonsWidth - 1.5 * em : flow.width(), flow.floor());
        slider(left, one);
        const double top = beside ? flow.y() + .5 * em : left.y() + .5 * em;
        Flow right(flow.sheet(), beside ? flow.x() + flow.width() - buttonsWidth : flow.x(), top,
                   beside ? buttonsWidth : flow.width(), flow.floor());
        const bool end = share_ >= 1;
        buttons(right,
                {{"play", playing_ ? "Stop" : "Play",
                  [this, end] {
                      playing_ = !playing_;
                      if (playing_ && end) share_ = 0;
                  },
                  "P", true},
                 {"day.back", "−1 d", [this] { go(hour() - day); }, ",", false, "A day back"},
                 {"day.on", "+1 d", [this] { go(hour() + day); }, ".", false, "A day on"}});
        flow.room(std::max(left.y(), right.y()) - flow.y());
        organs(flow);
    }

    void organs(Flow& flow) {
        const auto& all = session_.lesson().subject().organs;
        if (all.size() < 2) return;
        flow.gap(.5);
        std::vector<Choice> list;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const std::string name(body::name(all[i]));
            const bool next = all[(i + all.size() - 1) % all.size()] == organ_;
            list.push_back({"organ." + name, name, all[i] == organ_,
                            [this, organ = all[i]] { organ_ = organ; }, "", next ? "O" : ""});
        }
        choices(flow, "Organ", list);
    }

    void drips(Flow& flow, const std::string& id, const drawing::VesselPlaces& places,
               double release, double clearance, double healthy) {
        const auto rate = [&](double amount) {
            return healthy > 0 ? std::min(mostDrops, healthyDrops * amount / healthy) : 0;
        };
        flow.sheet().add(Dripping{id, places, rate(release), rate(clearance), {}});
    }

    void vessels(Flow& flow, const lesson::Lesson& lesson) {
        const auto found = opened_.find(organ_);
        const std::string name(body::name(organ_));
        if (found == opened_.end()) {
            flow.card(report::capital(name), "", [&](Flow& card) {
                card.text("What this organ leaks does not go into the blood, or is not measured "
                          "there: it has no vessel. Its work is drawn beside.");
            });
            return;
        }
        const view::OrganStory& story = found->second;
        flow.card("The " + name + ", opened",
                  "the jar is the organ, the trough the blood, the spout what clears it",
                  [&](Flow& card) {
                      drawing::VesselView here = story.at(at()), healthy = story.healthy();
                      here.name = lesson.subject().patient;
                      here.caption = "as it was, which no laboratory sees";
                      healthy.name = "The same in health";
                      healthy.caption = "before anything happened";
                      here.textScale = healthy.textScale = card.letters().scale;
                      const double em = card.em(), gap = 1.2 * em;
                      const Box room =
                          card.room(std::clamp(card.left(15 * em, 24 * em), 24 * em, 40 * em));
                      const double half = (room.width - gap) / 2;
                      const Box left{room.x, room.y, half, room.height};
                      const Box right{room.x + half + gap, room.y, half, room.height};
                      card.sheet().add(drawing::vessel(here, left));
                      card.sheet().add(drawing::vessel(healthy, right));
                      const view::Flows now = story.flows(at()), rest = story.flows(0);
                      drips(card, "here." + name, drawing::places(here, left), now.release,
                            now.clearance, rest.release);
                      drips(card, "healthy." + name, drawing::places(healthy, right), rest.release,
                            rest.release, rest.release);
                  });
    }

    static drawing::PlaneBox boxOf(const lesson::OrganAnswer& answer) {
        constexpr double percent = 100;
        drawing::PlaneBox box{answer.work->low / percent, answer.work->high / percent, .5, 2};
        if (answer.leak) {
            box.leakLow = answer.leak->low;
            box.leakHigh = answer.leak->high;
        }
        return box;
    }

    void plane(Flow& flow, const lesson::Lesson& lesson) {
        flow.card("Leak and work", "where it is, where it was, and what the data could tell",
                  [&](Flow& card) {
                      drawing::PlaneView plane = view::plane(*story_, organ_, at());
                      plane.textScale = card.letters().scale;
                      if (const auto said = lesson.answers().organs.find(organ_);
                          said != lesson.answers().organs.end() && said->second.work)
                          plane.answer = boxOf(said->second);
                      if (const auto& ideal = lesson.marks().ideal) {
                          const auto said = ideal->answers.organs.find(organ_);
                          if (said != ideal->answers.organs.end())
                              plane.ideal = boxOf(said->second);
                      }
                      if (const reader::Posterior* ideal = lesson.ideal())
                          for (const reader::OrganBelief& one : ideal->organs)
                              if (one.organ == organ_)
                                  for (const reader::Seen& seen : one.seen)
                                      plane.cloud.push_back({seen.work, seen.leak, {}});
                      const double em = card.em();
                      card.sheet().add(drawing::plane(plane, card.room(21 * em)));
                      if (lesson.ideal()) return;
                      card.gap(.4);
                      progress(card, "The ideal reader is still weighing", done_);
                  });
    }

    void course(Flow& flow, const lesson::Lesson& lesson) {
        const lab::Bench& bench = session_.knowledge().bench;
        flow.card("How it came to this",
                  "levels over their own healthy value; pegs are what the "
                  "laboratory printed",
                  [&](Flow& card) {
                      const Box box = card.room(26 * card.em());
                      if (!course_ || !(courseBox_ == box)) {
                          drawing::CourseView course = view::course(
                              lesson.subject(), session_.knowledge(), *story_, units_,
                              view::mostMoved(*story_, bench, lesson.animal(), shownLevels));
                          course.textScale = card.letters().scale;
                          course_ = drawing::course(course, box);
                          courseBox_ = box;
                      }
                      card.sheet().add(*course_);
                  });
    }

    void told(Flow& flow, const lesson::Lesson& lesson) {
        for (const lesson::Paragraph& one : told_) {
            flow.card(one.heading, "", [&](Flow& card) {
                for (const std::string& sentence : one.sentences) {
                    card.text(sentence);
                    card.gap(.3);
                }
            });
            flow.gap(1.1);
        }
        const std::vector<std::string> way = report::wayOfTheBlood(lesson);
        if (way.empty()) return;
        flow.card("Between the vein and the printout", "", [&](Flow& card) {
            for (const std::string& line : way) card.text("•  " + line);
        });
    }

    void marks(Flow& flow, const lesson::Lesson& lesson) {
        const lesson::Marks& all = lesson.marks();
        std::vector<const lesson::Sheet*> sheets{&all.learner};
        if (all.ideal) sheets.push_back(&*all.ideal);
        sheets.push_back(&all.shrug);
        sheets.push_back(&all.naive);
        flow.card("Marks: " + lesson::inWords(all.learner.total), "", [&](Flow& card) {
            std::vector<TableColumn> columns{{"part", 2.2}, {"weight [%]", 1, true}};
            for (const lesson::Sheet* sheet : sheets)
                columns.push_back({report::shortName(sheet->reader), 1, true});
            std::vector<std::vector<std::string>> rows;
            for (std::size_t i = 0; i < all.learner.parts.size(); ++i) {
                const lesson::Mark& mark = all.learner.parts[i];
                rows.push_back({report::partName(mark), base::rounded(100 * mark.weight, 1)});
                for (const lesson::Sheet* sheet : sheets)
                    rows.back().push_back(base::rounded(sheet->parts[i].points, 1));
            }
            rows.push_back({"The whole", "100"});
            for (const lesson::Sheet* sheet : sheets)
                rows.back().push_back(base::rounded(sheet->total, 1));
            table(card, columns, rows);
            card.gap(.5);
            for (const lesson::Sheet* sheet : sheets)
                if (!sheet->how.empty())
                    card.small(report::capital(sheet->reader) + ": " + sheet->how);
        });
    }
};

} // namespace

std::unique_ptr<Page> cutawayPage(Session& session) {
    return std::make_unique<Cutaway>(session);
}

} // namespace cistern::desk
