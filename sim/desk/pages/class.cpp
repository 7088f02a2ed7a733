// A class: one case, an animal for each seat, and the keys on the projector.
#include "base/text.h"
#include "desk/pages/page.h"
#include "desk/pages/seats.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "desk/widgets/table.h"
#include "lesson/marks.h"
#include "report/words.h"
#include "scenario/set.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <utility>

namespace cistern::desk {

namespace {

constexpr int mostSeats = 60;

class Class : public Page {
public:
    explicit Class(Session& session) : session_(session), sets_(session.sets()) {
        if (!sets_.empty()) set_ = sets_.front();
    }

    void build(Flow& flow) override {
        flow.columns({{1, 20, [&](Flow& left) { choose(left); }},
                      {1.6, 26, [&](Flow& right) { seats(right); }}});
    }

    bool pass(double) override {
        const double now = seating_.progress();
        bool changed = std::exchange(progress_, now) != now;
        try {
            if (auto ready = seating_.take()) {
                all_ = std::move(*ready);
                changed = true;
            }
        } catch (const std::exception& error) {
            session_.say(error.what());
            changed = true;
        }
        return changed;
    }

    bool busy() const override { return seating_.working(); }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"K", "show the keys, or hide them"}, {"S", "seat the class"}};
    }

private:
    Session& session_;
    std::vector<std::string> sets_;
    std::string set_; ///< its path
    scenario::SetCase case_;
    int count_ = 12;
    std::uint64_t first_ = 1;
    bool keysShown_ = false;
    Seating seating_;
    double progress_ = 0;
    std::vector<Seat> all_;
    std::string seated_; ///< name of the case of `all_`
    std::map<std::string, scenario::Set> read_;

    /// The set that is chosen, or nothing if it cannot be read.
    const scenario::Set* set() {
        const auto at = read_.find(set_);
        if (at != read_.end()) return &at->second;
        if (set_.empty()) return nullptr;
        return &read_.emplace(set_, session_.readSet(set_)).first->second;
    }

    void choose(Flow& flow) {
        const scenario::Set* set = this->set();
        flow.card("Set", "", [&](Flow& card) {
            std::vector<Choice> list;
            for (const std::string& path : sets_) {
                const auto at = read_.find(path);
                const std::string title =
                    at == read_.end()
                        ? read_.emplace(path, session_.readSet(path)).first->second.title
                        : at->second.title;
                list.push_back({"set." + title, title, path == set_, [this, path] {
                                    set_ = path;
                                    case_ = {};
                                }});
            }
            choiceList(card, "Set", list);
            if (!set) return;
            card.gap(.6);
            card.small(set->opening);
        });
        flow.gap(1.1);
        if (!set) return;
        if (case_.path.empty() && !set->cases.empty()) case_ = set->cases.front();
        flow.card("Case", "", [&](Flow& card) {
            std::vector<Choice> list;
            for (const scenario::SetCase& one : set->cases) {
                list.push_back({"case." + one.name, titleOf(one.name), one.path == case_.path,
                                [this, one] { case_ = one; },
                                one.minutes > 0 ? std::to_string(one.minutes) + " minutes" : ""});
            }
            choiceList(card, "Case", list);
        });
    }

    template<class Number>
    void number(const std::string& text, Number least, Number most, Number& into,
                const std::string& what) {
        Number value{};
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc{} || end != text.data() + text.size() || value < least ||
            value > most)
            session_.say("\"" + text + "\" is no " + what + ": a whole number from " +
                         std::to_string(least) + " to " + std::to_string(most) + ".");
        else
            into = value;
    }

    void seats(Flow& flow) {
        flow.card(
            "Seats", "each learner opens the same case with the number of the seat's animal",
            [&](Flow& card) {
                line(card, {"seats", "Seats", std::to_string(count_), "", 4,
                            [this](const std::string& text) {
                                number(text, 1, mostSeats, count_, "number of seats");
                            },
                            [this](int by) { count_ = std::clamp(count_ + by, 1, mostSeats); }});
                card.gap(.4);
                constexpr std::uint64_t most = 9007199254740000; // as in scenario files
                line(card, {"first", "Number of the first animal", std::to_string(first_), "", 9,
                            [this](const std::string& text) {
                                number(text, std::uint64_t{0}, most, first_, "number of an animal");
                            }});
                card.gap(.7);
                working(card);
            });
        if (all_.empty()) return;
        flow.gap(1.1);
        flow.card(keysShown_ ? "Seats and keys" : "Seats", titleOf(seated_),
                  [&](Flow& card) { list(card); });
    }

    void working(Flow& card) {
        if (seating_.working()) {
            progress(card, "Working out the animals", progress_);
            card.gap(.5);
            buttons(card, {{"cancel", "Stop", [this] { seating_.stop(); }}});
            return;
        }
        std::vector<Button> doing{{"seat", "Seat the class",
                                   [this] {
                                       all_.clear();
                                       keysShown_ = false;
                                       seated_ = case_.name;
                                       seating_.begin(session_.files(), session_.knowledge(),
                                                      case_.path, first_, count_);
                                   },
                                   "S", true}};
        if (!all_.empty())
            doing.push_back({"keys", keysShown_ ? "Hide the keys" : "Show the keys",
                             [this] { keysShown_ = !keysShown_; }, "K"});
        buttons(card, doing);
    }

    std::string titleOf(const std::string& name) const {
        for (const Shelved& one : session_.shelf())
            if (one.name == name) return one.title;
        return name;
    }

    void list(Flow& card) {
        std::vector<TableColumn> columns{{"seat", .6, true}, {"number", .9, true}, {"animal", 2.6}};
        columns.push_back(keysShown_ ? TableColumn{"key", 4.5} : TableColumn{"here", 2.2});
        std::vector<std::vector<std::string>> rows;
        for (std::size_t i = 0; i < all_.size(); ++i) {
            const Seat& seat = all_[i];
            rows.push_back({std::to_string(i + 1), std::to_string(seat.seed), seat.who});
            std::string last;
            if (keysShown_)
                for (const std::string& one : seat.key) last += (last.empty() ? "" : "; ") + one;
            else if (const KeptLesson* one = session_.kept(seated_, seat.seed))
                last = one->finished ? lesson::inWords(one->total.value_or(0)) : "begun";
            rows.back().push_back(last);
        }
        table(card, columns, rows);
    }
};

} // namespace

std::unique_ptr<Page> classPage(Session& session) {
    return std::make_unique<Class>(session);
}

} // namespace cistern::desk
