// What the list of a case means.
#include "lesson/ideal.h"

#include <algorithm>

namespace cistern::lesson {

namespace {

std::string lower(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

bool explains(const body::InsultKind& kind, const std::string& phrase) {
    const std::string wanted = lower(phrase);
    return lower(kind.name) == wanted ||
           std::any_of(kind.explains.begin(), kind.explains.end(),
                       [&](const std::string& one) { return lower(one) == wanted; });
}

std::vector<reader::Meaning> meanings(const std::string& phrase, const Case& subject,
                                      const Knowledge& knowledge) {
    if (const auto said = subject.means.find(phrase); said != subject.means.end())
        return said->second;
    std::vector<reader::Meaning> all;
    const auto consider = [&](const body::InsultKind& kind) {
        if (explains(kind, phrase)) all.push_back({{&kind}, {}, std::nullopt, std::nullopt});
    };
    for (const auto& kind : subject.newInsults) consider(*kind);
    for (const body::InsultKind& kind : knowledge.insults) consider(kind);
    return all;
}

/// True if animals of the reader may have this insult.
bool known(const body::InsultKind* kind, const Case& subject, const Knowledge& knowledge) {
    return knowledge.priors.find(*kind) != nullptr ||
           std::any_of(subject.newPriors.begin(), subject.newPriors.end(),
                       [&](const reader::InsultPrior& prior) { return prior.kind == kind; });
}

} // namespace

std::vector<reader::Explanation> explanations(const Case& subject, const Knowledge& knowledge) {
    std::vector<reader::Explanation> list;
    for (const std::string& phrase : subject.explanations) {
        const bool well = phrase == nothingWrong;
        list.push_back(
            {phrase, well,
             well ? std::vector<reader::Meaning>{} : meanings(phrase, subject, knowledge)});
    }
    return list;
}

std::vector<std::string> beyondTheReader(const Case& subject, const Knowledge& knowledge) {
    std::vector<std::string> names;
    for (const reader::Explanation& one : explanations(subject, knowledge)) {
        const auto made = [&](const reader::Meaning& meaning) {
            return std::all_of(meaning.with.begin(), meaning.with.end(),
                               [&](const auto* kind) { return known(kind, subject, knowledge); });
        };
        if (!one.nothingWrong && std::none_of(one.meanings.begin(), one.meanings.end(), made))
            names.push_back(one.name);
    }
    return names;
}

} // namespace cistern::lesson
