#include "terminal/page.h"

#include "base/text.h"
#include "report/text.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <ostream>

namespace cistern::terminal {

namespace {

constexpr int gap = 2;    // cells between columns
constexpr int least = 12; // cells that a wrapped column keeps

std::string oneLine(std::string_view text) {
    std::string out(text);
    std::replace(out.begin(), out.end(), '\n', ' ');
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string trimmedRight(std::string text) {
    while (!text.empty() && text.back() == ' ') text.pop_back();
    return text;
}

} // namespace

void Page::heading(std::string_view text) {
    if (begun_) blank();
    begun_ = true;
    out_ << (styled_ ? "\x1b[1m" : "") << text << (styled_ ? "\x1b[0m" : "") << "\n";
    out_ << std::string(static_cast<std::size_t>(std::min(base::width(text), pageWidth)), '-')
         << "\n";
}

void Page::paragraph(std::string_view text, int indent) {
    prose(oneLine(text), indent);
}

void Page::prose(std::string_view text, int indent) {
    std::string whole(text);
    while (!whole.empty() && (whole.back() == '\n' || whole.back() == ' ')) whole.pop_back();
    for (const std::string& one : base::wrapped(whole, pageWidth - indent))
        line(one.empty() ? one : std::string(static_cast<std::size_t>(indent), ' ') + one);
}

void Page::hanging(std::string_view name, std::string_view text, int at) {
    std::string left = "  " + std::string(name);
    if (base::width(left) > at - gap) {
        line(left);
        left.clear();
    }
    for (const std::string& one : base::wrapped(oneLine(text), pageWidth - at)) {
        line(base::padRight(left, at) + one);
        left.clear();
    }
    if (!left.empty()) line(left);
}

void Page::item(std::string_view text, int indent) {
    std::string left = std::string(static_cast<std::size_t>(indent), ' ') + "- ";
    for (const std::string& one : base::wrapped(oneLine(text), pageWidth - indent - gap)) {
        line(left + one);
        left = std::string(left.size(), ' ');
    }
}

void Page::line(std::string_view text) {
    begun_ = true;
    out_ << trimmedRight(std::string(text)) << "\n";
}

void Page::blank() {
    begun_ = true;
    out_ << "\n";
}

void Page::table(const std::vector<Column>& columns,
                 const std::vector<std::vector<std::string>>& rows, int indent) {
    std::vector<int> widths;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        int cells = base::width(columns[c].head);
        for (const auto& row : rows) cells = std::max(cells, base::width(row[c]));
        widths.push_back(cells);
    }
    const auto total = [&] {
        return std::accumulate(widths.begin(), widths.end(), indent) +
               gap * (static_cast<int>(columns.size()) - 1);
    };
    while (total() > pageWidth) { // narrow the widest column of text
        int* widest = nullptr;
        for (std::size_t c = 0; c < columns.size(); ++c)
            if (!columns[c].number && widths[c] > least && (!widest || widths[c] > *widest))
                widest = &widths[c];
        if (!widest) break;
        --*widest;
    }
    const auto put = [&](const std::vector<std::string>& row) {
        std::vector<std::vector<std::string>> cells;
        std::size_t height = 1;
        for (std::size_t c = 0; c < columns.size(); ++c) {
            cells.push_back(base::wrapped(row[c], widths[c]));
            height = std::max(height, cells.back().size());
        }
        for (std::size_t i = 0; i < height; ++i) {
            std::string text(static_cast<std::size_t>(indent), ' ');
            for (std::size_t c = 0; c < columns.size(); ++c) {
                const std::string cell = i < cells[c].size() ? cells[c][i] : "";
                if (c > 0) text += std::string(gap, ' ');
                text += columns[c].number ? base::padLeft(cell, widths[c])
                                          : base::padRight(cell, widths[c]);
            }
            line(text);
        }
    };
    std::vector<std::string> heads, rules;
    for (std::size_t c = 0; c < columns.size(); ++c) {
        heads.push_back(columns[c].head);
        rules.emplace_back(static_cast<std::size_t>(std::max(widths[c], 0)), '-');
    }
    put(heads);
    put(rules);
    for (const auto& row : rows) put(row);
}

void Page::caution() {
    paragraph(report::caution);
}

void Page::bloodCaution() {
    paragraph(report::bloodCaution);
}

std::string bar(double share, int cells) {
    const double held = std::isfinite(share) ? std::clamp(share, 0.0, 1.0) : 0.0;
    const auto full = static_cast<std::size_t>(std::lround(held * cells));
    return std::string(full, '#') + std::string(static_cast<std::size_t>(cells) - full, '.');
}

} // namespace cistern::terminal
