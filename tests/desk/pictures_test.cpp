// Every page as a picture, against the one that the README shows. CISTERN_RENEW=1 takes them anew:
// look at each before committing it. Where one differs, what was expected, what came and the
// difference are written into the build folder.
#include "approved_picture.h"
#include "at_desk.h"
#include "desk/script.h"

#include <catch2/catch.hpp>

#include <map>

using namespace cistern;
using namespace cistern::desk;
using namespace cistern::test;

namespace {

const std::string outcome = CISTERN_BUILD "/desk-pictures/";

/// Other versions of Cairo, Pango or Inter set letters a little differently at their edges. A moved
/// word or a missing line changes far more: a word of ten letters covers 0.1 % of a page.
constexpr Likeness like{48, 0.002};

} // namespace

TEST_CASE("Every page looks as it was approved", "[desk]") {
    AtDesk at(PageName::shelf);
    base::Disk disk;
    const std::string script = CISTERN_SOURCE "/assets/pictures/pages.desk";
    std::map<std::string, std::string> shots;
    play(at.desk, readScript(disk.read(script), script), script,
         [&](const std::string& name, const std::string& png) { shots[name] = png; });
    CHECK(shots.size() >= static_cast<std::size_t>(pageCount));
    for (const auto& [name, png] : shots) approvePicture(name, png, outcome, like);
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
