#include "terminal/input.h"

#include "base/text.h"
#include "base/units.h"
#include "report/table.h"
#include "report/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <ostream>

namespace cistern::terminal {

namespace {

constexpr double longestTime = 100 * 365.25 * 24; // [h], longer than a dog or cat lives

std::string quoted(const std::string& text) {
    return "\"" + text + "\"";
}

std::string perhaps(const std::string& near) {
    return near.empty() ? "" : "; perhaps you mean " + quoted(near);
}

std::string trimmed(const std::string& text) {
    const auto first = text.find_first_not_of(" \t\r\n");
    if (first == std::string::npos) return "";
    return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

/// The file argument itself, or the one of this bare name among `known`.
std::string pathAmong(const World& world, const std::string& file,
                      const std::vector<std::string>& known, const std::string& what) {
    const bool bare = file.find('/') == std::string::npos;
    if (!bare || exists(world, file)) return file;
    std::vector<std::string> names;
    for (const std::string& path : known) {
        if (stem(path) == file || stem(path) + ".yaml" == file) return path;
        names.push_back(stem(path));
    }
    const std::string near = base::nearest(stem(file), names);
    throw UsageError("There is no file and no " + what + " named " + quoted(file) +
                     (near.empty() ? "; \"cistern cases\" lists the cases" : perhaps(near)) + ".");
}

} // namespace

scenario::Assets loadAssets(const World& world) {
    return scenario::loadAssets(world.files, base::dataFolder(world.data) + "/assets");
}

std::vector<std::string> shippedCases(const World& world) {
    return world.files.list(base::dataFolder(world.data) + "/scenarios", ".yaml");
}

std::vector<std::string> shippedSets(const World& world) {
    return world.files.list(base::dataFolder(world.data) + "/scenarios/sets", ".yaml");
}

scenario::Set readSet(const World& world, const std::string& path) {
    return scenario::readSet(world.files, path, {base::dataFolder(world.data) + "/scenarios"});
}

std::string stem(const std::string& path) {
    std::string name = path.substr(path.find_last_of('/') + 1);
    if (const auto dot = name.rfind('.'); dot != std::string::npos && dot > 0) name.resize(dot);
    return name;
}

bool exists(const World& world, const std::string& path) {
    const auto slash = path.find_last_of('/');
    const std::string folder = slash == std::string::npos ? "." : path.substr(0, slash + 1);
    const std::string name = path.substr(slash == std::string::npos ? 0 : slash + 1);
    const auto files = world.files.list(folder, name);
    return std::any_of(files.begin(), files.end(), [&](const std::string& one) {
        return one.substr(one.find_last_of('/') + 1) == name;
    });
}

std::string casePath(const World& world, const std::string& file) {
    return pathAmong(world, file, shippedCases(world), "case");
}

std::string setOrCasePath(const World& world, const std::string& file) {
    std::vector<std::string> known = shippedCases(world);
    for (std::string& path : shippedSets(world)) known.push_back(std::move(path));
    return pathAmong(world, file, known, "case");
}

double readTime(const std::string& option, const std::string& text) {
    const auto quantity = base::readQuantity(trimmed(text));
    const std::string how = "write a number and its unit, such as 36h, 14d or \"-2 h\".";
    if (!quantity) throw UsageError(option + ": " + quoted(text) + " is not a time; " + how);
    if (quantity->unit.empty())
        throw UsageError(option + ": " + quoted(text) + " has no unit; " + how);
    const auto factor = base::conversion(quantity->unit, "h");
    if (!factor)
        throw UsageError(option + ": " + quoted(quantity->unit) + " is not a unit of time; " + how);
    const double hours = quantity->value * *factor;
    if (!(std::abs(hours) <= longestTime))
        throw UsageError(option + ": " + quoted(text) + " is longer than a hundred years.");
    return hours;
}

std::uint64_t readCount(const std::string& option, const std::string& text, std::uint64_t least,
                        std::uint64_t most) {
    std::uint64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || value < least || value > most)
        throw UsageError(option + ": " + quoted(text) + " is not a whole number from " +
                         std::to_string(least) + " to " + std::to_string(most) + ".");
    return value;
}

lesson::Case readCase(const World& world, const lesson::Knowledge& knowledge,
                      const std::string& file, const std::string& seed) {
    std::optional<std::uint64_t> number;
    if (!seed.empty()) number = readSeed(seed);
    return scenario::readCase(world.files, casePath(world, file), knowledge, number);
}

void deliver(World& world, const std::string& out, const std::string& text) {
    if (out.empty()) {
        world.out << text;
        return;
    }
    world.files.write(out, text);
    world.err << out << " is written.\n";
}

std::uint64_t readSeed(const std::string& text) {
    constexpr std::uint64_t most = (std::uint64_t{1} << 53) - 1; // as in scenario files
    return readCount("--seed", text, 0, most);
}

lab::Units readUnits(const std::string& text) {
    return readWord("--units", text, {"conventional", "si"}) == "si" ? lab::Units::si
                                                                     : lab::Units::conventional;
}

std::string readWord(const std::string& option, const std::string& text,
                     const std::vector<std::string>& allowed) {
    if (std::find(allowed.begin(), allowed.end(), text) != allowed.end()) return text;
    throw UsageError(option + ": " + quoted(text) + " is not known here" +
                     perhaps(base::nearest(text, allowed)) + "; allowed: " + base::listed(allowed) +
                     ".");
}

std::vector<std::string> readList(const std::string& option, const std::string& text) {
    std::vector<std::string> pieces;
    for (std::size_t at = 0; at <= text.size();) {
        const std::size_t end = std::min(text.find(',', at), text.size());
        pieces.push_back(trimmed(text.substr(at, end - at)));
        if (pieces.back().empty())
            throw UsageError(option + ": " + quoted(text) +
                             " has an empty entry; part the names by single commas.");
        at = end + 1;
    }
    return pieces;
}

std::vector<body::Analyte> readAnalytes(const std::string& option, const std::string& text,
                                        const std::vector<std::string>& known) {
    std::vector<body::Analyte> found;
    for (const std::string& name : readList(option, text)) {
        readWord(option, name, known);
        const body::Analyte analyte = *body::analyteNamed(name);
        if (std::find(found.begin(), found.end(), analyte) != found.end())
            throw UsageError(option + ": " + name + " is given twice.");
        found.push_back(analyte);
    }
    return found;
}

void needBorn(const lesson::Case& one, double hour, const std::string& option) {
    if (hour < -one.who.age)
        throw UsageError(option + ": " + report::shownTime(hour) + " lies before " + one.patient +
                         " was born.");
}

} // namespace cistern::terminal
