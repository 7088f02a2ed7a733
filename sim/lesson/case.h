#pragma once
#include "body/course.h"
#include "body/insult.h"
#include "lab/report.h"
#include "reader/question.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {

/// An exam finding: by name with a degree, or measured.
struct Finding {
    std::string name;   ///< as in assets/findings.yaml
    std::string degree; ///< "", "absent", "mild", "moderate", "marked"
    std::optional<double> value;
    std::string unit;
};

struct Draw {
    double at = 0; ///< [h]
    std::vector<std::string> tests;
    lab::Handling handling{};
    bool handedIn = false; ///< came already drawn: how it was handled cannot be changed
};

/// What is true and best, for marking. The scenario may state it; otherwise it follows from the
/// insults.
struct Key {
    std::vector<std::string> explanations; ///< those of the list that are true (usually one)
    std::vector<std::string> next;         ///< acceptable next steps, best first; empty: not marked
    std::vector<body::Analyte> distrust;   ///< results that should not be trusted
};

/// One case, as a scenario file states it. Plain data.
struct Case {
    std::string file; ///< where it came from
    std::string name; ///< stem of the file: "quiet_liver"
    std::string title;
    std::string level; ///< "first year", "second year", "graduate", "owner"
    int minutes = 0;
    std::vector<std::string> aims;
    std::string patient; ///< the animal's name
    body::Signalment who;
    std::string complaint, history;
    std::vector<Finding> exam;
    /// Kinds of insult that the case itself defines; copies of the case share them.
    std::vector<std::shared_ptr<const body::InsultKind>> newInsults;
    std::vector<body::Insult> insults; ///< kinds point into the Knowledge it was loaded with, or
                                       ///< at newInsults
    std::vector<double> meals;         ///< [h]
    std::vector<Draw> draws;
    std::vector<body::Tissue> organs;
    std::vector<std::string> explanations, next;
    /// What an explanation means where the insults' own `explains` do not say it.
    std::map<std::string, std::vector<reader::Meaning>> means;
    std::vector<reader::InsultPrior> newPriors; ///< of newInsults
    Key key;
    std::string trap, settles, debrief;
    std::vector<std::string> vary; ///< ranges for variants, as written: "patient.weight: 8..30 kg"
    lab::Machine machine;          ///< the state of the machines that day
};

/// A kind of exam finding.
struct FindingKind {
    std::string name;                 ///< "ascites", "body temperature"
    std::string meaning;              ///< in plain words
    std::vector<std::string> degrees; ///< it may be stated with; "absent" is always allowed
    std::string unit;                 ///< of a measured one; "" if it is not measured
};

/// What is known before any case: species, insults, the bench. Loaded once from assets.
struct Knowledge {
    body::Species dog, cat;
    std::vector<body::InsultKind> insults;
    lab::Bench bench;
    std::vector<FindingKind> findings;
    reader::Priors priors; ///< kinds point into `insults`
    const body::Species& species(body::Kind kind) const {
        return kind == body::Kind::dog ? dog : cat;
    }
};

/// The patient of a case, with its own set points.
body::Individual patient(const Case& lesson, const Knowledge& knowledge);

/// What the case does to its patient, to be looked at at the given hours. Starts one day before the
/// first insult (or look), healthy; `from`, if given, moves the start earlier.
body::Plan plan(const Case& lesson, const Knowledge& knowledge, std::vector<double> looks);

/// Hour of the first insult or meal, if any.
std::optional<double> firstInsult(const Case& lesson);

/// Hour of the last draw; 0 if there is none.
double lastDraw(const Case& lesson);

/// The animal as it stands at each draw, in the case's order: these parts of it.
std::vector<body::Snapshot> atDraws(const Case& lesson, const Knowledge& knowledge,
                                    body::Parts parts = body::allParts);

/// The parts of the body that the laboratory's report of these tests needs.
body::Parts partsFor(const std::vector<std::string>& tests, const lab::Bench& bench,
                     body::Kind kind);

/// What the insults of a case have left on the red cells at an hour.
body::RedSigns redSigns(const Case& lesson, const lab::FilmLaws& laws, double hour);

/// The specimen of a draw (numbered from 0), taken and treated in this way.
lab::Specimen specimen(const Case& lesson, std::size_t draw, const lab::Handling& handling);

/// What the laboratory sends back for a draw: `truth` is the animal at the draw's hour. The one way
/// from a case to a report, so that a lesson and a plain run print the same numbers; leaving out
/// other draws or tests changes none of them.
lab::Report report(const Case& lesson, const Knowledge& knowledge, const body::Individual& animal,
                   const body::Snapshot& truth, std::size_t draw,
                   const std::vector<std::string>& tests, const lab::Handling& handling);
/// The same, handled as the case has it.
lab::Report report(const Case& lesson, const Knowledge& knowledge, const body::Individual& animal,
                   const body::Snapshot& truth, std::size_t draw,
                   const std::vector<std::string>& tests);

} // namespace cistern::lesson
