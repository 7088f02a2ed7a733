#pragma once
#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

/// Holds a text against tests/report/approved/NAME, byte for byte. Running the tests with
/// CISTERN_RENEW=1 in the environment writes the files anew; look at the difference before
/// committing it.
inline void checkApproved(const std::string& name, const std::string& text) {
    const std::string path = std::string(CISTERN_SOURCE) + "/tests/report/approved/" + name;
    if (std::getenv("CISTERN_RENEW")) {
        std::ofstream(path, std::ios::binary) << text;
    }
    std::ifstream file(path, std::ios::binary);
    std::stringstream held;
    held << file.rdbuf();
    const std::string approved = held.str();
    std::istringstream seenLines(text), approvedLines(approved);
    std::string seen, wanted;
    for (int line = 1; text != approved; ++line) {
        const bool more = static_cast<bool>(std::getline(seenLines, seen));
        const bool wantsMore = static_cast<bool>(std::getline(approvedLines, wanted));
        if (more && wantsMore && seen == wanted) continue;
        INFO(path << ":" << line << ": first difference\n  approved: " << wanted
                  << "\n  now:      " << seen);
        CHECK(more == wantsMore);
        CHECK(seen == wanted);
        break;
    }
    CHECK((text == approved));
}
