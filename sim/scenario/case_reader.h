#pragma once
#include "lesson/case.h"
#include "scenario/reader.h"

#include <string>

namespace cistern::scenario {

class Shelf;

/// One scenario file on its way to a case. Each function reads one part of the file; those that
/// compare parts come after the parts.
struct CaseReader {
    const lesson::Knowledge& knowledge;
    lesson::Case& lesson;
    Sheet& sheet;
    bool knowsKind = false;             ///< the species is stated and good
    std::vector<std::string> spoiled{}; ///< new insults that have faults of their own

    void patient(Reader map);
    void exam(Reader list);
    void newInsults(Reader list, const base::Files& files);
    void newInsult(Shelf& shelf, Reader& item, const body::InsultKind& kind);
    void insults(Reader list); ///< after them
    void meals(Reader list);
    void draws(Reader list);
    void bench(Reader map);
    void ask(Reader map);
    void means(Reader map);  ///< within it, after the list
    void answer(Reader map); ///< after ask and insults
    void vary(Reader map);   ///< after everything that holds numbers

    /// A kind of insult by name, of the case or of the shelf; null if there is none (a fault), or
    /// none that is sound.
    const body::InsultKind* kindNamed(Reader name) const;
    /// Whether an insult is known in the patient's species.
    bool serves(const body::InsultKind& kind) const;
};

/// The value at a path such as "insults.0.severity"; null if there is none.
const Node* at(const Node& root, const std::string& path);

/// Makes of a sound file the one of another animal: this seed, and every number for which the file
/// gives a range drawn evenly within it. Each range has chance of its own.
void toVariant(Node& root, std::uint64_t seed);

/// A time on the scenario's clock [h].
Range clock();
/// A span of time from nothing to `most` [h]; `words` says so.
Range span(double most, const std::string& words);

} // namespace cistern::scenario
