#pragma once
#include "desk/session.h"
#include "desk/sheet.h"
#include "lab/specimen/choices.h"

#include <optional>
#include <string>

namespace cistern::desk {

/// How the blood of a draw is handled: everything that can be done otherwise, with handles. A drag
/// is one change, made when the handle is let go.
class HandlingPart {
public:
    explicit HandlingPart(Session& session) : session_(session) {}

    /// The tubes as they stand, each with a handle for its fill.
    void tubes(Flow& flow, std::size_t draw);
    /// Handles for one part of the work at a time.
    void handles(Flow& flow, std::size_t draw);

private:
    struct Draft {
        std::string what;
        double value = 0;
    };
    void set(std::size_t draw, const std::string& what, double value);
    void knob(Flow& flow, std::size_t draw, const lab::Choice& choice);

    Session& session_;
    std::string part_ = "needle";
    bool spun_ = true;
    std::optional<Draft> draft_;
};

} // namespace cistern::desk
