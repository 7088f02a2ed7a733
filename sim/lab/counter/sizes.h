#pragma once
#include "base/chance.h"

#include <array>
#include <cstddef>

namespace cistern::lab {

/// Pulses by size: channels whose edges rise by the twelfth root of two, from 2 fL to 512 fL.
class Sizes {
public:
    static constexpr std::size_t channels = 96, perDoubling = 12;
    static constexpr double least = 2; // [fL]

    static double edge(std::size_t channel);   ///< lower edge [fL]; of `channels`: the last upper
    static double middle(std::size_t channel); ///< geometric middle [fL]
    /// The channel whose lower edge lies nearest to a size [fL].
    static std::size_t nearest(double size);

    /// Expects `pulses` more, their sizes log-normal about a median [fL] with a standard deviation
    /// of the logarithm. What falls outside all channels is lost.
    void expect(double pulses, double median, double spread);
    /// Draws what is met of what is expected, channel by channel.
    Sizes met(base::Chance& chance) const;

    double pulses(std::size_t from, std::size_t to) const; ///< in channels [from, to)
    double mean(std::size_t from, std::size_t to) const;   ///< [fL]; 0 if there are none
    double variation(std::size_t from,
                     std::size_t to) const; ///< coefficient of; 0 if there are none
    /// The channel at which pulses between two sizes are fewest, with their neighbors: the valley
    /// that parts platelets from red cells.
    std::size_t valley(double from, double to) const;
    const std::array<double, channels>& counts() const { return counts_; }

private:
    std::array<double, channels> counts_{};
};

/// Share of a log-normal distribution that lies below a size.
double shareBelow(double size, double median, double spread);

} // namespace cistern::lab
