#include "base/fault.h"
#include "base/text.h"
#include "lesson/record.h"
#include "terminal/beside.h"
#include "terminal/commands.h"
#include "terminal/input.h"
#include "terminal/pages.h"
#include "terminal/sitting.h"

#include <CLI/CLI.hpp>
#include <nlohmann/json.hpp>

#include <memory>
#include <optional>
#include <ostream>

namespace cistern::terminal {

namespace {

struct Wanted {
    std::string file, answers, record, units = "conventional";
};

std::string text(const lesson::Lesson& lesson) {
    return lesson::toJson(lesson).dump(2) + "\n";
}

/// What stands in a record file: nothing if there is none, or an empty one.
std::string recorded(const World& world, const std::string& path) {
    constexpr std::size_t most = 8u << 20; // a lesson of many thousand changes
    return path.empty() || !exists(world, path) ? "" : world.files.read(path, most);
}

void tryNext(Page& page, const World& world, const std::string& file, const lesson::Case& one) {
    page.heading("What to try next");
    const auto offer = [&](const std::string& command, const std::string& what) {
        page.paragraph(what, 2);
        page.line("    " + command);
    };
    offer("cistern course " + file + " --every 6h",
          "The whole truth of this animal over time, as a table or (--format svg) a drawing:");
    offer("cistern run " + file + " --seed " + std::to_string(one.who.seed + 1),
          "The same story in another animal:");
    const std::vector<std::string> paths = shippedCases(world);
    for (std::size_t i = 0; i < paths.size(); ++i)
        if (stem(paths[i]) == one.name && paths.size() > 1)
            offer("cistern play " + stem(paths[(i + 1) % paths.size()]), "Another case:");
    page.blank();
    page.caution();
}

/// Nobody to ask: the case, its report, the questions, and how they can be answered.
int show(World& world, const Wanted& wanted, const lesson::Lesson& lesson) {
    const lab::Units units = readUnits(wanted.units);
    Page page(world.out, world.styled);
    bedsidePage(page, lesson.subject());
    reportPage(page, world.out, lesson, units);
    questionsPage(page, lesson);
    page.heading("How to answer");
    page.paragraph("At a terminal, \"cistern play " + wanted.file +
                   "\" asks the questions one by one. Without one, write the answers into a file "
                   "such as answers.json, then: cistern play " +
                   wanted.file + " --answers answers.json");
    page.paragraph("Such a file, to be filled with your own reading:");
    page.blank();
    std::string example = lesson::exampleAnswers(lesson);
    if (!example.ends_with("\n")) example += "\n";
    world.out << example;
    if (!wanted.record.empty()) world.err << "Nothing was answered, so no record was written.\n";
    return done;
}

int scripted(World& world, const Wanted& wanted, lesson::Lesson& lesson) {
    const lab::Units units = readUnits(wanted.units);
    const auto actions = lesson::readAnswers(world.files.read(wanted.answers), wanted.answers,
                                             lesson.subject(), lesson.knowledge());
    for (const lesson::Action& action : actions) lesson.apply(action);
    if (!wanted.record.empty()) {
        const std::string before = recorded(world, wanted.record);
        if (!before.empty() && before != text(lesson))
            throw UsageError(wanted.record + " holds something else already; give another name, "
                                             "or remove it first.");
        world.files.write(wanted.record, text(lesson));
    }
    lesson::ReaderBeside reader;
    compare(world, reader, lesson);
    Page page(world.out, world.styled);
    bedsidePage(page, lesson.subject());
    reportPage(page, world.out, lesson, units);
    readingPage(page, lesson);
    cutawayPage(page, lesson, units);
    marksPage(page, lesson, units);
    tryNext(page, world, wanted.file, lesson.subject());
    if (!wanted.record.empty()) world.err << "The record is in " << wanted.record << ".\n";
    return done;
}

/// A name for a record that no file has yet.
std::string freeName(const World& world, const std::string& stem) {
    std::string name = stem + ".record.json";
    for (int i = 2; exists(world, name); ++i)
        name = stem + "-" + std::to_string(i) + ".record.json";
    return name;
}

/// Saves where the person says; tries again where that cannot be.
void saveAsked(World& world, Prompt& prompt, const lesson::Lesson& lesson) {
    const std::string offered = freeName(world, lesson.subject().name);
    for (;;) {
        const std::string path =
            prompt.ask("Save the record as (\"no\" leaves it)", offered,
                       "The record holds every step of this lesson; with --record and its name "
                       "the same command goes on from there.");
        if (path == "no") return;
        try {
            if (path != offered && !recorded(world, path).empty())
                throw UsageError(path + " holds something already.");
            world.files.write(path, text(lesson));
            world.out << "The record is in " << path << ".\n";
            return;
        } catch (const std::runtime_error& error) {
            prompt.object(error.what());
        }
    }
}

/// The end of a sitting with no record named: asks, or after the end of the input saves unasked.
void saveUnnamed(World& world, const lesson::Lesson& lesson, bool canAsk) {
    if (lesson.actions().empty()) return;
    try {
        Prompt prompt(world);
        if (canAsk) return saveAsked(world, prompt, lesson);
    } catch (const StepBack&) {
        return;
    } catch (const Leave& leave) {
        if (leave.asked) return;
    }
    const std::string path = freeName(world, lesson.subject().name);
    world.files.write(path, text(lesson));
    world.out << "The record is in " << path << ".\n";
}

int sit(World& world, const Wanted& wanted, const lesson::Case& subject,
        const lesson::Knowledge& knowledge) {
    lab::Units units = readUnits(wanted.units);
    Page page(world.out, world.styled);
    const std::string before = recorded(world, wanted.record);
    bool sameMarks = true;
    std::optional<lesson::Lesson> lesson;
    if (before.empty())
        lesson.emplace(subject, knowledge);
    else {
        lesson::Replay again = lesson::replay(before, wanted.record, subject, knowledge);
        sameMarks = again.sameMarks;
        lesson.emplace(std::move(again.lesson));
    }
    const bool finished = lesson->committed();
    const auto save = [&] {
        if (!wanted.record.empty() && !finished) world.files.write(wanted.record, text(*lesson));
    };
    if (finished)
        page.paragraph("This lesson is finished: here are its marks once more. Another --record "
                       "begins the case anew.");
    if (!sameMarks)
        world.err << wanted.record
                  << " holds other marks than this program gives: the case or "
                     "the program has changed since.\n";
    try {
        Sitting sitting(world, page, *lesson, units, save);
        sitting.work();
        tryNext(page, world, wanted.file, subject);
        if (wanted.record.empty()) saveUnnamed(world, *lesson, true);
    } catch (const Leave& leave) {
        save();
        if (wanted.record.empty()) saveUnnamed(world, *lesson, leave.asked);
    }
    if (!wanted.record.empty() && !finished)
        world.out << "The record is in " << wanted.record << ".\n";
    return done;
}

int play(World& world, const Wanted& wanted) {
    readUnits(wanted.units);
    const scenario::Assets assets = loadAssets(world);
    const lesson::Case subject =
        scenario::readCase(world.files, casePath(world, wanted.file), assets.knowledge);
    if (!wanted.answers.empty() || !world.interactive) {
        lesson::Lesson lesson(subject, assets.knowledge);
        return wanted.answers.empty() ? show(world, wanted, lesson)
                                      : scripted(world, wanted, lesson);
    }
    return sit(world, wanted, subject, assets.knowledge);
}

} // namespace

Job declarePlay(CLI::App& app) {
    const auto wanted = std::make_shared<Wanted>();
    app.add_option("FILE", wanted->file, "A scenario file, or the bare name of a case.")
        ->required();
    app.add_option("--answers", wanted->answers, "Answers as JSON: the lesson runs without asking.")
        ->type_name("FILE");
    app.add_option("--record", wanted->record,
                   "Keeps the lesson in this file; an unfinished one is gone on with.")
        ->type_name("FILE");
    app.add_option("--units", wanted->units, "conventional (left out) or si.")->type_name("NAME");
    app.footer("In every question ? explains, b goes back, q saves and leaves, r shows the report "
               "again and u switches units. Without a terminal the case and its questions are "
               "printed, with an example of an answers file.");
    return [wanted](World& world) { return play(world, *wanted); };
}

} // namespace cistern::terminal
