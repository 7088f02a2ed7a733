#include "desk/session.h"

#include "base/fault.h"
#include "lesson/record.h"
#include "report/text.h"

#include <algorithm>
#include <array>

namespace cistern::desk {

namespace {

constexpr std::array<std::string_view, pageCount> pageNames{
    "Shelf", "Bedside", "Bench", "Report", "Film", "Reading", "Cutaway", "Counter", "Class"};

Shelved shelved(const std::string& path, const lesson::Case& one) {
    return {path,
            one.name,
            one.title,
            one.level,
            one.complaint,
            one.patient,
            report::signalment(one.who),
            one.who.kind,
            one.who.seed,
            one.minutes,
            one.aims};
}

/// True of what Undo takes back.
bool changes(const lesson::Action& action) {
    return !std::holds_alternative<lesson::Go>(action) &&
           !std::holds_alternative<lesson::Back>(action) &&
           !std::holds_alternative<lesson::Undo>(action) &&
           !std::holds_alternative<lesson::Commit>(action);
}

} // namespace

std::string_view name(PageName page) {
    return pageNames.at(static_cast<std::size_t>(page));
}

Session::Session(const Outside& outside)
    : keeping_(outside),
      files_(outside.files),
      data_(base::dataFolder(outside.data)),
      assets_(scenario::loadAssets(*files_, data_ + "/assets")),
      settings_(keeping_.settings(said_)) {
    for (const std::string& path : files_->list(data_ + "/scenarios", ".yaml"))
        shelf_.push_back(shelved(path, scenario::readCase(*files_, path, knowledge())));
}

std::vector<std::string> Session::sets() const {
    return files_->list(data_ + "/scenarios/sets", ".yaml");
}

scenario::Set Session::readSet(const std::string& path) const {
    return scenario::readSet(*files_, path, {data_ + "/scenarios"});
}

void Session::set(const Settings& settings) {
    if (settings == settings_) return;
    settings_ = settings;
    keeping_.keep(settings_);
}

void Session::open(const std::string& path, std::optional<std::uint64_t> seed, bool anew) {
    auto subject =
        std::make_unique<lesson::Case>(scenario::readCase(*files_, path, knowledge(), seed));
    const std::string record = anew ? "" : keeping_.lesson(subject->name, subject->who.seed);
    std::optional<lesson::Lesson> lesson;
    if (record.empty())
        lesson.emplace(*subject, knowledge());
    else {
        lesson::Replay again = lesson::replay(
            record, keeping_.path(subject->name, subject->who.seed), *subject, knowledge());
        if (!again.sameMarks)
            say("This lesson was kept with other marks: the case or the program has changed "
                "since.");
        lesson.emplace(std::move(again.lesson));
    }
    reader_.emplace(); // the old one read from the lesson that goes
    lesson_ = std::move(lesson);
    changes_.clear();
    subject_ = std::move(subject);
    path_ = path;
    ++lessonNumber_;
    page_ = lesson_->committed() ? PageName::cutaway : PageName::bedside;
    if (lesson_->committed()) reader_->begin(*lesson_);
}

bool Session::act(const lesson::Action& action, lesson::Stage stage) {
    if (!lesson_) return false;
    try {
        const bool turn = lesson_->stage() != stage && !lesson_->committed();
        if (turn) lesson_->apply(lesson::Go{stage});
        lesson_->apply(action);
        if (changes(action)) changes_.push_back(1);
        say("");
    } catch (const lesson::Refusal& refusal) {
        say(refusal.what());
        return false;
    }
    keepLesson();
    return true;
}

bool Session::act(const std::vector<lesson::Action>& actions, lesson::Stage stage) {
    const std::size_t before = changes_.size();
    const bool done = std::all_of(actions.begin(), actions.end(),
                                  [&](const lesson::Action& one) { return act(one, stage); });
    const std::size_t made = changes_.size() - before;
    changes_.resize(before);
    if (made > 0) changes_.push_back(made);
    return done;
}

const std::vector<KeptLesson>& Session::kept() {
    if (!kept_) kept_ = keeping_.lessons();
    return *kept_;
}

const KeptLesson* Session::kept(const std::string& name, std::uint64_t seed) {
    for (const KeptLesson& one : kept())
        if (one.name == name && one.seed == seed) return &one;
    return nullptr;
}

void Session::keepLesson() {
    kept_.reset();
    try {
        keeping_.keep(*lesson_);
    } catch (const std::runtime_error& error) {
        say(std::string("The lesson could not be kept: ") + error.what());
    }
}

std::string Session::film(std::size_t draw) const {
    const lesson::Case& one = lesson().subject();
    return keeping_.film(one.name, one.who.seed, draw);
}

void Session::keepFilm(std::size_t draw, const std::string& text) {
    const lesson::Case& one = lesson().subject();
    try {
        keeping_.keepFilm(one.name, one.who.seed, draw, text);
    } catch (const std::runtime_error& error) {
        say(std::string("The tally could not be kept: ") + error.what());
    }
}

void Session::undo() {
    if (!lesson_) return;
    std::size_t actions = 1; // of a change made before the lesson was opened here
    if (!changes_.empty()) {
        actions = changes_.back();
        changes_.pop_back();
    }
    for (; actions > 0 && act(lesson::Undo{}, lesson_->stage()); --actions) {
    }
}

bool Session::commit() {
    if (!lesson_) return false;
    reader_->begin(*lesson_);
    if (!act(lesson::Commit{}, lesson::Stage::reading)) return false;
    page_ = PageName::cutaway;
    return true;
}

bool Session::compareIfReady() {
    if (!lesson_ || !lesson_->committed() || lesson_->ideal() || !reader_->ready()) return false;
    reader_->compare(*lesson_);
    return true;
}

std::string Session::closed(PageName page) const {
    switch (page) {
    case PageName::shelf:
    case PageName::counter:
    case PageName::classroom:
        return "";
    case PageName::bedside:
    case PageName::bench:
        return lesson_ ? "" : "Choose a case on the shelf first.";
    case PageName::report:
    case PageName::film:
    case PageName::reading:
        if (!lesson_) return "Choose a case on the shelf first.";
        return lesson_->taken().empty() ? "Nothing was drawn: choose at least one test first." : "";
    case PageName::cutaway:
        break;
    }
    if (!lesson_) return "Choose a case on the shelf first.";
    return lesson_->committed() ? "" : "The animal is opened once you have committed to a reading.";
}

void Session::go(PageName page) {
    say(closed(page));
    if (!said_.empty()) return;
    page_ = page;
    if (page == PageName::reading && !lesson_->committed()) reader_->begin(*lesson_);
}

} // namespace cistern::desk
