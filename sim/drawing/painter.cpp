#include "drawing/painter.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

namespace cistern::drawing {

namespace {

template<auto release>
struct Releaser {
    template<class Handle>
    void operator()(Handle* handle) const {
        release(handle);
    }
};
template<class Handle, auto release>
using Owned = std::unique_ptr<Handle, Releaser<release>>;

using Surface = Owned<cairo_surface_t, cairo_surface_destroy>;
using Pen = Owned<cairo_t, cairo_destroy>;
using Font = Owned<PangoFontDescription, pango_font_description_free>;
using Attributes = Owned<PangoAttrList, pango_attr_list_unref>;

double units(int pango) {
    return static_cast<double>(pango) / PANGO_SCALE;
}

/// Sets one paragraph at a time. Hinting is off, so letters take the same room at every scale.
class Typesetter {
public:
    Typesetter()
        : context_(pango_font_map_create_context(pango_cairo_font_map_get_default())),
          layout_(pango_layout_new(context_.get())) {
        Owned<cairo_font_options_t, cairo_font_options_destroy> options(
            cairo_font_options_create());
        cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
        cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
        cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
        pango_cairo_context_set_font_options(context_.get(), options.get());
        pango_context_set_round_glyph_positions(context_.get(), FALSE);
    }

    PangoLayout* set(const std::string& text, const Type& type, double width = 0) {
        Font font(pango_font_description_new());
        pango_font_description_set_family(font.get(), std::string(typeface).c_str());
        pango_font_description_set_weight(font.get(), static_cast<PangoWeight>(type.weight));
        pango_font_description_set_style(font.get(),
                                         type.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
        pango_font_description_set_absolute_size(font.get(), type.size * PANGO_SCALE);
        pango_layout_set_font_description(layout_.get(), font.get());
        Attributes attributes(pango_attr_list_new());
        if (type.tabular)
            pango_attr_list_insert(attributes.get(), pango_attr_font_features_new("tnum=1"));
        pango_layout_set_attributes(layout_.get(), attributes.get());
        pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
        pango_layout_set_width(layout_.get(),
                               width > 0 ? static_cast<int>(std::floor(width * PANGO_SCALE)) : -1);
        pango_layout_set_text(layout_.get(), text.data(), static_cast<int>(text.size()));
        return layout_.get();
    }

    /// Takes on the scale of a pen, which must be known before letters are drawn with it.
    void follow(cairo_t* pen) {
        pango_cairo_update_context(pen, context_.get());
        pango_layout_context_changed(layout_.get());
    }

private:
    Owned<PangoContext, g_object_unref> context_;
    Owned<PangoLayout, g_object_unref> layout_;
};

Typesetter& ruler() {
    static thread_local Typesetter typesetter;
    return typesetter;
}

Extent extentOf(PangoLayout* layout) {
    PangoRectangle logical;
    pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, 0), nullptr, &logical);
    return {units(logical.width), -units(logical.y), units(logical.y + logical.height)};
}

constexpr std::string_view joiner = "\xE2\x81\xA0"; // U+2060: no break here, no room taken

std::string joined(const std::string& text) {
    std::string out;
    for (char letter : text) {
        out += letter;
        if (letter == '/') out += joiner;
    }
    return out;
}

std::string withoutJoiners(std::string text) {
    for (auto at = text.find(joiner); at != std::string::npos; at = text.find(joiner, at))
        text.erase(at, joiner.size());
    return text;
}

double leftOf(const Text& text, double width) {
    return text.align == Align::left     ? text.at.x
           : text.align == Align::center ? text.at.x - width / 2
                                         : text.at.x - width;
}

} // namespace

Extent measure(std::string_view line, const Type& type) {
    return extentOf(ruler().set(printable(line), type));
}

