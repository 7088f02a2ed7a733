#include "desk/pages/film_fields.h"

#include "base/text.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "report/words.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>

namespace cistern::desk {

namespace {

constexpr int mostPlatelets = 500; // in what is seen

int readCount(const std::string& text) {
    int count = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), count);
    if (error != std::errc{} || end != text.data() + text.size() || count < 0 ||
        count > mostPlatelets)
        throw std::invalid_argument("\"" + text + "\" is no number of platelets; 0 to " +
                                    std::to_string(mostPlatelets) + " is allowed.");
    return count;
}

/// Polychromatophils that lie in a usual field of the monolayer, on average.
double polychromatophils(const lab::Slide& slide) {
    const lab::Reach reach = lab::reach(slide, lab::FilmArea::monolayer);
    const double thick = lab::thickness(slide, (reach.from + reach.to) / 2, lab::filmWidth / 2);
    constexpr double perCubicMicrometer = 1e-3; // of 10*12/L
    return slide.red * perCubicMicrometer * thick * lesson::usualField *
           slide.of(lab::FilmCell::polychromatophil);
}

} // namespace

void FieldsPart::open() {
    fields_.clear();
    here_ = 0;
    grade_.reset();
}

void FieldsPart::build(Flow& flow, FilmView& view) {
    flow.card("Field by field", "a usual field of the oil lens is 200 µm across", [&](Flow& card) {
        platelets(card, view);
        card.gap(.8);
        polychromasia(card);
    });
}

void FieldsPart::platelets(Flow& flow, FilmView& view) {
    const bool oil = view.lens().power == 100;
    line(flow, {"platelets", "Platelets seen here", std::to_string(here_), "", 4,
                [this](const std::string& text) {
                    here_ = readCount(text);
                    session_.say("");
                },
                [this](int steps) { here_ = std::clamp(here_ + steps, 0, mostPlatelets); }});
    flow.gap(.3);
    buttons(flow, {{"platelets.add", "Add this field",
                    oil ? [this, &view] {
                        fields_.push_back({view.area(), here_});
                        here_ = 0;
                        session_.say("Field " + std::to_string(fields_.size()) +
                                     " is added; move the film to another.");
                    } : std::function<void()>{},
                    "A", false, oil ? "Add this field" : "Add this field, at the oil lens"},
                   {"platelets.anew", "Begin anew",
                    fields_.empty() ? std::function<void()>{} : [this] { fields_.clear(); }}});
    flow.gap(.3);
    flow.small("What is seen here is " + base::rounded(view.area() / lesson::usualField, .01) +
               " of a usual field.");
    if (fields_.empty()) return;
    const lesson::PlateletFields estimate = lesson::plateletFields(fields_);
    flow.text(report::shownUnits(estimate.sentence));
    if (!estimate.field.enough()) return;
    flow.small("The machine counted " + base::rounded(report_->blood->count.platelets, 1) +
               " × 10⁹/L.");
}

void FieldsPart::polychromasia(Flow& flow) {
    std::vector<Choice> list;
    for (int grade = 0; grade <= 4; ++grade)
        list.push_back({"grade." + std::to_string(grade), lesson::gradeWords(grade),
                        grade_ == grade, [this, grade] { grade_ = grade; }});
    flow.small("Polychromasia in the monolayer");
    choices(flow, "Polychromasia", list);
    if (!grade_) return;
    const lab::Slide& slide = report_->blood->slide;
    const double mean = polychromatophils(slide);
    const int truly = lesson::polychromasiaGrade(mean, slide.kind);
    flow.gap(.3);
    flow.text(lesson::gradeMark(*grade_, truly).sentence + " On this film a usual field holds " +
              base::rounded(mean, mean < 10 ? .1 : 1) + " on average.");
}

} // namespace cistern::desk
