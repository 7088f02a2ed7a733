#pragma once
#include "lab/counter/film.h"
#include "lab/counter/pass.h"
#include "lab/film/slide.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace cistern::lesson {

/// The classes of a tally of white cells, in the order of the trade.
enum class TallyClass : std::uint8_t {
    segmented,
    band,
    metamyelocyte,
    lymphocyte, // reactive ones too
    monocyte,
    eosinophil,
    basophil
};
inline constexpr std::size_t tallyClassCount = 7;
using ClassCounts = std::array<int, tallyClassCount>;
using ClassShares = std::array<double, tallyClassCount>; ///< 0..1 each

/// All seven, or six where metamyelocytes are joined with bands.
std::vector<TallyClass> tallyClasses(bool joined);
/// "segmented neutrophils", "bands", "lymphocytes", ...; bands that are joined with metamyelocytes
/// are "bands and younger".
std::string_view name(TallyClass kind, bool joined = false);
/// Its class, where a cell belongs to the hundred; a nucleated red cell or a smudge has none.
std::optional<TallyClass> classOf(lab::FilmCell cell, bool joined = false);

/// What may be said of a cell in a tally, in the order of the trade: white cells with reactive
/// lymphocytes apart, nucleated red cells (counted beside), smudges (passed over).
inline constexpr std::array<lab::FilmCell, 10> tallyNames{
    lab::FilmCell::segmented,          lab::FilmCell::band,
    lab::FilmCell::metamyelocyte,      lab::FilmCell::lymphocyte,
    lab::FilmCell::reactiveLymphocyte, lab::FilmCell::monocyte,
    lab::FilmCell::eosinophil,         lab::FilmCell::basophil,
    lab::FilmCell::nucleatedRed,       lab::FilmCell::smudge};

/// One cell of a slide that was named.
struct Told {
    lab::FilmCell truly{}, said{};
    bool doubtful = false;  ///< between segmented and band: either name is right
    std::uint64_t cell = 0; ///< which one on the slide
    double x = 0, y = 0;    ///< where it lies [um]
};

/// One class of a tally, worked out.
struct TallyLine {
    TallyClass kind{};
    std::string_view name;
    int count = 0;
    double percent = 0;              ///< of the cells counted so far
    std::pair<double, double> exact; ///< 95 % limits [%], Clopper and Pearson
    std::pair<int, int> printed;     ///< the same as tables print them [%]
    std::optional<double> absolute;  ///< [10*9/L], where a white count was given
};

/// A tally of white cells up to a hundred or two hundred. Plain data; the truth is taken along and
/// never shown before the marks.
class FilmTally {
public:
    /// `end` is 100 or 200; `joined` counts metamyelocytes with bands. Throws std::invalid_argument
    /// for another end.
    explicit FilmTally(int end = 100, bool joined = false);

    /// Takes a cell, or tells in one sentence why not: it was told before, the tally is full, or
    /// the name is none of a tally. Empty if it was taken.
    std::string add(const Told& told);
    /// Takes the last cell back and gives it, if there is one.
    std::optional<Told> takeBack();
    /// Goes on to two hundred.
    void goOn();

    int end() const { return end_; }
    bool joined() const { return joined_; }
    void join(bool joined) { joined_ = joined; }
    int counted() const; ///< cells of the hundred so far
    bool full() const { return counted() >= end_; }
    bool has(std::uint64_t cell) const;                     ///< it was told before
    const std::vector<Told>& told() const { return told_; } ///< in the order of telling

    ClassCounts counts() const; ///< as said
    /// Every white cell told, as it truly is: also those passed over or taken for something else.
    ClassCounts met() const;
    int saidToBe(lab::FilmCell cell) const;
    /// Of the lymphocytes, those said to be reactive.
    int reactive() const { return saidToBe(lab::FilmCell::reactiveLymphocyte); }
    /// Nucleated red cells met beside.
    int nucleated() const { return saidToBe(lab::FilmCell::nucleatedRed); }
    /// Smudges.
    int passedOver() const { return saidToBe(lab::FilmCell::smudge); }
    double nucleatedPer100() const; ///< per 100 white cells; 0 before the first

    /// The classes in order. `white` is the white count [10*9/L], not yet corrected; empty before
    /// the first cell.
    std::vector<TallyLine> lines(std::optional<double> white = {}) const;
    /// The white count less nucleated red cells, where these are more than 5 per 100.
    double corrected(double white) const;

private:
    int end_;
    bool joined_;
    std::vector<Told> told_;
};