std::vector<std::string> wrapped(std::string_view text, const Type& type, double width) {
    const std::string whole = joined(printable(text));
    PangoLayout* layout = ruler().set(whole, type, width);
    std::vector<std::string> lines;
    for (int i = 0; i < pango_layout_get_line_count(layout); ++i) {
        const PangoLayoutLine* line = pango_layout_get_line_readonly(layout, i);
        std::string cut = withoutJoiners(whole.substr(static_cast<std::size_t>(line->start_index),
                                                      static_cast<std::size_t>(line->length)));
        cut.erase(cut.find_last_not_of(' ') + 1);
        lines.push_back(cut);
    }
    return lines;
}

Text hung(std::string_view text, const Type& type, Align align, double x, double top,
          double width) {
    const Extent line = measure("Ag", type);
    std::vector<std::string> lines =
        width > 0 ? wrapped(text, type, width) : std::vector{printable(text)};
    constexpr double airy = 1.12; // lines of a paragraph stand a little further apart
    return {{x, top + line.ascent}, std::move(lines), type, align, airy * line.height()};
}

Box extent(const Text& text) {
    double left = 0, right = 0, top = 0, bottom = 0;
    for (std::size_t i = 0; i < text.lines.size(); ++i) {
        const Extent line = measure(text.lines[i], text.type);
        const double x = leftOf(text, line.width);
        const double baseline = text.at.y + static_cast<double>(i) * text.leading;
        left = i == 0 ? x : std::min(left, x);
        right = i == 0 ? x + line.width : std::max(right, x + line.width);
        top = i == 0 ? baseline - line.ascent : std::min(top, baseline - line.ascent);
        bottom = i == 0 ? baseline + line.descent : std::max(bottom, baseline + line.descent);
    }
    return {left, top, right - left, bottom - top};
}

namespace {

class Brush {
public:
    explicit Brush(cairo_t* pen) : pen_(pen) { typesetter_.follow(pen); }

    void operator()(const Shape& shape) {
        trace(shape.path);
        if (shape.fill) {
            dip(*shape.fill);
            cairo_fill_preserve(pen_);
        }
        if (shape.stroke) {
            dip(shape.stroke->color);
            cairo_set_line_width(pen_, shape.stroke->width);
            cairo_set_line_join(pen_, CAIRO_LINE_JOIN_ROUND);
            cairo_set_line_cap(pen_, CAIRO_LINE_CAP_BUTT);
            cairo_set_dash(pen_, shape.stroke->dash.data(),
                           static_cast<int>(shape.stroke->dash.size()), 0);
            cairo_stroke_preserve(pen_);
        }
        cairo_new_path(pen_);
    }

    void operator()(const Text& text) {
        dip(text.type.color);
        for (std::size_t i = 0; i < text.lines.size(); ++i) {
            PangoLayout* layout = typesetter_.set(printable(text.lines[i]), text.type);
            cairo_move_to(pen_, leftOf(text, extentOf(layout).width),
                          text.at.y + static_cast<double>(i) * text.leading);
            // Filled outlines stand where they were measured; cairo 1.16 would move each glyph to a
            // whole pixel and make the gaps between letters uneven.
            pango_cairo_layout_line_path(pen_, pango_layout_get_line_readonly(layout, 0));
            cairo_fill(pen_);
        }
    }

    void operator()(const Group& group) {
        cairo_save(pen_);
        cairo_translate(pen_, group.shift.x, group.shift.y);
        if (group.clip) {
            trace(*group.clip);
            cairo_clip(pen_);
        }
        for (const Mark& mark : group.marks) std::visit(*this, mark.is);
        cairo_restore(pen_);
    }

private:
    cairo_t* pen_;
    Typesetter typesetter_;

    void dip(const Color& color) {
        cairo_set_source_rgba(pen_, color.red / 255.0, color.green / 255.0, color.blue / 255.0,
                              color.alpha);
    }

    void trace(const Path& path) {
        cairo_new_path(pen_);
        for (const Path::Part& part : path.parts()) {
            const auto& [a, b, c] = part.to;
            switch (part.step) {
            case Path::Step::move:
                cairo_move_to(pen_, a.x, a.y);
                break;
            case Path::Step::line:
                cairo_line_to(pen_, a.x, a.y);
                break;
            case Path::Step::curve:
                cairo_curve_to(pen_, a.x, a.y, b.x, b.y, c.x, c.y);
                break;
            case Path::Step::close:
                cairo_close_path(pen_);
                break;
            }
        }
    }
};

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the picture could not be drawn: ") +
                                 cairo_status_to_string(status));
}

