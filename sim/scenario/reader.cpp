#include "scenario/reader.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace cistern::scenario {

namespace {

using base::FaultKind;

constexpr std::size_t longestName = 80; // a longer text is no misspelt name

const std::string& shownUnit(const Range& range) {
    return range.shown.empty() ? range.unit : range.shown;
}

/// "58 h", but "2" for a plain ratio.
std::string written(double value, const std::string& unit) {
    return unit.empty() || unit == "1" ? plain(value) : plain(value) + " " + unit;
}

/// True for nan, inf, .inf, and decimals beyond what a number can hold.
bool notFinite(std::string text) {
    std::string_view view = text;
    if (view.starts_with('-') || view.starts_with('+')) view.remove_prefix(1);
    if (view.starts_with('.') && view.size() > 1 &&
        std::isalpha(static_cast<unsigned char>(view[1])))
        view.remove_prefix(1);
    text = view;
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    return end != text.c_str() && !std::isfinite(value);
}

/// "012" is ten to some readers and twelve to others.
bool leadingZero(std::string_view text) {
    if (text.starts_with('-') || text.starts_with('+')) text.remove_prefix(1);
    return text.size() > 1 && text[0] == '0' && std::isdigit(static_cast<unsigned char>(text[1]));
}

/// The nearest known name, or all of them.
std::string instead(const std::string& name, std::span<const std::string> known,
                    const std::string& what) {
    const std::string near = name.size() > longestName ? "" : base::nearest(name, known);
    if (!near.empty()) return "'" + near + "', the nearest " + what;
    return base::listed(known);
}

} // namespace

std::string plain(double value) {
    char buffer[64];
    std::snprintf(buffer, sizeof buffer, "%.6g", value);
    std::string text = buffer;
    if (text.find('e') != std::string::npos && std::fabs(value) >= 1) {
        std::snprintf(buffer, sizeof buffer, "%.0f", value);
        text = buffer;
    }
    return text == "-0" ? "0" : text;
}

std::string inWords(const Range& range) {
    if (!range.words.empty()) return range.words;
    const std::string& unit = shownUnit(range);
    const double factor = base::conversion(range.unit, unit, range.molarMass).value_or(1);
    if (!std::isfinite(range.most)) return "at least " + written(range.least * factor, unit);
    return plain(range.least * factor) + " to " + written(range.most * factor, unit);
}

Understood understand(const std::string& text, const Range& range) {
    if (notFinite(text))
        return {{}, FaultKind::outOfRange, text, "a finite number, " + inWords(range)};
    const auto quantity = base::readQuantity(text);
    if (!quantity || leadingZero(text)) return {{}, FaultKind::notANumber, text, inWords(range)};
    std::string unit = quantity->unit;
    if (unit.empty()) {
        if (!range.bare)
            return {{},
                    FaultKind::missingUnit,
                    text,
                    inWords(range) + ", as in '" + written(quantity->value, shownUnit(range)) +
                        "'"};
        unit = shownUnit(range);
    }
    if (!base::knownUnit(unit)) return {{}, FaultKind::unknownUnit, unit, inWords(range)};
    // Per day is how some shares are counted, and it goes without saying.
    if (shownUnit(range) == "%/d" && unit == "%") unit = "%/d";
    const auto factor = base::conversion(unit, range.unit, range.molarMass);
    if (!factor) return {{}, FaultKind::wrongDimension, text, inWords(range)};
    const double value = quantity->value * *factor;
    // A limit that is written in the file's own unit must pass in spite of the last bit.
    const double slack = 1e-12 * std::max(std::fabs(value), 1e-300);
    if (!(value >= range.least - slack && value <= range.most + slack))
        return {{}, FaultKind::outOfRange, text, inWords(range)};
    return {value, {}, {}, {}};
}

Sheet::Sheet(Document document) : document_(std::move(document)), faults_(document_.faults) {}

void Sheet::fault(FaultKind kind, Spot spot, std::string subject, std::string found,
                  std::string allowed) {
    faults_.push_back({kind, document_.place(spot), std::move(subject), std::move(found),
                       std::move(allowed), document_.line(spot)});
}

base::Place Reader::place() const {
    return sheet_->document().place(node_ ? node_->spot : Spot{});
}

void Reader::fault(FaultKind kind, const std::string& found, const std::string& allowed) {
    const std::string subject = subject_.empty() ? "the file" : subject_;
    if (node_) sheet_->fault(kind, node_->spot, subject, found, allowed);
}

/// True if the value has this shape; if not, a fault is noted once.
bool Reader::is(Node::Kind kind, const char* wanted) {
    if (!node_) return false;
    if (node_->kind == kind) return true;
    if (!complained_) fault(FaultKind::wrongShape, isScalar() ? node_->text : "", wanted);
    complained_ = true;
    return false;
}

