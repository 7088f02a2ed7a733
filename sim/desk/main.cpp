#include "desk/command.h"
#include "desk/window/window.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <iostream>

namespace {

using namespace cistern;

/// A folder of our own under what `variable` names (XDG Base Directory Specification), or under the
/// home; made if need be. Empty if that cannot be: then nothing is kept, and that is said.
std::string folder(const char* variable, const char* underHome, const std::string& inside) {
    const std::string said = base::environment(variable), home = base::environment("HOME");
    // The specification: a path that is not absolute is to be ignored.
    const std::string base = said.starts_with("/") ? said
                             : home.empty()        ? ""
                                                   : home + "/" + underHome;
    if (base.empty()) return "";
    const std::string path = base + "/cistern" + inside;
    std::error_code error;
    std::filesystem::create_directories(path, error);
    if (!error) return path;
    std::cerr << "cistern-desk: " << path << " cannot be made, so nothing is kept there.\n";
    return "";
}

void keep(desk::Outside& outside) {
    outside.settingsFolder = folder("XDG_CONFIG_HOME", ".config", "");
    outside.lessonsFolder = folder("XDG_STATE_HOME", ".local/state", "/lessons");
}

void show(desk::Desk& desk, int frames, bool flood) {
    desk::FrameTimes times = desk::showWindow(desk, frames, flood);
    if (frames == 0) return;
    const auto part = [](std::vector<double> all, double share) {
        if (all.empty()) return 0.0;
        std::sort(all.begin(), all.end());
        const auto at = static_cast<std::size_t>(share * static_cast<double>(all.size() - 1));
        return 1000 * all[at];
    };
    std::cout << "first page " << 1000 * times.firstPage << " ms\n"
              << "frames " << times.frames.size() << ": median " << part(times.frames, .5)
              << " ms, 99th percentile " << part(times.frames, .99) << " ms, at most "
              << times.drops << " drops\n"
              << "pages " << times.pages.size() << ": median " << part(times.pages, .5)
              << " ms, most " << part(times.pages, 1) << " ms\n";
    if (times.tileSeconds > 0)
        std::cout << "tiles of the film: " << 1000 * times.tileSeconds << " ms each, "
                  << times.tilesMissing << " not there when they were seen\n";
}

} // namespace

int main(int count, char** values) {
    base::Disk disk;
    desk::Surroundings around{
        {&disk, base::dataCandidates(CISTERN_BUILD_DATA, CISTERN_INSTALL_DATA), "", ""},
        std::cout,
        std::cerr,
        desk::hasDisplay(),
        keep,
        show};
    return desk::runDesk(std::vector<std::string>(values + 1, values + count), around);
}
