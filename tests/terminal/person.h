#pragma once
#include "base/fault.h"
#include "terminal/commands.h"

#include <istream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <streambuf>
#include <string>
#include <vector>

namespace cistern::test {

/// Files that are read from the disk and written to memory; a full disk on demand.
class Desk : public base::Files {
public:
    std::string read(const std::string& path, std::size_t limit) const override {
        const auto at = written.find(path);
        return at == written.end() ? disk_.read(path, limit) : at->second;
    }
    void write(const std::string& path, const std::string& text) override {
        if (full) throw std::runtime_error(path + " cannot be written: the disk is full.");
        written[path] = text;
        ++writes;
    }
    std::vector<std::string> list(const std::string& folder,
                                  const std::string& ending) const override {
        std::vector<std::string> found = disk_.list(folder, ending);
        for (const auto& [path, text] : written)
            if (folder == "." && path.ends_with(ending)) found.push_back(path);
        return found;
    }

    std::map<std::string, std::string> written;
    int writes = 0;
    bool full = false;

private:
    base::Disk disk_;
};

/// Typed text that appears on the screen as it is read, as a terminal shows it.
class Keyboard : public std::streambuf {
public:
    Keyboard(std::string typed, std::ostream& screen) : typed_(std::move(typed)), screen_(screen) {}

protected:
    int_type underflow() override {
        if (at_ == typed_.size()) return traits_type::eof();
        line_ = typed_.substr(at_, typed_.find('\n', at_) + 1 - at_);
        at_ += line_.size();
        screen_ << line_;
        setg(line_.data(), line_.data(), line_.data() + line_.size());
        return traits_type::to_int_type(line_[0]);
    }

private:
    std::string typed_, line_;
    std::ostream& screen_;
    std::size_t at_ = 0;
};

/// A person at the prompt: what they type, what they see.
struct Person {
    Desk desk;
    std::string seen, told;
    int code = -1;

    /// Types lines, then closes the input.
    Person& types(const std::string& typed, std::vector<std::string> arguments) {
        std::ostringstream out, err;
        Keyboard keyboard(typed, out);
        std::istream in(&keyboard);
        terminal::World world{in, out, err, desk, {CISTERN_SOURCE}};
        world.interactive = true;
        code = terminal::runCommandLine(arguments, world);
        seen = out.str();
        told = err.str();
        return *this;
    }
};

} // namespace cistern::test
