// Every page as a picture, against the one that the README shows. CISTERN_RENEW=1 takes them anew: look at each
// before committing it. Where one differs, what was expected, what came and the difference are
// written into the build folder.
#include "at_desk.h"

#include "desk/script.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <map>

using namespace cistern;
using namespace cistern::desk;

namespace {

const std::string folder = CISTERN_SOURCE "/assets/pictures/";
const std::string outcome = CISTERN_BUILD "/desk-pictures/";

/// Other versions of Cairo, Pango or Inter set letters a little differently at their edges: a
/// channel may be off by `channel`, and by more in `share` of the pixels. A moved word or a missing
/// line changes far more: a word of ten letters covers 0.1 % of a page.
constexpr int channel = 48;
constexpr double share = 0.002;

struct Difference {
    double share = 0; ///< of pixels that differ by more than `channel`
    drawing::Pixels shown;
};

Difference between(const drawing::Pixels& a, const drawing::Pixels& b) {
    if (a.width != b.width || a.height != b.height) return {1, a};
    Difference out{0, a};
    std::size_t off = 0;
    for (std::size_t i = 0; i < a.rgba.size(); i += 4) {
        int most = 0;
        for (std::size_t c = 0; c < 3; ++c)
            most = std::max(most, std::abs(int{a.rgba[i + c]} - int{b.rgba[i + c]}));
        off += most > channel;
        const bool differs = most > channel;
        out.shown.rgba[i] = differs ? 200 : 240;
        out.shown.rgba[i + 1] = out.shown.rgba[i + 2] = differs ? 0 : 240;
    }
    out.share = static_cast<double>(off) * 4 / static_cast<double>(a.rgba.size());
    return out;
}

std::string pngOf(const drawing::Pixels& pixels) {
    // As many little squares as there are differing pixels is few: draw those alone.
    drawing::Picture picture{double(pixels.width), double(pixels.height), "", "", "en", {}};
    picture.marks.push_back({drawing::Shape{
        drawing::rectangle({0, 0, picture.width, picture.height}), drawing::rgb(0xF0F0F0), {}}});
    for (int y = 0; y < pixels.height; ++y)
        for (int x = 0; x < pixels.width; ++x)
            if (pixels.rgba[4 * (static_cast<std::size_t>(y) *
                                     static_cast<std::size_t>(pixels.width) +
                                 static_cast<std::size_t>(x))] == 200)
                picture.marks.push_back({drawing::Shape{drawing::rectangle({double(x), double(y), 1, 1}),
                                                        drawing::rgb(0xC80000), {}}});
    return drawing::png(picture);
}

void approve(const std::string& name, const std::string& png) {
    base::Disk disk;
    const std::string path = folder + name + ".png";
    if (std::getenv("CISTERN_RENEW")) {
        std::filesystem::create_directories(folder);
        disk.write(path, png);
    }
    constexpr std::size_t most = 4u << 20;
    const std::string approved = disk.read(path, most);
    const Difference found = between(drawing::readPng(approved), drawing::readPng(png));
    if (found.share > share) {
        std::filesystem::create_directories(outcome);
        disk.write(outcome + name + ".expected.png", approved);
        disk.write(outcome + name + ".actual.png", png);
        disk.write(outcome + name + ".difference.png", pngOf(found.shown));
    }
    INFO(name << ": " << 100 * found.share << " % of the pixels differ; see " << outcome);
    CHECK(found.share <= share);
}

} // namespace

TEST_CASE("Every page looks as it was approved", "[desk]") {
    AtDesk at(PageName::shelf);
    base::Disk disk;
    const std::string script = CISTERN_SOURCE "/assets/pictures/pages.desk";
    std::map<std::string, std::string> shots;
    play(at.desk, readScript(disk.read(script), script), script,
         [&](const std::string& name, const std::string& png) { shots[name] = png; });
    CHECK(shots.size() >= static_cast<std::size_t>(pageCount));
    for (const auto& [name, png] : shots) approve(name, png);
}

TEST_CASE("A picture written as PNG is read as the same pixels", "[desk]") {
    AtDesk at(PageName::shelf, 640, 480);
    const drawing::Picture& picture = at.screen().picture;
    const drawing::Pixels here = drawing::pixels(picture);
    const drawing::Pixels there = drawing::readPng(drawing::png(picture));
    CHECK(there.width == here.width);
    CHECK(there.rgba == here.rgba);
    CHECK_THROWS_AS(drawing::readPng("no picture"), std::runtime_error);
}
