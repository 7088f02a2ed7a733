#include "report/sources.h"

#include "base/text.h"

#include <algorithm>

namespace cistern::report {

namespace {

constexpr int pageWidth = 80, nameWidth = 42, valueWidth = 22; // cells

void addWrapped(std::string& page, const std::string& text, int indent, int hanging) {
    const auto lines = base::wrapped(text, pageWidth - hanging);
    for (std::size_t i = 0; i < lines.size(); ++i)
        page += std::string(static_cast<std::size_t>(i ? hanging : indent), ' ') + lines[i] + "\n";
}

void addRow(std::string& page, const SourceRow& row) {
    const bool fits = base::width(row.name) < nameWidth && base::width(row.value) < valueWidth;
    if (fits)
        page += base::padRight(row.name, nameWidth) + base::padRight(row.value, valueWidth) +
                row.standing + "\n";
    else {
        addWrapped(page, row.name, 0, 2);
        addWrapped(page, row.value + "  (" + row.standing + ")", 2, 4);
    }
    std::string below = row.range.empty() ? "" : "range " + row.range + "; ";
    addWrapped(page, below + "source " + row.source, 2, 4);
    if (!row.note.empty()) addWrapped(page, row.note, 2, 4);
}

} // namespace

std::string sourcesText(const std::vector<SourceRow>& rows,
                        const std::vector<Citation>& citations) {
    std::string page;
    for (const SourceRow& row : rows) addRow(page, row);
    bool first = true;
    for (const Citation& citation : citations) {
        const auto cites = [&](const SourceRow& row) { return row.source == citation.key; };
        if (std::none_of(rows.begin(), rows.end(), cites)) continue;
        if (first) page += "\nSources\n";
        first = false;
        addWrapped(page, citation.key + ": " + citation.text, 0, 4);
    }
    return page;
}

} // namespace cistern::report
