#include "desk/script.h"

#include "base/fault.h"
#include "base/text.h"
#include "desk/rain.h"
#include "drawing/painter.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <cmath>
#include <optional>
#include <thread>

namespace cistern::desk {

namespace {

constexpr double tick = 1. / 60; // [s]

enum class Takes { word, number, count, rest };

struct Kind {
    std::string_view what;
    std::vector<Takes> takes;
    std::size_t least; ///< words that must be there
};

const std::vector<Kind>& kinds() {
    static const std::vector<Kind> all{
        {"size", {Takes::number, Takes::number}, 2},
        {"text", {Takes::number}, 1},
        {"open", {Takes::word, Takes::count}, 1},
        {"page", {Takes::word}, 1},
        {"focus", {Takes::rest}, 1},
        {"press", {Takes::rest}, 1},
        {"key", {Takes::word, Takes::count}, 1},
        {"write", {Takes::word, Takes::rest}, 2},
        {"drag", {Takes::word, Takes::number, Takes::number}, 3},
        {"click", {Takes::number, Takes::number}, 2},
        {"wait", {Takes::number}, 1},
        {"settle", {}, 0},
        {"shot", {Takes::word}, 1},
        {"expect", {Takes::rest}, 1},
    };
    return all;
}

std::optional<double> number(const std::string& text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !(std::abs(value) < 1e9))
        return std::nullopt;
    return value;
}

std::vector<std::string> wordsOf(const std::string& line) {
    std::vector<std::string> out;
    for (std::size_t at = 0; at < line.size();) {
        const std::size_t from = line.find_first_not_of(" \t\r", at);
        if (from == std::string::npos) break;
        at = std::min(line.find_first_of(" \t\r", from), line.size());
        out.push_back(line.substr(from, at - from));
    }
    return out;
}

/// Words from `first` on, in one piece as written.
std::string restOf(const std::string& line, std::size_t first) {
    std::size_t at = 0;
    for (std::size_t i = 0; i <= first; ++i) {
        at = line.find_first_not_of(" \t", at);
        if (at == std::string::npos) return "";
        if (i < first) at = line.find_first_of(" \t", at);
        if (at == std::string::npos) return "";
    }
    std::string rest = line.substr(at);
    while (!rest.empty() && std::string_view(" \t\r").find(rest.back()) != std::string_view::npos)
        rest.pop_back();
    return rest;
}

struct Named {
    std::string_view name;
    Key key;
};
constexpr std::array<Named, 14> keyNames{{{"Tab", Key::tab},
                                          {"Enter", Key::enter},
                                          {"Space", Key::space},
                                          {"Escape", Key::escape},
                                          {"Left", Key::left},
                                          {"Right", Key::right},
                                          {"Up", Key::up},
                                          {"Down", Key::down},
                                          {"Home", Key::home},
                                          {"End", Key::end},
                                          {"PageUp", Key::pageUp},
                                          {"PageDown", Key::pageDown},
                                          {"Back", Key::back},
                                          {"Delete", Key::erase}}};

std::optional<Event> eventOf(std::string text) {
    Keystroke stroke;
    bool control = false;
    for (bool more = true; more;) {
        more = false;
        if (text.starts_with("Shift+")) {
            stroke.shift = true;
            text.erase(0, 6);
            more = true;
        } else if (text.starts_with("Control+")) {
            control = true;
            text.erase(0, 8);
            more = true;
        }
    }
    stroke.control = control;
    for (const Named& one : keyNames)
        if (one.name == text) {
            stroke.key = one.key;
            return stroke;
        }
    if (text.empty() || base::characterLength(text) != text.size()) return std::nullopt;
    return Typed{text, control};
}

class Player {
public:
    Player(Desk& desk, const std::string& file,
           const std::function<void(const std::string&, const std::string&)>& shot)
        : desk_(desk), file_(file), shot_(shot) {}

    void play(const Step& step) {
        step_ = &step;
        try {
            act(step);
        } catch (const ScriptStopped&) {
            throw;
        } catch (const std::exception& error) {
            stop(error.what());
        }
    }

private:
    Desk& desk_;
    const std::string& file_;
    const std::function<void(const std::string&, const std::string&)>& shot_;
    const Step* step_ = nullptr;
    Rain rain_;

    [[noreturn]] void stop(const std::string& why) const {
        throw ScriptStopped(file_ + ":" + std::to_string(step_->line) + ": " + why);
    }

    double at(std::size_t word) const { return *number(step_->words[word]); }

