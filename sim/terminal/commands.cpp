#include "terminal/commands.h"

#include "base/fault.h"
#include "base/text.h"
#include "body/course.h"
#include "terminal/page.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <new>
#include <ostream>

namespace cistern::terminal {

namespace {

std::string commandNamed(const std::string& found) {
    std::vector<std::string> names;
    for (const Command& command : commands()) names.emplace_back(command.name);
    const std::string near = base::nearest(found, names);
    return "There is no command \"" + found + "\"" +
           (near.empty() ? "; the commands are " + base::listed(names, "and")
                         : "; perhaps you mean \"" + near + "\"") +
           ".";
}

std::vector<std::string> optionNames(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    return names;
}

/// The sentence for an argument that nothing asked for.
std::string notExpected(const CLI::App& app, const std::string& found) {
    if (found.size() < 2 || found[0] != '-')
        return "The argument \"" + found + "\" is one too many.";
    const std::vector<std::string> names = optionNames(app);
    const std::string name = found.substr(0, found.find('='));
    const std::string near = base::nearest(name, names);
    return "There is no option \"" + name + "\"" +
           (near.empty() ? "; the options are " + base::listed(names, "and")
                         : "; perhaps you mean \"" + near + "\"") +
           ".";
}

std::string sentence(const CLI::App& app, const CLI::ParseError& error) {
    const std::string what = error.what();
    const std::string name = what.substr(0, what.find(':'));
    if (const auto extra = app.remaining();
        dynamic_cast<const CLI::ExtrasError*>(&error) && !extra.empty())
        return notExpected(app, extra.front());
    if (dynamic_cast<const CLI::RequiredError*>(&error))
        return what.substr(0, what.find(' ')) + " is missing.";
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&error))
        return what.find("At Most") != std::string::npos ||
                       what.find("at most") != std::string::npos
                   ? "The option " + name + " may be given once."
                   : "The option " + name + " needs a value after it.";
    return what;
}

void printOption(Page& page, const CLI::Option& option) {
    std::string left =
        option.get_positional() ? option.get_name(true) : option.get_name(false, true);
    std::replace(left.begin(), left.end(), ',', ' ');
    if (!option.get_positional() && !option.get_type_name().empty())
        left += " " + option.get_type_name();
    page.hanging(left, option.get_description(), 22);
}

void printHelp(const CLI::App& app, World& world) {
    Page page(world.out, world.styled);
    std::string usage = app.get_name();
    bool anyOption = false;
    for (const CLI::Option* option : app.get_options())
        if (option->get_positional()) {
            const std::string many = option->get_items_expected_max() > 1 ? "..." : "";
            const std::string name = option->get_name(true) + many;
            usage += option->get_required() ? " " + name : " [" + name + "]";
        } else
            anyOption = true;
    page.paragraph("Usage: " + usage + (anyOption ? " [options]" : ""));
    page.blank();
    page.paragraph(app.get_description());
    page.blank();
    for (const bool positional : {true, false})
        for (const CLI::Option* option : app.get_options())
            if (option->get_positional() == positional) printOption(page, *option);
    if (!app.get_footer().empty()) {
        page.blank();
        page.paragraph(app.get_footer());
    }
}

void printCommands(World& world) {
    Page page(world.out, world.styled);
    page.paragraph("Usage: cistern COMMAND [arguments]");
    page.blank();
    for (const Command& command : commands())
        page.hanging(std::string(command.name), std::string(command.summary), 12);
    page.blank();
    page.paragraph("cistern COMMAND --help tells more about one of them; cistern --version gives "
                   "the version; cistern alone lists the cases. FILE is a path, or the bare name "
                   "of a case that came with the program. Times are written with their unit: 36h, "
                   "14d, \"-2 h\".");
    page.blank();
    page.paragraph("Exit code: 0 done, 1 could not, 2 wrong input or usage.");
    page.blank();
    page.caution();
}

