#pragma once
#include <string>
#include <vector>

namespace cistern::report {

/// One parameter and where it comes from, as plain words.
struct SourceRow {
    std::string name;     ///< "dog liver.mass"
    std::string value;    ///< as written, with unit
    std::string range;    ///< what the sources allow; may be empty
    std::string standing; ///< "published", "from memory", "contested" ...
    std::string source;   ///< key of the citation
    std::string note;     ///< may be empty
};

/// A publication that rows point to by its key.
struct Citation {
    std::string key, text;
};

/// The parameters as text, lines of 80 cells at most: name, value and standing, below them range,
/// source and note; then the citations that were used, in the order given.
std::string sourcesText(const std::vector<SourceRow>& rows, const std::vector<Citation>& citations);

} // namespace cistern::report
