#include "desk/pages/film_tally.h"

#include "base/text.h"
#include "desk/widgets/button.h"
#include "desk/widgets/line.h"
#include "desk/widgets/table.h"
#include "drawing/film/nucleated.h"
#include "drawing/film/paint.h"
#include "report/words.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>
#include <string_view>

namespace cistern::desk {

using drawing::film::Cell;
using lab::FilmCell;

namespace {

constexpr int least = 10; // cells, from which a tally may be marked

/// Letters that work something else on this page or on every page.
constexpr std::string_view pageKeys = "adflmntvwxz";

/// Keys in the order of the names, and read back: none of them a key of the page.
std::string keysText(const lesson::TallyKeys& keys) {
    return {keys.key.begin(), keys.key.end()};
}
lesson::TallyKeys keysFrom(const std::string& text) {
    lesson::TallyKeys keys;
    if (text.size() != keys.key.size())
        throw std::invalid_argument("\"" + text + "\" is " + std::to_string(text.size()) +
                                    " keys; a tally needs " + std::to_string(keys.key.size()) +
                                    ", one for each name from the top.");
    std::transform(text.begin(), text.end(), keys.key.begin(), [](unsigned char key) {
        return static_cast<char>(std::tolower(key)); // either case is the same key
    });
    lesson::validate(keys);
    for (const char key : keys.key)
        if (pageKeys.find(key) != std::string_view::npos)
            throw std::invalid_argument("Keys of the tally: \"" + std::string(1, key) +
                                        "\" is a key of the page already.");
    return keys;
}

std::string percentWords(double percent) {
    return base::rounded(percent, 1) + " %";
}

std::string marksOf(const Cell& cell) {
    const std::uint16_t all = drawing::film::shaped(cell).marks;
    std::string out;
    for (const std::uint16_t one : lab::cellMarks)
        if (all & one) out += (out.empty() ? "" : ", ") + std::string(lab::markName(one));
    return out;
}

} // namespace

void TallyPart::open(std::size_t draw) {
    draw_ = draw;
    const lab::Slide& slide = report_->blood->slide;
    truth_ = lesson::tallyTruth(slide);
    work_ = filmWork(session_.film(draw), slide).value_or(FilmWork{});
    both_.reset();
    chosen_.reset();
}

void TallyPart::changed() {
    both_.reset();
    session_.keepFilm(draw_, toText(work_, report_->blood->slide));
}

void TallyPart::say(FilmCell kind, const std::function<void()>& next) {
    if (work_.marked) return session_.say("This tally is marked; a second one may be counted.");
    if (!chosen_) return session_.say("Press a nucleated cell first, or N for the next one.");
    if (!drawing::film::nucleated(chosen_->kind))
        return session_.say("This is no nucleated cell; a tally counts white cells.");
    const std::string why =
        work_.tally.add({chosen_->kind, kind, chosen_->has(lab::mark::doubtful), chosen_->seed,
                         static_cast<double>(chosen_->x), static_cast<double>(chosen_->y)});
    session_.say(why);
    if (!why.empty()) return;
    changed();
    if (work_.tally.full())
        session_.say(std::to_string(work_.tally.end()) +
                     " cells are told; the tally can be marked.");
    else if (byItself_)
        next();
}

void TallyPart::build(Flow& flow, const std::function<void()>& next) {
    const int counted = work_.tally.counted();
    flow.card("Tally",
              std::to_string(counted) + " of " + std::to_string(work_.tally.end()) + " white cells",
              [&](Flow& card) {
                  chosenCell(card);
                  classes(card, next);
                  card.gap(.5);
                  doings(card, next);
              });
}

void TallyPart::chosenCell(Flow& flow) {
    if (!chosen_) {
        flow.small("Press a nucleated cell in the field, or N for the next one, then its key.");
        return flow.gap(.3);
    }
    if (!work_.marked) {
        const bool told = work_.tally.has(chosen_->seed);
        flow.small(told ? "The ringed cell is counted. What it truly is, is told once the tally "
                          "is marked."
                        : "What is the ringed cell?");
        return flow.gap(.3);
    }
    const std::string also = marksOf(*chosen_);
    flow.write(report::capital(std::string(lab::name(chosen_->kind))) +
                   (also.empty() ? "" : ", " + also),
               flow.letters().strong);
    flow.small(report::shownUnits(std::string(lab::telling(chosen_->kind, chosen_->animal))));
    flow.gap(.4);
}

void TallyPart::classes(Flow& flow, const std::function<void()>& next) {
    const lesson::TallyKeys& keys = session_.settings().keys;
    const auto white = report_->blood->count.white;
    const std::vector<lesson::TallyLine> lines = work_.tally.lines(white);
    std::vector<std::vector<std::string>> rows;
    std::vector<FilmCell> kinds;
    for (const FilmCell kind : lesson::tallyNames) {
        if (work_.tally.joined() && kind == FilmCell::metamyelocyte) continue;
        kinds.push_back(kind);
        std::vector<std::string> row{std::string(1, keys.of(kind)), std::string(lab::name(kind))};
        const auto own = lesson::classOf(kind, work_.tally.joined());
        const bool apart = kind == FilmCell::reactiveLymphocyte;
        const auto line = std::find_if(lines.begin(), lines.end(), [&](const auto& one) {
            return own && !apart && one.kind == *own;
        });
        if (line != lines.end()) {
            row.push_back(std::to_string(line->count));
            row.push_back(percentWords(line->percent));
            row.push_back(std::to_string(line->printed.first) + " to " +
                          std::to_string(line->printed.second));
            row.push_back(line->absolute ? base::rounded(*line->absolute, .1) : "");
        } else
            row.push_back(std::to_string(work_.tally.saidToBe(kind)));
        rows.push_back(std::move(row));
    }
    const std::vector<Box> boxes = table(flow,
                                         {{"key", .35},
                                          {"cell", 2.2},
                                          {"n", .45, true},
                                          {"%", .6, true},
                                          {"95 %", 1.05, true},
                                          {"10⁹/L", .6, true}},
                                         rows);
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        Control control{"tally." + std::string(lab::name(kinds[i])), Control::Kind::button,
                        report::capital(std::string(lab::name(kinds[i]))) + ": " +
                            std::to_string(work_.tally.saidToBe(kinds[i])) + " counted",
                        boxes[i]};
        control.key = report::capital(std::string(1, keys.of(kinds[i])));
        control.press = [this, kind = kinds[i], next] { say(kind, next); };
        flow.sheet().add(std::move(control));
    }
}

