#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::drawing {

/// From values to positions, linear or by logarithm. A value that a logarithm cannot take, or that
/// lies off the axis, is drawn at its nearer end.
struct Axis {
    double low = 0, high = 1;     ///< values at the two ends, low < high
    double start = 0, length = 1; ///< position of `low`, and from there to `high` (may be negative)
    bool logarithmic = false;     ///< then low > 0
    double position(double value) const;
};

struct Tick {
    double value = 0;
    double at = 0; ///< position along the axis
    std::string words;
};

/// Room that the words of a tick take along the axis.
using Room = std::function<double(std::string_view words)>;

/// Round values of a level axis, as many as leave `room` from one to the next; `words` turns a
/// value into its label.
std::vector<Tick> levelTicks(const Axis& axis, double room,
                             const std::function<std::string(double)>& words);

/// Round times [h] in hours, days, weeks or months by the span of the axis, counted from hour 0 and
/// as dense as their labels leave room for. Hour 0 reads `zero`. A month is 730.5 h (a year / 12).
std::vector<Tick> timeTicks(const Axis& axis, const Room& room, std::string_view zero);

/// Finer steps between those of timeTicks, without words.
std::vector<Tick> minorTimeTicks(const Axis& axis, const std::vector<Tick>& major);

/// A moment in the unit that suits a span [h]: "36 h", "−2.5 d", "14 wk", "8 mo".
std::string timeWords(double hour, double span);

/// A number for an axis: so many digits at most, no idle zeros, minus as printed (U+2212).
std::string tickNumber(double value, int digits);

/// Moves blocks of the given heights as little as can be (least squares) so that they stand in
/// order without overlap inside [top, bottom]; returns their middles, in the order given. `wanted`
/// are the middles asked for. If the blocks are higher than the room together, they start at the
/// top and run over.
std::vector<double> spread(const std::vector<double>& wanted, const std::vector<double>& heights,
                           double top, double bottom);

} // namespace cistern::drawing
