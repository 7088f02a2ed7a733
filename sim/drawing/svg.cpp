#include "drawing/svg.h"

#include "drawing/painter.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace cistern::drawing {

namespace {

/// At most two decimals (a hundredth of a pixel cannot be seen), the same in every locale.
std::string number(double value) {
    const double rounded = std::round(value * 100) / 100;
    char digits[64];
    const auto end = std::to_chars(digits, digits + sizeof digits, rounded == 0 ? 0 : rounded,
                                   std::chars_format::fixed)
                         .ptr;
    return {digits, end};
}

std::string escaped(std::string_view text) {
    std::string out;
    for (char letter : printable(text)) {
        switch (letter) {
        case '&':
            out += "&amp;";
            break;
        case '<':
            out += "&lt;";
            break;
        case '>':
            out += "&gt;";
            break;
        case '"':
            out += "&quot;";
            break;
        default:
            out += letter;
        }
    }
    return out;
}

std::string hex(const Color& color) {
    constexpr std::string_view digit = "0123456789ABCDEF";
    std::string out = "#";
    for (std::uint8_t part : {color.red, color.green, color.blue}) {
        out += digit[static_cast<std::size_t>(part >> 4)];
        out += digit[static_cast<std::size_t>(part & 15)];
    }
    return out;
}

std::string point(Point at) {
    return number(at.x) + " " + number(at.y);
}

std::string outline(const Path& path) {
    std::string out;
    for (const Path::Part& part : path.parts()) {
        const auto& [a, b, c] = part.to;
        switch (part.step) {
        case Path::Step::move:
            out.append("M").append(point(a));
            break;
        case Path::Step::line:
            out.append("L").append(point(a));
            break;
        case Path::Step::curve:
            out.append("C").append(point(a)).append(" ").append(point(b)).append(" ");
            out.append(point(c));
            break;
        case Path::Step::close:
            out += 'Z';
            break;
        }
    }
    return out;
}

/// Two pictures in one web page must not share names: a name from the words (FNV-1a, 64 bits).
std::string nameFrom(std::string_view words) {
    std::uint64_t hash = 14695981039346656037u;
    for (char letter : words) hash = (hash ^ static_cast<unsigned char>(letter)) * 1099511628211u;
    char digits[17];
    return {digits, std::to_chars(digits, digits + sizeof digits, hash, 16).ptr};
}

/// Bytes as letters, six bits each (RFC 4648).
std::string base64(const std::string& bytes) {
    constexpr std::string_view letters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t held = std::min<std::size_t>(3, bytes.size() - i);
        std::uint32_t bits = 0;
        for (std::size_t k = 0; k < 3; ++k)
            bits = bits << 8 | (k < held ? static_cast<unsigned char>(bytes[i + k]) : 0U);
        for (std::size_t k = 0; k < 4; ++k)
            out += k <= held ? letters[bits >> (18 - 6 * k) & 63] : '=';
    }
    return out;
}

class Writer {
public:
    explicit Writer(std::string name) : name_(std::move(name)) {}

    std::string document(const Picture& picture) {
        const std::string width = number(picture.width), height = number(picture.height);
        put("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg");
        with("xmlns", "http://www.w3.org/2000/svg");
        with("width", width);
        with("height", height);
        with("viewBox", "0 0 ", width, " ", height);
        with("xml:lang", escaped(picture.language));
        with("role", "img");
        with("aria-labelledby", "t", name_, " d", name_);
        with("font-family", typeface);
        put(">\n<title");
        with("id", "t", name_);
        put(">", escaped(picture.title), "</title>\n<desc");
        with("id", "d", name_);
        put(">", escaped(picture.description), "</desc>\n");
        for (const Mark& mark : picture.marks) std::visit(*this, mark.is);
        put("</svg>\n");
        return std::move(out_);
    }

    void operator()(const Shape& shape) {
        put("<path");
        with("d", outline(shape.path));
        if (shape.fill)
            paint("fill", *shape.fill);
        else
            with("fill", "none");
        if (shape.stroke) stroke(*shape.stroke);
        put("/>\n");
    }

    void operator()(const Text& text) {
        for (std::size_t i = 0; i < text.lines.size(); ++i)
            if (!text.lines[i].empty())
                line(text, text.lines[i], text.at.y + static_cast<double>(i) * text.leading);
    }

    void operator()(const Image& image) {
        if (!image.pixels) return;
        put("<image");
        with("x", number(image.box.x));
        with("y", number(image.box.y));
        with("width", number(image.box.width));
        with("height", number(image.box.height));
        with("preserveAspectRatio", "none");
        with("href", "data:image/png;base64,", base64(png(*image.pixels)));
        put("><title>", escaped(image.description), "</title></image>\n");
    }

    void operator()(const Group& group) {
        put("<g");
        if (group.shift.x != 0 || group.shift.y != 0)
            with("transform", "translate(", point(group.shift), ")");
        put(">");
        if (!group.name.empty()) put("<title>", escaped(group.name), "</title>");
        if (group.clip) { // inside the moved group, so that the outline moves along with its marks
            const std::string clip = std::to_string(++clips_);
            put("<clipPath");
            with("id", "c", name_, "-", clip);
            put("><path");
            with("d", outline(*group.clip));
            put("/></clipPath><g");
            with("clip-path", "url(#c", name_, "-", clip, ")");
            put(">");
        }
        put("\n");
        for (const Mark& mark : group.marks) std::visit(*this, mark.is);
        put(group.clip ? "</g></g>\n" : "</g>\n");
    }

private:
    std::string name_, out_;
    int clips_ = 0;

    template<class... Pieces>
    void put(const Pieces&... pieces) {
        (out_.append(pieces), ...);
    }

    template<class... Pieces>
    void with(std::string_view attribute, const Pieces&... value) {
        put(" ", attribute, "=\"", value..., "\"");
    }

    void paint(const std::string& what, const Color& color) {
        with(what, hex(color));
        if (color.alpha < 1) with(what + "-opacity", number(color.alpha));
    }

    void stroke(const Stroke& stroke) {
        paint("stroke", stroke.color);
        with("stroke-width", number(stroke.width));
        with("stroke-linejoin", "round");
        std::string dash;
        for (double length : stroke.dash) dash.append(dash.empty() ? "" : " ") += number(length);
        if (!dash.empty()) with("stroke-dasharray", dash);
    }

    void line(const Text& text, const std::string& words, double baseline) {
        put("<text");
        with("x", number(text.at.x));
        with("y", number(baseline));
        with("textLength", number(measure(words, text.type).width));
        with("lengthAdjust", "spacingAndGlyphs");
        with("font-size", number(text.type.size));
        paint("fill", text.type.color);
        if (text.type.weight != Weight::regular)
            with("font-weight", std::to_string(static_cast<int>(text.type.weight)));
        if (text.type.italic) with("font-style", "italic");
        if (text.type.tabular) with("style", "font-variant-numeric:tabular-nums");
        if (text.align != Align::left)
            with("text-anchor", text.align == Align::center ? "middle" : "end");
        put(">", escaped(words), "</text>\n");
    }
};

} // namespace

std::string svg(const Picture& picture) {
    return Writer(nameFrom(picture.title + "\n" + picture.description)).document(picture);
}

} // namespace cistern::drawing
