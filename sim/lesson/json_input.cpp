#include "lesson/json_input.h"

#include "base/text.h"
#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace cistern::lesson {

namespace {

constexpr int deepest = 12; // levels; the formats here need 5

using base::FaultKind;

/// Line and column (from 1) of a byte, and the text of its line.
base::Place place(const std::string& text, const std::string& file, std::size_t byte,
                  std::string& line) {
    const std::size_t at = std::min(byte, text.size());
    const std::size_t start = at == 0 ? 0 : text.rfind('\n', at - 1) + 1; // npos + 1 is 0
    line = text.substr(start, text.find('\n', start) - start);
    const auto lines = std::count(text.begin(), text.begin() + static_cast<long>(start), '\n');
    return {file, static_cast<int>(lines) + 1, static_cast<int>(at - start) + 1};
}

/// Watches the parser for what the finished tree would hide.
struct Watch {
    std::vector<std::set<std::string>> keys; // of the objects that are open
    std::string twice;
    bool tooDeep = false;

    bool operator()(int depth, nlohmann::json::parse_event_t event, nlohmann::json& parsed) {
        using Event = nlohmann::json::parse_event_t;
        if (depth > deepest) tooDeep = true;
        if (event == Event::object_start) keys.emplace_back();
        if (event == Event::object_end) keys.pop_back();
        if (event == Event::key && !keys.back().insert(parsed.get<std::string>()).second)
            twice = parsed.get<std::string>();
        return !tooDeep;
    }
};

} // namespace

std::string under(const std::string& path, const std::string& key) {
    return path.empty() ? key : path + "." + key;
}

std::string under(const std::string& path, std::size_t item) {
    return path + "[" + std::to_string(item) + "]";
}

JsonInput::JsonInput(const std::string& text, std::string file) : file_(std::move(file)) {
    Watch watch;
    try {
        root_ = Json::parse(text, std::ref(watch));
    } catch (const Json::parse_error& error) {
        base::Fault bad;
        bad.kind = FaultKind::syntax;
        bad.subject = "this text";
        bad.allowed = "JSON";
        bad.place = place(text, file_, error.byte == 0 ? 0 : error.byte - 1, bad.line);
        throw base::InputError({bad});
    } catch (const Json::exception&) { // a number beyond the range of doubles
        fault(FaultKind::outOfRange, "this text", "a number too large to hold", "finite numbers");
    }
    if (watch.tooDeep)
        fault(FaultKind::tooLarge, "this text", "more nesting",
              "at most " + std::to_string(deepest) + " levels");
    if (!watch.twice.empty()) fault(FaultKind::duplicateKey, watch.twice, "", "each key once");
    done();
}

void JsonInput::fault(FaultKind kind, const std::string& path, const std::string& found,
                      const std::string& allowed) {
    base::Fault& fault = faults_.emplace_back();
    fault.kind = kind;
    fault.place.file = file_;
    fault.subject = path.empty() ? "the file" : path;
    fault.found = found;
    fault.allowed = allowed;
}

void JsonInput::wrong(FaultKind kind, const std::string& path, const Json& found,
                      const std::string& allowed) {
    fault(kind, path, found.dump(-1, ' ', false, Json::error_handler_t::replace), allowed);
}

void JsonInput::done() const {
    if (!faults_.empty()) throw base::InputError(faults_);
}

bool JsonInput::object(const Json& at, const std::string& path,
                       const std::vector<std::string>& known) {
    if (!at.is_object()) {
        wrong(FaultKind::wrongShape, path, at, "an object { } with " + base::listed(known, "and"));
        return false;
    }
    for (const auto& [key, value] : at.items()) {
        if (std::find(known.begin(), known.end(), key) != known.end()) continue;
        const std::string near = base::nearest(key, known);
        fault(FaultKind::unknownKey, under(path, key), key,
              near.empty() ? base::listed(known) : near);
    }
    return true;
}

bool JsonInput::array(const Json& at, const std::string& path) {
    if (!at.is_array()) wrong(FaultKind::wrongShape, path, at, "a list [ ]");
    return at.is_array();
}

const JsonInput::Json* JsonInput::member(const Json& object, const std::string& path,
                                         const std::string& key) {
    const auto at = object.find(key);
    if (at != object.end()) return &*at;
    fault(FaultKind::missingKey, under(path, key), "", "a value");
    return nullptr;
}

