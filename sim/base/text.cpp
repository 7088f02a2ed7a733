#include "base/text.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <stdexcept>

namespace cistern::base {

namespace {

/// Names that differ only in letter case, or in how words are joined, are the same to a reader.
std::string plain(std::string_view name) {
    std::string result(name);
    for (char& c : result) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        if (c == '_' || c == '-') c = ' ';
    }
    return result;
}

/// Fewest insertions, deletions, replacements and swaps of neighbors (optimal string alignment).
std::size_t edits(std::string_view a, std::string_view b) {
    const std::size_t columns = b.size() + 1;
    std::vector<std::size_t> before(columns), above(columns), row(columns);
    for (std::size_t j = 0; j < columns; ++j) above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j < columns; ++j) {
            const std::size_t replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replaced, above[j] + 1, row[j - 1] + 1});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                row[j] = std::min(row[j], before[j - 2] + 1);
        }
        before.swap(above);
        above.swap(row);
    }
    return above.back();
}

std::string fixed(double value, int decimals) {
    char buffer[512]; // a double has at most 309 digits before the point
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed,
                                   std::min(decimals, 100));
    return std::string(buffer, end.ptr);
}

std::string withoutMinusZero(std::string text) {
    if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos)
        text.erase(0, 1);
    return text;
}

/// Decimals that a step needs: 0.25 needs two, 10 none.
int decimalsOf(double step) {
    constexpr int most = 12;
    for (int n = 0; n < most; ++n) {
        const double scaled = step * std::pow(10.0, n);
        if (scaled > 0.5 && std::abs(scaled - std::round(scaled)) < 1e-9 * scaled) return n;
    }
    return most;
}

bool blank(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/// Words of a text; an empty word stands for a paragraph break.
std::vector<std::string_view> words(std::string_view text) {
    std::vector<std::string_view> result;
    for (std::size_t at = 0; at < text.size();) {
        std::size_t end = at;
        while (end < text.size() && blank(text[end]) == blank(text[at])) ++end;
        const std::string_view piece = text.substr(at, end - at);
        if (!blank(piece.front()))
            result.push_back(piece);
        else if (std::count(piece.begin(), piece.end(), '\n') > 1 && !result.empty())
            result.push_back({});
        at = end;
    }
    if (!result.empty() && result.back().empty()) result.pop_back();
    return result;
}

/// Bytes of the first `cells` characters.
std::size_t bytesOf(std::string_view text, int cells) {
    std::size_t at = 0;
    for (; cells > 0 && at < text.size(); --cells)
        at += std::max<std::size_t>(characterLength(text.substr(at)), 1);
    return at;
}

} // namespace

std::string nearest(std::string_view name, std::span<const std::string> known) {
    const std::string wanted = plain(name);
    std::string best;
    std::size_t fewest = std::string::npos;
    for (const std::string& candidate : known) {
        const std::size_t count = edits(wanted, plain(candidate));
        if (count < fewest && 3 * count <= std::max(wanted.size(), candidate.size())) {
            fewest = count;
            best = candidate;
        }
    }
    return best;
}

std::string listed(std::span<const std::string> names, std::string_view last) {
    std::string text;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0 && i + 1 == names.size())
            text.append(" ").append(last).append(" ");
        else if (i > 0)
            text += ", ";
        text += names[i];
    }
    return text;
}

std::size_t characterLength(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    if (text.empty()) return 0;
    const unsigned first = byte(0);
    if (first < 0x80) return 1;
    const std::size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    if (first < 0xC2 || first > 0xF4 || text.size() < length) return 0;
    for (std::size_t i = 1; i < length; ++i)
        if ((byte(i) & 0xC0) != 0x80) return 0;
    const unsigned second = byte(1);
    const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
    const bool surrogate = first == 0xED && second > 0x9F;
    const bool beyond = first == 0xF4 && second > 0x8F;
    return overlong || surrogate || beyond ? 0 : length;
}

bool isUtf8(std::string_view text) {
    while (!text.empty()) {
        const std::size_t length = characterLength(text);
        if (length == 0) return false;
        text.remove_prefix(length);
    }
    return true;
}

int width(std::string_view text) {
    int cells = 0;
    for (; !text.empty(); ++cells)
        text.remove_prefix(std::max<std::size_t>(characterLength(text), 1));
    return cells;
}

std::string padRight(std::string_view text, int cells) {
    const int missing = std::max(cells - width(text), 0);
    return std::string(text) + std::string(static_cast<std::size_t>(missing), ' ');
}

std::string padLeft(std::string_view text, int cells) {
    const int missing = std::max(cells - width(text), 0);
    return std::string(static_cast<std::size_t>(missing), ' ') + std::string(text);
}

std::vector<std::string> wrapped(std::string_view text, int cells) {
    const int most = std::max(cells, 1);
    std::vector<std::string> lines;
    bool fresh = true; // the next word begins a line
    for (std::string_view word : words(text)) {
        if (word.empty()) {
            lines.emplace_back();
            fresh = true;
            continue;
        }
        if (!fresh && width(lines.back()) + 1 + width(word) <= most) {
            lines.back().append(" ").append(word);
            continue;
        }
        while (width(word) > most) {
            const std::size_t cut = bytesOf(word, most);
            lines.emplace_back(word.substr(0, cut));
            word.remove_prefix(cut);
        }
        lines.emplace_back(word);
        fresh = false;
    }
    return lines;
}

std::string rounded(double value, double step) {
    if (!std::isfinite(value)) throw std::invalid_argument("a number to be rounded is not finite");
    if (!std::isfinite(step) || !(step > 0))
        throw std::invalid_argument("a rounding step must be above zero");
    const int decimals = decimalsOf(step);
    const double steps = value / step;
    const bool whole = std::abs(steps) >= 0x1p53; // finer than the number itself: nothing to round
    return withoutMinusZero(fixed(whole ? value : std::round(steps) * step, decimals));
}

std::string significant(double value, int digits) {
    if (!std::isfinite(value)) throw std::invalid_argument("a number to be rounded is not finite");
    if (digits < 1) throw std::invalid_argument("a number needs at least one significant digit");
    if (value == 0) return "0";
    char buffer[512];
    const int wanted = std::min(digits, 17); // more digits than a double holds say nothing
    const auto end = std::to_chars(buffer, buffer + sizeof buffer, value,
                                   std::chars_format::scientific, wanted - 1);
    const std::string text(buffer, end.ptr); // "-1.23e+02": rounding has settled the exponent
    const int exponent = std::stoi(text.substr(text.find('e') + 1));
    const int decimals = wanted - 1 - exponent;
    double kept = 0;
    std::from_chars(buffer, end.ptr, kept);
    // Beyond 100 decimals a number is zero to any reader of this program.
    return withoutMinusZero(fixed(kept, std::max(decimals, 0)));
}

} // namespace cistern::base
