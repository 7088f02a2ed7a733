#pragma once
#include "scenario/assets.h"

#include <filesystem>
#include <map>
#include <string>

namespace cistern::test {

/// The assets of this source tree, loaded once.
inline const scenario::Assets& assets() {
    static const scenario::Assets all =
        scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    return all;
}

/// Files that exist only in memory; folders are what their paths say.
class Memory : public base::Files {
public:
    std::map<std::string, std::string> texts;

    /// All .yaml files below a folder of the source tree, under their paths within it.
    static Memory copyOf(const std::string& folder) {
        Memory memory;
        const base::Disk disk;
        const std::filesystem::path root = std::filesystem::path(CISTERN_SOURCE) / folder;
        for (const auto& entry : std::filesystem::recursive_directory_iterator(root))
            if (entry.path().extension() == ".yaml")
                memory.texts[(folder / std::filesystem::relative(entry.path(), root)).string()] =
                    disk.read(entry.path().string());
        return memory;
    }
    std::string read(const std::string& path, std::size_t) const override {
        const auto at = texts.find(path);
        if (at == texts.end()) {
            base::Fault fault;
            fault.kind = base::FaultKind::unreadable;
            fault.place.file = path;
            fault.subject = "the file";
            throw base::InputError(std::vector<base::Fault>{fault});
        }
        return at->second;
    }
    void write(const std::string& path, const std::string& text) override { texts[path] = text; }
    std::vector<std::string> list(const std::string& folder,
                                  const std::string& ending) const override {
        std::vector<std::string> paths;
        for (const auto& [path, text] : texts)
            if (std::filesystem::path(path).parent_path() == folder && path.ends_with(ending))
                paths.push_back(path);
        return paths;
    }
};

} // namespace cistern::test