    /// The control of that name; blanks in it may be written as underscores.
    std::string known(const std::string& id) {
        if (desk_.find(id)) return id;
        for (const Control& one : desk_.screen().controls) {
            std::string plain = one.id;
            std::replace(plain.begin(), plain.end(), ' ', '_');
            if (plain == id) return one.id;
        }
        return id;
    }

    /// Gives its name as it is.
    std::string focus(const std::string& wanted) {
        const std::string id = this->known(wanted);
        if (desk_.setFocus(id)) return id;
        std::vector<std::string> known;
        for (const Control& one : desk_.screen().controls) known.push_back(one.id);
        const std::string near = base::nearest(id, known);
        stop("there is no \"" + id + "\" on the page " + std::string(name(desk_.session().page())) +
             (near.empty() ? "; there are: " + base::listed(known, "and")
                           : "; perhaps you mean \"" + near + "\"") +
             ".");
    }

    void turnTo(const std::string& page) {
        std::vector<std::string> known;
        for (int i = 0; i < pageCount; ++i) {
            known.emplace_back(name(static_cast<PageName>(i)));
            if (known.back() != page) continue;
            focus("rail." + page);
            desk_.handle(Keystroke{Key::enter});
            if (desk_.session().page() != static_cast<PageName>(i)) stop(desk_.session().said());
            return;
        }
        stop("there is no page \"" + page + "\"; there are " + base::listed(known, "and") + ".");
    }

    void open(const std::string& name) {
        std::vector<std::string> known;
        for (const Shelved& one : desk_.session().shelf()) {
            known.push_back(one.name);
            if (one.name != name) continue;
            std::optional<std::uint64_t> seed;
            if (step_->words.size() > 1) seed = static_cast<std::uint64_t>(at(1));
            desk_.session().open(one.path, seed, true);
            desk_.handle(Keystroke{Key::escape}); // the page has changed
            return;
        }
        const std::string near = base::nearest(name, known);
        stop("there is no case \"" + name + "\" on the shelf" +
             (near.empty() ? "" : "; perhaps you mean \"" + near + "\"") + ".");
    }

    void key() {
        const auto event = eventOf(step_->words[0]);
        const int times = step_->words.size() > 1 ? static_cast<int>(at(1)) : 1;
        for (int i = 0; i < times; ++i) desk_.handle(*event);
    }

    void drag() {
        const std::string id = focus(step_->words[0]);
        const Point from = desk_.find(id)->area.middle();
        const Point to{from.x + at(1), from.y + at(2)};
        desk_.handle(Pointer{Pointer::What::moved, from});
        desk_.handle(Pointer{Pointer::What::pressed, from});
        desk_.handle(Pointer{Pointer::What::moved, {(from.x + to.x) / 2, (from.y + to.y) / 2}});
        desk_.handle(Pointer{Pointer::What::moved, to});
        desk_.handle(Pointer{Pointer::What::let, to});
    }

    void wait(double seconds) {
        for (double gone = 0; gone < seconds; gone += tick) {
            desk_.pass(tick);
            rain_.pass(desk_.screen().dripping, tick);
        }
    }

    void settle() {
        constexpr auto moment = std::chrono::milliseconds(2);
        constexpr int most = 150000; // five minutes
        for (int i = 0; desk_.busy(); ++i) {
            if (i > most) stop("the page is still not ready after five minutes.");
            std::this_thread::sleep_for(moment);
            desk_.pass(0);
        }
    }

    void shoot() {
        const Screen& screen = desk_.screen();
        drawing::Picture picture = screen.picture;
        if (const auto microscope = desk_.microscope())
            picture.marks.emplace_back().is = seenThrough(*microscope);
        for (const Rain::Falling& one : rain_.drops(screen.dripping)) {
            drawing::Group drop{"", {}, drawing::rectangle(one.seen), {}};
            drop.marks.push_back({drawing::Shape{drawing::dropOutline(one.drop),
                                                 drawing::theme::leak, std::nullopt}});
            picture.marks.push_back({std::move(drop)});
        }
        shot_(step_->words[0], drawing::png(picture));
    }

