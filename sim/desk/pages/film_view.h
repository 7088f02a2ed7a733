#pragma once
#include "desk/microscope.h"
#include "desk/sheet.h"

#include <functional>
#include <memory>
#include <optional>
#include <set>
#include <vector>

/// The stage of the microscope: where it stands, what of it is seen, how it is moved and focused.
namespace cistern::desk {

/// The tone of a slide's stain, changed as another hand at the stain would.
enum class Tone { asStained, blue, pink };

class FilmView {
public:
    /// Puts a slide under the low lens, somewhere on the film, not quite in focus. `seed` says
    /// where.
    void open(const lab::Slide& slide);
    bool isOpen() const { return lens_.slide != nullptr; }

    /// Lays out the slide and what moves it, in at most so much height [px]. `choose` is told of a
    /// cell that was pressed.
    using Choose = std::function<void(const drawing::film::Cell&)>;
    void build(Flow& flow, const Choose& choose, double room);
    /// Power, focus and tone, and the whole film with the place where the lens stands.
    void handles(Flow& flow);

    /// Glides on; true once it has arrived, for the page tells where. `still`: at once.
    bool pass(double seconds, bool still);
    bool moves() const { return goal_.has_value() || travels_; }
    const Microscope& lens() const { return lens_; }
    void ring(std::vector<Ring> rings) { lens_.rings = std::move(rings); }

    /// Where the next nucleated cell lies along the battlement track that was not told, beyond
    /// where the lens stands; nothing if none is left in this area.
    std::optional<drawing::film::Cell> nextNucleated(const std::set<std::uint64_t>& told);
    /// Brings a cell into the middle at a power that shows it.
    void bring(const drawing::film::Cell& cell);
    void setPower(int power);
    double area() const;         ///< of what is seen [um2]
    lab::FilmArea where() const; ///< the area in which the lens stands

private:
    Microscope lens_;
    lab::Slide plain_; ///< as it was stained
    Tone tone_ = Tone::asStained;
    std::optional<drawing::film::Stage> stage_;
    std::optional<Point> goal_; ///< glides there [um]
    bool travels_ = false;
    double untold_ = 0;         ///< time that it has travelled since the page told where [s]
    std::optional<Point> held_; ///< where a pointer holds it [um]
    Point taken_;               ///< where it was taken [px]
    bool pulled_ = false;
    Box overview_;
    std::shared_ptr<const drawing::Pixels> whole_;
    unsigned number_ = 0; ///< of slides and tones so far

    void whole(Flow& flow);
    void stain(Tone tone);
    void focusTo(double focus);
    void moveTo(Point middle);
    void pull(Point at, Grip grip, const Choose& choose);
    std::optional<drawing::film::Cell> at(Point place);
    double height() const;
    std::string says() const;
};

} // namespace cistern::desk