std::optional<std::string> JsonInput::text(const Json& at, const std::string& path) {
    if (at.is_string()) return at.get<std::string>();
    wrong(FaultKind::wrongShape, path, at, "text in quotes");
    return std::nullopt;
}

std::optional<double> JsonInput::number(const Json& at, const std::string& path,
                                        const std::string& unit) {
    if (at.is_number()) return at.get<double>();
    if (at.is_string()) {
        const auto quantity = base::readQuantity(at.get<std::string>());
        if (quantity && (quantity->unit == unit || quantity->unit.empty())) return quantity->value;
        if (quantity) {
            wrong(FaultKind::wrongDimension, path, at, "a number of " + unit);
            return std::nullopt;
        }
    }
    wrong(FaultKind::notANumber, path, at, "a number of " + unit);
    return std::nullopt;
}

std::optional<std::vector<std::string>> JsonInput::texts(const Json& at, const std::string& path) {
    if (!array(at, path)) return std::nullopt;
    std::vector<std::string> list;
    for (std::size_t i = 0; i < at.size(); ++i)
        if (auto one = text(at[i], under(path, i))) list.push_back(std::move(*one));
    if (list.size() < at.size()) return std::nullopt;
    return list;
}

std::optional<std::size_t> JsonInput::drawNumber(const Json& at, const std::string& path) {
    if (at.is_number_unsigned() && at.get<std::uint64_t>() > 0)
        return static_cast<std::size_t>(at.get<std::uint64_t>() - 1);
    wrong(FaultKind::outOfRange, path, at, "the number of a draw, from 1");
    return std::nullopt;
}

std::optional<body::Tissue> JsonInput::organ(const std::string& name, const std::string& path) {
    const auto organ = body::tissueNamed(name);
    if (organ) return organ;
    std::vector<std::string> known;
    for (const body::Tissue one : body::tissues()) known.emplace_back(body::name(one));
    unknown(path, name, known);
    return std::nullopt;
}

std::optional<std::vector<body::Analyte>> JsonInput::analytes(const Json& at,
                                                              const std::string& path) {
    const auto names = texts(at, path);
    if (!names) return std::nullopt;
    std::vector<body::Analyte> list;
    for (std::size_t i = 0; i < names->size(); ++i) {
        if (const auto analyte = body::analyteNamed((*names)[i])) {
            list.push_back(*analyte);
            continue;
        }
        std::vector<std::string> known;
        for (const body::Analyte one : body::analytes()) known.emplace_back(body::name(one));
        unknown(under(path, i), (*names)[i], known);
    }
    if (list.size() < names->size()) return std::nullopt;
    return list;
}

std::optional<Band> JsonInput::band(const Json& at, const std::string& path,
                                    const std::string& unit) {
    const std::size_t before = faults();
    if (!object(at, path, {"best", "low", "high"})) return std::nullopt;
    Band band;
    const auto read = [&](const std::string& key, double& into) {
        const Json* value = member(at, path, key);
        if (!value) return;
        if (const auto amount = number(*value, under(path, key), unit)) into = *amount;
    };
    read("best", band.best);
    read("low", band.low);
    read("high", band.high);
    if (faults() > before) return std::nullopt;
    return band;
}

std::optional<std::map<std::string, double>> JsonInput::points(const Json& at,
                                                               const std::string& path) {
    if (!at.is_object()) {
        wrong(FaultKind::wrongShape, path, at, "an object { } of explanations and points");
        return std::nullopt;
    }
    std::map<std::string, double> points;
    for (const auto& [key, value] : at.items())
        if (const auto amount = number(value, under(path, key), "%")) points[key] = *amount;
    if (points.size() < at.size()) return std::nullopt;
    return points;
}

void JsonInput::unknown(const std::string& path, const std::string& name,
                        const std::vector<std::string>& known) {
    const std::string near = base::nearest(name, known);
    fault(FaultKind::unknownName, path, name, near.empty() ? base::listed(known) : near);
}

bool JsonInput::among(const std::vector<std::string>& known, const std::string& name,
                      const std::string& path) {
    const bool found = std::find(known.begin(), known.end(), name) != known.end();
    if (!found) unknown(path, name, known);
    return found;
}

void JsonInput::refused(const std::string& path, const Json& found, const Refusal& refusal) {
    wrong(FaultKind::outOfRange, path, found, refusal.what());
}

} // namespace cistern::lesson
