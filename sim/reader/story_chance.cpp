// How likely a story is.
#include "reader/story_inside.h"

#include <limits>

namespace cistern::reader {

namespace {

/// Stirs a byte into a hash: FNV-1a, 64 bits. Source: draft-eastlake-fnv.
void stir(std::uint64_t& hash, unsigned byte) {
    hash ^= byte;
    hash *= 0x100000001B3ull;
}

bool holds(const Story& story, const InsultPrior* prior) {
    return std::any_of(story.events.begin(), story.events.end(),
                       [&](const Event& one) { return one.prior == prior; });
}

} // namespace

/// How often a main insult's riders are those of a story, but for the unrelated one.
Stories::Chances Stories::riders(const Story& story, std::size_t main,
                                 const InsultPrior* unrelated) const {
    const InsultPrior* first = mains_[main].prior;
    std::size_t found = (first ? 1 : 0) + (unrelated ? 1 : 0);
    std::ptrdiff_t lasting = first && !first->passing ? 1 : 0;
    Chances chance{1, 1};
    for (const Rider& rider : riders_[main]) {
        const bool fits = room(*rider.prior, lasting);
        if (rider.prior != unrelated && holds(story, rider.prior)) {
            if (!fits) return {0, 0};
            chance.usual *= rider.chance;
            chance.crowded *= rider.crowded;
            ++found;
            if (!rider.prior->passing) ++lasting;
        } else if (fits) {
            chance.usual *= 1 - rider.chance;
            chance.crowded *= 1 - rider.crowded;
        }
    }
    return found == story.events.size() ? chance : Chances{0, 0};
}

/// How often a main insult comes with all of a story's events: none of them, or one, is unrelated.
Stories::Chances Stories::events(const Story& story, std::size_t main) const {
    const InsultPrior* first = mains_[main].prior;
    if (!first) return riders(story, main, nullptr);
    if (!holds(story, first)) return {0, 0};
    const double ill = 1 - mains_.front().chance;
    const Chances each{priors_->unrelated / ill, often(priors_->unrelated, true) / ill};
    const std::ptrdiff_t all = lasting(story, story.events.size());
    // Yet another insult may be added if there is room for what lasts; passing ones always may.
    const bool roomy = all < mostInsults;
    double further = roomy ? ill : passing_;
    Chances chance{0, 0};
    const auto add = [&](const Chances& unrelated, const InsultPrior* which) {
        const Chances others = riders(story, main, which);
        chance.usual += unrelated.usual * others.usual;
        chance.crowded += unrelated.crowded * others.crowded;
    };
    for (const Event& event : story.events) {
        const std::size_t i = numberOf(event.prior);
        if (i == mains_.size()) continue;
        if (roomy || event.prior->passing) further -= mains_[i].chance;
        if (event.prior != first && room(*event.prior, all - (event.prior->passing ? 0 : 1)))
            add({each.usual * mains_[i].chance, each.crowded * mains_[i].chance}, event.prior);
    }
    add({1 - each.usual * further, 1 - each.crowded * further}, nullptr);
    return chance;
}

/// How often an animal with a main insult comes for a check-up, or not, as the story has it.
double Stories::flagged(const Story& story, std::size_t main) const {
    if (!mayBeCheckUp(story, mains_[main].prior)) return story.checkUp ? 0 : 1;
    return story.checkUp ? priors_->checkUps : 1 - priors_->checkUps;
}

Stories::Origins Stories::origins(const Story& story) const {
    Origins all;
    all.each.reserve(story.events.size() + 1);
    const auto add = [&](std::size_t main) {
        const double comes = mains_[main].chance * flagged(story, main);
        if (comes <= 0) return;
        const Chances with = events(story, main);
        if (with.usual > 0) all.each.push_back({main, comes * with.usual, comes * with.crowded});
        all.chance += comes * with.usual;
    };
    add(0);
    for (const Event& event : story.events) {
        const std::size_t main = numberOf(event.prior);
        if (main < mains_.size()) add(main);
    }
    return all;
}

double Stories::logFlags(const Story& story) const {
    double sum = 0;
    const auto flag = [&](bool is, double chance) { sum += std::log(is ? chance : 1 - chance); };
    if (mayHaveEaten(story)) flag(story.fed, priors_->fed);
    if (question_->who.kind == body::Kind::dog) flag(story.potassiumRich, priors_->trait);
    for (const Event& event : story.events)
        if (mayBeStopped(event)) flag(event.stopped, priors_->stopped);
    for (std::size_t i = 0; i < mishaps_.size(); ++i) {
        double none = 1;
        for (const int mishap : mishaps_[i]) {
            const double chance = priors_->mishaps[static_cast<std::size_t>(mishap)].chance;
            none -= chance;
            if (story.slips[i].mishap == mishap) sum += std::log(chance);
        }
        if (story.slips[i].mishap < 0) sum += std::log(none);
    }
    return sum;
}

double Stories::logPrior(const Story& story, const Origins& origins) const {
    return std::log(origins.chance) + logFlags(story) + logDeviates(story);
}

bool Stories::alike(const Story& a, const Story& b) {
    return a.fed == b.fed && a.checkUp == b.checkUp && a.potassiumRich == b.potassiumRich &&
           std::equal(a.events.begin(), a.events.end(), b.events.begin(), b.events.end(),
                      [](const Event& one, const Event& two) {
                          return one.prior == two.prior && one.stopped == two.stopped;
                      }) &&
           std::equal(a.slips.begin(), a.slips.end(), b.slips.begin(), b.slips.end(),
                      [](const Slip& one, const Slip& two) { return one.mishap == two.mishap; });
}

std::uint64_t Stories::structure(const Story& story) {
    std::uint64_t hash = 0xCBF29CE484222325ull; // where FNV-1a begins
    stir(hash, (story.fed ? 1u : 0u) | (story.checkUp ? 2u : 0u) | (story.potassiumRich ? 4u : 0u));
    for (const Event& event : story.events) {
        // By name: a place in memory would differ from one run of the program to the next.
        for (char letter : event.prior->kind->name) stir(hash, static_cast<unsigned char>(letter));
        stir(hash, event.stopped ? 1 : 0); // no letters
    }
    for (const Slip& slip : story.slips) stir(hash, static_cast<unsigned>(slip.mishap + 1));
    return hash;
}

} // namespace cistern::reader
