#pragma once
#include "drawing/film/plan.h"
#include "drawing/film/texture.h"

#include <optional>
#include <vector>

/// What one patch draws by chance, before cells push one another about.
namespace cistern::drawing::film {

/// How far cells of a row or cluster may be laid beyond the patch that drew them [um]. White cells
/// and clumps lie wholly within theirs.
inline constexpr double overhang = 10;

/// One patch of a slide while cells are strewn on it.
class Patch {
public:
    Patch(const Slide& slide, const lab::Gathering& gathering, int x, int y);

    /// Adds its cells, always the same ones in the same order.
    void strew(std::vector<Cell>& cells);

private:
    struct Spot {
        float x = 0, y = 0;
        double thickness = 0; ///< of the film [um]
    };
    /// A round place that other things keep clear of.
    struct Taken {
        float x, y, radius;
    };

    Dice dice(std::uint32_t stream) const;
    Cell cell(std::uint32_t stream, int n) const;
    /// Mean count of what is held by blood in this concentration [1/um3].
    double expected(FilmCell kind, double concentration) const;
    /// A place by chance, as likely as blood is thick there, this far from the patch's borders.
    std::optional<Spot> spot(Dice& dice, double inset = 0) const;
    std::optional<Spot> clearSpot(Dice& dice, float radius, int tries) const;
    bool clear(float x, float y, float radius) const;
    double thicknessAt(double x, double y) const { return lab::thickness(slide_, x, y); }

    void strewLarge(FilmCell kind, double concentration);
    void strewWhite();
    void strewPlatelets();
    void strewPrecipitate();
    void strewRed();
    void strewSingle(Cell& cell);

    // groups.cpp
    std::size_t layGroups(std::vector<Cell>& reds);
    std::size_t layRows(std::vector<Cell>& reds, std::size_t next, double share);
    std::size_t layClusters(std::vector<Cell>& reds, std::size_t next, double share);
    void layRow(Cell* first, int count, Dice& dice);
    void layCluster(Cell* first, int count, Dice& dice);
    void putDown(Cell* first, int count, Dice& dice);

    const Slide& slide_;
    const lab::Gathering& gathering_;
    int x_, y_;
    double left_, top_;
    static constexpr int parts = 6;
    double columns_[parts]{}; ///< blood [um3]
    double blood_ = 0;        ///< [um3]
    double covered_ = 0;      ///< by film [um2]
    double most_ = 0;         ///< thickness [um]
    Spot thickest_;
    std::vector<Taken> taken_;  ///< by white cells and clumps
    std::vector<Taken> groups_; ///< by rows and clusters
    std::vector<Cell>* cells_ = nullptr;
};

} // namespace cistern::drawing::film
