#pragma once
#include "desk/pages/reading_share.h"
#include "desk/session.h"
#include "desk/sheet.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace cistern::desk {

/// The card on which 100 points are spread over the explanations: whatever is moved, they add up. A
/// drag keeps a draft here and acts once.
class PointsCard {
public:
    explicit PointsCard(Session& session) : session_(session) {}

    /// `explained`: with what helps to answer.
    void build(Flow& flow, bool explained);
    /// Another lesson has begun.
    void forget();

private:
    struct Pull {
        std::vector<Share> start;
        double from = 0; ///< share of the track
    };

    void row(Flow& card, std::size_t index);
    void lock(Sheet& sheet, std::size_t index, const Box& at);
    std::vector<Share> kept() const;
    void pull(std::size_t index, double share, Grip grip);
    void write(std::size_t index, const std::string& text);
    void answer(const std::vector<Share>& shares);

    Session& session_;
    std::set<std::string> locked_;
    std::vector<std::string> list_;
    std::vector<Share> shown_;
    bool answered_ = false;
    std::optional<Pull> pull_;
    std::optional<std::vector<Share>> draft_;
};

/// Points as they are shown, to a tenth: "40", "16.7".
std::string shownPoints(double points);

} // namespace cistern::desk
