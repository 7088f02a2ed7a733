// Broken files of tests/broken, each with the messages that were approved beside it. With
// CISTERN_RENEW=1 in the environment the messages are written anew: read what changed before
// committing it.
#include "at_hand.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <set>

using namespace cistern;

namespace {

const std::string folder = CISTERN_SOURCE "/tests/broken/";

std::vector<std::string> names() {
    std::vector<std::string> all;
    for (const std::string& path : base::Disk().list(folder, ".yaml"))
        all.push_back(std::filesystem::path(path).stem().string());
    return all;
}

/// The faults of a file, with its name alone as place.
std::vector<base::Fault> faults(const std::string& name) {
    test::Memory memory;
    memory.texts[name + ".yaml"] = base::Disk().read(folder + name + ".yaml");
    try {
        scenario::readCase(memory, name + ".yaml", test::assets().knowledge);
    } catch (const base::InputError& error) {
        return error.faults();
    }
    return {};
}

std::string messages(const std::vector<base::Fault>& all) {
    std::string text;
    for (const base::Fault& fault : all) text += base::message(fault) + "\n";
    return text;
}

} // namespace

TEST_CASE("each broken file is refused with the approved messages", "[scenario]") {
    const std::string name = GENERATE(from_range(names()));
    const std::string said = messages(faults(name));
    const std::string approved = folder + name + ".txt";
    if (std::getenv("CISTERN_RENEW")) base::Disk().write(approved, said);
    INFO("messages of " << name << ".yaml, approved in " << approved);
    CHECK_FALSE(said.empty());
    CHECK(said == base::Disk().read(approved));
}

TEST_CASE("the faults of a file come sorted by line, all in one run", "[scenario]") {
    const auto all = faults("many_faults");
    CHECK(all.size() > 20);
    CHECK(std::is_sorted(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return std::pair(a.place.line, a.place.column) < std::pair(b.place.line, b.place.column);
    }));
}

TEST_CASE("every kind of fault that a scenario can have is shown by a broken file", "[scenario]") {
    std::set<base::FaultKind> shown;
    for (const std::string& name : names())
        for (const base::Fault& fault : faults(name)) shown.insert(fault.kind);
    // A file that cannot be read is no file of this folder.
    const std::set<base::FaultKind> others{base::FaultKind::unreadable};
    for (int i = 0; i <= static_cast<int>(base::FaultKind::contradiction); ++i) {
        const auto kind = static_cast<base::FaultKind>(i);
        INFO("fault kind number " << i);
        CHECK((shown.count(kind) + others.count(kind)) == 1);
    }
}

TEST_CASE("no message holds a control character, whatever the file holds", "[scenario]") {
    for (const std::string& name : names())
        for (const char c : messages(faults(name))) {
            INFO(name);
            CHECK((c == '\n' || static_cast<unsigned char>(c) >= 0x20));
        }
}
