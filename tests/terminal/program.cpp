#include "program.h"

#include "base/text.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace cistern::test {

namespace fs = std::filesystem;

namespace {

/// In the child: streams, environment, program. Never returns.
[[noreturn]] void become(const std::vector<std::string>& arguments, const std::string& in,
                         const std::string& out, const std::string& err,
                         const Environment& environment) {
    const int readable = ::open(in.c_str(), O_RDONLY);
    const int output = ::open(out.c_str(), O_WRONLY | O_CREAT, 0600);
    const int errors = ::open(err.c_str(), O_WRONLY | O_CREAT, 0600);
    if (readable < 0 || output < 0 || errors < 0 || ::dup2(readable, 0) < 0 ||
        ::dup2(output, 1) < 0 || ::dup2(errors, 2) < 0)
        ::_exit(126);
    for (const char* name : {"TERM", "NO_COLOR", "CISTERN_DATA"}) ::unsetenv(name);
    for (const auto& [name, value] : environment) ::setenv(name.c_str(), value.c_str(), 1);
    std::vector<std::string> copy = arguments;
    copy.insert(copy.begin(), CISTERN_PROGRAM);
    std::vector<char*> values;
    for (std::string& one : copy) values.push_back(one.data());
    values.push_back(nullptr);
    ::execv(CISTERN_PROGRAM, values.data());
    ::_exit(127);
}

Outcome started(const std::vector<std::string>& arguments, const std::string& input,
                const Environment& environment, const std::string& elsewhere) {
    const Folder folder;
    const std::string in = folder.with("in", input), err = folder.path("err");
    const std::string out = elsewhere.empty() ? folder.path("out") : elsewhere;
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) become(arguments, in, out, err, environment);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    Outcome outcome;
    outcome.code = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    if (elsewhere.empty()) outcome.out = textOf(out);
    outcome.err = textOf(err);
    return outcome;
}

} // namespace

Outcome program(const std::vector<std::string>& arguments, const std::string& input,
                const Environment& environment) {
    return started(arguments, input, environment, "");
}

void refused(const Outcome& outcome, const std::string& words) {
    INFO(outcome.err);
    CHECK(outcome.code == 2);
    CHECK(outcome.out == "");
    CHECK_THAT(outcome.err, Catch::StartsWith("cistern: "));
    CHECK_THAT(outcome.err, Catch::Contains(words));
    CHECK(lines(outcome.err).size() == 1);
}

Outcome programInto(const std::string& path, const std::vector<std::string>& arguments) {
    return started(arguments, "", {}, path);
}

Folder::Folder() {
    std::string name = (fs::temp_directory_path() / "cistern-test-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
    path_ = name;
}

Folder::~Folder() {
    std::error_code ignored;
    fs::permissions(path_, fs::perms::owner_all, ignored);
    fs::remove_all(path_, ignored);
}

std::string Folder::with(const std::string& name, const std::string& text) const {
    std::ofstream(path(name), std::ios::binary) << text;
    return path(name);
}

std::vector<std::string> Folder::names() const {
    std::vector<std::string> found;
    for (const auto& entry : fs::directory_iterator(path_))
        found.push_back(entry.path().filename().string());
    std::sort(found.begin(), found.end());
    return found;
}

std::string textOf(const std::string& path) {
    std::ostringstream text;
    text << std::ifstream(path, std::ios::binary).rdbuf();
    return text.str();
}

std::vector<std::string> shipped() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(CISTERN_SOURCE "/scenarios"))
        if (entry.path().extension() == ".yaml") names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    return names;
}

std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> found;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) found.push_back(line);
    return found;
}

std::string tooWide(const std::string& text) {
    std::string found;
    const auto all = lines(text);
    for (std::size_t i = 0; i < all.size(); ++i)
        if (base::width(all[i]) > 80) found += std::to_string(i + 1) + ": " + all[i] + "\n";
    return found;
}

std::vector<std::vector<std::string>> csv(const std::string& text) {
    std::vector<std::vector<std::string>> rows;
    std::vector<std::string> row{""};
    bool quoted = false;
    const auto need = [&](bool right, std::size_t at) {
        if (!right) FAIL("not RFC 4180 at byte " << at << ": " << text.substr(at, 20));
    };
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted && c == '"' && i + 1 < text.size() && text[i + 1] == '"')
            row.back() += text[i++];
        else if (c == '"') {
            need(quoted || row.back().empty(), i);
            quoted = !quoted;
        } else if (!quoted && c == ',')
            row.emplace_back();
        else if (!quoted && c == '\r') {
            need(i + 1 < text.size() && text[i + 1] == '\n', i);
            ++i;
            rows.push_back(row);
            row = {""};
        } else {
            need(quoted || c != '\n', i);
            row.back() += c;
        }
    }
    REQUIRE_FALSE(quoted);
    REQUIRE(row == std::vector<std::string>{""}); // the last line ends too
    return rows;
}

std::vector<double> columnOf(const std::string& text, const std::string& head) {
    return columnOf(csv(text), head);
}

std::vector<double> columnOf(const std::vector<std::vector<std::string>>& rows,
                             const std::string& head) {
    const auto at = std::find(rows[0].begin(), rows[0].end(), head);
    INFO("column " << head);
    REQUIRE(at != rows[0].end());
    std::vector<double> values;
    for (std::size_t i = 1; i < rows.size(); ++i)
        values.push_back(std::stod(rows[i][static_cast<std::size_t>(at - rows[0].begin())]));
    return values;
}

} // namespace cistern::test
