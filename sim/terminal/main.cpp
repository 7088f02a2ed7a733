#include "terminal/commands.h"

#include <unistd.h>

#include <iostream>
#include <string>
#include <vector>

int main(int count, char** values) {
    using namespace cistern;
    using base::environment;
    const bool screen = isatty(STDOUT_FILENO) == 1;
    const std::string kind = environment("TERM");
    base::Disk disk;
    terminal::World world{std::cin, std::cout, std::cerr, disk,
                          base::dataCandidates(CISTERN_BUILD_DATA, CISTERN_INSTALL_DATA)};
    world.interactive = screen && isatty(STDIN_FILENO) == 1;
    world.styled = screen && environment("NO_COLOR").empty() && !kind.empty() && kind != "dumb";
    world.progress = isatty(STDERR_FILENO) == 1;
    return terminal::runCommandLine(std::vector<std::string>(values + 1, values + count), world);
}
