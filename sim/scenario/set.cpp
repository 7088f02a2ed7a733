#include "scenario/set.h"

#include "base/text.h"
#include "scenario/reader.h"

#include <algorithm>
#include <filesystem>

namespace cistern::scenario {

namespace {

using base::FaultKind;
namespace fs = std::filesystem;

constexpr std::int64_t mostMinutes = 600, mostSeats = 1000;
constexpr double mostWeight = 100;

/// Paths of cases by bare name, the nearest folder first.
struct Shelves {
    std::vector<std::string> paths;

    Shelves(const base::Files& files, const std::string& set,
            const std::vector<std::string>& others) {
        const fs::path here = fs::path(set).parent_path();
        const auto look = [&](const fs::path& folder) {
            const std::string name = folder.empty() ? "." : folder.string();
            for (std::string& path : files.list(name, ".yaml"))
                if (path != set) paths.push_back(std::move(path));
        };
        look(here);
        look(here.empty() ? fs::path("..") : here / "..");
        for (const std::string& folder : others) look(folder);
    }
    static std::string stem(const std::string& path) { return fs::path(path).stem().string(); }
    std::string find(const std::string& name) const {
        for (const std::string& path : paths)
            if (stem(path) == name) return path;
        return "";
    }
    std::string nearest(const std::string& name) const {
        std::vector<std::string> names;
        for (const std::string& path : paths) names.push_back(stem(path));
        return base::nearest(name, names);
    }
};

void readFormat(Reader number) {
    if (number.isScalar() && number.node()->text != "1")
        number.fault(FaultKind::outOfRange, number.node()->text, "1, the format that is read here");
    else
        number.text();
}

void readCases(Reader list, const Shelves& shelves, Set& set) {
    int sum = 0;
    for (Reader& item : list.items()) {
        SetCase one;
        Reader name = item.need("case");
        if (name) one.name = name.text();
        if (Reader weight = item.find("weight")) {
            one.weight = weight.quantity({"1", 0, mostWeight, "", true}).value_or(1);
            if (one.weight == 0)
                weight.fault(FaultKind::outOfRange, weight.text(), "above 0, at most 100");
        }
        one.minutes =
            static_cast<int>(item.find("minutes").count(1, mostMinutes).value_or(one.minutes));
        item.noMore();
        if (one.name.empty()) continue;
        sum += one.minutes;
        const bool twice = std::any_of(set.cases.begin(), set.cases.end(),
                                       [&](const auto& other) { return other.name == one.name; });
        if (twice) name.fault(FaultKind::duplicateKey, one.name, "each case once");
        one.path = shelves.find(one.name);
        if (one.path.empty()) {
            const std::string near = shelves.nearest(one.name);
            name.fault(FaultKind::unknownName, one.name,
                       near.empty() ? "the bare name of a case, its file without .yaml, beside "
                                      "this set, in the folder above it, or shipped"
                                    : "'" + near + "', the nearest case");
        }
        set.cases.push_back(std::move(one));
    }
    if (list.isList() && list.node()->members.empty())
        list.fault(FaultKind::wrongShape, "", "at least one case");
    if (set.minutes > 0 && sum > set.minutes)
        list.fault(FaultKind::contradiction, std::to_string(sum) + " minutes together",
                   "no more than the " + std::to_string(set.minutes) + " minutes of the set");
}

} // namespace

bool isSet(const std::string& file, const std::string& text) {
    const Document document = parse(file, text);
    return document.whole && document.root.find(setKey) != nullptr;
}

Set readSet(const base::Files& files, const std::string& path,
            const std::vector<std::string>& shelves) {
    Sheet sheet(parse(path, files.read(path)));
    if (!sheet.document().whole) throw base::InputError(sheet.take());
    Set set;
    set.file = path;
    set.name = fs::path(path).stem().string();
    Reader root(sheet);
    readFormat(root.need(setKey));
    set.title = root.need("title").text();
    if (Reader opening = root.find("opening")) set.opening = opening.text();
    set.minutes = static_cast<int>(root.find("minutes").count(1, mostMinutes).value_or(0));
    set.seats = static_cast<int>(root.find("seats").count(1, mostSeats).value_or(1));
    readCases(root.need("cases"), Shelves(files, path, shelves), set);
    root.noMore();
    if (!sheet.good()) throw base::InputError(sheet.take());
    return set;
}

} // namespace cistern::scenario
