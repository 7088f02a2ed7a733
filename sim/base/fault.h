#pragma once
#include <stdexcept>
#include <string>
#include <vector>

namespace cistern::base {

/// Where in a file something stands. Lines and columns count from 1; 0 means unknown. A column
/// counts bytes, as the parser does; message() turns it into characters, as editors do.
struct Place {
    std::string file;
    int line = 0;
    int column = 0;
};

/// The closed list of what can be wrong with an input.
enum class FaultKind {
    unreadable, // the file cannot be opened or read
    tooLarge,   // more bytes, values or nesting than is sensible
    notText,    // not UTF-8
    syntax,     // not YAML, or YAML that is refused here (anchors, tags, several documents)
    unknownKey,
    duplicateKey,
    missingKey,
    wrongShape, // a list where a map is wanted, and so on
    notANumber,
    missingUnit,
    unknownUnit,
    wrongDimension,
    outOfRange, // includes non-finite numbers
    notABoolean,
    unknownName,  // insult, analyte, finding, test ... with the nearest known one
    wrongOrder,   // times out of order
    contradiction // two statements of a file that cannot both hold
};

/// One thing wrong with an input: where, what was found, what is allowed.
struct Fault {
    FaultKind kind;
    Place place;
    std::string subject; ///< what it is about, as the file names it: "insults[0].severity"
    std::string found;   ///< what stands there, shortened
    std::string allowed; ///< what may stand there, and what to write instead
    std::string line;    ///< the line of the file, for the excerpt
};

/// One sentence, without place or excerpt.
std::string sentence(const Fault& fault);

/// "file:line:column: sentence", then the line and a caret under the column.
std::string message(const Fault& fault);

/// Thrown with all faults of an input at once, sorted by place. what() is every message, one after
/// another.
class InputError : public std::runtime_error {
public:
    explicit InputError(std::vector<Fault> faults);
    const std::vector<Fault>& faults() const { return faults_; }

private:
    std::vector<Fault> faults_;
};

} // namespace cistern::base
