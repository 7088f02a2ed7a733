// Writes what course.R reads: parameters.csv and windows.csv, into a folder that exists.
#include "solver/cases.h"

#include <cstdio>
#include <exception>

using namespace cistern;

namespace {

std::string number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.17g", value);
    return text;
}

void write(const std::string& folder) {
    std::string parameters = "case,name,value\n", windows = "case,drive,from,to,value\n";
    for (reference::SolverCase& one : reference::solverCases()) {
        const auto line = [&](const std::string& name, double value) {
            parameters += one.name + ',' + name + ',' + number(value) + '\n';
        };
        line("age", one.plan.animal.who.age);
        body::eachParameter(one.plan.animal.own,
                            [&](const body::Parameter& p) { line(p.name, *p.value); });
        for (const body::Window& w : one.plan.windows)
            windows += one.name + ',' + std::string(name(w.drive)) + ',' + number(w.from) + ',' +
                       number(w.to) + ',' + number(w.value) + '\n';
    }
    base::Disk disk;
    disk.write(folder + "/parameters.csv", parameters);
    disk.write(folder + "/windows.csv", windows);
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fputs("usage: solver_input FOLDER\n", stderr);
        return 2;
    }
    try {
        write(argv[1]);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
    return 0;
}
