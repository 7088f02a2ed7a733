#pragma once
#include <array>
#include <cstdint>

namespace cistern::base {

/// Philox 4x32-10 (Salmon and others 2011): 128 random bits from a counter and a key, no state.
std::array<std::uint32_t, 4> philox(std::array<std::uint32_t, 4> counter,
                                    std::array<std::uint32_t, 2> key);

/// What a stream of chance is for. Streams never disturb one another: a new source of noise gets a
/// new purpose and no other number changes. Values are part of the outcome of a seed: never
/// renumber.
enum class Purpose : std::uint32_t {
    setPoints = 1, // an animal's own healthy levels
    halfLives = 2,
    wobble = 3, // within-animal variation from day to day
    analyzerRun = 4,
    analyzerReading = 5,
    specimen = 6,
    patients = 7, // herd members: weight, age, sex
    variants = 8, // what a case lets vary
    needle = 9,   // clotted tubes, cells broken at the draw
    counter = 10, // cells through the aperture
    film = 11,    // cells met on a slide
    control = 12, // control materials
    bootstrap = 13,
    probe = 14,   // what the sample probe takes up
    story = 15,   // what may have happened to an animal
    adapt = 16,   // the same, near what was likely so far
    outcome = 17, // results of a test not yet run
    moving = 18,  // drops on the screen, never a number
    slide = 19,   // how a film was spread, dried and stained
    cell = 20,    // where a cell lies on a film, and its looks
    drill = 21,   // which cell is asked next
    test = 99
};

/// A stream of random numbers: the same for the same seed, animal and purpose, on every machine.
class Chance {
public:
    /// `item` separates repeats within a purpose (a draw time, an analyte).
    Chance(std::uint64_t seed, Purpose purpose, std::uint64_t animal = 0, std::uint32_t item = 0);

    double uniform(); ///< in the open interval (0, 1)
    double normal();  ///< standard normal, by the inverse of the distribution function
    /// Poisson count of this mean (>= 0): exact below 30, above it by the normal quantile with its
    /// skew (Cornish and Fisher), rounded: the mean is off by less than 0.01, the variance by less
    /// than 0.15. Throws std::invalid_argument for a mean that is negative or not finite.
    double poisson(double mean);

private:
    std::array<std::uint32_t, 2> key_;
    std::array<std::uint32_t, 4> counter_;
    std::array<std::uint32_t, 4> block_{};
    int used_ = 4;
    std::uint32_t next();
};

/// Inverse of the standard normal distribution function, p in (0, 1). Wichura 1988, algorithm AS
/// 241.
double normalQuantile(double p);

} // namespace cistern::base
