#pragma once
#include "desk/pages/film_view.h"
#include "desk/session.h"
#include "lesson/film_fields.h"

#include <optional>
#include <vector>

/// What is judged field by field on the page Film: platelets and polychromasia.
namespace cistern::desk {

class FieldsPart {
public:
    explicit FieldsPart(Session& session) : session_(session) {}
    void follow(const lab::Report& report) { report_ = &report; }
    void open(); ///< another film: nothing is counted
    void build(Flow& flow, FilmView& view);

private:
    Session& session_;
    const lab::Report* report_ = nullptr;
    std::vector<lesson::FieldCount> fields_;
    int here_ = 0;             ///< platelets counted in what is seen
    std::optional<int> grade_; ///< of polychromasia, said

    void platelets(Flow& flow, FilmView& view);
    void polychromasia(Flow& flow);
};

} // namespace cistern::desk
