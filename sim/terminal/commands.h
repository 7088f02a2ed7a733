#pragma once
#include "terminal/world.h"

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace CLI {
class App;
}

namespace cistern::terminal {

/// What to do once a command line is understood. Gives the exit code.
using Job = std::function<int(World&)>;

/// Declares an option that takes a value: its name, where the value goes, what it is for, and what
/// the help calls the value.
using Option = std::function<void(const char*, std::string&, const char*, const char*)>;
Option optionsOf(CLI::App& app);

/// One command: its name, what it is for in a line, and how it declares its options.
struct Command {
    std::string_view name, summary;
    Job (*declare)(CLI::App&);
};

/// Every command of the program, in the order of the help.
const std::vector<Command>& commands();

// The commands, one file each.
Job declareCases(CLI::App& app);
Job declareCheck(CLI::App& app);
Job declarePlay(CLI::App& app);
Job declareRun(CLI::App& app);
Job declareCourse(CLI::App& app);
Job declareVessel(CLI::App& app);
Job declareFilm(CLI::App& app);
Job declareCells(CLI::App& app);
Job declareWeigh(CLI::App& app);
Job declareHerd(CLI::App& app);
Job declareControl(CLI::App& app);
Job declareSources(CLI::App& app);

/// What the program is, the cases at hand and how to start: no command at all.
int about(World& world);

/// Runs a command line (without the program's name). Every fault is told on `err` in plain
/// sentences; nothing is thrown. Gives the exit code.
int runCommandLine(const std::vector<std::string>& arguments, World& world);

} // namespace cistern::terminal
