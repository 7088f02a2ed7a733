#include "base/text.h"
#include "lesson/film_tally.h"

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace cistern::lesson {

namespace {

/// Short names for the text form, by tallyNames.
const std::vector<std::string>& shortNames() {
    static const std::vector<std::string> names{
        "segmented", "band",       "metamyelocyte", "lymphocyte", "reactive",
        "monocyte",  "eosinophil", "basophil",      "nucleated",  "smudge"};
    return names;
}

// Letters are asked for by value: the library's isalpha hangs on the locale.
char lowered(char key) {
    return key >= 'A' && key <= 'Z' ? static_cast<char>(key - 'A' + 'a') : key;
}
bool isKey(char key) {
    return (lowered(key) >= 'a' && lowered(key) <= 'z') || (key >= '0' && key <= '9');
}

[[noreturn]] void refuse(const std::string& sentence) {
    throw std::invalid_argument(sentence);
}

/// "segmented=1" into its place.
void take(const std::string& word, TallyKeys& keys, std::array<bool, tallyNames.size()>& given) {
    const auto sign = word.find('=');
    const std::string called = word.substr(0, sign);
    const auto& names = shortNames();
    const auto at = std::find(names.begin(), names.end(), called);
    if (at == names.end()) {
        const std::string near = base::nearest(called, names);
        refuse("Keys of the tally: \"" + called + "\" is no name of a cell there" +
               (near.empty() ? "." : "; did you mean \"" + near + "\"?"));
    }
    if (sign == std::string::npos || word.size() != sign + 2)
        refuse("Keys of the tally: \"" + word + "\" should be a name, = and one key.");
    const auto place = static_cast<std::size_t>(at - names.begin());
    if (given[place]) refuse("Keys of the tally: \"" + called + "\" is given twice.");
    given[place] = true;
    keys.key[place] = lowered(word.back());
}

} // namespace

char TallyKeys::of(lab::FilmCell said) const {
    const auto at = std::find(tallyNames.begin(), tallyNames.end(), said);
    return at == tallyNames.end() ? '\0' : key[static_cast<std::size_t>(at - tallyNames.begin())];
}

std::optional<lab::FilmCell> TallyKeys::said(char pressed) const {
    if (!isKey(pressed)) return std::nullopt;
    for (std::size_t i = 0; i < key.size(); ++i)
        if (lowered(key[i]) == lowered(pressed)) return tallyNames[i];
    return std::nullopt;
}

void validate(const TallyKeys& keys) {
    const auto& names = shortNames();
    for (std::size_t i = 0; i < keys.key.size(); ++i) {
        if (!isKey(keys.key[i]))
            refuse("Keys of the tally: the key for \"" + names[i] +
                   "\" must be a letter a to z or a digit.");
        for (std::size_t j = 0; j < i; ++j)
            if (lowered(keys.key[i]) == lowered(keys.key[j]))
                refuse("Keys of the tally: \"" + names[j] + "\" and \"" + names[i] +
                       "\" have the same key, " + std::string(1, lowered(keys.key[i])) + ".");
    }
}

std::string toText(const TallyKeys& keys) {
    std::string text;
    for (std::size_t i = 0; i < keys.key.size(); ++i)
        text += (i == 0 ? "" : " ") + shortNames()[i] + "=" + std::string(1, lowered(keys.key[i]));
    return text;
}

TallyKeys tallyKeys(std::string_view text) {
    TallyKeys keys;
    std::array<bool, tallyNames.size()> given{};
    std::istringstream words{std::string(text)};
    for (std::string word; words >> word;) take(word, keys, given);
    for (std::size_t i = 0; i < given.size(); ++i)
        if (!given[i]) refuse("Keys of the tally: \"" + shortNames()[i] + "\" has no key.");
    validate(keys);
    return keys;
}

} // namespace cistern::lesson