    void act(const Step& step) {
        if (step.what == "size")
            desk_.handle(Resized{at(0), at(1)});
        else if (step.what == "text") {
            Settings settings = desk_.session().settings();
            settings.textScale = std::clamp(at(0) / 100, leastTextScale, mostTextScale);
            desk_.session().set(settings);
            desk_.handle(Keystroke{Key::escape});
        } else if (step.what == "open")
            open(step.words[0]);
        else if (step.what == "page")
            turnTo(step.words[0]);
        else if (step.what == "focus")
            focus(step.rest);
        else if (step.what == "press") {
            focus(step.rest);
            desk_.handle(Keystroke{Key::enter});
        } else if (step.what == "key")
            key();
        else if (step.what == "write") {
            const std::string id = focus(step.words[0]);
            if (desk_.find(id)->kind != Control::Kind::text)
                stop("\"" + step.words[0] + "\" is no line of text.");
            desk_.handle(Typed{step.rest});
            desk_.handle(Keystroke{Key::enter});
        } else if (step.what == "drag")
            drag();
        else if (step.what == "click") {
            for (const auto what :
                 {Pointer::What::moved, Pointer::What::pressed, Pointer::What::let})
                desk_.handle(Pointer{what, {at(0), at(1)}});
        } else if (step.what == "wait")
            wait(at(0));
        else if (step.what == "settle")
            settle();
        else if (step.what == "shot")
            shoot();
        else if (step.what == "expect" &&
                 words(desk_.screen()).find(step.rest) == std::string::npos)
            stop("\"" + step.rest + "\" does not stand on the page " +
                 std::string(name(desk_.session().page())) + ".");
    }
};

} // namespace

std::vector<Step> readScript(const std::string& text, const std::string& file) {
    std::vector<Step> steps;
    std::vector<base::Fault> faults;
    int count = 0;
    for (std::size_t from = 0; from < text.size(); ++count) {
        const std::size_t end = std::min(text.find('\n', from), text.size());
        std::string line = text.substr(from, end - from);
        from = end + 1;
        if (!line.empty() && line.back() == '\r') line.pop_back();
        std::vector<std::string> words = wordsOf(line);
        if (words.empty() || words[0].starts_with('#')) continue;
        const auto wrong = [&](base::FaultKind kind, std::size_t word, const std::string& found,
                               const std::string& allowed) {
            const auto column = word < words.size() ? line.find(words[word]) + 1 : line.size() + 1;
            faults.push_back({kind,
                              {file, count + 1, static_cast<int>(column)},
                              words[0],
                              found,
                              allowed,
                              line});
        };
        std::vector<std::string> known;
        for (const Kind& one : kinds()) known.emplace_back(one.what);
        const auto kind = std::find_if(kinds().begin(), kinds().end(),
                                       [&](const Kind& one) { return one.what == words[0]; });
        if (kind == kinds().end()) {
            const std::string near = base::nearest(words[0], known);
            wrong(base::FaultKind::unknownName, 0, words[0],
                  near.empty() ? base::listed(known) : "perhaps " + near);
            continue;
        }
        const std::size_t given = words.size() - 1;
        const bool rest = !kind->takes.empty() && kind->takes.back() == Takes::rest;
        if (given < kind->least || (!rest && given > kind->takes.size())) {
            wrong(base::FaultKind::wrongShape, 0, line,
                  std::to_string(kind->least) +
                      (kind->takes.size() > kind->least || rest ? " words or more" : " words") +
                      " after it");
            continue;
        }
        for (std::size_t i = 0; i < std::min(given, kind->takes.size()); ++i) {
            const Takes takes = kind->takes[i];
            const auto value = number(words[i + 1]);
            if ((takes == Takes::number && !value) ||
                (takes == Takes::count && !(value && *value >= 0 && *value == std::floor(*value))))
                wrong(base::FaultKind::notANumber, i + 1, words[i + 1],
                      takes == Takes::count ? "a whole number" : "a number");
        }
        if (words[0] == "key" && !eventOf(words[1])) {
            std::vector<std::string> names;
            for (const Named& one : keyNames) names.emplace_back(one.name);
            wrong(base::FaultKind::unknownName, 1, words[1],
                  base::listed(names) + ", or one letter");
        }
        steps.push_back({count + 1,
                         words[0],
                         {words.begin() + 1, words.end()},
                         restOf(line, kind->takes.size() > 1 && rest ? 2 : 1)});
    }
    if (!faults.empty()) throw base::InputError(std::move(faults));
    return steps;
}

void play(Desk& desk, const std::vector<Step>& steps, const std::string& file,
          const std::function<void(const std::string&, const std::string&)>& shot) {
    Player player(desk, file, shot);
    for (const Step& step : steps) player.play(step);
}

} // namespace cistern::desk
