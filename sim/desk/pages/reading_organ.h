#pragma once
#include "desk/pages/reading_plane.h"
#include "desk/session.h"
#include "desk/sheet.h"

#include <array>
#include <optional>

namespace cistern::desk {

/// The card on which leak and work of each organ are answered: a plane on which both bands can be
/// drawn and moved, a slider for each, and their numbers. A drag keeps a draft here and acts once.
class OrganCard {
public:
    explicit OrganCard(Session& session) : session_(session) {}

    /// `explained`: with what helps to answer.
    void build(Flow& flow, bool explained);
    /// Another lesson has begun.
    void forget();

private:
    /// What a pull or an arrow does to an answer: from where to where, in steps of leak and work.
    using Change = std::function<lesson::OrganAnswer(const lesson::OrganAnswer& start,
                                                     const Places& from, const Places& to)>;
    struct Pull {
        Places from;
        lesson::OrganAnswer start;
    };

    void tabs(Flow& card);
    void planeWithHandles(Flow& card);
    void handle(Sheet& sheet, const PlaneSpot& spot, const drawing::PlaneScale& scale,
                const Change& change, bool drawn);
    void question(Flow& card, Asked asked, bool explained);
    void bandSlider(Flow& card, Asked asked, const lesson::Band& band);
    void numbers(Flow& card, Asked asked, const lesson::Band& band);

    lesson::OrganAnswer kept() const;
    const lesson::OrganAnswer& shown() const { return draft_ ? *draft_ : kept_; }
    void pull(const Places& at, Grip grip, const Change& change);
    void step(const Places& by, const Change& change);
    void write(Asked asked, BandPart part, const std::string& text);
    void answer(const lesson::OrganAnswer& to);
    std::string id(Asked asked, BandPart part) const;

    Session& session_;
    std::size_t chosen_ = 0;
    body::Tissue organ_{};
    lesson::OrganAnswer kept_;
    std::optional<Pull> pull_;
    std::optional<lesson::OrganAnswer> draft_;
};

/// One band in words: "Leak: 5 fold (0.5 to 50)".
std::string told(Asked asked, const std::optional<lesson::Band>& band);

} // namespace cistern::desk
