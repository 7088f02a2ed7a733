// The film, told in words and counts; its picture is not drawn yet.
#include "base/text.h"
#include "desk/pages/page.h"
#include "desk/widgets/table.h"

#include <algorithm>

namespace cistern::desk {

namespace {

class Film : public Page {
public:
    explicit Film(Session& session) : session_(session) {}

    void build(Flow& flow) override {
        const lesson::Lesson& lesson = session_.lesson();
        bool any = false;
        for (const lesson::Taken& draw : lesson.taken()) {
            if (!draw.report.blood) continue;
            any = true;
            flow.card("Draw " + std::to_string(draw.draw + 1) + ", the film",
                      "told in words and counts; a picture of it is not drawn yet",
                      [&](Flow& card) { tell(card, draw.report); });
            flow.gap(1.1);
        }
        if (!any)
            flow.card("No film", "", [](Flow& card) {
                card.text("No blood count was asked for, so no film was made.");
            });
    }

private:
    Session& session_;

    static void tell(Flow& card, const lab::Report& report) {
        const lab::Film& film = report.blood->film;
        std::vector<std::vector<std::string>> rows;
        for (std::size_t i = 0; i < lab::whiteKinds.size(); ++i) {
            const int count = film.kinds[i];
            const auto [low, high] = lab::printedLimits(count, film.cells);
            rows.push_back({std::string(body::name(lab::whiteKinds[i])), std::to_string(count),
                            std::to_string(low) + " to " + std::to_string(high)});
        }
        card.small(std::to_string(film.cells) + " white cells told apart, " +
                   std::to_string(film.nucleatedMet) + " nucleated red cells met on the way, " +
                   base::rounded(film.plateletsPerField, 0.1) + " platelets in a field.");
        card.gap(.4);
        table(card,
              {{"kind", 1.6}, {"counted", 1, true}, {"the truth may be, of 100 (95 %)", 1.6, true}},
              rows);
        card.gap(.5);
        for (const std::string& one : report.blood->remarks(true)) card.text("•  " + one);
    }
};

} // namespace

std::unique_ptr<Page> filmPage(Session& session) {
    return std::make_unique<Film>(session);
}

} // namespace cistern::desk
