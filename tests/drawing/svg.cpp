#include "drawing/svg.h"

#include "courses.h"

#include <catch2/catch.hpp>

#include <regex>
#include <set>

using namespace cistern::test;

namespace {

/// The first thing that keeps a text from being well-formed XML, or "". Knows what our documents
/// may hold: elements, double-quoted attributes, five entities; no comments, CDATA or doctype.
std::string flaw(const std::string& text) {
    static const std::regex tag("<(/?)([A-Za-z]+)((?: [A-Za-z:-]+=\"[^\"<]*\")*)(/?)>");
    static const std::regex entity("&(?!(?:amp|lt|gt|quot|apos);)");
    if (std::regex_search(text, entity)) return "a bare ampersand";
    const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    if (!text.starts_with(head)) return "no declaration";
    std::vector<std::string> open;
    std::size_t at = head.size(), roots = 0;
    while (at < text.size()) {
        const std::size_t next = text.find_first_of("<>", at);
        if (next == std::string::npos) break;
        std::smatch match;
        const auto from = text.begin() + static_cast<std::ptrdiff_t>(next);
        if (!std::regex_search(from, text.end(), match, tag,
                               std::regex_constants::match_continuous))
            return "at: " + text.substr(next, 60);
        if (open.empty() && match[1].length() == 0) ++roots;
        if (match[1].length() > 0) {
            if (open.empty() || open.back() != match[2]) return "closes: " + match[2].str();
            open.pop_back();
        } else if (match[4].length() == 0)
            open.push_back(match[2]);
        at = next + static_cast<std::size_t>(match.length());
    }
    if (!open.empty()) return "open: " + open.back();
    return roots == 1 ? "" : "not one root";
}

} // namespace

TEST_CASE("the check for well-formed documents finds flaws", "[drawing]") {
    const std::string head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    CHECK(flaw(head + "<svg a=\"1\"><g/></svg>\n") == "");
    CHECK(flaw(head + "<svg><g></svg></g>") != "");
    CHECK(flaw(head + "<svg>a & b</svg>") != "");
    CHECK(flaw(head + "<svg a=1></svg>") != "");
    CHECK(flaw(head + "<svg>") != "");
}

TEST_CASE("an SVG is well-formed, has a name and a description, and its words are text",
          "[drawing]") {
    for (const CourseView& view : {lockKeepersDog(), slowCat(), crowded()}) {
        const std::string text = svg(view);
        CHECK(flaw(text) == "");
        CHECK_THAT(text, Catch::Contains("role=\"img\""));
        CHECK_THAT(text, Catch::Contains(">" + view.title + "</title>"));
        CHECK_THAT(text, Catch::Contains("<desc id="));
        CHECK_THAT(text, Catch::Contains(layout(view).description.substr(0, 40)));
        CHECK_THAT(text, Catch::Contains(">what leaks</text>"));
        CHECK_THAT(text, Catch::Contains("font-family=\"Inter"));
    }
    const std::string text = svg(slowCat());
    for (const LevelLine& line : slowCat().levels)
        CHECK_THAT(text, Catch::Contains(">" + line.name + "</text>"));
}

TEST_CASE("names inside an SVG are its own and the label points at title and description",
          "[drawing]") {
    const std::string a = svg(lockKeepersDog()), b = svg(slowCat());
    const std::regex id(" id=\"([^\"]+)\"");
    std::set<std::string> seen;
    for (const std::string& text : {a, b}) {
        for (std::sregex_iterator i(text.begin(), text.end(), id), end; i != end; ++i)
            CHECK(seen.insert((*i)[1]).second);
    }
    std::smatch label;
    REQUIRE(std::regex_search(a, label, std::regex("aria-labelledby=\"([^ ]+) ([^\"]+)\"")));
    CHECK(seen.count(label[1]) == 1);
    CHECK(seen.count(label[2]) == 1);
}

TEST_CASE("words that look like markup stay words", "[drawing]") {
    CourseView view = lockKeepersDog();
    view.title = "Bramble & \"the <b>lock</b>\" \xFF\x01";
    view.levels[0].name = "</text><script>";
    const std::string text = svg(view);
    CHECK(flaw(text) == "");
    CHECK(text.find("<script") == std::string::npos);
    CHECK_THAT(text, Catch::Contains("Bramble &amp; &quot;the &lt;b&gt;lock&lt;/b&gt;&quot;"));
}

TEST_CASE("each line of an SVG carries the width it was laid out with", "[drawing]") {
    Picture picture{200, 100, "", "", "en", {}};
    const Type type{16, Weight::semibold, rgb(0x26323B)};
    picture.marks.push_back({hung("mg/dL", type, Align::right, 100, 10)});
    const std::string text = svg(picture);
    std::smatch width;
    REQUIRE(std::regex_search(text, width, std::regex("textLength=\"([0-9.]+)\"")));
    CHECK(std::stod(width[1]) ==
          Approx(measure("mg/dL", type).width).margin(0.005)); // two decimals
    CHECK_THAT(text, Catch::Contains("text-anchor=\"end\""));
    CHECK_THAT(text, Catch::Contains("font-weight=\"600\""));
    CHECK_THAT(text, Catch::Contains(">mg/dL</text>"));
}

TEST_CASE("groups keep their name, place and cut in an SVG", "[drawing]") {
    Picture picture{200, 100, "", "", "en", {}};
    Group group{"ALT", {5, -2.5}, rectangle({0, 0, 10, 10}), {}};
    group.marks.push_back({Shape{circle({5, 5}, 8), rgb(0x0F8C86), Stroke{rgb(0), 1, {2, 1.5}}}});
    picture.marks.push_back({group});
    picture.marks.push_back({group});
    const std::string text = svg(picture);
    CHECK(flaw(text) == "");
    CHECK_THAT(text, Catch::Contains("translate(5 -2.5)"));
    CHECK_THAT(text, Catch::Contains("<title>ALT</title>"));
    CHECK_THAT(text, Catch::Contains("stroke-dasharray=\"2 1.5\""));
    std::set<std::string> clips;
    const std::regex use("url\\(#([^)]+)\\)");
    for (std::sregex_iterator i(text.begin(), text.end(), use), end; i != end; ++i) {
        clips.insert((*i)[1]);
        CHECK_THAT(text, Catch::Contains("id=\"" + (*i)[1].str() + "\""));
    }
    CHECK(clips.size() == 2);
}

TEST_CASE("an image stands in the document as a PNG of the same pixels", "[drawing]") {
    const auto two = std::make_shared<Pixels>(Pixels{2, 1, {10, 20, 30, 255, 200, 100, 50, 255}});
    Picture picture{20, 20, "with an image", "", "en", {}};
    picture.marks.push_back({Image{{1, 2, 10, 5}, two, "two <cells>"}});
    const std::string text = svg(picture);
    CHECK(text.find("<image x=\"1\" y=\"2\" width=\"10\" height=\"5\"") != std::string::npos);
    CHECK(text.find("two &lt;cells&gt;") != std::string::npos);
    // The first bytes of every PNG (89 50 4E 47 0D 0A 1A 0A), in base 64 (RFC 4648).
    CHECK(text.find("data:image/png;base64,iVBORw0KGgo") != std::string::npos);
    CHECK(flaw(text).empty());
}
