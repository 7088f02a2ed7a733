// The shelf: a case is chosen here.
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "report/text.h"
#include "report/words.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace cistern::desk {

namespace {

class Shelf : public Page {
public:
    explicit Shelf(Session& session) : session_(session) {}

    void build(Flow& flow) override {
        flow.columns({{1, 20, [&](Flow& left) { list(left); }},
                      {1.15, 20, [&](Flow& right) { chosen(right); }}});
    }

private:
    Session& session_;
    std::string level_, name_; ///< "" is every level; the case that is looked at
    std::uint64_t seed_ = 0;
    bool ownSeed_ = true;

    std::vector<const Shelved*> shown() const {
        std::vector<const Shelved*> out;
        for (const Shelved& one : session_.shelf())
            if (level_.empty() || one.level == level_) out.push_back(&one);
        return out;
    }

    const Shelved* current() const {
        for (const Shelved& one : session_.shelf())
            if (one.name == name_) return &one;
        const auto all = shown();
        return all.empty() ? nullptr : all.front();
    }

    /// "begun", "finished: 71 of 100".
    std::string state(const std::string& name) {
        std::string out;
        for (const KeptLesson& one : session_.kept())
            if (one.name == name)
                out = one.spoiled    ? "kept, but cannot be read"
                      : one.finished ? "finished: " + lesson::inWords(one.total.value_or(0))
                                     : "begun";
        return out;
    }

    void list(Flow& flow) {
        flow.card("Cases", "", [&](Flow& card) {
            // From the shortest way to the longest, then what a case calls otherwise.
            std::vector<std::string> levels{"owner", "first year", "second year", "graduate"};
            for (const Shelved& one : session_.shelf())
                if (std::find(levels.begin(), levels.end(), one.level) == levels.end())
                    levels.push_back(one.level);
            std::vector<Choice> by{
                {"level.all", "all", level_.empty(), [this] { level_.clear(); }}};
            for (const std::string& level : levels)
                by.push_back(
                    {"level." + level, level, level == level_, [this, level] { level_ = level; }});
            choices(card, "For", by);
            card.gap(.6);
            std::vector<Choice> cases;
            const Shelved* now = current();
            for (const Shelved* one : shown()) {
                const std::string how = state(one->name);
                cases.push_back({"case." + one->name, one->title, one == now,
                                 [this, one] {
                                     name_ = one->name;
                                     ownSeed_ = true;
                                 },
                                 one->who + (how.empty() ? "" : ". " + report::capital(how))});
            }
            choiceList(card, "Case", cases);
        });
    }

    void chosen(Flow& flow) {
        const Shelved* one = current();
        if (!one) return;
        const std::uint64_t seed = ownSeed_ ? one->seed : seed_;
        flow.card(one->title, one->patient + ", " + one->who, [&](Flow& card) {
            card.text(one->complaint);
            card.gap(.6);
            card.small("For " + one->level + ", about " + std::to_string(one->minutes) +
                       " minutes.");
            if (!one->aims.empty()) {
                card.gap(.6);
                card.write("What it teaches", card.letters().strong);
                for (const std::string& aim : one->aims) card.text("•  " + aim);
            }
            card.gap(.8);
            line(card,
                 {"seed", "The animal's number (another tells the same story of another animal)",
                  std::to_string(seed), "", 9, [this](const std::string& text) { setSeed(text); }});
            card.gap(.9);
            const bool begun = session_.kept(one->name, seed) != nullptr;
            std::vector<Button> doing{{"open", begun ? "Go on" : "Open the case",
                                       [this, one, seed] { session_.open(one->path, seed); }, "O",
                                       true}};
            if (begun)
                doing.push_back({"anew", "Begin anew",
                                 [this, one, seed] { session_.open(one->path, seed, true); }});
            buttons(card, doing);
        });
        flow.gap(1.1);
        flow.card("Without a case", "", [&](Flow& card) {
            card.text("Two minutes with an owner: one organ, three handles. Or a whole class, an "
                      "animal for each seat.");
            card.gap(.7);
            buttons(card,
                    {{"counter", "Free play", [this] { session_.go(PageName::counter); }, "F"},
                     {"class", "A class", [this] { session_.go(PageName::classroom); }, "C"}});
        });
        flow.gap(1.1);
        flow.card("How it looks", "", [&](Flow& card) {
            Settings now = session_.settings();
            const auto put = [this](auto change) {
                return [this, change] {
                    Settings next = session_.settings();
                    change(next);
                    session_.set(next);
                };
            };
            std::vector<Choice> sizes;
            for (const int percent : {80, 100, 125, 150, 200})
                sizes.push_back({"letters." + std::to_string(percent),
                                 std::to_string(percent) + " %",
                                 std::abs(100 * now.textScale - percent) < .5,
                                 put([percent](Settings& to) { to.textScale = percent / 100.; })});
            card.small("Letters");
            card.gap(.2);
            choices(card, "Letters", sizes);
            card.gap(.5);
            card.small("Units");
            card.gap(.2);
            choices(card, "Units",
                    {{"units.conventional", "conventional", now.units == lab::Units::conventional,
                      put([](Settings& to) { to.units = lab::Units::conventional; })},
                     {"units.si", "SI", now.units == lab::Units::si,
                      put([](Settings& to) { to.units = lab::Units::si; })}});
            card.gap(.5);
            choices(card, "Besides",
                    {{"still", "nothing moves by itself", now.still,
                      put([](Settings& to) { to.still = !to.still; })},
                     {"projector", "projector", now.projector,
                      put([](Settings& to) { to.projector = !to.projector; })}},
                    Choose::any);
        });
    }

    void setSeed(const std::string& text) {
        constexpr double most = 9007199254740991.; // as in scenario files
        std::uint64_t value = 0;
        const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
        if (error != std::errc{} || end != text.data() + text.size() ||
            static_cast<double>(value) > most) {
            session_.say("\"" + text + "\" is no number of an animal: a whole number from 0 on.");
            return;
        }
        seed_ = value;
        ownSeed_ = false;
    }
};

} // namespace

std::unique_ptr<Page> shelfPage(Session& session) {
    return std::make_unique<Shelf>(session);
}

} // namespace cistern::desk
