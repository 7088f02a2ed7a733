#include "base/fault.h"
#include "base/file.h"

#include <catch2/catch.hpp>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <thread>

using namespace cistern::base;
namespace fs = std::filesystem;
using Catch::Matchers::Message;

namespace {

/// A folder of its own that goes with the test.
class Folder {
public:
    Folder() {
        std::string name = (fs::temp_directory_path() / "cistern-test-XXXXXX").string();
        if (!::mkdtemp(name.data())) throw std::runtime_error("no temporary folder");
        path_ = name;
    }
    ~Folder() { fs::remove_all(path_); }
    std::string operator/(const std::string& name) const { return (path_ / name).string(); }
    std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(path_), fs::directory_iterator()));
    }

private:
    fs::path path_;
};

/// No file may grow past this while it stands, as on a disk with so much room left.
class Room {
public:
    explicit Room(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        ::getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit tight{bytes, before_.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &tight);
    }
    ~Room() {
        ::setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }

private:
    void (*handler_)(int);
    rlimit before_{};
};

FaultKind readFault(const std::string& path, std::size_t limit = 1u << 20) {
    try {
        Disk().read(path, limit);
    } catch (const InputError& error) {
        REQUIRE(error.faults().size() == 1);
        CHECK(error.faults().front().place.file == path);
        return error.faults().front().kind;
    }
    FAIL(path << " was read");
    return {};
}

} // namespace

TEST_CASE("What is written is read back, byte for byte", "[base]") {
    const Folder folder;
    std::string all;
    for (int i = 0; i < 70000; ++i) all += static_cast<char>(i % 256);
    for (const std::string& text : {std::string(), std::string("one line\n"), all}) {
        Disk().write(folder / "text", text);
        CHECK(Disk().read(folder / "text") == text);
        CHECK(folder.files() == 1);
    }
}

TEST_CASE("A file that cannot be read is an input error with the reason", "[base]") {
    const Folder folder;
    CHECK(readFault(folder / "absent.yaml") == FaultKind::unreadable);
    CHECK(readFault(folder / ".") == FaultKind::unreadable);
    CHECK_THROWS_WITH(Disk().read("absent.yaml"),
                      "absent.yaml: the file cannot be read: there is no such file or folder.");
    CHECK_THROWS_WITH(Disk().read("/"), "/: the file cannot be read: it is a folder.");
}

TEST_CASE("A file is read up to its limit and not a byte further", "[base]") {
    const Folder folder;
    Disk().write(folder / "text", std::string(100000, 'x'));
    CHECK(Disk().read(folder / "text", 100000).size() == 100000);
    CHECK(readFault(folder / "text", 99999) == FaultKind::tooLarge);
    CHECK(readFault("/dev/zero") == FaultKind::tooLarge); // a file without end comes to an end
}

TEST_CASE("A folder that does not exist is named when writing fails", "[base]") {
    const Folder folder;
    const std::string path = folder / "no/such/record.json";
    CHECK_THROWS_MATCHES(Disk().write(path, "x"), std::runtime_error,
                         Message(path + " cannot be written: there is no such folder."));
    Disk().write(folder / "file", "x");
    const std::string under = folder / "file/record.json";
    CHECK_THROWS_MATCHES(
        Disk().write(under, "x"), std::runtime_error,
        Message(under + " cannot be written: a part of the path is not a folder."));
    CHECK_THROWS_WITH(Disk().write(folder / ".", "x"),
                      Catch::EndsWith("cannot be written: it is a folder."));
    const std::string lengthy = folder / std::string(300, 'n');
    CHECK_THROWS_MATCHES(Disk().write(lengthy, "x"), std::runtime_error,
                         Message(lengthy + " cannot be written: the name is too long."));
    CHECK(folder.files() == 1);
}

TEST_CASE("A name of the greatest length can still be written", "[base]") {
    const Folder folder;
    Disk().write(folder / std::string(255, 'n'), "x"); // NAME_MAX of Linux
    CHECK(folder.files() == 1);
}

TEST_CASE("A full disk is named", "[base]") {
    // full(4): a write to /dev/full fails as on a full disk.
    CHECK_THROWS_MATCHES(Disk().write("/dev/full", "x"), std::runtime_error,
                         Message("/dev/full cannot be written: the disk is full."));
}

