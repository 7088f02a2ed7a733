#include "base/fault.h"
#include "base/text.h"

#include <catch2/catch.hpp>

#include <set>

using namespace cistern::base;

namespace {

Fault outOfRange(int column, const std::string& line) {
    return {FaultKind::outOfRange, {"case.yaml", 3, column},
            "insults[0].severity", "175 %",
            "from 0 % to 100 %",   line};
}

/// The text of the excerpt that stands above the caret.
std::string marked(const Fault& fault) {
    const std::string text = message(fault);
    const auto lineAt = text.find('\n') + 1, caretAt = text.rfind('\n') + 1;
    std::string_view line = std::string_view(text).substr(lineAt, caretAt - lineAt - 1);
    for (std::size_t i = text.find('^', caretAt) - caretAt; i > 0; --i)
        line.remove_prefix(characterLength(line));
    return std::string(line.substr(0, characterLength(line)));
}

} // namespace

TEST_CASE("Every kind of fault has a sentence of its own", "[base]") {
    std::set<std::string> sentences;
    const int last = static_cast<int>(FaultKind::contradiction);
    for (int kind = 0; kind <= last; ++kind) {
        const std::string text = sentence({static_cast<FaultKind>(kind), {}, "x", "", "", ""});
        CHECK(text.starts_with("x "));
        CHECK(text.ends_with("."));
        CHECK(text != "x is wrong."); // what a kind without words would say
        sentences.insert(text);
    }
    CHECK(sentences.size() == static_cast<std::size_t>(last) + 1);
}

TEST_CASE("A message names place, subject, what was found and what is allowed", "[base]") {
    CHECK(message(outOfRange(13, "  severity: 175 %")) ==
          "case.yaml:3:13: insults[0].severity is out of range: found \"175 %\"; "
          "allowed: from 0 % to 100 %.\n"
          "      severity: 175 %\n"
          "                ^");
}

TEST_CASE("A message leaves out what is unknown", "[base]") {
    Fault fault{FaultKind::missingKey, {"case.yaml", 0, 0}, "patient", "", "", ""};
    CHECK(message(fault) == "case.yaml: patient is missing.");
    fault.place.line = 2;
    CHECK(message(fault) == "case.yaml:2: patient is missing.");
    fault.place.column = 7;
    CHECK(message(fault) == "case.yaml:2:7: patient is missing.");
    fault.place = {};
    fault.subject = "";
    CHECK(message(fault) == "this is missing.");
}

TEST_CASE("The caret stands under the character, also after tabs and accents", "[base]") {
    CHECK(marked(outOfRange(1, "severity")) == "s");
    CHECK(marked(outOfRange(3, "\t\tx")) == "x");
    // "é" is two bytes, "µ" two, "…" three: byte 10 is the fourth character.
    const std::string line = "éµ…x rest";
    CHECK(marked(outOfRange(8, line)) == "x");
    CHECK(message(outOfRange(8, line)).starts_with("case.yaml:3:4: "));
    CHECK(marked(outOfRange(2, line)) == "é"); // inside a character: that character
}

TEST_CASE("A column past the end of the line puts the caret there", "[base]") {
    CHECK(message(outOfRange(4, "abc")).ends_with("\n    abc\n       ^"));
    CHECK(message(outOfRange(400, "abc")).ends_with("\n    abc\n       ^"));
}

TEST_CASE("A long line is cut around the caret and fits a terminal", "[base]") {
    for (int column : {1, 40, 76, 77, 500, 960, 999, 1000, 1001}) {
        std::string line(1000, '.');
        if (column <= 1000) line[static_cast<std::size_t>(column) - 1] = '#';
        const std::string text = message(outOfRange(column, line));
        CAPTURE(column, text);
        const std::string excerpt = text.substr(text.find('\n') + 1);
        CHECK(width(excerpt.substr(0, excerpt.find('\n'))) <= 80);
        CHECK(width(excerpt.substr(excerpt.find('\n') + 1)) <=
              81); // a caret may stand past the end
        if (column <= 1000) CHECK(marked(outOfRange(column, line)) == "#");
    }
}

TEST_CASE("Control characters and broken UTF-8 of a file never reach the terminal", "[base]") {
    Fault fault = outOfRange(5, "a\x1b[2Jb\xff\xc2\x9b\r\n");
    fault.found = "\x1b[31m\xfe";
    const std::string text = message(fault);
    CHECK(isUtf8(text));
    CHECK(text.find('\x1b') == std::string::npos);
    CHECK(text.find("\xc2\x9b") == std::string::npos); // the one-character form of ESC [
    CHECK(text.find('\r') == std::string::npos);
}

TEST_CASE("What was found is shortened", "[base]") {
    Fault fault = outOfRange(0, "");
    fault.found = std::string(5000, 'x');
    CHECK(sentence(fault).find("xxx…\"") != std::string::npos);
    CHECK(width(sentence(fault)) < 150);
}

TEST_CASE("A byte order mark does not shift the caret", "[base]") {
    CHECK(marked(outOfRange(3, "\xEF\xBB\xBF"
                               "abc")) == "c");
}

TEST_CASE("An input error carries all its faults, sorted by place", "[base]") {
    const Fault later{FaultKind::missingUnit, {"b.yaml", 9, 2}, "weight", "18", "18 kg", ""};
    const Fault earlier{FaultKind::unknownKey, {"b.yaml", 2, 1}, "wieght", "", "weight", ""};
    const Fault first{FaultKind::notText, {"a.yaml", 30, 1}, "the file", "", "", ""};
    const InputError error({later, earlier, first});
    REQUIRE(error.faults().size() == 3);
    CHECK(error.faults()[0].place.file == "a.yaml");
    CHECK(error.faults()[1].subject == "wieght");
    CHECK(error.what() == message(first) + "\n" + message(earlier) + "\n" + message(later));
}
