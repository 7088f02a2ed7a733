// What people read for every shipped case, word for word. CISTERN_RENEW=1 writes the files anew:
// read the difference before committing it.
#include "program.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>

using namespace cistern::test;

namespace {

const std::string folder = CISTERN_SOURCE "/tests/approved/";

/// Holds a text against the approved one, byte for byte, and shows the first difference.
void approve(const std::string& name, const std::string& text) {
    const std::string path = folder + name;
    if (std::getenv("CISTERN_RENEW")) {
        std::filesystem::create_directories(folder);
        std::ofstream(path, std::ios::binary) << text;
    }
    const std::string approved = textOf(path);
    if (text == approved) {
        SUCCEED(name);
        return;
    }
    const auto now = lines(text), wanted = lines(approved);
    std::size_t i = 0;
    while (i < now.size() && i < wanted.size() && now[i] == wanted[i]) ++i;
    FAIL_CHECK(path << ":" << i + 1 << ": first difference\n  approved: "
                    << (i < wanted.size() ? wanted[i] : "(end)")
                    << "\n  now:      " << (i < now.size() ? now[i] : "(end)"));
}

} // namespace

TEST_CASE("reports and lessons of the shipped cases read as approved", "[terminal]") {
    REQUIRE_FALSE(shipped().empty());
    for (const std::string& name : shipped()) {
        approve(name + ".run.txt", program({"run", name}).out);
        const std::string page = program({"play", name}).out;
        approve(name + ".play.txt", page);
        // The page itself shows an answers file; every case is answered with it.
        const Folder desk;
        const std::string answers = desk.with("answers.json", page.substr(page.find("\n{") + 1));
        approve(name + ".answered.txt", program({"play", name, "--answers", answers}).out);
    }
}

TEST_CASE("every approved text belongs to a shipped case", "[terminal]") {
    const auto names = shipped();
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string file = entry.path().filename().string();
        const std::string stem = file.substr(0, file.find('.'));
        INFO(file);
        CHECK(std::find(names.begin(), names.end(), stem) != names.end());
    }
}