TEST_CASE("A write that breaks off leaves the old file and nothing else", "[base]") {
    const Folder folder;
    Disk().write(folder / "record", "the old record");
    {
        const Room room(1000);
        CHECK_THROWS_WITH(Disk().write(folder / "record", std::string(5000, 'x')),
                          Catch::EndsWith("the file would be larger than is permitted."));
    }
    CHECK(Disk().read(folder / "record") == "the old record");
    CHECK(folder.files() == 1);
    Disk().write(folder / "record", std::string(5000, 'x'));
    CHECK(Disk().read(folder / "record").size() == 5000);
}

TEST_CASE("A folder that may not be written to is named", "[base]") {
    const Folder folder;
    fs::create_directory(folder / "locked");
    fs::permissions(folder / "locked", fs::perms::owner_read | fs::perms::owner_exec);
    if (::geteuid() == 0) { // root may write anywhere but into the kernel's own tables
        CHECK_THROWS_AS(Disk().write("/proc/cistern", "x"), std::runtime_error);
    } else {
        CHECK_THROWS_WITH(Disk().write(folder / "locked/x", "x"),
                          Catch::EndsWith("cannot be written: that is not permitted."));
    }
    fs::permissions(folder / "locked", fs::perms::owner_all);
}

TEST_CASE("A rewritten file keeps its permissions, and a link stays a link", "[base]") {
    const Folder folder;
    Disk().write(folder / "record", "one");
    fs::permissions(folder / "record", fs::perms::owner_read | fs::perms::owner_write);
    fs::create_symlink(folder / "record", folder / "link");
    Disk().write(folder / "link", "two");
    CHECK(fs::is_symlink(folder / "link"));
    CHECK(Disk().read(folder / "record") == "two");
    CHECK(fs::status(folder / "record").permissions() ==
          (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("A pipe takes the text as it comes and stays a pipe", "[base]") {
    const Folder folder;
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    std::string heard;
    std::thread reader([&] {
        std::ifstream in(folder / "pipe");
        std::getline(in, heard);
    });
    Disk().write(folder / "pipe", "hello\n");
    reader.join();
    CHECK(heard == "hello");
    CHECK(fs::is_fifo(folder / "pipe"));
}

TEST_CASE("Readers see the old file or the new one, never a part", "[base]") {
    const Folder folder;
    const std::string a(50000, 'a'), b(60000, 'b');
    Disk().write(folder / "record", a);
    bool whole = true;
    std::thread writer([&] {
        for (int i = 0; i < 50; ++i) Disk().write(folder / "record", i % 2 ? a : b);
    });
    for (int i = 0; i < 200; ++i) {
        const std::string text = Disk().read(folder / "record");
        whole = whole && (text == a || text == b);
    }
    writer.join();
    CHECK(whole);
}

TEST_CASE("A folder's files are listed by their ending, sorted", "[base]") {
    const Folder folder;
    for (const char* name : {"b.yaml", "a.yaml", "c.txt", ".hidden.yaml"})
        Disk().write(folder / name, "x");
    fs::create_directory(folder / "sub.yaml");
    CHECK(Disk().list(folder / "", ".yaml") ==
          std::vector<std::string>{folder / "a.yaml", folder / "b.yaml"});
    CHECK(Disk().list(folder / "absent", ".yaml").empty());
    CHECK(Disk().list(folder / "a.yaml", ".yaml").empty());
}

TEST_CASE("The data folder is the first candidate with assets", "[base]") {
    const Folder folder;
    fs::create_directories(folder / "empty");
    fs::create_directories(folder / "one/assets");
    fs::create_directories(folder / "two/assets");
    CHECK(dataFolder({folder / "absent", folder / "empty", folder / "one", folder / "two"}) ==
          folder / "one");
    CHECK_THROWS_WITH(dataFolder({folder / "empty"}), Catch::Contains(folder / "empty"));
}

TEST_CASE("A relative candidate starts at the folder of the program", "[base]") {
    const fs::path program = fs::read_symlink("/proc/self/exe").parent_path();
    const Folder folder;
    fs::create_directory(folder / "assets");
    const std::string relative = fs::relative(folder / "", program).string();
    CHECK(fs::equivalent(dataFolder({relative}), folder / ""));
}
