#pragma once
#include "lesson/case.h"

#include <optional>
#include <string_view>
#include <vector>

/// Free play: one organ of a plain animal and three handles. What drips into the blood is the
/// body's own law of release; the level follows it by the half-life in plasma.
namespace cistern::lesson {

/// Where the handles stand.
struct Handles {
    double leak = 1;     ///< release per living gram, fold of healthy, leastLeak..mostLeak
    double work = 1;     ///< share of the healthy organ that functions, 0..mostWork
    double halfLife = 1; ///< of the marker in plasma [h], leastHalfLife..mostHalfLife
    bool operator==(const Handles&) const = default;

    static constexpr double leastLeak = 0.3, mostLeak = 100, mostWork = 1.2;
    static constexpr double leastHalfLife = 1, mostHalfLife = 240;
};

/// An organ that leaks into blood, in the plain animal of a species. Levels in the model's unit.
struct LeakingOrgan {
    body::Kind kind{};
    body::Tissue tissue{};
    body::Analyte marker{};
    double released = 0; ///< level that its healthy release holds
    double others = 0;   ///< level that all else in the body holds
    double gain = 1;     ///< rise of its release, over healthy, per fold of leak above 1
    double halfLife = 0; ///< in plasma of the species [h]
    lab::Interval interval;

    Handles healthy() const { return {1, 1, halfLife}; }
    /// What it gives to plasma in an hour, as a concentration [unit/h]. An organ that leaks less
    /// than in health gives in proportion.
    double release(const Handles& handles) const;
    /// The level at which as much leaves as enters.
    double held(const Handles& handles) const;
    /// The leak at which this much work holds this level in the end; none within the handle's
    /// range.
    std::optional<double> leakHolding(double level, const Handles& at) const;
};

/// None if what works of the organ is not what leaks, or if the laboratory has no method or
/// interval for its marker in the species.
std::optional<LeakingOrgan> leakingOrgan(const Knowledge& knowledge, body::Kind kind,
                                         body::Tissue tissue);
/// All that there are in a species.
std::vector<LeakingOrgan> leakingOrgans(const Knowledge& knowledge, body::Kind kind);

/// One organ on the move. Begins healthy.
class FreePlay {
public:
    explicit FreePlay(const LeakingOrgan& organ);

    const LeakingOrgan& organ() const { return organ_; }
    const Handles& handles() const { return handles_; }
    /// Throws std::invalid_argument, naming the handle, for one out of its range.
    void turn(const Handles& handles);

    double level() const { return level_; }
    /// Where the level goes.
    double held() const { return organ_.held(handles_); }
    /// Lets hours pass, 0 or more: the level nears where it goes by half within each half-life.
    void pass(double hours);
    /// Lets so much time pass that nothing moves any more.
    void settle() { level_ = held(); }

    /// What the organ gives in an hour, and what leaves of it; equal once the level stands. What
    /// all else gives, and as much of what leaves, is in neither [unit/h].
    double entering() const { return organ_.release(handles_); }
    double leaving() const;

private:
    LeakingOrgan organ_;
    Handles handles_;
    double level_;
};

/// What can be said of it in plain words. The first twelve tell what the number means, one at a
/// time; the others what it leaves out, how it moves and how fast it is cleared.
enum class Remark {
    healthy,   // nothing to see, nothing wrong
    low,       // a low number, which by itself means little
    quietLeak, // leaks, but too little to be seen
    fastDrain, // leaks, but is cleared too fast to be seen
    quietHurt, // part is gone and the number does not tell
    quietSpent,
    notYet,    // will be high
    highSound, // leaks, works
    highHurt,
    highSpent,
    slowDrain, // high only because it is cleared slowly
    afterLeak, // still high, after the leak

    partGone, // and of that the number will not tell

    rising,
    falling,
    fallsWhileWorse, // because there is less and less to leak
    settled,

    slowerThanSpecies,
    fasterThanSpecies,
    asInSpecies
};
inline constexpr int remarkCount = 20;
std::string_view name(Remark remark); // "high and sound", as the wording spells it

/// What is true now, in the order to be said.
std::vector<Remark> remarks(const FreePlay& play);

} // namespace cistern::lesson
