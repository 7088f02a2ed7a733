#pragma once
#include "drawing/picture.h"

#include <optional>
#include <string>

/// A specimen tube: how full, turned, clotted and spun, and how its serum looks. Plain data in,
/// marks out.
namespace cistern::drawing {

/// What the tube holds before the blood.
enum class Additive { clot, gel, edta, heparin, citrate, fluoride };

/// Every word of the drawing that is not data, for other languages.
struct TubeWords {
    std::string clotLabel = "serum clot", gelLabel = "serum gel", edta = "EDTA",
                heparin = "heparin", citrate = "citrate", fluoride = "fluoride";
    std::string full = "full", blood = "blood", serum = "serum", plasma = "plasma", gel = "gel",
                clot = "clot", cells = "cells";
    std::string pink = "pink", red = "red", yellow = "yellow", cloudy = "cloudy", milky = "milky";
    std::string turn = "turn", turns = "turns"; ///< the count stands before them
};

struct TubeView {
    std::string name; ///< "serum"; may be empty
    Additive additive = Additive::clot;
    double fill = 1;      ///< blood over the nominal amount, 0 to 1.1
    bool spun = false;    ///< in layers, heaviest lowest
    double cells = 0.45;  ///< share of the blood that is cells or clot once spun, 0 to 1
    double hemolysis = 0; ///< 0 none to 1 cherry red
    double icterus = 0;   ///< 0 none to 1 deep yellow
    double lipemia = 0;   ///< 0 clear to 1 like milk
    /// Share of the clot that has formed, 0 to 1. Spun too soon, fibrin that was left over hangs in
    /// the serum as strands; in a tube that should not clot, every clot does.
    double clot = 0;
    std::optional<int> turns; ///< times turned over; none: not told
    std::string caption;      ///< under the name, broken to the box
    double textScale = 1;     ///< letters shrink where the box has no room for them
    /// Height kept for the words below, so that tubes side by side stand alike: the most that any
    /// of them needs, which is the box's bottom less the glass's. 0: what this one needs.
    double wordsHeight = 0;
    TubeWords words;
};

/// Where things stand, for pointers and focus.
struct TubePlaces {
    Box cap;                       ///< the stopper
    Box glass;                     ///< its outside, stopper aside
    Box inside;                    ///< where blood may be, up to 1.1 of nominal
    Box liquid;                    ///< where blood is; no height if there is none
    Box label;                     ///< on the glass, over the blood
    double nominal = 0;            ///< y of the line up to which it should be filled
    double fillAt(double y) const; ///< the fill if the blood stood so high, 0 to 1.1
};

/// Most of a tube that can be filled, over its nominal amount.
inline constexpr double mostFill = 1.1;

/// Places all; throws std::invalid_argument with one sentence if the view cannot be drawn: a share
/// out of its range or not a number, a box less than 60 wide or 150 high.
TubePlaces tubePlaces(const TubeView& view, const Box& box);

/// The tube in its box, with its words under it, and beside it where the box is wide enough. Its
/// levels are shares of height: the round bottom is not reckoned. Throws as tubePlaces() does.
Group tube(const TubeView& view, const Box& box);

/// What the tube shows, in sentences, for those who cannot see it.
std::string words(const TubeView& view);

} // namespace cistern::drawing
