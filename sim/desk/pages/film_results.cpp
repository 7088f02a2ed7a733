// Marks of a tally, and what others counted beside it.
#include "base/text.h"
#include "desk/pages/film_tally.h"
#include "desk/widgets/table.h"
#include "report/words.h"

namespace cistern::desk {

namespace {

/// What stands in a table for one class of a differential.
std::string shareWords(const lesson::TallyColumn& column, lesson::TallyClass kind) {
    const lesson::TallyColumn::Entry* entry = column.find(kind);
    if (!entry) return "";
    if (entry->first != kind) return "\"";
    return base::rounded(100 * entry->share, entry->share < .1 && !entry->count ? .1 : 1) + " %";
}

} // namespace

void TallyPart::results(Flow& flow) {
    if (!work_.marked) return;
    const lesson::TallyMarks marks = lesson::marks(work_.tally, truth_);
    flow.gap(1.1);
    flow.columns({{1.2, 26,
                   [&](Flow& left) {
                       left.card("Differentials beside each other",
                                 "of white cells; the truth is that of the whole film",
                                 [&](Flow& card) { columns(card, marks); });
                   }},
                  {1, 24, [&](Flow& right) {
                       right.card("Marks of this tally", base::rounded(marks.total, 1) + " of 100",
                                  [&](Flow& card) { sentences(card, marks); });
                   }}});
    confusions(flow, marks);
}

void TallyPart::sentences(Flow& flow, const lesson::TallyMarks& marks) {
    flow.small("naming " + base::rounded(marks.naming, 1) + ", counting " +
               base::rounded(marks.count, 1) + ", place " + base::rounded(marks.area, 1));
    flow.gap(.3);
    for (const std::string& one : marks.sentences) flow.text("•  " + report::shownUnits(one));
    bool fair = true;
    for (const lesson::ClassMark& one : marks.classes) {
        if (one.saidFair && one.metFair) continue;
        fair = false;
        flow.text("•  " + one.sentence);
    }
    flow.text(fair ? "•  Every class lies where 19 of 20 honest tallies of as many cells lie."
                   : "•  The other classes lie where honest tallies lie.");
}

void TallyPart::columns(Flow& flow, const lesson::TallyMarks& marks) {
    std::vector<lesson::TallyColumn> all{
        lesson::column(work_.before.empty() ? "yours" : "second", work_.tally)};
    if (!work_.before.empty()) {
        lesson::FilmTally first = work_.before.back();
        first.join(work_.tally.joined()); // the same classes
        all.push_back(lesson::column("first", first));
    }
    all.push_back(lesson::column("laboratory", report_->blood->film));
    all.push_back(lesson::column("machine", report_->blood->count));
    all.push_back(lesson::column("truth", truth_, work_.tally.joined()));
    std::vector<TableColumn> heads{{"class", 1.9}};
    for (const lesson::TallyColumn& one : all)
        heads.push_back(
            {one.name + (one.cells ? " (" + std::to_string(*one.cells) + ")" : ""), 1, true});
    heads.push_back({"honest tallies", 1.2, true});
    std::vector<std::vector<std::string>> rows;
    for (const lesson::TallyClass kind : lesson::tallyClasses(work_.tally.joined())) {
        rows.push_back({std::string(lesson::name(kind, work_.tally.joined()))});
        for (const lesson::TallyColumn& one : all) rows.back().push_back(shareWords(one, kind));
        for (const lesson::ClassMark& one : marks.classes)
            if (one.kind == kind)
                rows.back().push_back(std::to_string(one.fair.first) + " to " +
                                      std::to_string(one.fair.second));
    }
    table(flow, heads, rows);
    flow.gap(.4);
    flow.small("\" stands with the class above it, from which its source does not part it. Honest "
               "tallies: of as many cells, 19 of 20 count so many.");
    if (work_.before.empty() || work_.before.back().counted() == 0) return;
    if (!both_) both_ = lesson::compare(work_.before.back(), work_.tally);
    const lesson::TallyComparison& both = *both_;
    flow.gap(.4);
    flow.text(both.sentence);
    for (const lesson::ClassDifference& one : both.classes)
        if (one.chance < .2) flow.text("•  " + one.sentence);
    flow.small(both.how);
}

void TallyPart::confusions(Flow& flow, const lesson::TallyMarks& marks) {
    if (marks.confusions.empty()) return;
    flow.gap(1.1);
    flow.card("Taken for another", "what you said, what it was, and what tells them apart",
              [&](Flow& card) {
                  std::vector<std::vector<std::string>> rows;
                  for (const lesson::Confusion& one : marks.confusions)
                      rows.push_back({std::string(lab::name(one.said)),
                                      std::string(lab::name(one.truly)), std::to_string(one.times),
                                      report::shownUnits(one.apart)});
                  table(card,
                        {{"said", 1.2},
                         {"truly", 1.2},
                         {"times", .4, true},
                         {"what tells them apart", 3.4}},
                        rows);
              });
}

} // namespace cistern::desk
