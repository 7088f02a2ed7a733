// The reading after the commitment.
#include "desk/pages/reading_told.h"

#include "desk/pages/reading_organ.h"
#include "desk/pages/reading_points.h"
#include "desk/widgets/button.h"
#include "desk/widgets/table.h"
#include "report/words.h"

#include <algorithm>

namespace cistern::desk {

namespace {

void organs(Flow& flow, const lesson::Lesson& lesson) {
    const lesson::Questions ask = lesson.questions();
    for (std::size_t i = 0; i < ask.organs.size(); ++i) {
        const body::Tissue organ = ask.organs[i];
        const lesson::OrganAnswer answer = lesson.answers().organs.contains(organ)
                                               ? lesson.answers().organs.at(organ)
                                               : lesson::OrganAnswer{};
        const bool leaks = std::find(ask.leaks.begin(), ask.leaks.end(), organ) != ask.leaks.end();
        if (i > 0) flow.gap(1.1);
        flow.card(report::capital(body::name(organ)), "", [&](Flow& card) {
            if (leaks) {
                const drawing::PlaneScale scale = answerPlane(card, answer);
                if (answer.leak && answer.work)
                    card.sheet().add(drawing::Shape{
                        drawing::circle(likeliest(scale, answer), .34 * card.em()),
                        drawing::theme::ink, drawing::Stroke{drawing::theme::field, 2, {}}});
                card.gap(.5);
                card.text(told(Asked::leak, answer.leak));
            }
            card.text(told(Asked::work, answer.work));
        });
    }
}

void rest(Flow& flow, Session& session) {
    const lesson::Lesson& lesson = session.lesson();
    const lesson::Answers& answers = lesson.answers();
    flow.card("Committed", "", [&](Flow& card) {
        card.text("Your reading stands; nothing changes it any more.");
        card.gap(.8);
        buttons(card, {{"cutaway", "Open the animal", [&session] { session.go(PageName::cutaway); },
                        "O", true}});
    });
    if (!lesson.questions().explanations.empty()) {
        flow.gap(1.1);
        flow.card("What is going on", "", [&](Flow& card) {
            std::vector<std::vector<std::string>> rows;
            for (const std::string& one : lesson.questions().explanations)
                rows.push_back({report::capital(one), answers.points.contains(one)
                                                          ? shownPoints(answers.points.at(one))
                                                          : "0"});
            table(card, {{"explanation", 4}, {"points", 1, true}}, rows);
        });
    }
    if (answers.next) {
        flow.gap(1.1);
        flow.card("What next", "", [&](Flow& card) { card.text(report::capital(*answers.next)); });
    }
    flow.gap(1.1);
    flow.card("Results not trusted", "", [&](Flow& card) {
        std::string list;
        for (const body::Analyte one : answers.distrusted)
            list += (list.empty() ? "" : ", ") + report::spoken(body::name(one));
        card.text(list.empty() ? "All were trusted." : list);
    });
}

} // namespace

void toldReading(Flow& flow, Session& session) {
    flow.columns({{1.25, 24, [&](Flow& left) { organs(left, session.lesson()); }},
                  {1, 22, [&](Flow& right) { rest(right, session); }}});
}

} // namespace cistern::desk
