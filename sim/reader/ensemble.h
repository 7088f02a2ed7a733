#pragma once
#include "body/course.h"
#include "reader/story.h"

#include <Eigen/Core>

#include <cstdint>
#include <optional>
#include <vector>

namespace cistern::reader {

/// What is to be known of each story's animal.
struct Wanted {
    std::vector<double> hours;           ///< of the samples, ascending, each once
    std::vector<body::Analyte> analytes; ///< at each of these hours
    std::vector<body::Tissue> organs;    ///< leak and work at the last hour
    bool presented = true;               ///< whether signs ask how it stood when it came

    /// Column of an analyte at one of the hours; none if it is not among them.
    std::optional<Eigen::Index> column(std::size_t hour, body::Analyte analyte) const;
};

/// Rows: stories.
using Table = Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// Whether the second animal of a story with this number has its own healthy level of an analyte
/// above the median (1) or below it (-1). Over any 64 numbers in a row each analyte is as often
/// above as below, and any two on one side as often as not (Hadamard's design in Sylvester's form),
/// so that what one level owes to another's set point adds to its variance, and nothing else. But
/// bands, which come of the same marrow, stand with the neutrophils.
int side(std::uint64_t number, body::Analyte analyte);

/// The analyte whose own healthy level sets what an organ sheds in health; none if it is none.
std::optional<body::Analyte> markerOf(body::Tissue organ);

/// Stories that were lived through. Each is lived by two animals: one whose healthy levels are the
/// medians of its species and age, and one in which each lies a standard deviation higher or lower.
/// The difference tells how much of a level is the animal's own, so that what is not known of it,
/// its own healthy levels, can be averaged over in closed form. Half-lives are drawn for each
/// story. Columns of levels: hours x analytes, hour by hour.
struct Lived {
    std::vector<Story> stories;
    Table level;   ///< of the first animal, in the model's unit
    Table own;     ///< change of log level, counted from its origin, for a standard deviation of
                   ///< the analyte's own healthy level upward
    Table work;    ///< share of the healthy organ, at the last hour; columns: organs
    Table leak;    ///< fold, of the first animal
    Table leakOwn; ///< change of log leak for a standard deviation of its marker's healthy level
    std::vector<body::Snapshot> presented; ///< the first animal at the hour of presentation; empty
                                           ///< unless it was wanted
    std::vector<char> alive; ///< 0: no animal lives through this story; its row means nothing

    std::size_t size() const { return stories.size(); }
    /// Makes room for as many rows as will be appended in all, which spares copying them again:
    /// until then rows of the tables beyond size() mean nothing.
    void reserve(std::size_t rows, const Wanted& wanted);
    /// Puts another part behind this one.
    void append(const Lived& more);
};

/// Simulates stories: twice as many animals. A story takes its half-lives from the chance of
/// `seed` and its own number, whatever part of an ensemble it is lived in, so that parts computed
/// apart and appended in order give the same bits as one. Steps are coarser than a case's:
/// `coarsen()`.
Lived live(std::vector<Story> stories, std::uint64_t seed, const Stories& how,
           const Question& question, const Wanted& wanted, const body::Species& species,
           int threads);

/// Gives a plan the steps and the precision of an ensemble's animals, by what is to be known. Over
/// stories of all insults levels depart from those by a case's own steps and precision by less than
/// a fiftieth of how healthy animals differ in 19 of 20 stories; white cells in hard inflammation
/// by as much as half, all others by a fifth at most.
void coarsen(body::Plan& plan);

} // namespace cistern::reader
