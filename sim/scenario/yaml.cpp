#include "scenario/yaml.h"

#include "base/text.h"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <array>
#include <set>
#include <sstream>
#include <string_view>

namespace cistern::scenario {

namespace {

using base::Fault;
using base::FaultKind;

constexpr std::size_t longestExcerpt = 400; // bytes; of longer lines no excerpt is kept

/// Control characters could hide text or drive a terminal; only line ends and tabs are text.
bool controls(std::string_view character) {
    const auto first = static_cast<unsigned char>(character[0]);
    if (character.size() == 1)
        return (first < 0x20 && first != '\n' && first != '\r' && first != '\t') || first == 0x7F;
    return first == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
}

bool clean(std::string_view text) {
    while (!text.empty()) {
        const std::size_t length = base::characterLength(text);
        if (length == 0 || controls(text.substr(0, length))) return false;
        text.remove_prefix(length);
    }
    return true;
}

std::vector<std::string> linesOf(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) {
        if (!line.empty() && line.back() == '\r') line.pop_back();
        lines.push_back(std::move(line));
    }
    return lines;
}

/// yaml-cpp counts lines and bytes from zero.
Spot spotOf(const YAML::Mark& mark) {
    return {mark.line + 1, mark.column + 1};
}

struct Sentence {
    std::string_view library, subject, allowed;
};

/// What yaml-cpp says, and the same for people who never saw a grammar.
constexpr std::array<Sentence, 14> sentences{{
    {"illegal map value", "the colon here",
     "a line indented like its neighbors; a text that holds ': ' in quotation marks"},
    {"illegal map key", "the key here", "a line indented like its neighbors"},
    {"illegal block entry", "the '-' here", "a list on lines of its own, indented with blanks"},
    {"illegal tab", "the indentation", "blanks, no tabs"},
    {"end of map not found", "the line", "'key: value', indented like its neighbors"},
    {"end of sequence not found", "the line", "'- value', indented like its neighbors"},
    {"end of map flow not found", "the '{'", "a '}' that closes it"},
    {"end of sequence flow not found", "the '['", "a ']' that closes it"},
    {"illegal flow end", "the closing bracket", "one for each that was opened"},
    {"illegal EOF in scalar", "the text in quotation marks", "a mark that closes it"},
    {"unknown escape character", "the sign after '\\'",
     "'\\\\' for a backslash, or single quotation marks about the text"},
    {"unknown token", "the first sign of the text", "the text in quotation marks"},
    {"anchor", "the anchor or alias", "the value written out wherever it is wanted"},
    {"alias", "the anchor or alias", "the value written out wherever it is wanted"},
}};

/// Builds our tree from the parser's events. Small sins are noted and reading goes on; what makes
/// the rest meaningless ends it with a Stop.
class Builder : public YAML::EventHandler {
public:
    struct Stop {};

    Builder(Document& document, const Bounds& bounds) : document_(document), bounds_(bounds) {}

    void note(FaultKind kind, Spot spot, std::string subject, std::string allowed) {
        document_.faults.push_back({kind, document_.place(spot), std::move(subject), "",
                                    std::move(allowed), document_.line(spot)});
    }

    std::string line(Spot spot) const { return document_.line(spot); }