Surface painted(const Picture& picture, double scale) {
    constexpr double most = 16384; // cairo's own limit is 32,767; this is 1 GiB of pixels
    const double width = std::ceil(picture.width * scale);
    const double height = std::ceil(picture.height * scale);
    if (!(width >= 1 && width <= most && height >= 1 && height <= most))
        throw std::invalid_argument("a picture must come out between 1 and 16,384 pixels wide and "
                                    "high");
    Surface surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, static_cast<int>(width),
                                               static_cast<int>(height)));
    check(cairo_surface_status(surface.get()));
    Pen pen(cairo_create(surface.get()));
    cairo_scale(pen.get(), scale, scale);
    Brush brush(pen.get());
    for (const Mark& mark : picture.marks) std::visit(brush, mark.is);
    check(cairo_status(pen.get()));
    cairo_surface_flush(surface.get());
    return surface;
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(bytes)->append(data, data + length);
    return CAIRO_STATUS_SUCCESS;
}

struct Bytes {
    const std::string& all;
    std::size_t at = 0;
};

cairo_status_t readOn(void* from, unsigned char* data, unsigned int length) {
    Bytes& bytes = *static_cast<Bytes*>(from);
    if (length > bytes.all.size() - bytes.at) return CAIRO_STATUS_READ_ERROR;
    bytes.all.copy(reinterpret_cast<char*>(data), length, bytes.at);
    bytes.at += length;
    return CAIRO_STATUS_SUCCESS;
}

Pixels taken(const Surface& surface) {
    const int width = cairo_image_surface_get_width(surface.get());
    const int height = cairo_image_surface_get_height(surface.get());
    const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface.get());
    const unsigned char* rows = cairo_image_surface_get_data(surface.get());
    Pixels out{width, height, {}};
    out.rgba.resize(4 * static_cast<std::size_t>(width) * static_cast<std::size_t>(height));
    std::uint8_t* to = out.rgba.data();
    for (int y = 0; y < height; ++y) {
        const auto* row = reinterpret_cast<const std::uint32_t*>(rows + y * stride);
        for (int x = 0; x < width; ++x) {
            const std::uint32_t alpha = row[x] >> 24;
            // Cairo multiplies alpha into the colors; take it out again where it is not 1.
            const auto plain = [&](std::uint32_t value) {
                if (alpha == 255 || alpha == 0) return static_cast<std::uint8_t>(value);
                return static_cast<std::uint8_t>(
                    std::min<std::uint32_t>(255, (value * 255 + alpha / 2) / alpha));
            };
            for (int shift : {16, 8, 0}) *to++ = plain((row[x] >> shift) & 0xFF);
            *to++ = static_cast<std::uint8_t>(alpha);
        }
    }
    return out;
}

} // namespace

Pixels pixels(const Picture& picture, double scale) {
    return taken(painted(picture, scale));
}

Pixels readPng(const std::string& bytes) {
    Bytes from{bytes};
    const Surface surface(cairo_image_surface_create_from_png_stream(readOn, &from));
    check(cairo_surface_status(surface.get()));
    const cairo_format_t format = cairo_image_surface_get_format(surface.get());
    if (format == CAIRO_FORMAT_ARGB32) return taken(surface);
    // Other pictures are painted onto one of ours first.
    const int width = cairo_image_surface_get_width(surface.get());
    const int height = cairo_image_surface_get_height(surface.get());
    const Surface ours(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height));
    const Pen pen(cairo_create(ours.get()));
    cairo_set_source_surface(pen.get(), surface.get(), 0, 0);
    cairo_paint(pen.get());
    cairo_surface_flush(ours.get());
    return taken(ours);
}

std::string png(const Picture& picture, double scale) {
    const Surface surface = painted(picture, scale);
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
    return bytes;
}

} // namespace cistern::drawing
