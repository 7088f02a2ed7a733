#include "project/source_rules.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

using namespace cistern::project;
namespace fs = std::filesystem;

namespace {

const fs::path top = CISTERN_SOURCE;

std::string textOf(const fs::path& path) {
    std::ifstream in(path);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
}

bool isSource(const fs::path& path) {
    return path.extension() == ".h" || path.extension() == ".cpp";
}

/// Paths from the top of every source file of the product.
std::vector<std::string> sources() {
    std::vector<std::string> paths;
    for (const auto& entry : fs::recursive_directory_iterator(top / "sim"))
        if (entry.is_regular_file() && isSource(entry.path()))
            paths.push_back(fs::relative(entry.path(), top).generic_string());
    std::sort(paths.begin(), paths.end());
    return paths;
}

/// The one breach of a file with this one line; "" if there is none.
std::string breach(const std::string& file, const std::string& line) {
    const auto breaches = includeBreaches(file, "#pragma once\n" + line + "\nint x;\n");
    REQUIRE(breaches.size() <= 1);
    return breaches.empty() ? "" : breaches.front();
}

} // namespace

TEST_CASE("layers point downward", "[project]") {
    std::string breaches;
    for (const std::string& file : sources())
        for (const std::string& one : includeBreaches(file, textOf(top / file)))
            breaches += one + "\n";
    CHECK(breaches == "");
    CHECK(sources().size() > 10); // the walk has seen the tree
}

TEST_CASE("An include that points upward or sideways is found and named", "[project]") {
    CHECK(breach("sim/body/plan.cpp", "#include \"lab/bench.h\"") ==
          "sim/body/plan.cpp:2: body includes lab/bench.h, a layer above it");
    CHECK(breach("sim/report/csv.h", "#include \"scenario/assets.h\"") ==
          "sim/report/csv.h:2: report includes scenario/assets.h, a layer beside it");
    CHECK(breach("sim/scenario/reader.cpp", "#include \"report/csv.h\"") != "");
    CHECK(breach("sim/terminal/main.cpp", "#include \"desk/window.h\"") != "");
    CHECK(breach("sim/base/text.cpp", "#include \"terminal/play.h\"") != "");
    CHECK(breach("sim/body/step/liver.cpp", "  #  include <lesson/case.h> // why") != "");
    CHECK(breach("sim/body/plan.cpp", "#include \"insult.h\"") ==
          "sim/body/plan.cpp:2: insult.h does not begin with the name of a layer");
    CHECK(breach("sim/body/plan.cpp", "#include \"../lab/bench.h\"") != "");
}

TEST_CASE("An include that points downward, or is none, is let be", "[project]") {
    CHECK(breach("sim/lab/bench.cpp", "#include \"body/names.h\"") == "");
    CHECK(breach("sim/lab/bench.cpp", "#include \"lab/bench.h\"") == "");
    CHECK(breach("sim/terminal/main.cpp", "#include \"base/fault.h\"") == "");
    CHECK(breach("sim/report/csv.cpp", "#include \"drawing/painter.h\"") == "");
    CHECK(breach("sim/body/plan.cpp", "#include <vector>") == "");
    CHECK(breach("sim/body/plan.cpp", "#include <Eigen/Core>") == "");
    CHECK(breach("sim/body/plan.cpp", "// #include \"lab/bench.h\"") == "");
}

TEST_CASE("A library outside its one place is found", "[project]") {
    const std::map<std::string, std::string> homes{
        {"yaml-cpp/yaml.h", "sim/scenario/yaml.cpp"},
        {"cairo.h", "sim/drawing/painter.cpp"},
        {"pango/pangocairo.h", "sim/drawing/painter.cpp"},
        {"SFML/Graphics.hpp", "sim/desk/window/window.cpp"},
        {"CLI/CLI.hpp", "sim/terminal/main.cpp"}};
    for (const auto& [header, home] : homes) {
        const std::string line = "#include <" + header + ">";
        CAPTURE(line);
        CHECK(breach(home, line) == "");
        CHECK(breach("sim/body/plan.cpp", line) != "");
        CHECK(breach("sim/report/paper.cpp", line) != "");
    }
    CHECK(breach("sim/scenario/yaml.h", "#include <yaml-cpp/yaml.h>") != "");
    CHECK(breach("sim/drawing/painter.h", "#include <cairo/cairo.h>") != "");
}

TEST_CASE("A model that prints is found", "[project]") {
    CHECK(breach("sim/lab/bench.cpp", "#include <iostream>") != "");
    CHECK(breach("sim/lesson/case.cpp", "#include <cstdio>") != "");
    CHECK(breach("sim/terminal/main.cpp", "#include <iostream>") == "");
}

TEST_CASE("A source file outside the layers is found", "[project]") {
    CHECK(includeBreaches("sim/stray.cpp", "").size() == 1);
    CHECK(includeBreaches("sim/extras/stray.cpp", "").size() == 1);
    CHECK(includeBreaches("sim/body/plan.cpp", "").empty());
}

TEST_CASE("The top of the project holds only the agreed names", "[project]") {
    for (const auto& entry : fs::directory_iterator(top)) {
        const std::string name = entry.path().filename().string();
        CAPTURE(name);
        CHECK(belongsAtTop(name));
    }
    CHECK(belongsAtTop(".clang-format"));
    CHECK(belongsAtTop("build-sanitize"));
    CHECK_FALSE(belongsAtTop("scripts"));
    CHECK_FALSE(belongsAtTop("notes.txt"));
    CHECK_FALSE(belongsAtTop("simulator"));
}

TEST_CASE("The commands of a habit can be run", "[project]") {
    for (const char* script : {"sim/run", "tests/run", ".ci/run"}) {
        CAPTURE(script);
        const auto permissions = fs::status(top / script).permissions();
        REQUIRE(fs::exists(top / script));
        CHECK((permissions & fs::perms::owner_exec) != fs::perms::none);
    }
}
