#pragma once
#include "body/individual.h"
#include "body/insult.h"

#include <array>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::reader {

/// Life in three bands: young under 1 y; adult to 8 y in a dog, 9 y in a cat; old above.
enum class Age { young, adult, old };
inline constexpr int ageCount = 3;
Age ageOf(const body::Signalment& who);

/// One value for the dog, one for the cat, in the order of body::Kind.
template<class T>
using ByKind = std::array<T, 2>;

/// How a quantity is spread among the animals that are brought in: its median and the points below
/// which 5 % and 95 % lie. Above and below the median it is half a normal distribution each, of the
/// logarithm (doses, folds, times) or of the logit (shares).
struct Spread {
    enum class Shape { fold, share };
    Shape shape = Shape::fold;
    double median = 1, low = 1, high = 1;                             ///< low <= median <= high
    double least = 0, most = std::numeric_limits<double>::infinity(); ///< cut off there

    /// The value at a standard normal deviate.
    double at(double deviate) const;
};

/// When an insult acts, against the hour at which the animal is first seen.
enum class Span {
    ended,   ///< begins `onset` before, lasts `duration`
    running, ///< begins `onset` before and goes on
    slow     ///< begins `duration` before, long before it shows; what is lost was lost by now
};

/// An insult that rides along with another, and how often.
struct Companion {
    const body::InsultKind* kind = nullptr;
    ByKind<double> chance{}; ///< 0..1
};

/// What is known of one kind of insult before an animal is seen.
struct InsultPrior {
    const body::InsultKind* kind = nullptr;
    ByKind<std::array<double, ageCount>> weight{}; ///< per 1000 animals that are bled for a vague
                                                   ///< illness or a check-up, as the main insult
    std::array<double, 4> sexFactor{1, 1, 1, 1};   ///< by body::Sex, on the weight
    ByKind<Spread> severity;                       ///< in the kind's unit
    ByKind<Spread> onset, duration;                ///< [h]
    Span span = Span::ended;
    bool passing = false; ///< alone it is nothing wrong: fright, stress, a missed meal
    std::vector<Companion> companions;
    ByKind<std::map<std::string, double>> shows; ///< sign -> P(sign | this insult, at its median
                                                 ///< severity, alone), where it is not the usual
};

/// The state of the animal that a sign follows: P = ceiling / (1 + exp(-(x - half) / width)).
struct Link {
    std::optional<body::Analyte> analyte;     ///< x is its level, in the model's unit
    bool dryness = false;                     ///< x is the share of body weight lost as water
    const body::InsultKind* insult = nullptr; ///< x is the severity while it acts
    ByKind<double> half{}, width{};           ///< width < 0: less is more
    double ceiling = 1;
};

/// A finding of the exam or the history that may be there or not.
struct SignPrior {
    std::string name;                      ///< as in assets/findings.yaml
    ByKind<double> checkUp{}, complaint{}; ///< P(sign | nothing wrong), seen for either reason
    double missed = 0.1;     ///< P(not told | it is there): the examiner, or the owner
    std::vector<Link> links; ///< it is read from the animal's state; else from the tables
    bool graded = true;      ///< a severer insult shows it more often
    bool slow = false;       ///< takes days to show: half as often within the first day
    bool general = false;    ///< of being ill at all; such signs go together
    std::optional<double> calledWhenAbsent; ///< P(told | not there); none: as at a check-up
};

/// A measured finding that stands for a sign: body temperature above 39.3 Cel for fever.
struct Threshold {
    std::string finding, sign;
    bool above = true; ///< the sign is there above the limit; else below it
    ByKind<double> limit{};
};

/// Something that may have gone wrong, unseen, with a specimen that was handed in.
struct Mishap {
    std::string what;           ///< as in lab/specimen/choices.h: "serum clot"
    double chance = 0;          ///< 0..1
    std::string how;            ///< the value, if it is a word; else `size`
    std::optional<Spread> size; ///< in the unit that is written for it, `unit`
    std::string unit;
    bool shown = false; ///< a tube or its label would show it: never hidden
};

/// Everything that the reader believes before it sees an animal. Plain data, from assets/priors.
struct Priors {
    ByKind<std::array<double, ageCount>> nothingWrong{}; ///< per 1000, beside the insults' weights
    double checkUps = 0.4; ///< share of the well animals that come for a check-up
    std::vector<InsultPrior> insults;
    std::vector<Companion> alongside; ///< what may ride along with anything, or with nothing
    double unrelated = 0.05;          ///< P(a further insult that has nothing to do with the first)
    double stopped = 0.5;             ///< P(what acts is stopped within hours of the first draw)
    double fed = 0.3;      ///< P(a meal within hours of a draw of which no fast is stated)
    double longest = 1440; ///< no insult is followed further back than this [h]
    double together = 0.6; ///< power to which the evidence of general signs is taken
    double gradedBy = 0.8; ///< logits for each standard deviation of severity
    std::vector<SignPrior> signs;
    std::vector<Threshold> thresholds;
    std::vector<Mishap> mishaps;
    double trait = 0.02; ///< P(red cells rich in potassium), dogs

    const InsultPrior* find(const body::InsultKind& kind) const; ///< null if it has none
    const SignPrior* sign(const std::string& name) const;        ///< null if unknown
};

} // namespace cistern::reader