Reader Reader::below(const Node& node, const std::string& step) const {
    return {*sheet_, &node, subject_.empty() ? step : subject_ + "." + step};
}

Reader Reader::find(const std::string& key) {
    asked_.push_back(key);
    if (!is(Node::Kind::map, "a map of keys")) return {*sheet_, nullptr, key};
    if (const Node* found = node_->find(key)) return below(*found, key);
    return {*sheet_, nullptr, key};
}

Reader Reader::need(const std::string& key) {
    Reader found = find(key);
    if (!found && isMap())
        sheet_->fault(FaultKind::missingKey, node_->spot,
                      subject_.empty() ? key : subject_ + "." + key, "", "");
    return found;
}

void Reader::noMore() {
    if (!isMap()) return;
    for (const Node& member : node_->members) {
        if (std::find(asked_.begin(), asked_.end(), member.key) != asked_.end()) continue;
        const std::string subject = subject_.empty() ? member.key : subject_ + "." + member.key;
        sheet_->fault(FaultKind::unknownKey, member.keySpot, subject, "",
                      instead(member.key, asked_, "key"));
    }
}

std::vector<Reader> Reader::members() {
    std::vector<Reader> all;
    if (!is(Node::Kind::map, "a map of keys")) return all;
    for (const Node& member : node_->members) {
        asked_.push_back(member.key);
        all.push_back(below(member, member.key));
    }
    return all;
}

std::vector<Reader> Reader::items() {
    std::vector<Reader> all;
    if (!is(Node::Kind::list, "a list")) return all;
    for (std::size_t i = 0; i < node_->members.size(); ++i)
        all.push_back(below(node_->members[i], std::to_string(i)));
    return all;
}

std::vector<std::string> Reader::texts() {
    std::vector<std::string> all;
    for (Reader& item : items()) all.push_back(item.text());
    return all;
}

std::string Reader::text() {
    if (!is(Node::Kind::scalar, "text")) return {};
    std::string text = node_->text;
    while (!text.empty() && (text.back() == '\n' || text.back() == ' ')) text.pop_back();
    if (text.empty()) fault(FaultKind::wrongShape, "", "text");
    return text;
}

std::optional<double> Reader::quantity(const Range& range) {
    if (!is(Node::Kind::scalar, "a number")) return std::nullopt;
    const Understood read = understand(node_->text, range);
    if (!read.value) fault(read.kind, read.found, read.allowed);
    sheet_->ranges[subject_] = range;
    return read.value;
}

std::optional<std::int64_t> Reader::count(std::int64_t least, std::int64_t most) {
    if (!is(Node::Kind::scalar, "a whole number")) return std::nullopt;
    const std::string& text = node_->text;
    const std::string allowed =
        "a whole number, " + std::to_string(least) + " to " + std::to_string(most);
    std::int64_t value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool digits = end == text.data() + text.size() && !text.empty();
    sheet_->ranges[subject_] = {"1", static_cast<double>(least), static_cast<double>(most), "",
                                true};
    if (digits && !leadingZero(text) && error == std::errc{} && value >= least && value <= most)
        return value;
    const bool beyond = digits && !leadingZero(text) && error != std::errc::invalid_argument;
    fault(beyond || notFinite(text) ? FaultKind::outOfRange : FaultKind::notANumber, text, allowed);
    return std::nullopt;
}

std::optional<bool> Reader::truth() {
    if (!is(Node::Kind::scalar, "true or false")) return std::nullopt;
    if (node_->text == "true") return true;
    if (node_->text == "false") return false;
    fault(FaultKind::notABoolean, node_->text, "true or false");
    return std::nullopt;
}

std::optional<std::size_t> Reader::oneOf(std::span<const std::string> known,
                                         const std::string& what) {
    if (!is(Node::Kind::scalar, "a name")) return std::nullopt;
    const auto at = std::find(known.begin(), known.end(), node_->text);
    if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
    fault(FaultKind::unknownName, node_->text, instead(node_->text, known, what));
    return std::nullopt;
}

std::optional<std::size_t> Reader::keyOneOf(std::span<const std::string> known,
                                            const std::string& what) {
    if (!node_) return std::nullopt;
    const auto at = std::find(known.begin(), known.end(), node_->key);
    if (at != known.end()) return static_cast<std::size_t>(at - known.begin());
    sheet_->fault(FaultKind::unknownName, node_->keySpot, subject_, node_->key,
                  instead(node_->key, known, what));
    return std::nullopt;
}

} // namespace cistern::scenario
