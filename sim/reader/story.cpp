#include "reader/story.h"

#include "lab/specimen/choices.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

// Rules of which the priors' files say nothing are judgement of this project and stand here with a
// name each.

namespace cistern::reader {

namespace {

/// Insults beside passing ones that one animal has at most; assets/priors speak of pairs, seldom of
/// more.
constexpr int mostInsults = 3;

/// Windows that would be shorter act all at once for whatever follows them [h].
constexpr double shortest = 5. / 60;

/// How long what is not stopped goes on after the last sample [h]: beyond any repeat that is asked
/// for.
constexpr double goesOn = 60 * 24;

/// Share of the time that is followed in which a slow loss makes up for what came before it.
constexpr double madeUpFor = 0.25;

/// Hours from presentation until what is stopped no longer acts: treatment takes hold the same day.
constexpr Spread stopHours{Spread::Shape::fold, 2.5, 0.5, 12, 0.5, 12};

/// An untold meal: earlier than this it no longer shows, later ones the owner remembers [h].
constexpr double latestMeal = 2, earliestMeal = 5;

/// Whether an insult's severity is reached bit by bit, at the end of its window.
bool accumulates(const body::InsultKind& kind) {
    return std::any_of(kind.effects.begin(), kind.effects.end(), [](const body::Effect& effect) {
        return effect.law == body::Law::shareLost || effect.law == body::Law::massLost ||
               effect.law == body::Law::spent;
    });
}

/// Whether the severity says how long the insult has lasted.
bool countsHours(const body::InsultKind& kind) {
    return kind.unit == "h";
}

bool withholdsFood(const body::InsultKind& kind) {
    return std::any_of(kind.effects.begin(), kind.effects.end(), [](const body::Effect& effect) {
        return effect.drive == body::Drive::foodMissing;
    });
}

bool usesOnset(const InsultPrior& prior) {
    return prior.span == Span::ended || (prior.span == Span::running && !countsHours(*prior.kind));
}

bool usesDuration(const InsultPrior& prior) {
    return prior.span != Span::running && !countsHours(*prior.kind);
}

double normalBelow(double deviate) {
    return std::erfc(-deviate / std::numbers::sqrt2) / 2;
}

/// Density of a standard normal, its logarithm.
double logNormal(double deviate) {
    static const double logPeak = -std::log(2 * std::numbers::pi) / 2;
    return logPeak - deviate * deviate / 2;
}

/// Stirs a value into a hash: FNV-1a, 64 bits, byte by byte. Source: draft-eastlake-fnv.
void stir(std::uint64_t& hash, std::uint64_t value) {
    for (int byte = 0; byte < 8; ++byte) {
        hash ^= (value >> (8 * byte)) & 0xFF;
        hash *= 0x100000001B3ull;
    }
}

/// How many of a story's first events last.
std::ptrdiff_t lasting(const Story& story, std::size_t events) {
    return std::count_if(story.events.begin(),
                         story.events.begin() + static_cast<std::ptrdiff_t>(events),
                         [](const Event& one) { return !one.prior->passing; });
}

/// Whether an animal that has so many lasting insults can have this one too.
bool room(const InsultPrior& prior, std::ptrdiff_t lasting) {
    return prior.passing || lasting < mostInsults;
}

} // namespace

const Event* Story::find(const body::InsultKind& kind) const {
    const auto at = std::find_if(events.begin(), events.end(),
                                 [&](const Event& one) { return one.prior->kind == &kind; });
    return at == events.end() ? nullptr : &*at;
}

Stories::Stories(const Priors& priors, const Question& question)
    : priors_(&priors),
      question_(&question),
      kind_(static_cast<std::size_t>(question.who.kind)),
      presented_(question.presented()),
      later_(question.last() > presented_),
      mayBeFed_(question.meals.empty()) {
    const auto first = std::find_if(question.samples.begin(), question.samples.end(),
                                    [&](const Sample& one) { return one.hour >= presented_; });
    if (first->handling.fasted) mayBeFed_ = false;
    addMains();
    for (const Main& main : mains_) riders_.push_back(ridersOf(main.prior));
    for (const Sample& sample : question.samples) mishaps_.push_back(hidden(sample));
}

bool Stories::possible(const InsultPrior& prior) const {
    return question_->who.kind == body::Kind::dog ? prior.kind->dog : prior.kind->cat;
}

const InsultPrior* Stories::priorOf(const body::InsultKind* kind) const {
    for (const InsultPrior& own : question_->own)
        if (own.kind == kind) return &own;
    return priors_->find(*kind);
}

void Stories::addMains() {
    body::Signalment then = question_->who;
    then.age += presented_;
    const auto age = static_cast<std::size_t>(ageOf(then));
    const auto sex = static_cast<std::size_t>(then.sex);
    mains_.push_back({nullptr, priors_->nothingWrong[kind_][age]});
    const auto add = [&](const InsultPrior& prior) {
        const double weight = prior.weight[kind_][age] * prior.sexFactor[sex];
        if (weight > 0 && possible(prior)) mains_.push_back({&prior, weight});
    };
    for (const InsultPrior& prior : priors_->insults)
        if (priorOf(prior.kind) == &prior) add(prior);
    for (const InsultPrior& prior : question_->own) add(prior);
    double sum = 0;
    for (const Main& main : mains_) sum += main.chance;
    // Without any weight at all (a set of priors for one question) nothing is wrong.
    if (!(sum > 0)) sum = mains_.front().chance = 1;
    for (Main& main : mains_) main.chance /= sum;
}

std::vector<Stories::Rider> Stories::ridersOf(const InsultPrior* main) const {
    std::vector<Rider> riders;
    const auto add = [&](const std::vector<Companion>& companions) {
        for (const Companion& one : companions) {
            const InsultPrior* prior = priorOf(one.kind);
            if (!prior || prior == main || !possible(*prior) || !(one.chance[kind_] > 0)) continue;
            const auto at = std::find_if(riders.begin(), riders.end(),
                                         [&](const Rider& rider) { return rider.prior == prior; });
            if (at == riders.end())
                riders.push_back({prior, one.chance[kind_]});
            else
                at->chance = 1 - (1 - at->chance) * (1 - one.chance[kind_]);
        }
    };
    if (main) add(main->companions);
    add(priors_->alongside);
    return riders;
}

/// Mishaps that may have befallen a sample unseen: it was handed in, and has what they are about.
std::vector<int> Stories::hidden(const Sample& sample) const {
    std::vector<int> some;
    if (!sample.handedIn) return some;
    const std::vector<lab::Choice> choices = lab::choices(sample.handling);
    for (std::size_t i = 0; i < priors_->mishaps.size(); ++i) {
        const Mishap& mishap = priors_->mishaps[i];
        if (!mishap.shown &&
            std::any_of(choices.begin(), choices.end(),
                        [&](const lab::Choice& one) { return one.name == mishap.what; }))
            some.push_back(static_cast<int>(i));
    }
    return some;
}

/// Adds an event unless the story has that insult already, or too many.
bool Stories::add(Story& story, const InsultPrior* prior) const {
    if (story.find(*prior->kind) || !room(*prior, lasting(story, story.events.size())))
        return false;
    Event event;
    event.prior = prior;
    story.events.push_back(event);
    return true;
}

/// A further insult, by the weights of the main ones.
void Stories::addUnrelated(Story& story, base::Chance& chance) const {
    const bool one = chance.uniform() < priors_->unrelated;
    double left = chance.uniform() * (1 - mains_.front().chance);
    if (!one) return;
    for (std::size_t i = 1; i < mains_.size(); ++i) {
        left -= mains_[i].chance;
        if (left < 0 || i + 1 == mains_.size()) {
            add(story, mains_[i].prior);
            return;
        }
    }
}

/// Visits the deviates that matter of two stories that are alike: the one place that says which do.
template<class A, class B, class Visit>
void Stories::eachDeviate(A& a, B& b, const Visit& visit) const {
    for (std::size_t i = 0; i < a.events.size(); ++i) {
        auto& one = a.events[i];
        auto& two = b.events[i];
        visit(one.severity, two.severity);
        if (usesOnset(*one.prior)) visit(one.onset, two.onset);
        if (usesDuration(*one.prior)) visit(one.duration, two.duration);
        if (one.stopped) visit(one.stop, two.stop);
    }
    if (a.fed) visit(a.meal, b.meal);
    for (std::size_t i = 0; i < a.slips.size(); ++i) {
        const int mishap = a.slips[i].mishap;
        if (mishap >= 0 && priors_->mishaps[static_cast<std::size_t>(mishap)].size)
            visit(a.slips[i].size, b.slips[i].size);
    }
}

bool Stories::mayHaveEaten(const Story& story) const {
    return mayBeFed_ &&
           std::none_of(story.events.begin(), story.events.end(),
                        [](const Event& one) { return withholdsFood(*one.prior->kind); });
}

bool Stories::mayBeCheckUp(const Story& story) {
    return !story.main && lasting(story, story.events.size()) == 0;
}

bool Stories::mayBeStopped(const Event& event) const {
    return later_ && !accumulates(*event.prior->kind);
}

Story Stories::draw(std::size_t main, base::Chance& chance) const {
    Story story;
    story.events.reserve(mostInsults + 2);
    story.main = mains_.at(main).prior;
    if (story.main) add(story, story.main);
    // Of what is settled by yes or no, as many numbers are drawn whatever comes of them.
    for (const Rider& rider : riders_[main])
        if (chance.uniform() < rider.chance) add(story, rider.prior);
    if (story.main) addUnrelated(story, chance);
    story.checkUp = chance.uniform() < priors_->checkUps && mayBeCheckUp(story);
    story.fed = chance.uniform() < priors_->fed && mayHaveEaten(story);
    story.potassiumRich =
        chance.uniform() < priors_->trait && question_->who.kind == body::Kind::dog;
    for (Event& event : story.events) {
        const bool stopped = chance.uniform() < priors_->stopped;
        event.stopped = stopped && mayBeStopped(event);
    }
    story.slips.resize(question_->samples.size());
    for (std::size_t i = 0; i < mishaps_.size(); ++i) {
        if (mishaps_[i].empty()) continue;
        double left = chance.uniform();
        for (int mishap : mishaps_[i]) {
            left -= priors_->mishaps[static_cast<std::size_t>(mishap)].chance;
            if (left >= 0) continue;
            story.slips[i].mishap = mishap;
            break;
        }
    }
    eachDeviate(story, story, [&](double& one, double&) { one = chance.normal(); });
    return story;
}

Story Stories::near(const Story& story, double width, base::Chance& chance) const {
    Story moved = story;
    eachDeviate(moved, moved, [&](double& one, double&) { one += width * chance.normal(); });
    return moved;
}

double Stories::logNear(const Story& from, const Story& to, double width) const {
    if (!alike(from, to)) return -std::numeric_limits<double>::infinity();
    double sum = 0;
    const double logWidth = std::log(width);
    eachDeviate(from, to,
                [&](double a, double b) { sum += logNormal((b - a) / width) - logWidth; });
    return sum;
}

double Stories::logDeviates(const Story& story) const {
    double sum = 0;
    eachDeviate(story, story, [&](double one, double) { sum += logNormal(one); });
    return sum;
}

std::size_t Stories::numberOf(const InsultPrior* main) const {
    const auto at = std::find_if(mains_.begin(), mains_.end(),
                                 [&](const Main& one) { return one.prior == main; });
    return static_cast<std::size_t>(at - mains_.begin());
}

/// Logarithm of how often the riders of a main insult give just the first so many events.
double Stories::logRiders(const Story& story, std::size_t main, std::size_t events) const {
    std::size_t next = story.main ? 1 : 0; // event that is to come
    double sum = 0;
    for (const Rider& rider : riders_[main]) {
        if (next < events && story.events[next].prior == rider.prior) {
            if (!room(*rider.prior, lasting(story, next)))
                return -std::numeric_limits<double>::infinity();
            sum += std::log(rider.chance);
            ++next;
        } else if (room(*rider.prior, lasting(story, next))) {
            sum += std::log1p(-rider.chance);
        }
    }
    return next == events ? sum : -std::numeric_limits<double>::infinity();
}

/// The same of all events: the last one may be the unrelated one.
double Stories::logEvents(const Story& story, std::size_t main) const {
    const std::size_t events = story.events.size();
    if (!story.main) return logRiders(story, main, events);
    const double others = 1 - mains_.front().chance;
    double further = 0, last = 0; // chance that a further insult is added; that it is the last
    for (std::size_t i = 1; i < mains_.size(); ++i) {
        const InsultPrior& prior = *mains_[i].prior;
        const double picked = priors_->unrelated * mains_[i].chance / others;
        if (!story.find(*prior.kind) && room(prior, lasting(story, events))) further += picked;
        if (events > 1 && &prior == story.events.back().prior &&
            room(prior, lasting(story, events - 1)))
            last = picked;
    }
    double chance = (1 - further) * std::exp(logRiders(story, main, events));
    if (last > 0) chance += last * std::exp(logRiders(story, main, events - 1));
    return std::log(chance);
}

double Stories::logFlags(const Story& story) const {
    double sum = 0;
    const auto flag = [&](bool is, double chance) { sum += std::log(is ? chance : 1 - chance); };
    if (mayBeCheckUp(story)) flag(story.checkUp, priors_->checkUps);
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

double Stories::logPrior(const Story& story) const {
    const std::size_t main = numberOf(story.main);
    return std::log(mains_[main].chance) + logEvents(story, main) + logFlags(story) +
           logDeviates(story);
}

bool Stories::alike(const Story& a, const Story& b) {
    return a.main == b.main && a.fed == b.fed && a.checkUp == b.checkUp &&
           a.potassiumRich == b.potassiumRich &&
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
    stir(hash, story.main ? 1 : 0);
    for (const Event& event : story.events) {
        // By name: a place in memory would differ from one run of the program to the next.
        for (char letter : event.prior->kind->name) stir(hash, static_cast<unsigned char>(letter));
        stir(hash, event.stopped ? 257 : 256); // beyond any letter
    }
    for (const Slip& slip : story.slips) stir(hash, static_cast<std::uint64_t>(slip.mishap + 1));
    return hash;
}

body::Insult Stories::insult(const Event& event) const {
    const InsultPrior& prior = *event.prior;
    const body::InsultKind& kind = *prior.kind;
    body::Insult insult;
    insult.kind = &kind;
    insult.severity = std::clamp(prior.severity[kind_].at(event.severity), kind.least, kind.most);
    const double endless = std::numeric_limits<double>::infinity();
    double before = 0, lasts = endless; // [h] from its start to presentation; from its start
    if (usesOnset(prior)) before = prior.onset[kind_].at(event.onset);
    if (prior.span != Span::running || countsHours(kind)) {
        const double hours =
            countsHours(kind) ? insult.severity : prior.duration[kind_].at(event.duration);
        if (prior.span == Span::ended)
            lasts = hours;
        else
            before = hours;
    }
    if (prior.span != Span::ended) before = std::min(before, priors_->longest);
    const double start = presented_ - std::max(before, shortest);
    insult.from = std::max(start, -question_->who.age); // not before birth
    insult.to = start + lasts;
    if (accumulates(kind))
        insult.to = std::min(insult.to, presented_);
    else if (event.stopped)
        insult.to = std::min(insult.to, presented_ + stopHours.at(event.stop));
    insult.to = std::min(insult.to, question_->last() + goesOn);
    insult.to = std::max(insult.to, insult.from + shortest);
    return insult;
}

std::vector<body::Insult> Stories::lived(const Event& event) const {
    const body::Insult whole = insult(event);
    const InsultPrior& prior = *event.prior;
    const double hours = prior.duration[kind_].at(event.duration);
    const bool share =
        std::any_of(whole.kind->effects.begin(), whole.kind->effects.end(),
                    [](const body::Effect& effect) { return effect.law == body::Law::shareLost; });
    if (prior.span != Span::slow || !share || hours <= whole.to - whole.from) return {whole};
    body::Insult first = whole, rest = whole;
    first.to = rest.from = whole.from + madeUpFor * (whole.to - whole.from);
    const double rate = -std::log1p(-whole.severity) / hours;
    rest.severity = -std::expm1(-rate * (rest.to - rest.from));
    first.severity = 1 - (1 - whole.severity) / (1 - rest.severity);
    return {first, rest};
}

std::vector<body::Window> Stories::windows(const Story& story, const body::Species& species) const {
    std::vector<body::Window> all;
    all.reserve(2 * story.events.size() + question_->meals.size() + 1);
    for (const Event& event : story.events)
        for (const body::Insult& part : lived(event))
            for (const body::Window& window : body::windows(part, species)) all.push_back(window);
    for (double hour : question_->meals) all.push_back(body::meal(hour, species));
    if (story.fed) {
        const double since = latestMeal + (earliestMeal - latestMeal) * normalBelow(story.meal);
        all.push_back(body::meal(presented_ - since, species));
    }
    return all;
}

lab::Handling Stories::handling(const Story& story, std::size_t sample) const {
    const lab::Handling& known = question_->samples.at(sample).handling;
    if (sample >= story.slips.size() || story.slips[sample].mishap < 0) return known;
    const Slip& slip = story.slips[sample];
    const Mishap& mishap = priors_->mishaps.at(static_cast<std::size_t>(slip.mishap));
    if (!mishap.size) return lab::handledOtherwise(known, mishap.what, mishap.how);
    const double size = mishap.size->at(slip.size);
    // What has no unit is counted: tries, turns, times the earth's pull.
    const std::string text = mishap.unit.empty() ? std::to_string(std::lround(size))
                                                 : std::to_string(size) + " " + mishap.unit;
    return lab::handledOtherwise(known, mishap.what, text);
}

} // namespace cistern::reader
