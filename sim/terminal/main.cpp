#include "terminal/commands.h"

#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

namespace {

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

/// Where the cases and assets may be: where CISTERN_DATA says, and nowhere else; or beside the
/// program, in the source tree that it was built from, or where it was to be installed.
std::vector<std::string> dataFolders() {
    if (const std::string said = environment("CISTERN_DATA"); !said.empty()) return {said};
    return {"../share/cistern", CISTERN_BUILD_DATA, CISTERN_INSTALL_DATA};
}

} // namespace

int main(int count, char** values) {
    using namespace cistern;
    const bool screen = isatty(STDOUT_FILENO) == 1;
    const std::string kind = environment("TERM");
    base::Disk disk;
    terminal::World world{std::cin, std::cout, std::cerr, disk, dataFolders()};
    world.interactive = screen && isatty(STDIN_FILENO) == 1;
    world.styled = screen && environment("NO_COLOR").empty() && !kind.empty() && kind != "dumb";
    world.progress = isatty(STDERR_FILENO) == 1;
    return terminal::runCommandLine(std::vector<std::string>(values + 1, values + count), world);
}
