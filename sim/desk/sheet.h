#pragma once
#include "desk/screen.h"
#include "drawing/painter.h"
#include "drawing/theme.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

/// Laying out a page: a Sheet collects marks and controls, a Flow sets things one under another.
/// Everything is measured from its letters, so that a page holds at any text scale.
namespace cistern::desk {

/// Letters of the desk at a text scale.
struct Letters {
    explicit Letters(double textScale);
    double scale = 1;
    double em = 15; ///< size of plain text [px]
    drawing::Type title, heading, text, strong, small, number;
};

/// A text line being written.
struct Writing {
    std::string id, text;
    std::size_t caret = 0; ///< bytes before it
};

/// What a page is laid out with.
struct Setting {
    double width = 1280, height = 800; ///< of the window [px]
    double textScale = 1;              ///< 0.8 to 2
    std::string focus, under, held;    ///< controls: with the focus, under the pointer, held by it
    std::optional<Writing> writing;
    std::optional<std::size_t> only; ///< a projector shows this card alone
};

class Sheet {
public:
    explicit Sheet(const Setting& setting) : setting_(setting), letters_(setting.textScale) {}

    const Setting& setting() const { return setting_; }
    const Letters& letters() const { return letters_; }

    /// Draws over what was added before; gives the mark's number.
    std::size_t add(const drawing::Shape& shape);
    std::size_t add(const drawing::Text& text);
    std::size_t add(const drawing::Group& group);
    /// Another shape in place of one that was added.
    void replace(std::size_t mark, const drawing::Shape& shape);
    /// A control; one with the focus gets its ring, one under the pointer a paler one.
    void add(Control control);
    void add(Dripping dripping) { dripping_.push_back(std::move(dripping)); }
    /// A card stands behind what is added after it; its height is known later.
    std::size_t openCard(double x, double top, double width);
    void closeCard(std::size_t card, double bottom);
    /// True if the next card is to be shown; counts it either way.
    bool nextCard() {
        const std::size_t one = cardsAsked_++;
        return setting_.only.value_or(one) == one;
    }
    std::size_t cardsAsked() const { return cardsAsked_; }
    struct Card {
        std::size_t mark;
        Box box;
    };
    const std::vector<Card>& cards() const { return cards_; }

    std::vector<drawing::Mark>& marks() { return marks_; }
    std::vector<Control>& controls() { return controls_; }
    std::vector<Dripping>& dripping() { return dripping_; }
    /// Rings about the controls added since the last call, drawn over all else.
    void drawRings();

private:
    Setting setting_;
    Letters letters_;
    std::vector<drawing::Mark> marks_;
    std::vector<Control> controls_;
    std::vector<Dripping> dripping_;
    std::vector<Card> cards_;
    std::size_t ringed_ = 0, cardsAsked_ = 0;
};

/// Sets things one under another in a column.
class Flow {
public:
    Flow(Sheet& sheet, double x, double top, double width, double floor)
        : sheet_(&sheet), x_(x), width_(width), y_(top), floor_(floor) {}

    Sheet& sheet() { return *sheet_; }
    const Letters& letters() const { return sheet_->letters(); }
    double em() const { return letters().em; }
    double x() const { return x_; }
    double y() const { return y_; }
    double width() const { return width_; }
    /// Where the window ends: a drawing may take what is left. Longer pages scroll.
    double floor() const { return floor_; }
    /// Height left to the floor, less `kept`, and at least `least`.
    double left(double kept, double least) const;

    void gap(double ems) { y_ += ems * em(); }
    /// Takes a box of this height, across the whole width.
    Box room(double height);
    /// Writes under what stands; gives the box of the words. Empty text writes nothing.
    Box write(const std::string& text, const drawing::Type& type,
              drawing::Align align = drawing::Align::left);
    void title(const std::string& text) { write(text, letters().title); }
    void heading(const std::string& text) { write(text, letters().heading); }
    void text(const std::string& text) { write(text, letters().text); }
    void small(const std::string& text) { write(text, letters().small); }

    /// A card with a heading and a subtitle (either may be empty); gives the room the inside took.
    void card(const std::string& heading, const std::string& subtitle,
              const std::function<void(Flow&)>& inside);

    struct Column {
        double share; ///< of the width
        double least; ///< narrowest that will do [em]
        std::function<void(Flow&)> fill;
    };
    /// Columns side by side, where each gets its least width; else one under another. Cards that
    /// end a column reach down to the longest.
    void columns(const std::vector<Column>& columns, double gapEms = 1.1);
    /// True if columns() would set these side by side.
    bool sideBySide(const std::vector<Column>& columns, double gapEms = 1.1) const;

private:
    Sheet* sheet_;
    double x_, width_, y_, floor_;
};

} // namespace cistern::desk
