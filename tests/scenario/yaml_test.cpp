#include "scenario/yaml.h"

#include <catch2/catch.hpp>

#include <string>

using namespace cistern;
using base::FaultKind;
using scenario::Node;
using scenario::parse;

namespace {

/// The first fault of a text; the text must have one.
base::Fault first(const std::string& text, const scenario::Bounds& bounds = {}) {
    const auto document = parse("file.yaml", text, bounds);
    REQUIRE_FALSE(document.faults.empty());
    return document.faults.front();
}

std::string repeated(const std::string& piece, int times) {
    std::string text;
    for (int i = 0; i < times; ++i) text += piece;
    return text;
}

} // namespace

TEST_CASE("a tree keeps order, quotation marks and places", "[scenario]") {
    const auto document = parse("file.yaml", "b: 1\n"
                                             "a: {x: \"1\", y: [p, q]}\n"
                                             "text: |\n"
                                             "  one\n"
                                             "  two\n"
                                             "empty:\n");
    REQUIRE(document.whole);
    CHECK(document.faults.empty());
    const Node& root = document.root;
    REQUIRE(root.kind == Node::Kind::map);
    REQUIRE(root.members.size() == 4);
    CHECK(root.members[0].key == "b");
    CHECK(root.members[0].text == "1");
    CHECK_FALSE(root.members[0].quoted);
    const Node& x = *root.find("a")->find("x");
    CHECK(x.quoted);
    CHECK(x.keySpot.line == 2);
    CHECK(x.keySpot.column == 5);
    CHECK(x.spot.column == 8);
    CHECK(root.find("a")->find("y")->members[1].text == "q");
    CHECK(root.find("text")->text == "one\ntwo\n");
    CHECK(root.find("empty")->kind == Node::Kind::null);
    CHECK(root.find("empty")->spot.line == 6); // where its key stands
    CHECK(root.find("nothing") == nullptr);
}

TEST_CASE("what other readers take for something else stays the text that it is", "[scenario]") {
    // yaml-cpp's own conversions read `no` as false, 012 as ten and .nan as a number
    const auto document = parse("file.yaml", "a: no\nb: 012\nc: .nan\nd: 0x1F\ne: 1e999\n");
    REQUIRE(document.whole);
    CHECK(document.root.find("a")->text == "no");
    CHECK(document.root.find("b")->text == "012");
    CHECK(document.root.find("c")->text == ".nan");
    CHECK(document.root.find("d")->text == "0x1F");
    CHECK(document.root.find("e")->text == "1e999");
}

TEST_CASE("a key that stands twice is a fault and reading goes on", "[scenario]") {
    const auto document = parse("file.yaml", "a: 1\na: 2\nb: {c: 1, c: 2}\n");
    CHECK(document.whole);
    REQUIRE(document.faults.size() == 2);
    CHECK(document.faults[0].kind == FaultKind::duplicateKey);
    CHECK(document.faults[0].place.line == 2);
    CHECK(document.faults[1].place.line == 3);
    CHECK(document.faults[1].place.column == 11);
}

TEST_CASE("anchors, aliases, tags and second documents are refused", "[scenario]") {
    for (const char* text : {"a: &x 1\n", "a: &x [1]\nb: *x\n", "a: !!str 1\n", "a: !mine {b: 1}\n",
                             "a: 1\n---\nb: 2\n", "a: *nowhere\n"}) {
        INFO(text);
        CHECK(first(text).kind == FaultKind::syntax);
    }
}

TEST_CASE("size, number of values and depth are bounded", "[scenario]") {
    CHECK(first(std::string(2u << 20, 'x')).kind == FaultKind::tooLarge);
    CHECK(first("a: [" + repeated("1, ", 100001) + "1]").kind == FaultKind::tooLarge);
    CHECK(first(repeated("[", 5000) + repeated("]", 5000)).kind == FaultKind::tooLarge);
    CHECK(first(repeated("{a: ", 5000) + repeated("}", 5000)).kind == FaultKind::tooLarge);
    CHECK(first(repeated("- ", 50000)).kind == FaultKind::tooLarge);
    // the same left open is one mistake among others, but refused as quickly
    CHECK_FALSE(parse("file.yaml", repeated("[", 100000)).whole);
    CHECK_FALSE(parse("file.yaml", repeated("{a: ", 50000)).whole);
    // the bounds themselves are allowed
    CHECK(parse("file.yaml", repeated("[", 32) + repeated("]", 32)).faults.empty());
    scenario::Bounds bounds;
    bounds.values = 4; // the map, its key, the list and one value
    CHECK(parse("file.yaml", "a: [1]", bounds).faults.empty());
    CHECK(first("a: [1, 2]", bounds).kind == FaultKind::tooLarge);
}

TEST_CASE("aliases that would unfold to a billion values are refused at the first", "[scenario]") {
    std::string text = "a: &a [x, x, x, x, x, x, x, x, x]\n";
    const std::string names = "abcdefghij";
    for (std::size_t i = 1; i < names.size(); ++i) {
        std::string alias = "*";
        alias += names[i - 1];
        text += names[i];
        text += ": [";
        text += repeated(alias.append(", "), 9);
        text += "x]\n";
    }
    const auto fault = first(text);
    CHECK(fault.kind == FaultKind::syntax);
    CHECK(fault.place.line == 1);
}

TEST_CASE("only clean UTF-8 is text", "[scenario]") {
    CHECK(first("a: caf\xE9\n").kind == FaultKind::notText);
    CHECK(first(std::string("a: b\0c\n", 7)).kind == FaultKind::notText);
    CHECK(first("a: \xC0\xAF\n").kind == FaultKind::notText);     // overlong
    CHECK(first("a: \xED\xA0\x80\n").kind == FaultKind::notText); // half of a surrogate pair
    CHECK(first("a: \x1B[2J\n").kind == FaultKind::notText);      // would clear a terminal
    CHECK(first("a: \"\\x1B[2J\"\n").kind == FaultKind::notText); // the same in disguise
    CHECK(first("x: 1\ny: \x7F\n").place.line == 2);
    CHECK(parse("file.yaml", "\xEF\xBB\xBF"
                             "a: µ – ° 犬\n")
              .faults.empty()); // with a mark in front
    CHECK(parse("file.yaml", "a: 1\r\nb: 2\r\n").faults.empty());
}

TEST_CASE("a mistake of YAML is told in a plain sentence with its place", "[scenario]") {
    const auto fault = first("title: one: two\n");
    CHECK(fault.kind == FaultKind::syntax);
    CHECK(fault.place.line == 1);
    CHECK(fault.place.column == 11);
    CHECK(fault.line == "title: one: two");
    CHECK(fault.subject == "the colon here");
    CHECK(first("a:\n\tb: c\n").subject == "the indentation");
    CHECK(first("a: 'never closed\nb: c\n").subject == "the text in quotation marks");
    CHECK(first("a: \"never closed\nb: c \\\"\n").subject == "the text in quotation marks");
    CHECK(parse("file.yaml", "a: 'it''s'\nb: \"\\\"\"\nc: ''\n").faults.empty());
}
