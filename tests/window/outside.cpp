// A whole lesson at the real window, from outside its process: what a keyboard sends, or what a
// mouse does, and nothing else. A twin of the desk in this process, without a window, tells where
// things are. In the end the lesson that the window kept must hold the marks that the program at
// the prompt gives for the same answers.
//
//     outside keys|mouse DESK PROGRAM FOLDER
//
// needs a display and xdotool; FOLDER is made anew.
#include "desk/desk.h"
#include "lesson/record.h"

#include <nlohmann/json.hpp>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <stdexcept>
#include <thread>

using namespace cistern;
using namespace cistern::desk;
using nlohmann::json;

namespace {

const std::string caseName = "no_smoke_from_the_chimney";

/// What moves keys and pointer of the display.
class Hands {
public:
    Hands() : pipe_(popen("xdotool -", "w")) {
        if (!pipe_) throw std::runtime_error("xdotool cannot be started");
    }
    ~Hands() { pclose(pipe_); }
    Hands(const Hands&) = delete;
    Hands& operator=(const Hands&) = delete;
    void send(const std::string& command) {
        std::fputs((command + "\n").c_str(), pipe_);
        std::fflush(pipe_);
        // The window takes what has come once a frame.
        std::this_thread::sleep_for(std::chrono::milliseconds(40));
    }

private:
    FILE* pipe_;
};

class Twin {
public:
    Twin(Desk& desk, Hands& hands, const std::string& window, bool mouse)
        : desk_(desk), hands_(hands), window_(window), mouse_(mouse) {}

    void key(Key key, const std::string& name, bool shift = false) {
        hands_.send("key " + std::string(shift ? "shift+" : "") + name);
        desk_.handle(Keystroke{key, shift});
    }
    void letter(const std::string& letter, const std::string& name) {
        hands_.send("key " + name);
        desk_.handle(Typed{letter});
    }

    /// Works a control: Tab until it has the focus, then Enter; or a click.
    void work(const std::string& id) {
        if (mouse_) return click(id);
        reach(id);
        key(Key::enter, "Return");
    }
    void reach(const std::string& id) {
        const std::size_t most = desk_.screen().controls.size() + 1;
        for (std::size_t i = 0; desk_.focus() != id; ++i) {
            if (i > most) throw std::runtime_error("Tab never comes to " + id);
            key(Key::tab, "Tab");
        }
    }
    void steps(const std::string& id, Key towards, const std::string& name, int many) {
        reach(id);
        for (int i = 0; i < many; ++i) key(towards, name);
    }
    void click(const std::string& id) {
        bring(id);
        const Point at = place(id);
        pointer(Pointer::What::moved, at);
        pointer(Pointer::What::pressed, at);
        pointer(Pointer::What::let, at);
    }
    void drag(const std::string& id, double across, double down) {
        bring(id);
        const Point at = place(id), to{at.x + across, at.y + down};
        pointer(Pointer::What::moved, at);
        pointer(Pointer::What::pressed, at);
        pointer(Pointer::What::moved, {(at.x + to.x) / 2, (at.y + to.y) / 2});
        pointer(Pointer::What::moved, to);
        pointer(Pointer::What::let, to);
    }

private:
    Desk& desk_;
    Hands& hands_;
    std::string window_; ///< its number on the display
    bool mouse_;

