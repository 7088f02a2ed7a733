#pragma once
#include "drawing/vessel.h"

/// The earthenware of the vessel: a turned jar, seen a little from above. Its wall has pores and
/// may have crumbled from the lip down. Heights along it are shares: 0 at the foot, 1 at the lip.
namespace cistern::drawing {

class Jar {
public:
    /// `foot` is the middle of the foot, `height` from there to the lip [px], `work` the share of
    /// the wall that stands (0..1), `leak` the fold (0..100).
    Jar(Point foot, double height, double work, double leak);

    /// The whole jar with what is gone.
    Box bounds() const;
    /// Where the sound wall ends, before its teeth; 0 if nothing stands.
    double standing() const { return standing_; }
    /// Those in the sound wall, from the foot up. Their area together is exactly in proportion to
    /// height² x work x leak; their number follows the work.
    const std::vector<Pore>& pores() const { return pores_; }
    /// Half the width of the foot [px].
    double footing() const;
    /// From the middle of an ellipse to its front, over half its width.
    static double tilt();
    /// Everything of the jar, without its shards.
    Group group() const;

private:
    Point foot_;
    double height_, work_, leak_, standing_ = 0;
    std::vector<Pore> pores_;
    std::vector<double> heights_; ///< of the pores, as shares
    std::vector<double> turns_;   ///< of the pores

    /// On the wall: `turn` runs from -1 (left edge) to 1 (right edge); `side` is 1 on the front
    /// half, -1 on the back.
    Point on(double up, double turn, double side) const;
    Path silhouette(double side) const;
    Path fromTurn(double turn, double edge) const;
    std::vector<Point> ragged(double side) const;
    Path under(const std::vector<Point>& edge) const;
    Group half(double side) const;
    void ghost(Group& group) const;
    void front(Group& group) const;
    void rings(Group& group) const;
    void holes(Group& group) const;
    void wet(Group& group, std::size_t pore) const;
    void brokenEdge(Group& group) const;
};

} // namespace cistern::drawing
