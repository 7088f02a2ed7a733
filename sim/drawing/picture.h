#pragma once
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace cistern::drawing {

/// Lengths are in CSS pixels (1/96 inch) before any scale of the output; y grows downward.
struct Point {
    double x = 0, y = 0;
};

struct Box {
    double x = 0, y = 0, width = 0, height = 0;
    double right() const { return x + width; }
    double bottom() const { return y + height; }
    Point middle() const { return {x + width / 2, y + height / 2}; }
    /// True if the two share more than `slack` in both directions.
    bool overlaps(const Box& other, double slack = 0) const;
    bool contains(const Box& other, double slack = 0) const;
    bool operator==(const Box&) const = default;
};

struct Color {
    std::uint8_t red = 0, green = 0, blue = 0;
    double alpha = 1; ///< 0 clear, 1 solid
    bool operator==(const Color&) const = default;
};

/// 0xF5EFE3 as a color.
constexpr Color rgb(std::uint32_t hex) {
    return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
            static_cast<std::uint8_t>(hex)};
}

/// An outline made of straight lines and cubic curves.
class Path {
public:
    enum class Step { move, line, curve, close };
    struct Part {
        Step step;
        std::array<Point, 3> to{}; ///< curve: two controls and the end; move, line: the first only
    };
    Path& move(Point to);
    Path& line(Point to);
    Path& curve(Point control1, Point control2, Point to);
    Path& close();
    const std::vector<Part>& parts() const { return parts_; }

private:
    std::vector<Part> parts_;
};

Path rectangle(const Box& box);
Path rounded(const Box& box, double radius);
Path circle(Point middle, double radius);
Path diamond(Point middle, double half); ///< standing on a corner
Path polyline(const std::vector<Point>& points);

struct Stroke {
    Color color;
    double width = 1;
    std::vector<double> dash; ///< lengths of ink and gap in turn; empty: solid
};

struct Shape {
    Path path;
    std::optional<Color> fill;
    std::optional<Stroke> stroke;
};

enum class Weight { regular = 400, medium = 500, semibold = 600, bold = 700 };

/// How letters look. `tabular` gives figures of equal width.
struct Type {
    double size = 14;
    Weight weight = Weight::regular;
    Color color;
    bool italic = false;
    bool tabular = false;
};

enum class Align { left, center, right };

/// Lines of text, already broken; `at` is on the baseline of the first, at its left end, middle or
/// right end.
struct Text {
    Point at;
    std::vector<std::string> lines;
    Type type;
    Align align = Align::left;
    double leading = 0; ///< from one baseline to the next
};

/// Rows from the top, four bytes a pixel: red, green, blue, alpha (not multiplied in).
struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint8_t> rgba;
};

/// Pixels stretched over a box; several pictures may hold the same ones.
struct Image {
    Box box;
    std::shared_ptr<const Pixels> pixels;
    std::string description; ///< what it shows, for those who cannot see it
};

struct Mark;

/// Marks that belong together: moved, cut to an outline, named (a name shows where the pointer
/// rests, in SVG).
struct Group {
    std::string name;
    Point shift;
    std::optional<Path> clip;
    std::vector<Mark> marks;
};

struct Mark {
    std::variant<Shape, Text, Group, Image> is;
};

/// A picture as data. Every output (window, PNG, SVG) is made from this and nothing else, so what a
/// test looks at is what people see.
struct Picture {
    double width = 0, height = 0;
    std::string title;       ///< its name, read aloud
    std::string description; ///< what it shows, for those who cannot see it
    std::string language = "en";
    std::vector<Mark> marks;
};

/// Text that every output can show: bytes that are not UTF-8 become U+FFFD, control characters
/// blanks.
std::string printable(std::string_view text);

} // namespace cistern::drawing
