#pragma once
#include <map>
#include <string>

namespace cistern::desk {

/// Sentences for people, from the assets.
using Wording = std::map<std::string, std::string>;

/// The sentence at a path, each name in braces replaced by its value: "{animal}" by "dog". Throws
/// std::out_of_range for a path, or a name in it, that there is not.
std::string sentence(const Wording& wording, const std::string& path,
                     const std::map<std::string, std::string>& values = {});

} // namespace cistern::desk
