#include "desk/command.h"

#include "base/fault.h"
#include "base/text.h"
#include "desk/script.h"
#include "report/text.h"

#include <algorithm>
#include <charconv>
#include <optional>
#include <ostream>

namespace cistern::desk {

namespace {

constexpr int done = 0, couldNot = 1, wrongInput = 2;

/// Wrong use of the program, one sentence.
class UsageError : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

struct Wanted {
    std::string file, script, shots;
    int frames = 0;
    bool flood = false, help = false, version = false;
};

Wanted read(const std::vector<std::string>& arguments) {
    Wanted wanted;
    const std::vector<std::string> known{"--script", "--shots", "--frames",
                                         "--flood",  "--help",  "--version"};
    for (std::size_t i = 0; i < arguments.size(); ++i) {
        const std::string& one = arguments[i];
        const auto value = [&]() -> const std::string& {
            if (i + 1 == arguments.size() || arguments[i + 1].empty())
                throw UsageError("The option " + one + " needs a value after it.");
            return arguments[++i];
        };
        if (one == "--help" || one == "-h")
            wanted.help = true;
        else if (one == "--version")
            wanted.version = true;
        else if (one == "--flood")
            wanted.flood = true;
        else if (one == "--script")
            wanted.script = value();
        else if (one == "--shots")
            wanted.shots = value();
        else if (one == "--frames") {
            const std::string& text = value();
            const auto [end, error] =
                std::from_chars(text.data(), text.data() + text.size(), wanted.frames);
            if (error != std::errc{} || end != text.data() + text.size() || wanted.frames < 1 ||
                wanted.frames > 1000000)
                throw UsageError("--frames: \"" + text +
                                 "\" is not a whole number from 1 to 1000000.");
        } else if (one.starts_with("-")) {
            const std::string near = base::nearest(one, known);
            throw UsageError("There is no option \"" + one + "\"; " +
                             (near.empty() ? "there are " + base::listed(known, "and")
                                           : "perhaps you mean \"" + near + "\"") +
                             ".");
        } else if (wanted.file.empty())
            wanted.file = one;
        else
            throw UsageError("The argument \"" + one + "\" is one too many.");
    }
    if (wanted.flood && wanted.frames == 0)
        throw UsageError("--flood is for timing; say how many frames with --frames.");
    if (!wanted.shots.empty() && wanted.script.empty())
        throw UsageError("--shots says where the pictures of a script go; name it with --script.");
    return wanted;
}

void printHelp(std::ostream& out) {
    out << "Usage: cistern-desk [CASE] [options]\n\n"
           "Opens the desk: cases, bench, report, reading, and the animal opened.\n\n"
           "  CASE           a scenario file, or the bare name of a case: opens it at once\n"
           "  --script FILE  does what the file says, with no window and no display\n"
           "  --shots DIR    puts the script's pictures into this folder, which must be there\n"
           "  --frames N     closes the window after so many frames and tells their times; after "
           "a\n"
           "                 script, shows what it led to\n"
           "  --flood        with --frames: as many drops as are ever drawn\n"
           "  --help         this text\n"
           "  --version      the version\n\n"
           "A script has one step a line: size, text, open, page, focus, press, key, write,\n"
           "drag, click, wait, settle, shot, expect.\n\n"
           "Exit code: 0 done, 1 could not, 2 wrong input or usage.\n\n"
        << report::caution << "\n";
}

void openCase(Desk& desk, const std::string& file) {
    std::vector<std::string> names;
    for (const Shelved& one : desk.session().shelf()) {
        names.push_back(one.name);
        if (one.name == file) return desk.session().open(one.path);
    }
    const bool path = file.find('/') != std::string::npos || file.ends_with(".yaml");
    if (!path) {
        const std::string near = base::nearest(file, names);
        throw UsageError("There is no case named \"" + file + "\"" +
                         (near.empty() ? "" : "; perhaps you mean \"" + near + "\"") + ".");
    }
    desk.session().open(file);
}

void script(const Wanted& wanted, Desk& desk, Surroundings& around) {
    base::Files& files = *around.outside.files;
    const std::vector<Step> steps = readScript(files.read(wanted.script), wanted.script);
    const bool takes =
        std::any_of(steps.begin(), steps.end(), [](const Step& one) { return one.what == "shot"; });
    if (takes && wanted.shots.empty())
        throw UsageError("The script takes pictures; say where they go with --shots DIR.");
    const auto shot = [&](const std::string& name, const std::string& png) {
        files.write(wanted.shots + "/" + name + ".png", png);
    };
    play(desk, steps, wanted.script, shot);
}

int obey(const Wanted& wanted, Surroundings& around) {
    if (wanted.help) {
        printHelp(around.out);
        return done;
    }
    if (wanted.version) {
        around.out << "cistern-desk " << CISTERN_VERSION << "\n";
        return done;
    }
    if ((wanted.script.empty() || wanted.frames > 0) && !around.display) {
        around.err << "cistern-desk: There is no display here, so no window can be opened; "
                      "\"cistern play\" works a case at the prompt.\n";
        return couldNot;
    }
    Outside outside = around.outside;
    if (wanted.script.empty()) around.keep(outside);
    Desk desk(outside);
    if (!wanted.file.empty()) openCase(desk, wanted.file);
    if (!wanted.script.empty()) script(wanted, desk, around);
    if (wanted.script.empty() || wanted.frames > 0)
        around.window(desk, wanted.frames, wanted.flood);
    return done;
}

} // namespace

int runDesk(const std::vector<std::string>& arguments, Surroundings& around) {
    const auto tell = [&](const std::string& sentence, int code) {
        around.out.flush();
        around.err << "cistern-desk: " << sentence << "\n";
        return code;
    };
    try {
        return obey(read(arguments), around);
    } catch (const base::InputError& error) {
        around.err << error.what();
        if (!std::string_view(error.what()).ends_with("\n")) around.err << "\n";
        return wrongInput;
    } catch (const UsageError& error) {
        return tell(error.what(), wrongInput);
    } catch (const std::exception& error) {
        return tell(error.what(), couldNot);
    }
}

} // namespace cistern::desk