    Point place(const std::string& id) {
        const Control* one = desk_.find(id);
        if (!one) throw std::runtime_error("there is no " + id);
        // Whole pixels, as a mouse has them.
        return {std::floor(one->area.middle().x), std::floor(one->area.middle().y)};
    }
    /// Scrolls with the wheel until it is well in sight.
    void bring(const std::string& id) {
        for (int i = 0; i < 200; ++i) {
            const Point at = place(id);
            const Box& room = desk_.screen().room;
            const bool rail = id.starts_with("rail.");
            if (rail || (at.y > room.y + 20 && at.y < room.bottom() - 20)) return;
            const bool down = at.y >= room.bottom() - 20;
            hands_.send("click " + std::string(down ? "5" : "4"));
            desk_.handle(Wheel{down ? -1. : 1.});
        }
        throw std::runtime_error("the wheel does not bring " + id + " into sight");
    }
    void pointer(Pointer::What what, Point at) {
        const auto number = [](double value) { return std::to_string(static_cast<int>(value)); };
        if (what == Pointer::What::moved)
            // Within the window, wherever on the display it stands.
            hands_.send("mousemove --window " + window_ + " " + number(at.x) + " " + number(at.y));
        else
            hands_.send(what == Pointer::What::pressed ? "mousedown 1" : "mouseup 1");
        desk_.handle(Pointer{what, at});
    }
};

void lessonByKeys(Twin& twin) {
    twin.work("case." + caseName);
    twin.work("open");
    twin.work("rail.Bench");
    twin.work("load");
    twin.work("rail.Report");
    twin.letter("r", "r");        // to the reading
    twin.work("liver.leak.best"); // sets a band
    twin.steps("liver.leak.low", Key::right, "Right", 4);
    twin.work("liver.work.best");
    twin.steps("liver.work.best", Key::left, "Left", 20);
    twin.steps("liver.work.high", Key::left, "Left", 12);
    twin.steps("points.end-stage chronic liver disease", Key::right, "Right", 15);
    twin.work("next.1");
    twin.work("doubt.GGT");
    twin.work("commit");
}

void lessonByMouse(Twin& twin) {
    twin.click("case." + caseName);
    twin.click("open");
    twin.click("rail.Bench");
    twin.click("load");
    twin.click("rail.Report");
    twin.click("reading");
    twin.click("liver.leak.best");
    twin.click("liver.work.best");
    twin.drag("liver.leak.low", 40, 0);
    twin.drag("liver.work.high", -60, 0);
    twin.drag("liver.work.best", -50, 0);
    twin.drag("points.end-stage chronic liver disease", 90, 0);
    twin.click("next.2");
    twin.click("doubt.GGT");
    twin.click("doubt.ALT");
    twin.click("commit");
}

json answersOf(const lesson::Lesson& lesson) {
    const auto band = [](const lesson::Band& one) {
        return json{{"best", one.best}, {"low", one.low}, {"high", one.high}};
    };
    const lesson::Answers& said = lesson.answers();
    json organs = json::object();
    for (const auto& [organ, answer] : said.organs) {
        json& one = organs[std::string(body::name(organ))];
        if (answer.leak) one["leak"] = band(*answer.leak);
        if (answer.work) one["work"] = band(*answer.work);
    }
    json all{{"cistern answers", 1}, {"organs", organs}, {"points", said.points}};
    if (said.next) all["next"] = *said.next;
    all["distrust"] = json::array();
    for (const body::Analyte one : said.distrusted)
        all["distrust"].push_back(std::string(body::name(one)));
    return all;
}

std::filesystem::path keptLesson(const std::filesystem::path& folder) {
    for (const auto& one : std::filesystem::recursive_directory_iterator(folder))
        if (one.path().filename().string().starts_with(caseName + ".")) return one.path();
    throw std::runtime_error("the window kept no lesson");
}

int run(bool mouse, const std::string& desk, const std::string& program,
        const std::filesystem::path& folder) {
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder / "home");
    const std::string around = "HOME='" + (folder / "home").string() +
                               "' XDG_CONFIG_HOME= XDG_STATE_HOME= LIBGL_ALWAYS_SOFTWARE=1 ";
    if (std::system(
            (around + "'" + desk + "' & echo $! > '" + (folder / "pid").string() + "'").c_str()) !=
        0)
        throw std::runtime_error("the desk cannot be started");
    // Until the window is there; then it takes what comes.
    const std::string found = (folder / "window").string();
    const std::string search = "timeout 60 xdotool search --sync --onlyvisible --name '^Cistern$'";
    if (std::system((search + " > '" + found + "'").c_str()) != 0)
        throw std::runtime_error("no window came");
    std::this_thread::sleep_for(std::chrono::seconds(1));
    base::Disk disk;
    std::string window = disk.read(found);
    while (!window.empty() && window.back() == '\n') window.pop_back();
    Desk twin({&disk, {CISTERN_SOURCE}, "", ""});
    twin.handle(Resized{1280, 800});
    {
        Hands hands;
        hands.send("mousemove --window " + window + " 2 790");
        twin.handle(Pointer{Pointer::What::moved, {2, 790}});
        Twin both(twin, hands, window, mouse);
        mouse ? lessonByMouse(both) : lessonByKeys(both);
    }
    if (!twin.session().lesson().committed())
        throw std::runtime_error("the twin did not commit: " + twin.session().said());
    std::this_thread::sleep_for(std::chrono::seconds(2));
    std::system(("kill -9 $(cat '" + (folder / "pid").string() + "')").c_str());

    constexpr std::size_t most = 8u << 20;
    const json kept = json::parse(disk.read(keptLesson(folder).string(), most));
    const std::string answers = (folder / "answers.json").string();
    const std::string record = (folder / "record.json").string();
    disk.write(answers, answersOf(twin.session().lesson()).dump(2));
    if (std::system(("CISTERN_DATA='" CISTERN_SOURCE "' '" + program + "' play " + caseName +
                     " --answers '" + answers + "' --record '" + record + "' > /dev/null")
                        .c_str()) != 0)
        throw std::runtime_error("the program at the prompt does not take the answers");
    const json prompt = json::parse(disk.read(record, most));
    if (kept.at("marks").is_null()) throw std::runtime_error("the window's lesson is not finished");
    const bool same = kept.at("marks") == prompt.at("marks");
    std::cout << (mouse ? "mouse" : "keyboard") << ": " << kept.at("actions").size()
              << " actions, the window's marks " << kept.at("marks").at("learner").at("total")
              << ", at the prompt " << prompt.at("marks").at("learner").at("total")
              << (same ? ", the same in every part\n" : ", not the same\n");
    return same ? 0 : 1;
}

} // namespace

int main(int count, char** values) {
    if (count != 5) {
        std::cerr << "outside keys|mouse DESK PROGRAM FOLDER\n";
        return 2;
    }
    try {
        return run(std::string(values[1]) == "mouse", values[2], values[3], values[4]);
    } catch (const std::exception& error) {
        std::cerr << "outside: " << error.what() << "\n";
        return 1;
    }
}
