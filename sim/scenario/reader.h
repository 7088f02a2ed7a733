#pragma once
#include "scenario/yaml.h"

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

namespace cistern::scenario {

/// What a number may be, both ends allowed.
struct Range {
    std::string unit; ///< in which it is held and in which `least` and `most` are meant
    double least = 0;
    double most = std::numeric_limits<double>::infinity();
    std::string shown{};  ///< unit as people write it, if not `unit`: "%" for a share held as "1"
    bool bare = false;    ///< a plain number will do (a count, a ratio)
    double molarMass = 0; ///< [g/mol] if mass may be written for amount of substance
    std::string words{};  ///< the range in words, if they read better: "1 wk to 30 y"
};

/// The range in words: "0.5 to 200 h", "at least 0 h".
std::string inWords(const Range& range);

/// A number with as many digits as it needs, at most six: "0.1", "400000".
std::string plain(double value);

/// One file while it is read: where things stand and everything that is wrong with it.
class Sheet {
public:
    explicit Sheet(Document document);
    const Document& document() const { return document_; }
    void fault(base::FaultKind kind, Spot spot, std::string subject, std::string found,
               std::string allowed);
    /// The faults so far, and none are left behind.
    std::vector<base::Fault> take() { return std::exchange(faults_, {}); }
    bool good() const { return faults_.empty(); }
    std::size_t faultCount() const { return faults_.size(); }

    /// What each number of the file may be, by its path ("insults.0.severity"), for whoever varies
    /// it.
    std::map<std::string, Range> ranges;

private:
    Document document_;
    std::vector<base::Fault> faults_;
};

/// Reads one value of a file. Whatever does not fit becomes a fault of the sheet, and reading goes
/// on; a reader of nothing (an optional key that is absent) reads as empty without a fault.
class Reader {
public:
    explicit Reader(Sheet& sheet) : Reader(sheet, &sheet.document().root, "") {}
    Reader(Sheet& sheet, const Node* node, std::string subject)
        : sheet_(&sheet), node_(node), subject_(std::move(subject)) {}

    explicit operator bool() const { return node_ != nullptr; }
    const Node* node() const { return node_; }
    base::Place place() const;                              ///< of the value
    const std::string& subject() const { return subject_; } ///< "insults.0.severity"
    Sheet& sheet() const { return *sheet_; }
    bool isMap() const { return node_ && node_->kind == Node::Kind::map; }
    bool isList() const { return node_ && node_->kind == Node::Kind::list; }
    bool isScalar() const { return node_ && node_->kind == Node::Kind::scalar; }

    // Maps: ask for every key, then call noMore().
    Reader find(const std::string& key); ///< reads as empty if there is no such key
    Reader need(const std::string& key); ///< the same, and a fault
    void noMore();                       ///< keys that nobody asked for are faults
    std::vector<Reader> members();       ///< all of a map; their keys count as asked for

    // Lists: "[a, b]".
    std::vector<Reader> items();
    std::vector<std::string> texts();

    // Single values.
    std::string text();
    std::optional<double> quantity(const Range& range);
    std::optional<std::int64_t> count(std::int64_t least, std::int64_t most);
    std::optional<bool> truth();
    /// Position in a list of known names; `what` says what they are: "insult".
    std::optional<std::size_t> oneOf(std::span<const std::string> known, const std::string& what);
    /// The same for this member's key within its map.
    std::optional<std::size_t> keyOneOf(std::span<const std::string> known,
                                        const std::string& what);

    /// Something wrong with this value that only its user can see.
    void fault(base::FaultKind kind, const std::string& found, const std::string& allowed);

private:
    Sheet* sheet_;
    const Node* node_;
    std::string subject_;
    std::vector<std::string> asked_;
    bool complained_ = false;

    bool is(Node::Kind kind, const char* wanted);
    Reader below(const Node& node, const std::string& step) const;
};

/// A number with its unit as a range reads it, or what is wrong with the text.
struct Understood {
    std::optional<double> value; ///< in the range's unit
    base::FaultKind kind{};      ///< if there is no value
    std::string found, allowed;
};
Understood understand(const std::string& text, const Range& range);

} // namespace cistern::scenario
