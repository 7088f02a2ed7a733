#pragma once
#include "base/fault.h"

#include <cstddef>
#include <string>
#include <vector>

namespace cistern::scenario {

/// A line and a column of a file, both from 1; columns count bytes.
struct Spot {
    int line = 0, column = 0;
};

/// One value of a YAML file and where it stands. The members of a map carry their keys.
struct Node {
    enum class Kind { null, scalar, list, map };
    Kind kind = Kind::null;
    std::string text;    ///< of a scalar, unquoted
    bool quoted = false; ///< written in quotation marks or as a block of text
    Spot spot;           ///< of the value; of the key if the value is empty
    std::string key;     ///< within a map
    Spot keySpot;
    std::vector<Node> members; ///< of a list or map, in the file's order

    const Node*
    find(const std::string& wanted) const; ///< null if this is no map or has no such key
};

/// A file as it was read.
struct Document {
    std::string file;
    std::vector<std::string> lines;
    Node root;
    std::vector<base::Fault> faults; ///< of the YAML itself
    bool whole = false;              ///< false if reading had to stop: then `root` says nothing

    base::Place place(Spot spot) const { return {file, spot.line, spot.column}; }
    /// The line of a spot for an excerpt; empty if there is none or it is too long to show.
    std::string line(Spot spot) const;
};

/// What a file may hold at most.
struct Bounds {
    std::size_t bytes = 1u << 20;
    std::size_t values = 100000;
    std::size_t depth = 32;
};

/// Reads YAML without anchors, aliases and tags: one document, each key once in its map. Never
/// throws: what is wrong stands in `faults`.
Document parse(const std::string& file, const std::string& text, const Bounds& bounds = {});

} // namespace cistern::scenario
