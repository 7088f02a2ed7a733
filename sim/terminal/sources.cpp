#include "report/sources.h"

#include "base/text.h"
#include "report/csv.h"
#include "report/words.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cctype>
#include <map>
#include <memory>
#include <ostream>

namespace cistern::terminal {

namespace {

std::string lower(std::string text) {
    for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return text;
}

/// By part of the name, or by the whole word of a standing.
std::vector<scenario::Sourced> matching(const scenario::Assets& assets, const std::string& part) {
    std::vector<scenario::Sourced> found;
    for (const scenario::Sourced& one : assets.values)
        if (part.empty() || lower(one.name).find(lower(part)) != std::string::npos ||
            lower(part) == name(one.standing))
            found.push_back(one);
    return found;
}

const scenario::Source* sourceOf(const scenario::Assets& assets, const std::string& key) {
    const auto at = std::find_if(assets.sources.begin(), assets.sources.end(),
                                 [&](const scenario::Source& one) { return one.key == key; });
    return at == assets.sources.end() ? nullptr : &*at;
}

void printCsv(std::ostream& out, const scenario::Assets& assets,
              const std::vector<scenario::Sourced>& values) {
    out << report::csvLine({"name", "value", "range", "standing", "source", "citation", "note"});
    for (const scenario::Sourced& one : values) {
        const scenario::Source* source = sourceOf(assets, one.source);
        out << report::csvLine({one.name, one.value, one.range, std::string(name(one.standing)),
                                one.source, source ? source->citation : "", one.note});
    }
}

void printText(World& world, const scenario::Assets& assets,
               const std::vector<scenario::Sourced>& values) {
    std::vector<report::SourceRow> rows;
    std::map<scenario::Standing, std::size_t> counts;
    for (const scenario::Sourced& one : values) {
        rows.push_back({one.name, one.value, one.range, std::string(name(one.standing)), one.source,
                        one.note});
        ++counts[one.standing];
    }
    std::vector<report::Citation> citations;
    for (const scenario::Source& source : assets.sources)
        citations.push_back({source.key, source.citation});
    world.out << report::sourcesText(rows, citations);

    std::vector<std::string> sums;
    for (const auto& [standing, count] : counts)
        sums.push_back(std::to_string(count) + " " + std::string(name(standing)));
    Page page(world.out, world.styled);
    page.blank();
    page.paragraph(report::counted(values.size(), "value") + ": " + base::listed(sums, "and") +
                   ".");
}

int print(World& world, const std::string& part, const std::string& format) {
    readWord("--format", format, {"text", "csv"});
    const scenario::Assets assets = loadAssets(world);
    const std::vector<scenario::Sourced> values = matching(assets, part);
    if (values.empty()) {
        std::vector<std::string> names;
        for (const scenario::Sourced& one : assets.values) names.push_back(one.name);
        const std::string near = base::nearest(part, names);
        throw UsageError("No parameter's name holds \"" + part + "\"" +
                         (near.empty() ? "" : "; perhaps you mean \"" + near + "\"") + ".");
    }
    if (format == "csv")
        printCsv(world.out, assets, values);
    else
        printText(world, assets, values);
    return done;
}

} // namespace

Job declareSources(CLI::App& app) {
    const auto part = std::make_shared<std::string>();
    const auto format = std::make_shared<std::string>("text");
    app.add_option("NAME", *part,
                   "Part of a parameter's name, or a standing: published, \"from memory\", "
                   "derived, contested, fitted or assumed.");
    app.add_option("--format", *format, "text (left out) or csv.")->type_name("NAME");
    return [=](World& world) { return print(world, *part, *format); };
}

} // namespace cistern::terminal
