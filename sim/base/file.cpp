#include "base/file.h"

#include "base/fault.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <stdexcept>
#include <utility>

namespace cistern::base {

namespace {

namespace fs = std::filesystem;

/// An open file that closes itself.
class Descriptor {
public:
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    int number() const { return number_; }
    bool close() { return ::close(std::exchange(number_, -1)) == 0; }

private:
    int number_;
};

std::string reason(int error) {
    switch (error) {
    case ENOENT:
        return "there is no such file or folder";
    case ENOTDIR:
        return "a part of the path is not a folder";
    case EISDIR:
        return "it is a folder";
    case EACCES:
    case EPERM:
        return "that is not permitted";
    case EROFS:
        return "the disk can only be read";
    case ENOSPC:
        return "the disk is full";
    case EDQUOT:
        return "the space allowed to this user is used up";
    case EFBIG:
        return "the file would be larger than is permitted";
    case ENAMETOOLONG:
        return "the name is too long";
    case ELOOP:
        return "its links lead in a circle";
    case EMFILE:
    case ENFILE:
        return "too many files are open";
    default:
        return std::strerror(error);
    }
}

[[noreturn]] void refuse(FaultKind kind, const std::string& path, const std::string& found,
                         const std::string& allowed) {
    Fault fault{};
    fault.kind = kind;
    fault.place.file = path;
    fault.subject = "the file";
    fault.found = found;
    fault.allowed = allowed;
    throw InputError({fault});
}

[[noreturn]] void cannotRead(const std::string& path, const std::string& why) {
    refuse(FaultKind::unreadable, path, why, "");
}

[[noreturn]] void cannotWrite(const std::string& path, const std::string& why) {
    throw std::runtime_error(path + " cannot be written: " + why + ".");
}

/// Writes all of a text; 0, or the error number.
int writeAll(int descriptor, std::string_view text) {
    while (!text.empty()) {
        const ssize_t count = ::write(descriptor, text.data(), text.size());
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return errno;
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return 0;
}

/// A file that is no file of a disk (a terminal, a pipe, /dev/stdout) takes the text as it comes.
bool writtenInPlace(const std::string& path) {
    struct stat status {};
    if (path.starts_with("/dev/")) return true;
    return ::stat(path.c_str(), &status) == 0 && !S_ISREG(status.st_mode) &&
           !S_ISDIR(status.st_mode);
}

void writeInPlace(const std::string& path, const std::string& text) {
    const Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (file.number() < 0) cannotWrite(path, reason(errno));
    if (const int error = writeAll(file.number(), text)) cannotWrite(path, reason(error));
}

/// A name that no other file of the folder has, independent of the wanted name's length.
std::string temporaryName() {
    static std::atomic<unsigned> count = 0;
    return ".cistern-" + std::to_string(::getpid()) + "-" + std::to_string(count++) + ".part";
}

/// A link is followed, so that the file it leads to is replaced and the link stays.
fs::path target(const std::string& path) {
    std::error_code none;
    const fs::path real = fs::canonical(path, none);
    return none ? fs::path(path) : real;
}

/// A folder's new entry survives a power cut only if the folder itself is flushed. Some file
/// systems refuse that; the text is in place by then, so a refusal is no failure.
void flushFolder(const fs::path& folder) {
    const Descriptor opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (opened.number() >= 0) ::fsync(opened.number());
}

/// Fills a new file at `temporary` and flushes it; 0, or the error number.
int fill(const fs::path& temporary, const fs::path& wanted, const std::string& text) {
    Descriptor file(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
    if (file.number() < 0) return errno;
    struct stat old {};
    if (::stat(wanted.c_str(), &old) == 0 && ::fchmod(file.number(), old.st_mode & 07777) != 0)
        return errno;
    if (const int error = writeAll(file.number(), text)) return error;
    if (::fsync(file.number()) != 0) return errno;
    return file.close() ? 0 : errno;
}

} // namespace

std::string Disk::read(const std::string& path, std::size_t limit) const {
    const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
    if (file.number() < 0) cannotRead(path, reason(errno));
    std::string text;
    char buffer[1 << 16];
    for (;;) {
        const ssize_t count = ::read(file.number(), buffer, sizeof buffer);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) cannotRead(path, reason(errno));
        if (count == 0) return text;
        text.append(buffer, static_cast<std::size_t>(count));
        if (text.size() > limit)
            refuse(FaultKind::tooLarge, path, "", "at most " + std::to_string(limit) + " bytes");
    }
}

void Disk::write(const std::string& path, const std::string& text) {
    if (writtenInPlace(path)) return writeInPlace(path, text);
    const fs::path wanted = target(path);
    const fs::path folder = wanted.has_parent_path() ? wanted.parent_path() : fs::path(".");
    const fs::path temporary = folder / temporaryName();
    std::error_code unknown;
    int error = fs::is_directory(wanted, unknown) ? EISDIR : fill(temporary, wanted, text);
    if (error == 0 && ::rename(temporary.c_str(), wanted.c_str()) != 0) error = errno;
    if (error != 0) {
        ::unlink(temporary.c_str());
        cannotWrite(path, error == ENOENT ? "there is no such folder" : reason(error));
    }
    flushFolder(folder);
}

std::vector<std::string> Disk::list(const std::string& folder, const std::string& ending) const {
    std::vector<std::string> paths;
    std::error_code failed;
    for (fs::directory_iterator entry(folder, failed), end; !failed && entry != end;
         entry.increment(failed)) {
        const std::string name = entry->path().filename().string();
        std::error_code unknown;
        if (name.ends_with(ending) && !name.starts_with('.') && entry->is_regular_file(unknown))
            paths.push_back(entry->path().string());
    }
    std::sort(paths.begin(), paths.end());
    return paths;
}

std::string environment(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

std::vector<std::string> dataCandidates(const std::string& built, const std::string& installed) {
    if (const std::string said = environment("CISTERN_DATA"); !said.empty()) return {said};
    return {"../share/cistern", built, installed};
}

std::string dataFolder(const std::vector<std::string>& candidates) {
    std::error_code failed;
    const fs::path program = fs::read_symlink("/proc/self/exe", failed).parent_path();
    std::string tried;
    for (const std::string& candidate : candidates) {
        const fs::path folder = (program / candidate).lexically_normal();
        if (fs::is_directory(folder / "assets", failed)) return folder.string();
        tried += (tried.empty() ? "" : ", ") + folder.string();
    }
    throw std::runtime_error("The program's assets are missing; looked in " + tried + ".");
}

} // namespace cistern::base
