#include "drawing/painter.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>
#include <string>
#include <unordered_map>

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

private:
    Owned<PangoContext, g_object_unref> context_;
    Owned<PangoLayout, g_object_unref> layout_;
};

Typesetter& ruler() {
    static thread_local Typesetter typesetter;
    return typesetter;
}

/// What was worked out about words set in a type. Pages are laid out and painted again and again
/// with nearly the same words, and setting them is most of the work.
template<class Value>
class Memory {
public:
    template<class Make>
    const Value& of(std::string_view words, const Type& type, double width, const Make& make) {
        std::string key(reinterpret_cast<const char*>(&type.size), sizeof type.size);
        key.append(reinterpret_cast<const char*>(&width), sizeof width);
        key += static_cast<char>(static_cast<int>(type.weight) / 100);
        key += static_cast<char>(2 * type.italic + type.tabular);
        key += words;
        constexpr std::size_t most = 4000; // words of many pages; then it begins anew
        if (known_.size() >= most) known_.clear();
        const auto at = known_.find(key);
        return at != known_.end() ? at->second
                                  : known_.emplace(std::move(key), make()).first->second;
    }

private:
    std::unordered_map<std::string, Value> known_;
};

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
    static thread_local Memory<Extent> known;
    return known.of(line, type, 0, [&] { return extentOf(ruler().set(printable(line), type)); });
}

namespace {

std::vector<std::string> broken(std::string_view text, const Type& type, double width) {
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

} // namespace

std::vector<std::string> wrapped(std::string_view text, const Type& type, double width) {
    static thread_local Memory<std::vector<std::string>> known;
    return known.of(text, type, width, [&] { return broken(text, type, width); });
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

using Outline = Owned<cairo_path_t, cairo_path_destroy>;

/// The outlines of a line of words from its left end on the baseline.
const Outline& outlineOf(const std::string& words, const Type& type) {
    static thread_local Memory<Outline> known;
    return known.of(words, type, 0, [&] {
        // Drawn large, so that little is lost where cairo holds coordinates in 1/256 pixel.
        constexpr double large = 16;
        // Without bounds: cairo leaves out letters far from a surface's edge.
        static thread_local const Surface surface(
            cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr));
        const Pen pen(cairo_create(surface.get()));
        cairo_scale(pen.get(), large, large);
        PangoLayout* layout = ruler().set(printable(words), type);
        cairo_move_to(pen.get(), 0, 0);
        // Filled outlines stand where they were measured; cairo 1.16 would move each glyph to a
        // whole pixel and make the gaps between letters uneven.
        pango_cairo_layout_line_path(pen.get(), pango_layout_get_line_readonly(layout, 0));
        return Outline(cairo_copy_path(pen.get()));
    });
}

constexpr double finest = 64; // parts of a pixel in which letters are placed

/// How much of each pixel a line of words covers.
struct Shadow {
    Surface surface;     ///< none if nothing is covered
    double x = 0, y = 0; ///< of its corner, from the whole pixel where the line begins
};

Shadow cast(const std::string& words, const Type& type, double scale, double partX, double partY) {
    const Outline& line = outlineOf(words, type);
    const Surface trial(cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1));
    const auto draw = [&](const Pen& pen, double x, double y) {
        cairo_translate(pen.get(), x + partX / finest, y + partY / finest);
        cairo_scale(pen.get(), scale, scale);
        cairo_append_path(pen.get(), line.get());
    };
    double left = 0, top = 0, right = 0, bottom = 0;
    {
        const Pen pen(cairo_create(trial.get()));
        draw(pen, 0, 0);
        cairo_identity_matrix(pen.get());
        cairo_path_extents(pen.get(), &left, &top, &right, &bottom);
    }
    if (right <= left || bottom <= top) return {};
    left = std::floor(left) - 1;
    top = std::floor(top) - 1;
    Shadow out{Surface(cairo_image_surface_create(CAIRO_FORMAT_A8,
                                                  static_cast<int>(std::ceil(right) + 1 - left),
                                                  static_cast<int>(std::ceil(bottom) + 1 - top))),
               left, top};
    const Pen pen(cairo_create(out.surface.get()));
    draw(pen, -left, -top);
    cairo_fill(pen.get());
    return out;
}

const Shadow& shadowOf(const std::string& words, const Type& type, double scale, double partX,
                       double partY) {
    static thread_local Memory<Shadow> known;
    Type scaled = type; // the size of the letters in pixels tells the scale apart as well
    scaled.size *= scale;
    const double place = (partX * (finest + 1) + partY) * 4096 + type.size;
    return known.of(words, scaled, place, [&] { return cast(words, type, scale, partX, partY); });
}

void check(cairo_status_t status) {
    if (status != CAIRO_STATUS_SUCCESS)
        throw std::runtime_error(std::string("the picture could not be drawn: ") +
                                 cairo_status_to_string(status));
}

