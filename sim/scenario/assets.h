#pragma once
#include "base/fault.h"
#include "base/file.h"
#include "lesson/case.h"

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::scenario {

/// How well a value is known.
enum class Standing { published, fromMemory, derived, contested, fitted, assumed };
std::string_view name(Standing standing); // "published", "from memory", ...

/// One number of the assets, for `cistern sources`.
struct Sourced {
    std::string name;   ///< "dog liver.mass", "ALT method.a", "insult hepatic fibrosis.severity"
    std::string value;  ///< as written, with unit
    std::string range;  ///< what the sources allow, as written; may be empty
    std::string source; ///< key in assets/sources.yaml
    Standing standing = Standing::assumed;
    std::string note; ///< what it was fitted to, why it is contested
    base::Place place;
};

struct Source {
    std::string key, citation;
};

/// Everything in assets/, checked.
struct Assets {
    lesson::Knowledge knowledge;
    std::vector<Sourced> values;
    std::vector<Source> sources;
    std::map<std::string, std::string> wording; ///< sentences by path: "cautions.animal"
};

/// Loads a folder of assets. Throws InputError with every fault of every file: a number without a
/// unit or a source, an unknown source, a value out of range, a name the program does not know, one
/// that is missing.
Assets loadAssets(const base::Files& files, const std::string& folder);

/// Reads a scenario file. Throws InputError with every fault of the file. Another seed than the
/// file's own gives another animal of the same story: its own self, and the numbers that the file
/// lets vary drawn within their ranges.
lesson::Case readCase(const base::Files& files, const std::string& path,
                      const lesson::Knowledge& knowledge,
                      std::optional<std::uint64_t> seed = std::nullopt);

} // namespace cistern::scenario