/// A key for each name of a tally: a letter (either case) or a digit, no two alike.
struct TallyKeys {
    std::array<char, tallyNames.size()> key{'1', '2', '3', '4', '5', '6', '7', '8', '9', '0'};

    char of(lab::FilmCell said) const;                 ///< '\0' for what is no name of a tally
    std::optional<lab::FilmCell> said(char key) const; ///< nothing for a key that means none
    bool operator==(const TallyKeys&) const = default;
};
/// Throws std::invalid_argument with one sentence that tells which key is wrong.
void validate(const TallyKeys& keys);
/// "segmented=1 band=2 ...", to be kept in settings.
std::string toText(const TallyKeys& keys);
/// The same read back; all names, each once, in any order. Throws std::invalid_argument with one
/// sentence.
TallyKeys tallyKeys(std::string_view text);

/// What is true of the slide that a tally was taken from.
struct TallyTruth {
    ClassShares share{};  ///< of all white cells on the slide
    ClassShares unsure{}; ///< share by which doubtful cells may raise or lower a class
    double nucleated = 0; ///< nucleated red cells per 100 white cells
    lab::Reach monolayer{};
    body::Kind kind{};
};
TallyTruth tallyTruth(const lab::Slide& slide, lab::Reach monolayer);
TallyTruth tallyTruth(const lab::Slide& slide); ///< with the slide's own monolayer

/// One class against the binomial distribution of an honest tally.
struct ClassMark {
    TallyClass kind{};
    int said = 0, met = 0;
    double share = 0;                     ///< true, of the slide
    std::pair<int, int> fair;             ///< the central 95 % of honest tallies of as many cells
    double chance = 1;                    ///< that one lies as far off as what was said, two-sided
    bool saidFair = true, metFair = true; ///< inside `fair`
    double points = 100;                  ///< 0..100
    std::string sentence;
};

/// A name that was given to cells of another kind.
struct Confusion {
    lab::FilmCell said{}, truly{};
    int times = 0;
    std::string apart; ///< what tells the two apart
};

/// Marks of one tally, 0..100 each.
struct TallyMarks {
    double naming = 0; ///< cells named rightly: 0 for one name for all, 100 for all right
    double count = 0;  ///< classes inside what chance allows
    double area = 0;   ///< cells counted in the monolayer
    double total = 0;  ///< weighted: naming 0.5, count 0.3, area 0.2
    int told = 0, right = 0, doubtful = 0;
    int outside = 0; ///< of the hundred, counted outside the monolayer
    std::vector<ClassMark> classes;
    std::vector<Confusion> confusions;  ///< most frequent first
    std::vector<std::string> sentences; ///< on naming, area and nucleated red cells
};
/// Throws std::invalid_argument for a tally without a white cell.
TallyMarks marks(const FilmTally& tally, const TallyTruth& truth);

/// One class in two counts of the same slide.
struct ClassDifference {
    TallyClass kind{};
    int first = 0, second = 0;
    double chance = 1; ///< Fisher's exact test, two-sided
    std::string sentence;
};
/// Two counts of the same slide.
struct TallyComparison {
    std::vector<ClassDifference> classes; ///< those that occurred
    double chance = 1;                    ///< over all classes at once, see below
    std::string sentence, how;
};
/// Do two counts differ more than chance makes them? Over all classes: chi-square, its chance by
/// dealing the same cells out anew 10,000 times (the same each
/// time; some 15 ms for two hundreds, so work it out once). Throws std::invalid_argument
/// if either is empty.
TallyComparison compare(const ClassCounts& first, const ClassCounts& second, bool joined = false);
TallyComparison compare(const FilmTally& first, const FilmTally& second);

/// One differential, to stand beside others. An entry may span several classes that its source
/// does not part, `first` to `last` in the order of the trade; classes it does not know are left
/// out.
struct TallyColumn {
    struct Entry {
        TallyClass first{}, last{};
        double share = 0;         ///< 0..1
        std::optional<int> count; ///< where cells were counted one by one
    };
    std::string name;
    std::optional<int> cells; ///< counted; nothing for the truth and the machine
    std::vector<Entry> entries;
    const Entry* find(TallyClass kind) const; ///< null if the column does not know it
};
TallyColumn column(std::string name, const FilmTally& tally);
TallyColumn column(std::string name, const lab::Count& machine);
TallyColumn column(std::string name, const lab::Film& film);
TallyColumn column(std::string name, const TallyTruth& truth, bool joined = false);

} // namespace cistern::lesson
