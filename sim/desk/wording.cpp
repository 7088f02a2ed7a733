#include "desk/wording.h"

#include <stdexcept>

namespace cistern::desk {

std::string sentence(const Wording& wording, const std::string& path,
                     const std::map<std::string, std::string>& values) {
    const auto found = wording.find(path);
    if (found == wording.end()) throw std::out_of_range("no wording is named \"" + path + "\"");
    std::string text = found->second;
    for (std::size_t at = 0; (at = text.find('{', at)) != std::string::npos;) {
        const std::size_t end = text.find('}', at);
        if (end == std::string::npos) break;
        const auto value = values.find(text.substr(at + 1, end - at - 1));
        if (value == values.end())
            throw std::out_of_range("the wording \"" + path + "\" asks for " +
                                    text.substr(at, end - at + 1));
        text.replace(at, end + 1 - at, value->second);
        at += value->second.size();
    }
    return text;
}

} // namespace cistern::desk
