#pragma once
#include <string>
#include <vector>

namespace cistern::base {

/// The outside world of files, small enough that a test can stand in for it.
class Files {
public:
    virtual ~Files() = default;
    /// Whole text of a file. Throws InputError (unreadable, tooLarge above `limit` bytes).
    virtual std::string read(const std::string& path, std::size_t limit = 1u << 20) const = 0;
    /// Writes whole or not at all: temporary file beside it, fsync, rename. A link
    /// is followed; a device or pipe takes the text as it comes. Throws std::runtime_error with one
    /// sentence (disk full, no such folder, not permitted) and leaves the old file as it was.
    virtual void write(const std::string& path, const std::string& text) = 0;
    /// Paths of the files in a folder with this ending (".yaml"), sorted; empty if there is no such
    /// folder.
    virtual std::vector<std::string> list(const std::string& folder,
                                          const std::string& ending) const = 0;
};

/// The real disk.
class Disk : public Files {
public:
    std::string read(const std::string& path, std::size_t limit = 1u << 20) const override;
    void write(const std::string& path, const std::string& text) override;
    std::vector<std::string> list(const std::string& folder,
                                  const std::string& ending) const override;
};

/// A variable of the environment; empty if it is not set.
std::string environment(const char* name);

/// Where the program's data may be: where CISTERN_DATA says, and nowhere else; or beside the
/// program, in the source tree that it was `built` from, or where it was to be `installed`.
std::vector<std::string> dataCandidates(const std::string& built, const std::string& installed);

/// The folder that holds the program's assets/ and scenarios/: the first candidate that has
/// assets/. A relative candidate starts at the folder of the running program, so that an installed
/// program finds its data wherever its prefix has been moved. Throws std::runtime_error.
std::string dataFolder(const std::vector<std::string>& candidates);

} // namespace cistern::base
