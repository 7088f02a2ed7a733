#pragma once
#include <string>
#include <utility>
#include <vector>

namespace cistern::test {

/// What a run of the built program left behind.
struct Outcome {
    int code = -1; ///< exit code; 128 + signal if it was killed
    std::string out, err;
};

using Environment = std::vector<std::pair<std::string, std::string>>;

/// Runs the program with its three streams on files, never on a terminal. `environment` is set on
/// top of the test's own, where TERM, NO_COLOR and CISTERN_DATA are unset first.
Outcome program(const std::vector<std::string>& arguments, const std::string& input = "",
                const Environment& environment = {});

/// The same, with standard output going to a path such as /dev/full.
Outcome programInto(const std::string& path, const std::vector<std::string>& arguments);

/// Checks that wrong use was refused: exit code 2, nothing on stdout, and one sentence that holds
/// these words.
void refused(const Outcome& outcome, const std::string& words);

/// A new folder that is removed with everything in it.
class Folder {
public:
    Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder();
    std::string path(const std::string& name) const { return path_ + "/" + name; }
    /// Writes a file and gives its path.
    std::string with(const std::string& name, const std::string& text) const;
    std::vector<std::string> names() const;

private:
    std::string path_;
};

/// Whole text of a file; "" if there is none.
std::string textOf(const std::string& path);

/// Bare names of the shipped cases, found in scenarios/.
std::vector<std::string> shipped();

std::vector<std::string> lines(const std::string& text);
/// Lines wider than 80 cells, with their numbers; empty if all fit.
std::string tooWide(const std::string& text);

/// An RFC 4180 text taken apart: a row a line. Fails the test if a line end or quote is wrong.
std::vector<std::vector<std::string>> csv(const std::string& text);

/// The numbers under a heading of such a text, or of its rows. Fails the test if there is no such
/// column.
std::vector<double> columnOf(const std::string& text, const std::string& head);
std::vector<double> columnOf(const std::vector<std::vector<std::string>>& rows,
                             const std::string& head);

} // namespace cistern::test
