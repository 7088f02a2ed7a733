#pragma once
#include <iosfwd>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::terminal {

inline constexpr int pageWidth = 80; // cells

/// A column of a table. Its head names the unit where there is one.
struct Column {
    std::string head;
    bool number = false; ///< set flush right
};

/// Writes plain text, 80 columns at most, legible over a serial line and to a screen reader.
class Page {
public:
    Page(std::ostream& out, bool styled) : out_(out), styled_(styled) {}

    void
    heading(std::string_view text); ///< a blank line unless it begins the page, the text, a rule
    void paragraph(std::string_view text, int indent = 0); ///< wrapped; line ends are blanks
    void prose(std::string_view text, int indent = 0);     ///< wrapped; blank lines part paragraphs
    /// A name, and beside it what it is: the text starts in column `at` and keeps to it.
    void hanging(std::string_view name, std::string_view text, int at);
    void line(std::string_view text);
    void blank();
    void item(std::string_view text, int indent); ///< of a list: "- text"
    /// Wraps the widest text column where the table would be wider than the page.
    void table(const std::vector<Column>& columns,
               const std::vector<std::vector<std::string>>& rows, int indent = 0);
    void caution();      ///< invented, for teaching
    void bloodCaution(); ///< besides, where blood is handled

private:
    std::ostream& out_;
    bool styled_, begun_ = false;
};

/// A bar of `cells` cells, `share` of it full: "#####.....". Held to 0..1.
std::string bar(double share, int cells);

} // namespace cistern::terminal
