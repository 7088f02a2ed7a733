#pragma once
#include "reader/evidence.h"
#include "reader/normal.h"
#include "reader/passage.h"
#include "reader/sheet.h"

#include <string>
#include <utility>
#include <vector>

namespace cistern::reader {

/// One part of a result: how much of its level is the animal's own, and how far a day moves it.
struct Part {
    body::Analyte analyte{};
    int sign = 1;
    Eigen::Index column = 0; ///< of Lived::level and Lived::own
    double within = 0;       ///< standard deviation of the logarithm
    long minute = 0;         ///< of the draw
};

/// One result, ready to be compared with a story.
struct Item {
    Reading reading;
    Scale scale;
    bool sum = false;
    std::size_t firstPart = 0, along = 0, lastPart = 0; ///< in Inside::parts
    Eigen::Index column = 0;                            ///< of a product's level
    std::size_t sample = 0;
    const lab::Method* method = nullptr;
    bool electrode = false;
    double film = 0; ///< cells of which some were counted out on a film; 0: none were
    std::vector<Eigen::Index> among; ///< of Lived::level, kinds of cells among which they were met
    double rounding = 0;             ///< standard deviation of it [model's unit]
    Sight sight;                     ///< on the scale
    double variance = 0;             ///< of the measurement, on the scale
    bool altered = false; ///< by interference, beyond the analyzer's doubt, or doubtful at all
};

/// Two parts of two results that vary together.
struct Tie {
    std::size_t one = 0, other = 0; ///< in Inside::parts
    double correlation = 0;         ///< of the animal's own levels
    bool sameDay = false;           ///< one wobble moves both
};

/// Results that hang together, directly or by others.
struct Block {
    std::vector<std::size_t> items; ///< exact ones first
    /// Ties of items i and j >= i: span[i * size + j], first and past the last.
    std::vector<std::pair<std::size_t, std::size_t>> span;
    std::vector<Tie> ties;
};

/// What a story's animal and its tubes would show of one result.
struct Shown {
    double mean = 0;  ///< on the scale
    double slope = 0; ///< of the scale, per unit of the level before handling
    double level = 0; ///< model's unit
    double moved = 0; ///< by handling [model's unit]
    double noise = 0; ///< variance of the measurement, on the scale
};

/// The evidence at work: results, what each is made of, and which hang together. For the files of
/// this folder only.
struct ResultEvidence::Inside {
    const body::Species& species;
    double astray;
    std::vector<Datum> data;
    std::vector<Item> items;
    std::vector<Part> parts;
    std::vector<Block> blocks;
    std::vector<Passage> passages; ///< by sample
    std::vector<body::Tissue> organs;

    Inside(const body::Species& of, double strays) : species(of), astray(strays) {}

    void add(const Question& question, std::size_t number, const lab::Bench& bench,
             const Wanted& wanted);
    void connect();
    double correlation(body::Analyte one, body::Analyte other) const;

    /// Everything of a row: what is shown of each item, and how far one standard deviation of a
    /// part's own level, or of its day, moves its result.
    struct Row {
        std::vector<Shown> shown;
        std::vector<double> own, day; ///< by part
        double index = 0;             ///< log density of the indices of hemolysis
    };
    void read(const Lived& lived, Eigen::Index row, const Stories& stories, Row& out) const;
    /// Means and covariances of a block, and room for `more` quantities behind.
    void fill(const Block& block, const Row& row, std::size_t more, Normal& normal) const;
    double see(const Block& block, Normal& normal) const;
};

} // namespace cistern::reader
