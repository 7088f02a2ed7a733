#include "base/fault.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

struct Shelf {
    std::vector<std::vector<std::string>> cases, sets;
    std::vector<std::string> faults; ///< messages about files that could not be read
};

void putSet(const World& world, const std::string& path, Shelf& shelf) {
    const scenario::Set set = readSet(world, path);
    shelf.sets.push_back({set.name, std::to_string(set.cases.size()),
                          set.minutes > 0 ? std::to_string(set.minutes) : "", set.title});
}

void putCase(const World& world, const std::string& path, const lesson::Knowledge& knowledge,
             Shelf& shelf) {
    const lesson::Case one = scenario::readCase(world.files, path, knowledge);
    shelf.cases.push_back({one.name, std::string(body::name(one.who.kind)), one.level,
                           one.minutes > 0 ? std::to_string(one.minutes) : "", one.title});
}

Shelf shelf(const World& world, const std::vector<std::string>& paths) {
    const scenario::Assets assets = loadAssets(world);
    Shelf shelf;
    for (const std::string& path : paths) {
        try {
            if (scenario::isSet(path, world.files.read(path)))
                putSet(world, path, shelf);
            else
                putCase(world, path, assets.knowledge, shelf);
        } catch (const base::InputError& error) {
            shelf.faults.emplace_back(error.what());
        }
    }
    return shelf;
}

void print(Page& page, const Shelf& shelf) {
    if (!shelf.cases.empty())
        page.table({{"case", false},
                    {"species", false},
                    {"level", false},
                    {"min", true},
                    {"title", false}},
                   shelf.cases);
    if (!shelf.cases.empty() && !shelf.sets.empty()) page.blank();
    if (!shelf.sets.empty())
        page.table({{"set", false}, {"cases", true}, {"min", true}, {"title", false}}, shelf.sets);
}

/// Cases, then sets.
std::vector<std::string> shippedPaths(const World& world) {
    std::vector<std::string> paths = shippedCases(world);
    for (std::string& path : shippedSets(world)) paths.push_back(std::move(path));
    return paths;
}

int list(World& world, const std::string& folder) {
    const std::vector<std::string> paths =
        folder.empty() ? shippedPaths(world) : world.files.list(folder, ".yaml");
    if (paths.empty())
        throw UsageError("There are no cases (files ending in .yaml) in " +
                         (folder.empty() ? "the program's scenarios" : folder) + ".");
    const Shelf found = shelf(world, paths);
    Page page(world.out, world.styled);
    print(page, found);
    world.out.flush();
    for (const std::string& fault : found.faults) world.err << fault << "\n";
    return found.faults.empty() ? done : wrongInput;
}

} // namespace

Job declareCases(CLI::App& app) {
    const auto folder = std::make_shared<std::string>();
    app.add_option("DIR", *folder,
                   "Folder with cases and sets; left out: those that came with the program.");
    return [folder](World& world) { return list(world, *folder); };
}

int about(World& world) {
    const Shelf found = shelf(world, shippedCases(world));
    Page page(world.out, world.styled);
    page.paragraph(
        "Cistern is a teaching simulator of lab work in dogs and cats. You work an "
        "invented case from the bedside to a committed reading, then the animal is "
        "opened. A serum enzyme is the level in a leaking, draining cistern: it says how "
        "much an organ leaks, not how much of it still works.");
    page.blank();
    if (!found.cases.empty()) {
        print(page, found);
        page.blank();
        const std::string& first = found.cases.front().front();
        page.paragraph("Start with: cistern play " + first);
        page.paragraph("Only the lab report: cistern run " + first);
    }
    page.paragraph("All commands: cistern --help");
    page.blank();
    page.caution();
    world.out.flush();
    for (const std::string& fault : found.faults) world.err << fault << "\n";
    return found.faults.empty() ? done : wrongInput;
}

} // namespace cistern::terminal
