#pragma once
#include "desk/session.h"
#include "desk/sheet.h"
#include "lesson/film_drill.h"

#include <memory>
#include <optional>

/// Single cells to be named, on the page Film.
namespace cistern::desk {

class DrillPart {
public:
    explicit DrillPart(Session& session) : session_(session) {}
    void build(Flow& flow);

private:
    Session& session_;
    std::optional<lesson::FilmDrill> drill_;
    std::optional<lesson::DrillQuestion> asked_; ///< that is shown
    std::optional<lesson::DrillReply> reply_;
    lab::FilmCell said_{};
    std::shared_ptr<const drawing::Pixels> picture_;

    lesson::FilmDrill& drill();
    void ask();
    void answer(lab::FilmCell said);
    void keep();
    void question(Flow& flow);
    void answers(Flow& flow);
    void progress(Flow& flow);
};

} // namespace cistern::desk