/// An empty value is a slip of a script, not a wish for what is left out.
void needValues(const CLI::App& app) {
    for (const CLI::Option* option : app.get_options())
        for (const std::string& value : option->results())
            if (value.empty())
                throw UsageError(
                    (option->get_positional() ? option->get_name(true) : option->get_name()) +
                    " is empty.");
}

/// Does what the line asks, or throws.
int obey(const std::vector<std::string>& arguments, World& world) {
    if (arguments.empty()) return about(world);
    const std::string& first = arguments.front();
    const bool alone = arguments.size() == 1;
    if (first == "--help" || first == "-h" || first == "help") {
        if (!alone && first != "help") throw UsageError("--help stands alone, or after a command.");
        if (!alone) return obey({arguments[1], "--help"}, world);
        printCommands(world);
        return done;
    }
    if (first == "--version") {
        if (!alone) throw UsageError("--version stands alone.");
        world.out << "cistern " << CISTERN_VERSION << "\n";
        return done;
    }
    if (first.starts_with("-")) {
        const std::vector<std::string> names = {"--help", "--version"};
        const std::string near = base::nearest(first, names);
        throw UsageError("There is no option \"" + first + "\" without a command; " +
                         (near.empty() ? "there are --help and --version."
                                       : "perhaps you mean \"" + near + "\"."));
    }
    const auto command = std::find_if(commands().begin(), commands().end(),
                                      [&](const Command& one) { return one.name == first; });
    if (command == commands().end()) throw UsageError(commandNamed(first));

    CLI::App app(std::string(command->summary), "cistern " + first);
    app.set_help_flag("-h,--help", "This text.");
    const Job job = command->declare(app);
    try {
        app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend() - 1));
    } catch (const CLI::CallForHelp&) {
        printHelp(app, world);
        return done;
    } catch (const CLI::ParseError& error) {
        throw UsageError(sentence(app, error) + " See cistern " + first + " --help.");
    }
    needValues(app);
    return job(world);
}

} // namespace

Option optionsOf(CLI::App& app) {
    return [&app](const char* name, std::string& value, const char* what, const char* type) {
        app.add_option(name, value, what)->type_name(type);
    };
}

const std::vector<Command>& commands() {
    static const std::vector<Command> all = {
        {"cases", "Lists the cases at hand.", declareCases},
        {"check", "Checks scenario files and tells what is true in them.", declareCheck},
        {"play", "Works a case at the prompt, from the bedside to the marks.", declarePlay},
        {"run", "Prints the laboratory's reports for the draws of a case.", declareRun},
        {"course", "Prints the truth of a case over time.", declareCourse},
        {"vessel", "Draws an organ of a case: its leak, its work, the level.", declareVessel},
        {"film", "Shows the blood film of a draw, field by field.", declareFilm},
        {"cells", "Shows every class of cell of a blood film, and what decides.", declareCells},
        {"weigh", "Tells what the data of a case hold: weights, leak and work.", declareWeigh},
        {"herd", "Looks at many animals at once, true and measured.", declareHerd},
        {"control", "Reads control materials run by run and judges them.", declareControl},
        {"sources", "Lists every parameter with its value, source and standing.", declareSources},
    };
    return all;
}

int runCommandLine(const std::vector<std::string>& arguments, World& world) {
    const auto tell = [&](const std::string& sentence, int code) {
        world.out.flush();
        world.err << "cistern: " << sentence << "\n";
        return code;
    };
    int code = done;
    try {
        code = obey(arguments, world);
    } catch (const base::InputError& error) {
        world.out.flush();
        std::string text = error.what();
        if (!text.ends_with("\n")) text += "\n";
        world.err << text;
        return wrongInput;
    } catch (const UsageError& error) {
        return tell(error.what(), wrongInput);
    } catch (const body::BeyondLife& error) {
        return tell(error.what(), wrongInput);
    } catch (const std::bad_alloc&) {
        return tell("There is not enough memory for this; ask for fewer rows or animals.",
                    couldNot);
    } catch (const std::exception& error) {
        return tell(error.what(), couldNot);
    }
    world.out.flush();
    if (!world.out) return tell("The output could not be written to the end.", couldNot);
    return code;
}

} // namespace cistern::terminal
