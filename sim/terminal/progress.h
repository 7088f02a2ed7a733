#pragma once
#include "terminal/world.h"

#include <string>

namespace cistern::terminal {

/// A line on `err` that is written over while a person waits; nothing where nobody watches.
class Progress {
public:
    explicit Progress(World& world) : world_(world) {}
    Progress(const Progress&) = delete;
    Progress& operator=(const Progress&) = delete;
    ~Progress() { clear(); }

    /// A bar of the share done, 0..1, and a few words, cut to the width of the page.
    void show(double share, const std::string& words);
    void clear();

private:
    World& world_;
    int width_ = 0; // cells now on the line
};

} // namespace cistern::terminal
