// The window: input, time and the moving layer. Pages are painted beside it, so that a frame never
// waits for one.
#include "desk/window/window.h"

#include "desk/rain.h"
#include "desk/window/lens.h"
#include "desk/window/painting.h"

#include <SFML/Graphics.hpp>

#include <chrono>
#include <cmath>
#include <cstdlib>
#include <optional>

namespace cistern::desk {

namespace {

using Clock = std::chrono::steady_clock;

constexpr unsigned width = 1280, height = 800;
constexpr unsigned perSecond = 60; // frames
constexpr double longest = 0.1;    // [s] of time passed in one frame, after a pause

double since(Clock::time_point from) {
    return std::chrono::duration<double>(Clock::now() - from).count();
}

std::optional<Key> keyOf(sf::Keyboard::Key key) {
    switch (key) {
    case sf::Keyboard::Tab:
        return Key::tab;
    case sf::Keyboard::Enter:
        return Key::enter;
    case sf::Keyboard::Space:
        return Key::space;
    case sf::Keyboard::Escape:
        return Key::escape;
    case sf::Keyboard::Left:
        return Key::left;
    case sf::Keyboard::Right:
        return Key::right;
    case sf::Keyboard::Up:
        return Key::up;
    case sf::Keyboard::Down:
        return Key::down;
    case sf::Keyboard::Home:
        return Key::home;
    case sf::Keyboard::End:
        return Key::end;
    case sf::Keyboard::PageUp:
        return Key::pageUp;
    case sf::Keyboard::PageDown:
        return Key::pageDown;
    case sf::Keyboard::BackSpace:
        return Key::back;
    case sf::Keyboard::Delete:
        return Key::erase;
    default:
        return std::nullopt;
    }
}

/// A letter that is held with Control comes as no text of its own.
std::optional<std::string> commandOf(sf::Keyboard::Key key) {
    if (key >= sf::Keyboard::A && key <= sf::Keyboard::Z)
        return std::string(1, static_cast<char>('a' + (key - sf::Keyboard::A)));
    if (key == sf::Keyboard::Equal || key == sf::Keyboard::Add) return "+";
    if (key == sf::Keyboard::Hyphen || key == sf::Keyboard::Subtract) return "-";
    return std::nullopt;
}

std::optional<Event> eventOf(const sf::Event& from) {
    using What = Pointer::What;
    switch (from.type) {
    case sf::Event::KeyPressed:
        if (const auto key = keyOf(from.key.code))
            return Keystroke{*key, from.key.shift, from.key.control};
        if (from.key.control)
            if (const auto command = commandOf(from.key.code)) return Typed{*command, true};
        return std::nullopt;
    case sf::Event::TextEntered: {
        constexpr sf::Uint32 firstLetter = 33, erase = 127; // a blank is a key here
        if (from.text.unicode < firstLetter || from.text.unicode == erase) return std::nullopt;
        const auto utf8 = sf::String(from.text.unicode).toUtf8();
        return Typed{std::string(utf8.begin(), utf8.end())};
    }
    case sf::Event::MouseMoved:
        return Pointer{
            What::moved,
            {static_cast<double>(from.mouseMove.x), static_cast<double>(from.mouseMove.y)}};
    case sf::Event::MouseButtonPressed:
    case sf::Event::MouseButtonReleased:
        if (from.mouseButton.button != sf::Mouse::Left) return std::nullopt;
        return Pointer{
            from.type == sf::Event::MouseButtonPressed ? What::pressed : What::let,
            {static_cast<double>(from.mouseButton.x), static_cast<double>(from.mouseButton.y)}};
    case sf::Event::MouseWheelScrolled:
        return Wheel{static_cast<double>(from.mouseWheelScroll.delta)};
    case sf::Event::Resized:
        return Resized{static_cast<double>(from.size.width), static_cast<double>(from.size.height)};
    default:
        return std::nullopt;
    }
}

/// The drops as one batch of textured squares.
class Drops {
public:
    Drops() {
        // A drop, drawn once by the painter and shrunk for each.
        constexpr double side = 64, radius = 20;
        drawing::Picture one{side, side, "", "", "en", {}};
        one.marks.push_back(
            {drawing::Shape{drawing::dropOutline({side / 2, side * .6, radius}),
                            drawing::theme::leak, drawing::Stroke{drawing::theme::field, 3, {}}}});
        const drawing::Pixels pixels = drawing::pixels(one);
        texture_.create(static_cast<unsigned>(pixels.width), static_cast<unsigned>(pixels.height));
        texture_.update(pixels.rgba.data());
        texture_.setSmooth(true);
        texture_.generateMipmap();
        over_ = side / radius;
    }

