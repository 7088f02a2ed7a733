#include "reader/fit.h"

#include <algorithm>
#include <bit>

namespace cistern::reader {

namespace {

/// How well a meaning tells a story: 0 if it is not true of it; what speaks of the main insult
/// counts more than any detail.
int rank(const Meaning& meaning, const Story& story, const Question& question,
         const Stories& stories) {
    constexpr int ofTheMain = 100;
    if (meaning.with.empty()) return 0;
    for (const body::InsultKind* kind : meaning.with)
        if (!story.find(*kind)) return 0;
    for (const body::InsultKind* kind : meaning.without)
        if (story.find(*kind)) return 0;
    int rank = static_cast<int>(meaning.with.size() + meaning.without.size());
    const Event& first = *story.find(*meaning.with.front());
    // A fright beside an illness does not explain the illness.
    if (first.prior->passing && story.main && !story.main->passing) return 0;
    const body::Insult insult = stories.insult(first);
    if (meaning.severity) {
        if (insult.severity < meaning.severity->first || insult.severity > meaning.severity->second)
            return 0;
        ++rank;
    }
    if (meaning.running) {
        if (*meaning.running != (insult.to >= question.last())) return 0;
        ++rank;
    }
    const bool ofMain = story.main && std::find(meaning.with.begin(), meaning.with.end(),
                                                story.main->kind) != meaning.with.end();
    return ofMain ? rank + ofTheMain : rank;
}

} // namespace

Fits fits(const Story& story, const Question& question, const Stories& stories) {
    int best = 0;
    Fits found = 0;
    Fits well = 0;
    for (std::size_t e = 0; e < question.explanations.size(); ++e) {
        const Explanation& explanation = question.explanations[e];
        const Fits bit = Fits{1} << e;
        if (explanation.nothingWrong) well |= bit;
        int reached = 0;
        for (const Meaning& meaning : explanation.meanings)
            reached = std::max(reached, rank(meaning, story, question, stories));
        if (reached > best) {
            best = reached;
            found = 0;
        }
        if (reached > 0 && reached == best) found |= bit;
    }
    if (found) return found;
    const bool passing = std::all_of(story.events.begin(), story.events.end(),
                                     [](const Event& event) { return event.prior->passing; });
    return passing ? well : 0;
}

void Explained::addTo(std::vector<double>& shares, double weight) const {
    for (const auto& [bits, chance] : by)
        for (std::size_t e = 0; e < shares.size(); ++e)
            if (bits >> e & 1) shares[e] += weight * chance / std::popcount(bits);
}

Explained explained(const Story& story, const Stories::Origins& origins, const Question& question,
                    const Stories& stories) {
    Explained out;
    if (question.explanations.empty()) {
        out.listed = 1;
        return out;
    }
    Story told = story;
    for (const auto& origin : origins.each) {
        told.main = stories.mains()[origin.main].prior;
        const Fits bits = fits(told, question, stories);
        if (!bits) continue;
        out.listed += origin.chance;
        const auto at = std::find_if(out.by.begin(), out.by.end(),
                                     [&](const auto& one) { return one.first == bits; });
        if (at == out.by.end())
            out.by.emplace_back(bits, origin.chance);
        else
            at->second += origin.chance;
    }
    for (auto& [bits, chance] : out.by) chance /= out.listed;
    if (origins.chance > 0) out.listed /= origins.chance;
    return out;
}

} // namespace cistern::reader
