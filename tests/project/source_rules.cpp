#include "project/source_rules.h"

#include <algorithm>
#include <array>
#include <optional>
#include <regex>
#include <sstream>

namespace cistern::project {

namespace {

struct Layer {
    std::string_view name;
    int height; // layers of one height stand side by side and may not include one another
};
constexpr std::array layers{Layer{"base", 0},     Layer{"body", 1},     Layer{"lab", 2},
                            Layer{"reader", 3},   Layer{"lesson", 4},   Layer{"drawing", 5},
                            Layer{"report", 6},   Layer{"scenario", 6}, Layer{"view", 7},
                            Layer{"terminal", 8}, Layer{"desk", 8}};
constexpr int highestOfModel = 4;

struct Library {
    std::string_view header; // beginning of its include names
    std::string_view home;   // beginning of the paths that may know it
};
constexpr std::array libraries{
    Library{"yaml-cpp", "sim/scenario/yaml.cpp"}, Library{"cairo", "sim/drawing/painter.cpp"},
    Library{"pango", "sim/drawing/painter.cpp"},  Library{"fontconfig", "sim/drawing/painter.cpp"},
    Library{"SFML", "sim/desk/window/"},          Library{"CLI", "sim/terminal/"}};

constexpr std::array printing{"iostream", "cstdio", "stdio.h", "print"};

const Layer* layerNamed(std::string_view name) {
    const auto found = std::find_if(layers.begin(), layers.end(),
                                    [&](const Layer& layer) { return layer.name == name; });
    return found == layers.end() ? nullptr : &*found;
}

/// The folder with which a path begins: "body" of "body/plan.h", nothing of "plan.h".
std::string_view folderOf(std::string_view path) {
    const auto slash = path.find('/');
    return slash == std::string_view::npos ? std::string_view{} : path.substr(0, slash);
}

/// What is wrong with an include of one of our own headers; empty if nothing is.
std::string ownBreach(const Layer& from, std::string_view header) {
    const Layer* to = layerNamed(folderOf(header));
    if (!to) return std::string(header) + " does not begin with the name of a layer";
    if (to == &from || to->height < from.height) return "";
    return std::string(from.name) + " includes " + std::string(header) +
           (to->height == from.height ? ", a layer beside it" : ", a layer above it");
}

/// What is wrong with an include of a library's header; empty if nothing is.
std::string libraryBreach(std::string_view file, const Layer& from, std::string_view header) {
    for (const Library& library : libraries)
        if (header.starts_with(library.header) && !file.starts_with(library.home))
            return std::string(header) + " may be included only in " + std::string(library.home);
    const bool prints = std::find(printing.begin(), printing.end(), header) != printing.end();
    if (prints && from.height <= highestOfModel)
        return std::string(header) + " in a layer that does not print";
    return "";
}

} // namespace

std::vector<std::string> includeBreaches(std::string_view file, std::string_view text) {
    static const std::regex include(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"].*)re");
    std::vector<std::string> breaches;
    const std::string prefix = "sim/";
    const Layer* from =
        file.starts_with(prefix) ? layerNamed(folderOf(file.substr(prefix.size()))) : nullptr;
    if (!from) return {std::string(file) + ":1: the file belongs to no layer"};
    std::istringstream lines{std::string(text)};
    std::string line;
    for (int number = 1; std::getline(lines, line); ++number) {
        std::smatch match;
        if (!std::regex_match(line, match, include)) continue;
        const std::string header = match[2];
        std::string breach = libraryBreach(file, *from, header);
        if (breach.empty() && match[1] == "\"") breach = ownBreach(*from, header);
        // Our own headers between angle brackets are ours all the same.
        else if (breach.empty() && layerNamed(folderOf(header)))
            breach = ownBreach(*from, header);
        if (!breach.empty())
            breaches.push_back(std::string(file) + ":" + std::to_string(number) + ": " + breach);
    }
    return breaches;
}

bool belongsAtTop(std::string_view name) {
    constexpr std::array names{"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "sim",
                               "scenarios",      "assets",    "tests"};
    return name.starts_with('.') || name.starts_with("build") ||
           std::find(names.begin(), names.end(), name) != names.end();
}

} // namespace cistern::project