/// Pixels as cairo holds them: alpha multiplied in. Throws std::runtime_error if there are too few.
Surface surfaceOf(const Pixels& pixels) {
    if (pixels.rgba.size() !=
        4 * static_cast<std::size_t>(pixels.width) * static_cast<std::size_t>(pixels.height))
        throw std::runtime_error("an image does not hold as many pixels as it says");
    Surface surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, pixels.width, pixels.height));
    check(cairo_surface_status(surface.get()));
    unsigned char* rows = cairo_image_surface_get_data(surface.get());
    const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface.get());
    const std::uint8_t* from = pixels.rgba.data();
    for (int y = 0; y < pixels.height; ++y) {
        auto* row = reinterpret_cast<std::uint32_t*>(rows + y * stride);
        for (int x = 0; x < pixels.width; ++x, from += 4) {
            const std::uint32_t alpha = from[3];
            const auto times = [&](std::uint32_t value) { return (value * alpha + 127) / 255; };
            row[x] = alpha << 24 | times(from[0]) << 16 | times(from[1]) << 8 | times(from[2]);
        }
    }
    cairo_surface_mark_dirty(surface.get());
    return surface;
}

class Brush {
public:
    explicit Brush(cairo_t* pen) : pen_(pen) { look(); }

    void operator()(const Shape& shape) {
        if (unseen(shape)) return;
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
            const double y = text.at.y + static_cast<double>(i) * text.leading;
            const double reach = 2 * text.type.size; // no letter is higher or hangs lower
            if (y + reach < top_ || y - reach > bottom_) continue;
            write(text.lines[i], text.type, leftOf(text, measure(text.lines[i], text.type).width),
                  y);
        }
    }

    void operator()(const Image& image) {
        const Box& box = image.box;
        if (!image.pixels || box.bottom() < top_ || box.y > bottom_) return;
        const Surface surface = surfaceOf(*image.pixels);
        cairo_save(pen_);
        cairo_rectangle(pen_, box.x, box.y, box.width, box.height);
        cairo_clip(pen_);
        cairo_translate(pen_, box.x, box.y);
        cairo_scale(pen_, box.width / image.pixels->width, box.height / image.pixels->height);
        cairo_set_source_surface(pen_, surface.get(), 0, 0);
        cairo_pattern_set_extend(cairo_get_source(pen_), CAIRO_EXTEND_PAD);
        cairo_pattern_set_filter(cairo_get_source(pen_), CAIRO_FILTER_GOOD);
        cairo_paint(pen_);
        cairo_restore(pen_);
    }

    void operator()(const Group& group) {
        cairo_save(pen_);
        cairo_translate(pen_, group.shift.x, group.shift.y);
        if (group.clip) {
            trace(*group.clip);
            cairo_clip(pen_);
        }
        look();
        for (const Mark& mark : group.marks) std::visit(*this, mark.is);
        cairo_restore(pen_);
        look();
    }

private:
    cairo_t* pen_;
    double top_ = 0, bottom_ = 0; ///< between them something can be seen

    /// Lays the shadow of a line of words where it belongs. Shadows are kept: most words of a page
    /// stand where they stood when it was painted before.
    void write(const std::string& words, const Type& type, double x, double y) {
        cairo_matrix_t matrix;
        cairo_get_matrix(pen_, &matrix);
        cairo_user_to_device(pen_, &x, &y);
        const auto part = [](double at) { return std::round(finest * (at - std::floor(at))); };
        const Shadow& shadow = shadowOf(words, type, matrix.xx, part(x), part(y));
        if (!shadow.surface) return;
        cairo_save(pen_);
        cairo_identity_matrix(pen_);
        cairo_mask_surface(pen_, shadow.surface.get(), std::floor(x) + shadow.x,
                           std::floor(y) + shadow.y);
        cairo_restore(pen_);
    }

    void look() {
        double left = 0, right = 0;
        cairo_clip_extents(pen_, &left, &top_, &right, &bottom_);
    }

    /// True if all of it lies above or below what can be seen: most of a long page does.
    bool unseen(const Shape& shape) const {
        double highest = 0, lowest = 0;
        bool any = false;
        for (const Path::Part& part : shape.path.parts()) {
            if (part.step == Path::Step::close) continue;
            const std::size_t count = part.step == Path::Step::curve ? 3 : 1;
            for (std::size_t i = 0; i < count; ++i) {
                highest = any ? std::min(highest, part.to[i].y) : part.to[i].y;
                lowest = any ? std::max(lowest, part.to[i].y) : part.to[i].y;
                any = true;
            }
        }
        const double edge = shape.stroke ? shape.stroke->width : 0;
        return !any || lowest + edge < top_ || highest - edge > bottom_;
    }

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
        if (std::all_of(row, row + width, [](std::uint32_t one) { return one >> 24 == 255; })) {
            for (int x = 0; x < width; ++x, to += 4) { // a page is solid: the usual row
                to[0] = static_cast<std::uint8_t>(row[x] >> 16);
                to[1] = static_cast<std::uint8_t>(row[x] >> 8);
                to[2] = static_cast<std::uint8_t>(row[x]);
                to[3] = 255;
            }
            continue;
        }
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

namespace {

std::string written(const Surface& surface) {
    std::string bytes;
    check(cairo_surface_write_to_png_stream(surface.get(), append, &bytes));
    return bytes;
}

} // namespace

std::string png(const Picture& picture, double scale) {
    return written(painted(picture, scale));
}

std::string png(const Pixels& pixels) {
    return written(surfaceOf(pixels));
}

} // namespace cistern::drawing
