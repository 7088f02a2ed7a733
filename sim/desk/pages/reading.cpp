// The reading: answers are given here, and stood by.
#include "desk/pages/page.h"
#include "desk/pages/reading_organ.h"
#include "desk/pages/reading_points.h"
#include "desk/pages/reading_told.h"
#include "desk/widgets/button.h"
#include "report/words.h"

#include <algorithm>

namespace cistern::desk {

namespace {

class Reading : public Page {
public:
    explicit Reading(Session& session) : session_(session), organs_(session), points_(session) {}

    void build(Flow& flow) override {
        if (session_.lessonNumber() != seen_) {
            organs_.forget();
            points_.forget();
            seen_ = session_.lessonNumber();
        }
        if (session_.lesson().committed()) return toldReading(flow, session_);
        using Cards = std::initializer_list<void (Reading::*)(Flow&)>;
        const auto column = [this](double share, double least, Cards cards) {
            return Flow::Column{share, least, [this, all = std::vector(cards)](Flow& into) {
                                    for (std::size_t i = 0; i < all.size(); ++i) {
                                        if (i > 0) into.gap(1.1);
                                        (this->*all[i])(into);
                                    }
                                }};
        };
        const std::vector<Flow::Column> three{
            column(1.25, 30, {&Reading::organs}), column(1, 22, {&Reading::points, &Reading::next}),
            column(.9, 20, {&Reading::doubts, &Reading::commitment})};
        const std::vector<Flow::Column> two{
            column(1, 25, {&Reading::organs, &Reading::doubts}),
            column(1, 22, {&Reading::points, &Reading::next, &Reading::commitment})};
        flow.columns(flow.sideBySide(three) ? three : two);
    }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"E", "show or hide what helps to answer"}};
    }

private:
    Session& session_;
    OrganCard organs_;
    PointsCard points_;
    bool explained_ = false;
    unsigned seen_ = 0;

    /// A question, and what helps to answer it if that is asked for.
    std::string with(std::string_view question, std::string_view help) const {
        return std::string(question) + (explained_ ? " " + std::string(help) : "");
    }

    void organs(Flow& flow) { organs_.build(flow, explained_); }
    void points(Flow& flow) { points_.build(flow, explained_); }

    void next(Flow& flow) {
        const lesson::Questions ask = session_.lesson().questions();
        if (ask.next.empty()) return;
        flow.card("What next", with(report::nextQuestion, report::nextHelp), [&](Flow& card) {
            std::vector<Choice> list;
            for (std::size_t i = 0; i < ask.next.size(); ++i) {
                const std::string& one = ask.next[i];
                list.push_back({"next." + std::to_string(i + 1), report::capital(one),
                                session_.lesson().answers().next == one, [this, one] {
                                    if (session_.lesson().answers().next != one)
                                        session_.act(lesson::SetNext{one}, lesson::Stage::reading);
                                }});
            }
            choiceList(card, "What next", list);
        });
    }

    void doubts(Flow& flow) {
        const auto& doubted = session_.lesson().answers().distrusted;
        const std::string question = with(report::distrustQuestion, report::distrustHelp);
        flow.card("Results not to be trusted", question, [&](Flow& card) {
            std::vector<Choice> list;
            for (const body::Analyte one : session_.lesson().questions().results) {
                const std::string name(body::name(one));
                const bool on = std::find(doubted.begin(), doubted.end(), one) != doubted.end();
                list.push_back(
                    {"doubt." + name, report::spoken(name), on, [this, one] { toggle(one); }});
            }
            ticks(card, "Not to be trusted", list);
        });
    }

    void toggle(body::Analyte one) {
        std::vector<body::Analyte> doubted = session_.lesson().answers().distrusted;
        if (std::erase(doubted, one) == 0) doubted.push_back(one);
        session_.act(lesson::SetDistrusted{doubted}, lesson::Stage::reading);
    }

    void commitment(Flow& flow) {
        const std::vector<std::string> lacks = session_.lesson().missing();
        flow.card("Stand by it", "Nothing changes after the commitment.", [&](Flow& card) {
            Button commit{"commit", "Commit to this reading", [this] { session_.commit(); }, "",
                          true};
            if (!lacks.empty()) commit.press = nullptr;
            Button undo{"undo", "Take back  (Z)", [this] { session_.undo(); }};
            if (!session_.lesson().canUndo()) undo.press = nullptr;
            buttons(card, {commit,
                           undo,
                           {"explain", explained_ ? "Hide the help" : "Explain",
                            [this] { explained_ = !explained_; }, "E"}});
            card.gap(.6);
            if (lacks.empty()) card.small("Every question has its answer.");
            for (const std::string& one : lacks) {
                const double in = 1.1 * card.em();
                Flow words(card.sheet(), card.x() + in, card.y(), card.width() - in, card.floor());
                words.small(one);
                card.small("•");
                card.room(words.y() - card.y());
            }
        });
    }
};

} // namespace

std::unique_ptr<Page> readingPage(Session& session) {
    return std::make_unique<Reading>(session);
}

} // namespace cistern::desk
