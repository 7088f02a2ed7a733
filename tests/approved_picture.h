#pragma once
#include "base/file.h"
#include "drawing/painter.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <string>

/// Pictures against those that were looked at and approved. CISTERN_RENEW=1 takes them anew: look
/// at each before committing it.
namespace cistern::test {

/// How far a picture may be off: a channel by `channel`, and by more in `share` of the pixels.
struct Likeness {
    int channel = 0;
    double share = 0;
};

struct Difference {
    double share = 0; ///< of pixels that differ by more than the channel may
    drawing::Pixels shown;
};

inline Difference differenceOf(const drawing::Pixels& a, const drawing::Pixels& b, int channel) {
    if (a.width != b.width || a.height != b.height) return {1, a};
    Difference out{0, a};
    std::size_t off = 0;
    for (std::size_t i = 0; i < a.rgba.size(); i += 4) {
        int most = 0;
        for (std::size_t c = 0; c < 3; ++c)
            most = std::max(most, std::abs(int{a.rgba[i + c]} - int{b.rgba[i + c]}));
        const bool differs = most > channel;
        off += differs;
        out.shown.rgba[i] = differs ? 200 : 240;
        out.shown.rgba[i + 1] = out.shown.rgba[i + 2] = differs ? 0 : 240;
    }
    out.share = static_cast<double>(off) * 4 / static_cast<double>(a.rgba.size());
    return out;
}

/// A part of a picture, in whole pixels.
inline drawing::Pixels cut(const drawing::Pixels& from, int left, int top, int width, int height) {
    drawing::Pixels part{width, height, {}};
    for (int y = top; y < top + height; ++y) {
        const auto first = from.rgba.begin() + std::ptrdiff_t{4} * (y * from.width + left);
        part.rgba.insert(part.rgba.end(), first, first + std::ptrdiff_t{4} * width);
    }
    return part;
}

constexpr std::size_t mostBytes = 4u << 20; // of an approved picture

/// The approved picture of a name, from assets/pictures; renewed by this one if that is asked for.
inline drawing::Pixels approvedPicture(const std::string& name, const std::string& png) {
    const std::string folder = CISTERN_SOURCE "/assets/pictures/";
    base::Disk disk;
    if (std::getenv("CISTERN_RENEW")) {
        std::filesystem::create_directories(folder);
        disk.write(folder + name + ".png", png);
    }
    return drawing::readPng(disk.read(folder + name + ".png", mostBytes));
}

/// Writes what was expected, what came and where they differ into a folder of the build.
inline void keepDifference(const std::string& name, const std::string& outcome,
                           const drawing::Pixels& expected, const drawing::Pixels& actual,
                           int channel) {
    std::filesystem::create_directories(outcome);
    base::Disk disk;
    disk.write(outcome + name + ".expected.png", drawing::png(expected));
    disk.write(outcome + name + ".actual.png", drawing::png(actual));
    disk.write(outcome + name + ".difference.png",
               drawing::png(differenceOf(expected, actual, channel).shown));
}

/// Holds a picture to the approved one; keeps their difference in `outcome` if there is one.
inline void approvePicture(const std::string& name, const std::string& png,
                           const std::string& outcome, const Likeness& like) {
    const drawing::Pixels approved = approvedPicture(name, png), now = drawing::readPng(png);
    const double share = differenceOf(approved, now, like.channel).share;
    if (share > like.share) keepDifference(name, outcome, approved, now, like.channel);
    INFO(name << ": " << 100 * share << " % of the pixels differ; see " << outcome);
    CHECK(share <= like.share);
}

} // namespace cistern::test