void TallyPart::doings(Flow& flow, const std::function<void()>& next) {
    const bool can = work_.tally.counted() >= least;
    std::vector<Button> list{{"next", "Next cell", next, "N", !work_.tally.full()}};
    list.push_back({"back", "Take back",
                    work_.tally.told().empty() || work_.marked ? std::function<void()>{} : [this] {
                        const auto last = work_.tally.takeBack();
                        changed();
                        session_.say(last ? "The last cell is taken back." : "");
                    },
                    "X"});
    if (work_.tally.end() == 100 && !work_.marked)
        list.push_back({"to200", "On to 200", [this, next] {
                            const bool full = work_.tally.full();
                            work_.tally.goOn();
                            changed();
                            if (full && byItself_) next();
                        }});
    if (!work_.marked)
        list.push_back({"mark", "Mark it",
                        can ? [this] {
                            work_.marked = true;
                            changed();
                        } : std::function<void()>{}, "", can,
                        can ? "Mark it" : "Mark it, from " + std::to_string(least) + " cells on"});
    else
        list.push_back({"again", "Count a second time", [this] {
                            work_.before.push_back(work_.tally);
                            work_.tally =
                                lesson::FilmTally(work_.tally.end(), work_.tally.joined());
                            work_.marked = false;
                            chosen_.reset();
                            changed();
                            session_.say("A second tally of the same film: will it be the same?");
                        }});
    buttons(flow, list);
    flow.gap(.3);
    ticks(flow, "Tally",
          {{"itself", "on to the next by itself", byItself_, [this] { byItself_ = !byItself_; }},
           {"joined", "bands with younger", work_.tally.joined(),
            [this] {
                work_.tally.join(!work_.tally.joined());
                changed();
            }},
           {"keys", "other keys", keysShown_, [this] { keysShown_ = !keysShown_; }}});
    if (!keysShown_) return;
    flow.gap(.3);
    line(flow, {"keys.text", "Keys, from the top", keysText(session_.settings().keys), "", 9,
                [this](const std::string& text) {
                    Settings settings = session_.settings();
                    settings.keys = keysFrom(text);
                    session_.set(settings);
                    session_.say("");
                }});
}

std::set<std::uint64_t> TallyPart::told() const {
    std::set<std::uint64_t> out;
    for (const lesson::Told& one : work_.tally.told()) out.insert(one.cell);
    return out;
}

std::vector<Ring> TallyPart::rings() const {
    constexpr double wider = 1, usual = 8; // [um]
    std::vector<Ring> out;
    for (const lesson::Told& one : work_.tally.told())
        if (!(chosen_ && chosen_->seed == one.cell)) out.push_back({{one.x, one.y}, usual, false});
    if (chosen_)
        out.push_back({{static_cast<double>(chosen_->x), static_cast<double>(chosen_->y)},
                       static_cast<double>(chosen_->radius) + wider,
                       true});
    return out;
}

} // namespace cistern::desk
