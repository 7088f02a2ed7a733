#include "lab/specimen/choices.h"
#include "reader/story_inside.h"

#include <numbers>

namespace cistern::reader {

namespace {

bool withholdsFood(const body::InsultKind& kind) {
    return std::any_of(kind.effects.begin(), kind.effects.end(), [](const body::Effect& effect) {
        return effect.drive == body::Drive::foodMissing;
    });
}

/// Visits the deviates that matter of an insult, but for when it is stopped.
template<class One, class Visit>
void eachDeviateOf(One& event, const Visit& visit) {
    visit(event.severity);
    if (usesOnset(*event.prior)) visit(event.onset);
    if (usesDuration(*event.prior)) visit(event.duration);
}

/// Density of a standard normal, its logarithm.
double logNormal(double deviate) {
    static const double logPeak = -std::log(2 * std::numbers::pi) / 2;
    return logPeak - deviate * deviate / 2;
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
    for (const Main& main : mains_) {
        numbers_.emplace(main.prior, riders_.size());
        riders_.push_back(ridersOf(main.prior));
    }
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
    for (Main& main : mains_) {
        main.chance /= sum;
        if (main.prior && main.prior->passing) passing_ += main.chance;
    }
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
                riders.push_back({prior, one.chance[kind_], 0});
            else
                at->chance = 1 - (1 - at->chance) * (1 - one.chance[kind_]);
        }
    };
    if (main) add(main->companions);
    add(priors_->alongside);
    for (Rider& rider : riders) rider.crowded = often(rider.chance, true);
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
void Stories::addUnrelated(Story& story, base::Chance& chance, bool crowded) const {
    const bool one = chance.uniform() < often(priors_->unrelated, crowded);
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

/// Visits the deviates that matter of a story: with the function above the one place that says
/// which do.
template<class One, class Visit>
void Stories::eachDeviate(One& story, const Visit& visit) const {
    for (auto& event : story.events) {
        eachDeviateOf(event, visit);
        if (event.stopped) visit(event.stop);
    }
    if (story.fed) visit(story.meal);
    for (auto& slip : story.slips)
        if (slip.mishap >= 0 && priors_->mishaps[static_cast<std::size_t>(slip.mishap)].size)
            visit(slip.size);
}

bool Stories::mayHaveEaten(const Story& story) const {
    return mayBeFed_ &&
           std::none_of(story.events.begin(), story.events.end(),
                        [](const Event& one) { return withholdsFood(*one.prior->kind); });
}

bool Stories::mayBeCheckUp(const Story& story, const InsultPrior* main) {
    return !main && lasting(story, story.events.size()) == 0;
}

bool Stories::mayBeStopped(const Event& event) const {
    return later_ && !accumulates(*event.prior->kind);
}

Story Stories::draw(std::size_t main, base::Chance& chance, bool crowded) const {
    Story story;
    story.events.reserve(mostInsults + 2);
    story.main = mains_.at(main).prior;
    if (story.main) add(story, story.main);
    // Of what is settled by yes or no, as many numbers are drawn whatever comes of them.
    for (const Rider& rider : riders_[main])
        if (chance.uniform() < (crowded ? rider.crowded : rider.chance)) add(story, rider.prior);
    if (story.main) addUnrelated(story, chance, crowded);
    std::sort(story.events.begin(), story.events.end(), [](const Event& a, const Event& b) {
        return a.prior->kind->name < b.prior->kind->name;
    });
    story.checkUp = chance.uniform() < priors_->checkUps && mayBeCheckUp(story, story.main);
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
    eachDeviate(story, [&](double& one) { one = chance.normal(); });
    return story;
}

Eigen::VectorXd Stories::deviates(const Story& story) const {
    Eigen::Index count = 0;
    eachDeviate(story, [&](double) { ++count; });
    Eigen::VectorXd all(count);
    count = 0;
    eachDeviate(story, [&](double one) { all(count++) = one; });
    return all;
}

Eigen::VectorXd Stories::deviates(const Event& event) const {
    Eigen::VectorXd all(3);
    Eigen::Index count = 0;
    eachDeviateOf(event, [&](double one) { all(count++) = one; });
    return all.head(count);
}

void Stories::set(Event& event, const Eigen::VectorXd& deviates) const {
    Eigen::Index next = 0;
    eachDeviateOf(event, [&](double& one) { one = deviates(next++); });
}

Story Stories::with(Story story, const Eigen::VectorXd& deviates) const {
    Eigen::Index next = 0;
    eachDeviate(story, [&](double& one) { one = deviates(next++); });
    return story;
}

double Stories::logDeviates(const Story& story) const {
    double sum = 0;
    eachDeviate(story, [&](double one) { sum += logNormal(one); });
    return sum;
}

std::size_t Stories::numberOf(const InsultPrior* main) const {
    const auto at = numbers_.find(main);
    return at == numbers_.end() ? mains_.size() : at->second;
}

} // namespace cistern::reader