    void draw(sf::RenderTarget& target, const std::vector<Rain::Falling>& drops) {
        batch_.setPrimitiveType(sf::Quads);
        batch_.clear();
        const auto side = static_cast<float>(texture_.getSize().x);
        for (const Rain::Falling& one : drops) {
            const auto half = static_cast<float>(one.drop.size * over_ / 2);
            const auto x = static_cast<float>(one.drop.x), y = static_cast<float>(one.drop.y);
            if (one.drop.y < one.seen.y || one.drop.y > one.seen.bottom()) continue;
            const float top = y - 1.2F * half;
            batch_.append({{x - half, top}, sf::Color::White, {0, 0}});
            batch_.append({{x + half, top}, sf::Color::White, {side, 0}});
            batch_.append({{x + half, top + 2 * half}, sf::Color::White, {side, side}});
            batch_.append({{x - half, top + 2 * half}, sf::Color::White, {0, side}});
        }
        target.draw(batch_, &texture_);
    }

private:
    sf::Texture texture_;
    sf::VertexArray batch_;
    double over_ = 1;
};

/// A window, or the whole screen.
void open(sf::RenderWindow& window, bool whole, bool timed) {
    if (whole)
        window.create(sf::VideoMode::getDesktopMode(), "Cistern", sf::Style::Fullscreen);
    else
        window.create(sf::VideoMode(width, height), "Cistern");
    if (!timed) window.setFramerateLimit(perSecond);
    window.setKeyRepeatEnabled(true);
}

} // namespace

bool hasDisplay() {
    const auto set = [](const char* name) {
        const char* value = std::getenv(name);
        return value && *value;
    };
    return set("DISPLAY") || set("WAYLAND_DISPLAY");
}

FrameTimes showWindow(Desk& desk, int frames, bool flood) {
    FrameTimes times;
    const auto start = Clock::now();
    sf::RenderWindow window;
    bool whole = false;
    open(window, whole, frames > 0);
    if (!window.isOpen()) throw std::runtime_error("No window could be opened on this display.");
    desk.handle(Resized{static_cast<double>(width), static_cast<double>(height)});

    Painting painting;
    sf::Texture page;
    sf::Sprite sprite;
    Drops drops;
    Rain rain;
    std::optional<Lens> lens; // once a slide is looked at
    unsigned asked = 0;
    bool seen = false;
    auto last = Clock::now();
    for (int frame = 0; window.isOpen() && (frames == 0 || frame < frames); ++frame) {
        const auto begun = Clock::now();
        for (sf::Event event; window.pollEvent(event);) {
            if (event.type == sf::Event::Closed) window.close();
            if (event.type == sf::Event::Resized)
                window.setView(sf::View({0, 0, static_cast<float>(event.size.width),
                                         static_cast<float>(event.size.height)}));
            if (event.type == sf::Event::KeyPressed && event.key.code == sf::Keyboard::F11) {
                whole = !whole;
                open(window, whole, frames > 0);
                desk.handle(Resized{static_cast<double>(window.getSize().x),
                                    static_cast<double>(window.getSize().y)});
                continue;
            }
            if (const auto one = eventOf(event)) desk.handle(*one);
        }
        const double passed = std::min(longest, since(last));
        last = begun;
        desk.pass(passed);
        const Screen& screen = desk.screen();
        if (desk.version() != asked && painting.ask(screen.picture)) asked = desk.version();
        if (!seen) painting.wait();
        if (const auto ready = painting.take()) {
            const sf::Vector2u size(static_cast<unsigned>(ready->pixels.width),
                                    static_cast<unsigned>(ready->pixels.height));
            if (page.getSize() != size) {
                page.create(size.x, size.y);
                sprite.setTexture(page, true);
            }
            page.update(ready->pixels.rgba.data());
            times.pages.push_back(ready->seconds);
        }
        window.clear(sf::Color(drawing::theme::paper.red, drawing::theme::paper.green,
                               drawing::theme::paper.blue));
        window.draw(sprite);
        if (const auto microscope = desk.microscope()) {
            if (!lens) lens.emplace();
            times.tilesMissing += lens->draw(window, *microscope);
            times.tileSeconds = lens->secondsEach();
        }
        if (!desk.session().settings().still) {
            rain.pass(screen.dripping, passed, flood);
            const std::vector<Rain::Falling> falling = rain.drops(screen.dripping);
            times.drops = std::max(times.drops, falling.size());
            drops.draw(window, falling);
        }
        window.display();
        if (!seen) {
            times.firstPage = since(start);
            seen = true;
        }
        times.frames.push_back(since(begun));
        // Timed frames come as fast as any others, so that work beside them has its share.
        const double left = 1. / perSecond - times.frames.back();
        if (frames > 0 && left > 0) sf::sleep(sf::seconds(static_cast<float>(left)));
    }
    return times;
}

} // namespace cistern::desk
