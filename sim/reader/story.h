#pragma once
#include "base/chance.h"
#include "body/plan.h"
#include "reader/question.h"

#include <Eigen/Core>

#include <cstdint>
#include <unordered_map>
#include <vector>

namespace cistern::reader {

/// One insult of a story. What is not settled by its kind is held as standard normal deviates, so
/// that before any evidence all of them are independent and alike.
struct Event {
    const InsultPrior* prior = nullptr;
    double severity = 0, onset = 0, duration = 0; ///< deviates
    bool stopped = false; ///< ended within hours of the first draw at which the animal was seen ill
    double stop = 0;      ///< deviate of these hours
    bool operator==(const Event&) const = default;
};

/// Something that went wrong with a sample, unseen.
struct Slip {
    int mishap = -1; ///< number in Priors::mishaps; -1: none
    double size = 0; ///< deviate
    bool operator==(const Slip&) const = default;
};

/// What may have happened to an animal and its blood. The main insult is what the animal is said to
/// have; its body knows only the events.
struct Story {
    const InsultPrior* main = nullptr; ///< as in Stories::mains(); null: nothing wrong
    std::vector<Event> events;         ///< the main insult among them, in one order for all stories
    std::uint64_t number = 0;          ///< names the chance of what is not told here: half-lives
    bool fed = false;                  ///< an untold meal shortly before the sample at presentation
    double meal = 0;                   ///< deviate of the hours since that meal
    bool checkUp = false;              ///< nothing wrong, and no complaint either
    bool potassiumRich = false;
    std::vector<Slip> slips; ///< by sample; none but for samples that were handed in
    bool operator==(const Story&) const = default;

    const Event* find(const body::InsultKind& kind) const;
};

/// Draws stories, and says how likely each was. One a question.
class Stories {
public:
    /// Both must outlive it.
    Stories(const Priors& priors, const Question& question);

    /// Main insults that are possible in this animal, null for nothing wrong, with their chances
    /// (sum 1).
    struct Main {
        const InsultPrior* prior;
        double chance;
    };
    const std::vector<Main>& mains() const { return mains_; }
    std::size_t numberOf(const InsultPrior* main) const; ///< in mains()

    /// A story with this main insult (number in mains()), as the priors have it. If `crowded`, what
    /// seldom comes along comes more often.
    Story draw(std::size_t main, base::Chance& chance, bool crowded = false) const;
    /// The main insults to which all of a story's events may belong (numbers in mains()), and how
    /// often each comes and they with it; over the sum, the chance that the story is this one's.
    /// None: no story has these events.
    struct Origins {
        struct Origin {
            std::size_t main;
            double chance;
            double crowded; ///< the same, if what seldom comes along comes more often
        };
        std::vector<Origin> each;
        double chance = 0; ///< sum
    };
    Origins origins(const Story& story) const;
    /// The deviates that matter of a story, in one order for all that are alike.
    Eigen::VectorXd deviates(const Story& story) const;
    /// Those of one of its insults alone: how severe, and when.
    Eigen::VectorXd deviates(const Event& event) const;
    void set(Event& event, const Eigen::VectorXd& deviates) const;
    /// A story of the same structure (the same insults, flags and mishaps) with other deviates.
    Story with(Story story, const Eigen::VectorXd& deviates) const;
    /// Logarithm of the density of the story's deviates alone: standard normals.
    double logDeviates(const Story& story) const;
    /// Logarithm of how often the priors give the story, whichever insult is the main one: its
    /// structure, its deviates.
    double logPrior(const Story& story, const Origins& origins) const;
    double logPrior(const Story& story) const { return logPrior(story, origins(story)); }
    /// True if two stories differ in nothing but their deviates and what is the main insult.
    static bool alike(const Story& a, const Story& b);
    /// A number that is the same for stories that are alike.
    static std::uint64_t structure(const Story& story);

    /// When and how hard an event acts on this animal. What adds up to its severity (a share or a
    /// mass lost, an amount spent) has done so by the hour of presentation; what merely holds and
    /// still acts at that hour goes on beyond the last sample, unless it is stopped.
    body::Insult insult(const Event& event) const;
    /// The same as it is lived: a loss that began longer ago than is followed is made up for in
    /// the first days, and then goes on at its true pace, so that what leaks last leaks as it
    /// should.
    std::vector<body::Insult> lived(const Event& event) const;
    /// All windows of the story, known and untold meals too.
    std::vector<body::Window> windows(const Story& story, const body::Species& species) const;
    /// How a sample was handled, the story's slip included.
    lab::Handling handling(const Story& story, std::size_t sample) const;

private:
    /// What may come along with a main insult.
    struct Rider {
        const InsultPrior* prior;
        double chance, crowded;
    };
    /// A chance as the priors have it, and if what seldom comes along comes more often.
    struct Chances {
        double usual, crowded;
    };
    const Priors* priors_;
    const Question* question_;
    std::size_t kind_; ///< of the animal, as a number
    double presented_; ///< [h]
    bool later_;       ///< whether there are samples after the first one
    bool mayBeFed_;
    std::vector<Main> mains_;
    std::unordered_map<const InsultPrior*, std::size_t> numbers_; ///< in mains_
    double passing_ = 0;                     ///< chance of those of them that pass
    std::vector<std::vector<Rider>> riders_; ///< by main, each insult once
    std::vector<std::vector<int>> mishaps_;  ///< by sample: those that may have happened unseen

    bool possible(const InsultPrior& prior) const;
    const InsultPrior* priorOf(const body::InsultKind* kind) const;
    void addMains();
    std::vector<Rider> ridersOf(const InsultPrior* main) const;
    std::vector<int> hidden(const Sample& sample) const;
    bool add(Story& story, const InsultPrior* prior) const;
    Chances riders(const Story& story, std::size_t main, const InsultPrior* unrelated) const;
    Chances events(const Story& story, std::size_t main) const;
    double flagged(const Story& story, std::size_t main) const;
    double logFlags(const Story& story) const;
    bool mayHaveEaten(const Story& story) const;
    static bool mayBeCheckUp(const Story& story, const InsultPrior* main);
    bool mayBeStopped(const Event& event) const;
    void addUnrelated(Story& story, base::Chance& chance, bool crowded) const;
    template<class One, class Visit>
    void eachDeviate(One& story, const Visit& visit) const;
};

} // namespace cistern::reader
