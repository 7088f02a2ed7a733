#include "desk/pages/film_words.h"

#include "desk/widgets/table.h"
#include "report/words.h"

namespace cistern::desk {

namespace {

void part(Flow& flow, const report::FilmPart& one) {
    flow.card(one.title, "", [&](Flow& card) {
        std::vector<std::vector<std::string>> rows;
        for (const report::TallyRow& row : one.rows)
            rows.push_back({row.kind, std::to_string(row.counted),
                            std::to_string(row.low) + " to " + std::to_string(row.high)});
        // What stands over the counts comes before them, the rest after.
        const std::size_t before = rows.empty() ? one.lines.size() : 1;
        for (std::size_t i = 0; i < one.lines.size(); ++i) {
            if (i == before) {
                table(card,
                      {{"kind", 1.6}, {"counted", 1, true}, {"of 100, 95 % limits", 1.6, true}},
                      rows);
                card.gap(.4);
            }
            card.text((rows.empty() || i >= before ? "•  " : "") +
                      report::shownUnits(one.lines[i]));
        }
    });
    flow.gap(1.1);
}

} // namespace

void filmInWords(Flow& flow, const std::vector<report::FilmPart>& parts) {
    const std::size_t half = (parts.size() + 1) / 2;
    const auto side = [&](std::size_t from, std::size_t to) {
        return [&parts, from, to](Flow& column) {
            for (std::size_t i = from; i < to; ++i) part(column, parts[i]);
        };
    };
    flow.columns({{1, 22, side(0, half)}, {1, 22, side(half, parts.size())}});
}

} // namespace cistern::desk
