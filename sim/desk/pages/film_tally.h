#pragma once
#include "desk/microscope.h"
#include "desk/pages/film_kept.h"
#include "desk/session.h"
#include "desk/sheet.h"
#include "lesson/film_tally.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

/// The tally of white cells on the page Film: counting, its marks, and "what is this?".
namespace cistern::desk {

class TallyPart {
public:
    explicit TallyPart(Session& session) : session_(session) {}

    /// Whose film it is; it may be another copy of the same report each time.
    void follow(const lab::Report& report) { report_ = &report; }
    /// Another film, of this draw of the case: goes on with what was kept of it.
    void open(std::size_t draw);
    /// A cell that was pressed, or that comes next.
    void choose(const drawing::film::Cell& cell) { chosen_ = cell; }
    const std::optional<drawing::film::Cell>& chosen() const { return chosen_; }

    /// The classes with their keys, counts and limits; `next` goes on to the next cell.
    void build(Flow& flow, const std::function<void()>& next);
    /// Marks and the differentials beside each other, once a tally is marked.
    void results(Flow& flow);
    /// Cells that were told in this tally, and rings about them and the chosen one.
    std::set<std::uint64_t> told() const;
    std::vector<Ring> rings() const;

private:
    Session& session_;
    const lab::Report* report_ = nullptr;
    lesson::TallyTruth truth_{};
    std::size_t draw_ = 0;
    FilmWork work_;
    std::optional<lesson::TallyComparison> both_; ///< the last two, once compared
    std::optional<drawing::film::Cell> chosen_;
    bool byItself_ = true, keysShown_ = false;

    void say(lab::FilmCell kind, const std::function<void()>& next);
    void classes(Flow& flow, const std::function<void()>& next);
    void doings(Flow& flow, const std::function<void()>& next);
    void chosenCell(Flow& flow);
    void columns(Flow& flow, const lesson::TallyMarks& marks);
    void confusions(Flow& flow, const lesson::TallyMarks& marks);
    void sentences(Flow& flow, const lesson::TallyMarks& marks);
    void changed(); ///< keeps it
};

} // namespace cistern::desk