    void OnDocumentStart(const YAML::Mark& mark) override {
        if (++documents_ == 1) return;
        note(FaultKind::syntax, spotOf(mark), "the second document",
             "one document in a file, without lines of '---' or '...'");
        throw Stop{};
    }
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override {
        add(mark, anchor, "", Node::Kind::null, "");
    }
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override {
        note(FaultKind::syntax, spotOf(mark), "the alias (*)",
             "the value written out wherever it is wanted");
        throw Stop{}; // without its value the rest would only seem wrong
    }
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override {
        add(mark, anchor, tag, Node::Kind::scalar, value);
    }
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value) override {
        open(mark, anchor, tag, Node::Kind::list);
    }
    void OnSequenceEnd() override { open_.pop_back(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value) override {
        open(mark, anchor, tag, Node::Kind::map);
    }
    void OnMapEnd() override { open_.pop_back(); }

private:
    /// A list or map that is still being filled. Its node stays put: only the innermost grows.
    struct Open {
        Node* node;
        bool wantsKey = true;
        std::string key;
        Spot keySpot;
        std::set<std::string> keys;
    };
    Document& document_;
    const Bounds& bounds_;
    std::vector<Open> open_;
    std::size_t values_ = 0;
    int documents_ = 0;

    void refuse(const YAML::Mark& mark, YAML::anchor_t anchor, const std::string& tag) {
        if (++values_ > bounds_.values) {
            note(FaultKind::tooLarge, spotOf(mark), "the file",
                 "at most " + std::to_string(bounds_.values) + " values");
            throw Stop{};
        }
        if (anchor)
            note(FaultKind::syntax, spotOf(mark), "the anchor (&)",
                 "the value written out wherever it is wanted");
        if (!tag.empty() && tag != "?" && tag != "!")
            note(FaultKind::syntax, spotOf(mark), "the tag (!)", "the value without it");
    }

    /// True unless a quotation mark at the place is never closed: at the end of a file yaml-cpp
    /// lets that pass.
    bool closed(Spot spot) const {
        auto line = static_cast<std::size_t>(spot.line - 1);
        auto at = static_cast<std::size_t>(spot.column - 1);
        const std::vector<std::string>& lines = document_.lines;
        if (line >= lines.size() || at >= lines[line].size()) return true;
        const char quote = lines[line][at];
        if (quote != '"' && quote != '\'') return true;
        for (++at; line < lines.size(); ++line, at = 0)
            for (; at < lines[line].size(); ++at)
                if (quote == '"' && lines[line][at] == '\\')
                    ++at;
                else if (lines[line][at] == quote)
                    return true; // a doubled one only ends the search a sign too soon
        return false;
    }

    void takeKey(const YAML::Mark& mark, Node::Kind kind, const std::string& text) {
        Open& map = open_.back();
        if (kind != Node::Kind::scalar || text.empty()) {
            note(FaultKind::syntax, spotOf(mark), "the key",
                 "'key: value' with a plain word as key, and each bracket closed");
            throw Stop{};
        }
        map.wantsKey = false;
        map.key = text;
        map.keySpot = spotOf(mark);
        if (!map.keys.insert(text).second)
            note(FaultKind::duplicateKey, map.keySpot, text, "each key once in its map");
    }

    /// Adds a value, or takes a scalar as the key that the map waits for (then returns null).
    Node* add(const YAML::Mark& mark, YAML::anchor_t anchor, const std::string& tag,
              Node::Kind kind, const std::string& text) {
        refuse(mark, anchor, tag);
        if (tag == "!" && !closed(spotOf(mark))) {
            note(FaultKind::syntax, spotOf(mark), "the text in quotation marks",
                 "a mark that closes it");
            throw Stop{};
        }
        if (!clean(text))
            note(FaultKind::notText, spotOf(mark), "the text", "no control characters");
        const bool inMap = !open_.empty() && open_.back().node->kind == Node::Kind::map;
        if (inMap && open_.back().wantsKey) {
            takeKey(mark, kind, text);
            return nullptr;
        }
        Node node;
        node.kind = kind;
        node.text = text;
        node.quoted = tag == "!";
        node.spot = spotOf(mark);
        if (inMap) {
            Open& map = open_.back();
            node.key = map.key;
            node.keySpot = map.keySpot;
            if (kind == Node::Kind::null) node.spot = map.keySpot;
            map.wantsKey = true;
        }
        if (open_.empty()) return &(document_.root = std::move(node));
        Node& parent = *open_.back().node;
        parent.members.push_back(std::move(node));
        return &parent.members.back();
    }

    void open(const YAML::Mark& mark, YAML::anchor_t anchor, const std::string& tag,
              Node::Kind kind) {
        Node* node = add(mark, anchor, tag, kind, "");
        if (open_.size() >= bounds_.depth) {
            note(FaultKind::tooLarge, spotOf(mark), "the nesting",
                 "at most " + std::to_string(bounds_.depth) + " lists and maps within each other");
            throw Stop{};
        }
        Open inner;
        inner.node = node;
        open_.push_back(std::move(inner));
    }
};

/// True if all of the text is clean UTF-8; otherwise the first line that is not is noted.
bool checkText(const std::string& text, Builder& builder) {
    int line = 1;
    for (std::string_view rest = text; !rest.empty();) {
        const std::size_t length = base::characterLength(rest);
        if (length == 0) {
            builder.note(FaultKind::notText, {line, 0}, "the line", "text saved as UTF-8");
            return false;
        }
        if (controls(rest.substr(0, length))) {
            builder.note(FaultKind::notText, {line, 0}, "the line", "no control characters");
            return false;
        }
        line += rest[0] == '\n';
        rest.remove_prefix(length);
    }
    return true;
}

void noteSyntax(const YAML::ParserException& error, Builder& builder) {
    const std::string line = builder.line(spotOf(error.mark));
    const bool tabbed = line.find('\t') < line.find_first_not_of(" \t");
    const std::string_view said = tabbed ? "illegal tab" : std::string_view(error.msg);
    std::string subject = "the YAML";
    std::string allowed = "'key: value', lists with '- ', blanks to indent (" + error.msg + ")";
    for (const Sentence& sentence : sentences)
        if (said.find(sentence.library) != std::string_view::npos) {
            subject = sentence.subject;
            allowed = sentence.allowed;
            break;
        }
    builder.note(FaultKind::syntax, spotOf(error.mark), subject, allowed);
}

} // namespace

const Node* Node::find(const std::string& wanted) const {
    if (kind != Kind::map) return nullptr;
    for (const Node& member : members)
        if (member.key == wanted) return &member;
    return nullptr;
}

std::string Document::line(Spot spot) const {
    if (spot.line < 1 || static_cast<std::size_t>(spot.line) > lines.size()) return {};
    const std::string& line = lines[static_cast<std::size_t>(spot.line - 1)];
    return line.size() <= longestExcerpt && clean(line) ? line : std::string{};
}

Document parse(const std::string& file, const std::string& text, const Bounds& bounds) {
    Document document;
    document.file = file;
    Builder builder(document, bounds);
    if (text.size() > bounds.bytes) {
        builder.note(FaultKind::tooLarge, {}, "the file",
                     "at most " + std::to_string(bounds.bytes) + " bytes");
        return document;
    }
    document.lines = linesOf(text);
    if (!checkText(text, builder)) return document;
    try {
        std::istringstream in(text);
        YAML::Parser parser(in);
        while (parser.HandleNextDocument(builder)) {
        }
        document.whole = true;
    } catch (const Builder::Stop&) {
    } catch (const YAML::ParserException& error) {
        noteSyntax(error, builder);
    }
    return document;
}

} // namespace cistern::scenario
