// The bedside: who comes and why, what was found, and what is to be drawn.
#include "base/text.h"
#include "desk/pages/page.h"
#include "desk/widgets/button.h"
#include "lab/specimen/volume.h"
#include "report/words.h"

#include <algorithm>

namespace cistern::desk {

namespace {

class Bedside : public Page {
public:
    explicit Bedside(Session& session) : session_(session) {}

    void build(Flow& flow) override {
        const lesson::Lesson& lesson = session_.lesson();
        flow.columns({{1, 22, [&](Flow& left) { patient(left, lesson.subject()); }},
                      {1, 22, [&](Flow& right) {
                           for (std::size_t i = 0; i < lesson.subject().draws.size(); ++i) {
                               if (i > 0) right.gap(1.1);
                               draw(right, lesson, i);
                           }
                       }}});
    }

    std::vector<std::pair<std::string, std::string>> keys() const override {
        return {{"B", "go on to the bench"}};
    }

private:
    Session& session_;

    static void patient(Flow& flow, const lesson::Case& one) {
        flow.card(one.title, report::signalment(one) + ".", [&](Flow& card) {
            if (!one.complaint.empty()) {
                card.write("Why they come", card.letters().strong);
                card.gap(.15);
                card.text(one.complaint);
                card.gap(.8);
            }
            if (!one.history.empty()) {
                card.write("History", card.letters().strong);
                card.gap(.15);
                paragraphs(card, one.history);
            }
        });
        flow.gap(1.1);
        flow.card("Exam", "", [&](Flow& card) {
            std::vector<std::string> absent;
            for (const lesson::Finding& finding : one.exam)
                if (finding.degree == "absent")
                    absent.push_back(report::shownFinding(finding));
                else
                    card.text("•  " + report::capital(report::shownFinding(finding)));
            if (one.exam.empty()) card.text("Nothing was noted.");
            if (absent.empty()) return;
            card.gap(.6);
            card.small("Looked for and not there: " + base::listed(absent, "or") + ".");
        });
    }

    /// A text whose paragraphs are parted by blank lines; single line ends are blanks.
    static void paragraphs(Flow& flow, const std::string& text) {
        std::string one;
        const auto put = [&] {
            if (one.find_first_not_of(' ') == std::string::npos) return;
            flow.text(one);
            flow.gap(.4);
            one.clear();
        };
        for (std::size_t i = 0; i < text.size(); ++i) {
            const bool end = text[i] == '\n';
            if (end && i + 1 < text.size() && text[i + 1] == '\n')
                put();
            else
                one += end ? ' ' : text[i];
        }
        put();
    }

    /// "ALT, AST, ...", or why the laboratory does not run it.
    std::string measures(const std::string& name) const {
        const lab::Test* test = session_.knowledge().bench.test(name);
        if (!test) return "not run here";
        if (test->controls) return "how the controls of the other tests stand";
        std::string all;
        for (const body::Analyte analyte : test->analytes)
            all += (all.empty() ? "" : ", ") + report::spoken(body::name(analyte));
        return all.empty() ? test->missing : all;
    }

    void draw(Flow& flow, const lesson::Lesson& lesson, std::size_t at) {
        const lesson::Draw& one = lesson.subject().draws[at];
        const std::string id = std::to_string(at + 1) + ".";
        flow.card(
            report::shownDraw(one, at),
            lesson.committed() ? "you have committed; this stands"
                               : "what is to be measured of it; none: it is left out",
            [&](Flow& card) {
                const std::vector<std::string> chosen = lesson.chosen()[at];
                std::vector<Choice> tests;
                for (const std::string& name : one.tests) {
                    const bool on = std::find(chosen.begin(), chosen.end(), name) != chosen.end();
                    tests.push_back({"test." + id + name, report::capital(name), on,
                                     [this, at, chosen, name, on] { toggle(at, chosen, name, on); },
                                     measures(name)});
                }
                choiceList(card, "Test", tests, Choose::any);
                card.gap(.5);
                const lab::Volume volume = lab::volume(session_.knowledge().bench, lesson.animal(),
                                                       lesson.handling()[at], chosen);
                if (!volume.tubes.empty()) card.small(report::volumeWords(volume));
                if (one.handedIn) card.small("It came already drawn.");
                const bool last = at + 1 == lesson.subject().draws.size();
                if (!last) return;
                card.gap(.5);
                card.small(std::string(report::bloodCaution));
                card.gap(.7);
                buttons(card, {{"bench", "To the bench", [this] { session_.go(PageName::bench); },
                                "B", true}});
            });
    }

    void toggle(std::size_t draw, std::vector<std::string> tests, const std::string& name,
                bool on) {
        if (on)
            std::erase(tests, name);
        else
            tests.push_back(name);
        session_.act(lesson::ChooseTests{draw, tests}, lesson::Stage::plan);
    }
};

} // namespace

std::unique_ptr<Page> bedsidePage(Session& session) {
    return std::make_unique<Bedside>(session);
}

} // namespace cistern::desk
