#include "lesson/film_tally.h"

#include "base/statistics.h"

#include <algorithm>
#include <stdexcept>

namespace cistern::lesson {

namespace {

constexpr double confidence = 0.95;
constexpr int usual = 100, longest = 200; // white cells of a tally. Common practice
constexpr std::array<std::string_view, tallyClassCount> classNames{
    "segmented neutrophils", "bands",    "metamyelocytes", "lymphocytes", "monocytes",
    "eosinophils",           "basophils"};

bool isTallyName(lab::FilmCell cell) {
    return std::find(tallyNames.begin(), tallyNames.end(), cell) != tallyNames.end();
}

ClassCounts countsBy(const std::vector<Told>& told, bool joined, lab::FilmCell Told::*member) {
    ClassCounts counts{};
    for (const Told& one : told)
        if (const auto kind = classOf(one.*member, joined))
            ++counts[static_cast<std::size_t>(*kind)];
    return counts;
}

} // namespace

std::vector<TallyClass> tallyClasses(bool joined) {
    std::vector<TallyClass> kinds;
    for (std::size_t i = 0; i < tallyClassCount; ++i) {
        const auto kind = static_cast<TallyClass>(i);
        if (!joined || kind != TallyClass::metamyelocyte) kinds.push_back(kind);
    }
    return kinds;
}

std::string_view name(TallyClass kind, bool joined) {
    if (joined && kind == TallyClass::band) return "bands and younger";
    return classNames.at(static_cast<std::size_t>(kind));
}

std::optional<TallyClass> classOf(lab::FilmCell cell, bool joined) {
    using lab::FilmCell;
    switch (cell) {
    case FilmCell::segmented:
        return TallyClass::segmented;
    case FilmCell::band:
        return TallyClass::band;
    case FilmCell::metamyelocyte:
        return joined ? TallyClass::band : TallyClass::metamyelocyte;
    case FilmCell::lymphocyte:
    case FilmCell::reactiveLymphocyte:
        return TallyClass::lymphocyte;
    case FilmCell::monocyte:
        return TallyClass::monocyte;
    case FilmCell::eosinophil:
        return TallyClass::eosinophil;
    case FilmCell::basophil:
        return TallyClass::basophil;
    default:
        return std::nullopt;
    }
}

FilmTally::FilmTally(int end, bool joined) : end_(end), joined_(joined) {
    if (end != usual && end != longest)
        throw std::invalid_argument("A tally ends at 100 or at 200 white cells.");
}

std::string FilmTally::add(const Told& told) {
    if (full())
        return "The tally is full at " + std::to_string(end_) + " white cells: take one back" +
               (end_ < longest ? ", or go on to " + std::to_string(longest) + "." : ".");
    if (!isTallyName(told.said))
        return "A tally of white cells has no place for this: " +
               std::string(lab::name(told.said)) + ".";
    if (has(told.cell)) return "This cell was counted already.";
    told_.push_back(told);
    return "";
}

std::optional<Told> FilmTally::takeBack() {
    if (told_.empty()) return std::nullopt;
    const Told last = told_.back();
    told_.pop_back();
    return last;
}

void FilmTally::goOn() {
    end_ = longest;
}

int FilmTally::counted() const {
    return static_cast<int>(std::count_if(
        told_.begin(), told_.end(), [](const Told& one) { return classOf(one.said).has_value(); }));
}

bool FilmTally::has(std::uint64_t cell) const {
    return std::any_of(told_.begin(), told_.end(),
                       [&](const Told& one) { return one.cell == cell; });
}

ClassCounts FilmTally::counts() const {
    return countsBy(told_, joined_, &Told::said);
}

ClassCounts FilmTally::met() const {
    return countsBy(told_, joined_, &Told::truly);
}

int FilmTally::saidToBe(lab::FilmCell cell) const {
    return static_cast<int>(std::count_if(told_.begin(), told_.end(),
                                          [&](const Told& one) { return one.said == cell; }));
}

double FilmTally::nucleatedPer100() const {
    const int cells = counted();
    return cells > 0 ? 100. * nucleated() / cells : 0;
}

std::vector<TallyLine> FilmTally::lines(std::optional<double> white) const {
    const int cells = counted();
    std::vector<TallyLine> lines;
    if (cells == 0) return lines;
    const ClassCounts all = counts();
    for (const TallyClass kind : tallyClasses(joined_)) {
        TallyLine line;
        line.kind = kind;
        line.name = lesson::name(kind, joined_);
        line.count = all[static_cast<std::size_t>(kind)];
        line.percent = 100. * line.count / cells;
        const auto [low, high] = base::shareLimits(line.count, cells, confidence);
        line.exact = {100 * low, 100 * high};
        line.printed = lab::printedLimits(line.count, cells);
        if (white) line.absolute = corrected(*white) * line.count / cells;
        lines.push_back(line);
    }
    return lines;
}

double FilmTally::corrected(double white) const {
    const double nucleated = nucleatedPer100();
    return lab::needsCorrection(nucleated) ? lab::correctedWhite(white, nucleated) : white;
}

TallyTruth tallyTruth(const lab::Slide& slide, lab::Reach monolayer) {
    TallyTruth truth;
    truth.kind = slide.kind;
    truth.nucleated = slide.nucleated;
    truth.monolayer = monolayer;
    double sum = 0;
    for (const lab::FilmCell cell : lab::filmCells())
        if (const auto kind = classOf(cell)) {
            truth.share[static_cast<std::size_t>(*kind)] += slide.of(cell);
            sum += slide.of(cell);
        }
    if (!(sum > 0)) return truth;
    for (double& share : truth.share) share /= sum;
    // As many segmented as bands are doubtful; either may be called the other.
    const double unsure = slide.doubtful * slide.of(lab::FilmCell::band) / sum;
    truth.unsure[static_cast<std::size_t>(TallyClass::segmented)] = unsure;
    truth.unsure[static_cast<std::size_t>(TallyClass::band)] = unsure;
    return truth;
}

} // namespace cistern::lesson
