#pragma once
#include "at_desk.h"
#include "drawing/film/nucleated.h"
#include "lesson/film_tally.h"

#include <unistd.h>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>

namespace cistern::desk {

inline const std::string yellow = "yellow_and_pale"; // a dog; two draws, each with a blood count

/// A folder of its own, gone at the end.
class Folder {
public:
    explicit Folder(const std::string& name)
        : path_(std::filesystem::temp_directory_path() /
                ("cistern-film-" + name + "-" + std::to_string(::getpid()))) {
        std::filesystem::remove_all(path_);
        std::filesystem::create_directories(path_);
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string path() const { return path_.string(); }

private:
    std::filesystem::path path_;
};

/// Opens a case that ships with the program, anew.
inline void openAnew(Desk& desk, const std::string& name) {
    for (const Shelved& one : desk.session().shelf())
        if (one.name == name) desk.session().open(one.path, std::nullopt, true);
}

/// A person at the page Film who knows what lies on the slide.
class AtFilm {
public:
    explicit AtFilm(Desk& at) : desk(at) {}
    Desk& desk;

    const Screen& screen() { return desk.screen(); }
    std::string words() { return desk::words(screen()); }
    bool shows(const std::string& text) { return words().find(text) != std::string::npos; }
    const Control& at(const std::string& id) {
        const Control* one = desk.find(id);
        if (!one) throw std::out_of_range("no control is named " + id);
        return *one;
    }
    void key(Key key, bool shift = false) { desk.handle(Keystroke{key, shift}); }
    void type(const std::string& letters) {
        for (const char letter : letters) desk.handle(Typed{std::string(1, letter)});
    }
    /// By Tab alone, as far round as there are controls.
    void tabTo(const std::string& id) {
        const std::size_t many = screen().controls.size();
        for (std::size_t i = 0; i <= many && desk.focus() != id; ++i) key(Key::tab);
        if (desk.focus() != id) throw std::out_of_range("Tab does not come to " + id);
    }
    void press(const std::string& id) {
        at(id);
        desk.setFocus(id);
        key(Key::enter);
    }
    /// Pointed at and pressed in the middle, or elsewhere.
    void click(Point where) {
        desk.handle(Pointer{Pointer::What::moved, where});
        desk.handle(Pointer{Pointer::What::pressed, where});
        desk.handle(Pointer{Pointer::What::let, where});
    }

    Microscope lens() { return desk.microscope().value(); }
    /// Lets time pass until the slide lies still; 10 s are more than any glide lasts.
    void arrive() {
        for (int i = 0; i < 200; ++i) desk.pass(.05);
    }
    /// Into the middle of the monolayer, by arrows on the whole film.
    void toMonolayer() {
        const lab::Reach reach = lab::reach(*lens().slide, lab::FilmArea::monolayer);
        const double to = (reach.from + reach.to) / 2;
        desk.setFocus("whole");
        for (int i = 0; i < 100 && lens().middle.x - to > 250; ++i) key(Key::left);
        for (int i = 0; i < 100 && to - lens().middle.x > 250; ++i) key(Key::right);
        for (int i = 0; i < 100 && lens().middle.y > 2000; ++i) key(Key::up);
    }

    std::optional<Ring> chosen() {
        for (const Ring& ring : lens().rings)
            if (ring.chosen) return ring;
        return std::nullopt;
    }
    /// The cell that is ringed, as it truly is.
    drawing::film::Cell ringed() {
        const Point middle = chosen().value().middle;
        const Microscope now = lens();
        if (!stage_ || number_ != now.number)
            stage_ = std::make_unique<drawing::film::Stage>(*now.slide);
        number_ = now.number;
        for (const drawing::film::Cell& cell : stage_->cells({middle.x - 1, middle.y - 1, 2, 2}))
            if (static_cast<double>(cell.x) == middle.x && static_cast<double>(cell.y) == middle.y)
                return cell;
        throw std::out_of_range("no cell lies where the ring is");
    }
    /// Says what the ringed cell is, by its key.
    void say(lab::FilmCell kind) { type(std::string(1, desk.session().settings().keys.of(kind))); }
    /// Names so many white cells truly, or as `said` tells.
    template<class Said>
    void count(int cells, const Said& said) {
        if (!chosen()) type("n");
        for (int asked = 0; counted() < cells && asked < 2 * cells + 20; ++asked)
            say(said(ringed()));
    }
    void countTruly(int cells) {
        count(cells, [](const drawing::film::Cell& cell) { return cell.kind; });
    }
    /// Cells of the hundred, as the page tells.
    int counted() {
        const std::string all = words();
        const std::size_t at = all.find(" white cells");
        const std::size_t line = all.rfind('\n', at) + 1;
        return std::stoi(all.substr(line));
    }

private:
    std::unique_ptr<drawing::film::Stage> stage_;
    unsigned number_ = 0;
};

/// A desk at the page Film of a case; nothing is kept.
struct OwnDesk {
    AtDesk own;
};
struct Film : OwnDesk, AtFilm {
    explicit Film(const std::string& name, double width = 1280, double height = 800)
        : OwnDesk{AtDesk(PageName::shelf, width, height)}, AtFilm(own.desk) {
        openAnew(desk, name);
        turn();
    }
    void turn() {
        desk.session().go(PageName::film);
        desk.handle(Keystroke{Key::escape});
    }
};

} // namespace cistern::desk
