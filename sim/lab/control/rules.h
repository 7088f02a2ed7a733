#pragma once
#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::lab {

/// Rules of a control chart, by the names the trade gives them. A score is how many standard
/// deviations a control lies from its mean; "beyond" is more than. Sources: Westgard and others
/// 1981, Clin Chem 27:493 (from memory); lessons on multirule control.
enum class Rule {
    warning,   ///< 1-2s: one beyond 2 SD; look, do not reject
    oneThree,  ///< 1-3s: one beyond 3 SD
    twoTwo,    ///< 2-2s: two in a row beyond the same 2 SD
    rangeFour, ///< R-4s: in one run one beyond +2 SD and another beyond -2 SD
    fourOne,   ///< 4-1s: four in a row beyond the same 1 SD
    ten        ///< 10-x: ten in a row on one side of the mean
};
inline constexpr int ruleCount = 6;
constexpr std::array<Rule, ruleCount> rules() {
    return {Rule::warning, Rule::oneThree, Rule::twoTwo, Rule::rangeFour, Rule::fourOne, Rule::ten};
}

/// "1-2s", "1-3s", "2-2s", "R-4s", "4-1s", "10-x".
std::string_view name(Rule rule);
/// What the rule finds: "two controls in a row beyond the same 2 SD".
std::string_view words(Rule rule);

/// What kind of error a rule answers to. Source: lessons on multirule control.
enum class ErrorKind { warning, random, systematic };
ErrorKind kind(Rule rule);
/// What a broken rule speaks for, in a sentence; never what is the matter.
std::string_view speaksFor(ErrorKind kind);

/// A set of rules.
class Rules {
public:
    constexpr bool has(Rule rule) const { return (bits_ & bit(rule)) != 0; }
    constexpr void add(Rule rule) { bits_ = static_cast<std::uint8_t>(bits_ | bit(rule)); }
    constexpr bool empty() const { return bits_ == 0; }
    /// Any but the warning.
    constexpr bool reject() const { return (bits_ & ~bit(Rule::warning)) != 0; }
    bool operator==(const Rules&) const = default;

private:
    std::uint8_t bits_ = 0;
    static constexpr std::uint8_t bit(Rule rule) {
        return static_cast<std::uint8_t>(1u << static_cast<unsigned>(rule));
    }
};

/// A rule that the last run breaks, where and since when.
struct Break {
    Rule rule{};
    int material = 0;           ///< from 0; `all` if the materials of a run break it together
    int side = 0;               ///< +1 above the mean, -1 below; 0 for R-4s
    std::uint64_t sinceRun = 0; ///< the first run of those that break it, from 0
    static constexpr int all = -1;
    bool operator==(const Break&) const = default;
};

/// How R-4s is read. `range` counts any two of a run more than 4 SD apart: it rejects sound runs
/// four and a half times as often.
enum class RangeRule { opposite, range };

inline constexpr std::size_t mostMaterials = 4;

/// Watches the runs of one analyte's controls, in order. Rules over several runs are applied to
/// each material alone, and to whole runs in which all materials agree (2-2s in one run of two,
/// 4-1s in two, 10-x in five). No rule waits for the warning.
class Watch {
public:
    /// Throws std::invalid_argument unless there are 1 to 4 materials.
    explicit Watch(std::size_t materials, RangeRule range = RangeRule::opposite);

    /// The rules that this run breaks. One score for each material. Throws std::invalid_argument
    /// for another number of them or a score that is not finite.
    Rules next(std::span<const double> scores);

    /// The same of the last run, one by one: which material, which side, since when.
    std::vector<Break> breaks() const;
    /// Runs up to the last in which every control of a material lay on one side of its mean;
    /// `Break::all`: in which all of them lay on the same.
    std::uint64_t oneSided(int material) const;

    std::uint64_t runs() const { return runs_; }
    void startAnew(); ///< as if no run had been

private:
    /// How long scores have stayed beyond a limit on one side.
    struct Streak {
        int side = 0;
        std::uint32_t length = 0;
        void take(int now) {
            length = now == 0 ? 0 : now == side ? length + 1 : 1;
            side = now;
        }
    };
    /// Of one material, or of whole runs, beyond the mean, 1 SD and 2 SD.
    struct Streaks {
        Streak mean, one, two;
    };

    std::size_t materials_;
    RangeRule range_;
    std::array<Streaks, mostMaterials + 1> streaks_{}; ///< the last: all materials together
    std::array<double, mostMaterials> last_{};
    std::uint64_t runs_ = 0;
    std::array<std::uint32_t, 3> wholeRuns_{}; ///< that make up 2, 4 and 10 controls
    Rules rules_;
};

} // namespace cistern::lab
