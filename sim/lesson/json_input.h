#pragma once
#include "base/fault.h"
#include "lesson/action.h"

#include <nlohmann/json.hpp>

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {

/// Reads JSON strictly and collects what is wrong, each fault with its path ("organs.liver.work")
/// as subject. For the files of this folder only.
class JsonInput {
public:
    using Json = nlohmann::json;

    /// Parses; throws InputError at once for text that is not JSON, holds a key twice or is nested
    /// too deep.
    JsonInput(const std::string& text, std::string file);

    const Json& root() const { return root_; }
    void fault(base::FaultKind kind, const std::string& path, const std::string& found,
               const std::string& allowed);
    /// The same, with the JSON that was found.
    void wrong(base::FaultKind kind, const std::string& path, const Json& found,
               const std::string& allowed);
    /// Throws InputError if anything was found wrong.
    void done() const;
    std::size_t faults() const { return faults_.size(); }

    /// True if it is an object; every key not in `known` is a fault with the nearest known one.
    bool object(const Json& at, const std::string& path, const std::vector<std::string>& known);
    bool array(const Json& at, const std::string& path);
    /// A member that must be there; null and a fault if not.
    const Json* member(const Json& object, const std::string& path, const std::string& key);
    std::optional<std::string> text(const Json& at, const std::string& path);
    /// A finite number, or text with a number and this unit ("30 %").
    std::optional<double> number(const Json& at, const std::string& path, const std::string& unit);
    std::optional<std::vector<std::string>> texts(const Json& at, const std::string& path);

    /// A draw as people count, from 1; given back as it is held, from 0.
    std::optional<std::size_t> drawNumber(const Json& at, const std::string& path);
    std::optional<body::Tissue> organ(const std::string& name, const std::string& path);
    std::optional<std::vector<body::Analyte>> analytes(const Json& at, const std::string& path);
    /// {"best": ..., "low": ..., "high": ...}
    std::optional<Band> band(const Json& at, const std::string& path, const std::string& unit);
    /// {"explanation": points, ...}
    std::optional<std::map<std::string, double>> points(const Json& at, const std::string& path);

    void unknown(const std::string& path, const std::string& name,
                 const std::vector<std::string>& known);
    /// True if the name is on the list; else a fault with the nearest that is.
    bool among(const std::vector<std::string>& known, const std::string& name,
               const std::string& path);
    void refused(const std::string& path, const Json& found, const Refusal& refusal);

private:
    std::string file_;
    Json root_;
    std::vector<base::Fault> faults_;
};

/// "organs" and "liver" give "organs.liver".
std::string under(const std::string& path, const std::string& key);
std::string under(const std::string& path, std::size_t item); // "draws[1]"

} // namespace cistern::lesson
