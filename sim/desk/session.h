#pragma once
#include "desk/kept.h"
#include "lesson/beside.h"
#include "lesson/lesson.h"
#include "scenario/assets.h"
#include "scenario/set.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace cistern::desk {

/// The pages, in the order of the rail; the last two stand beside a lesson.
enum class PageName { shelf, bedside, bench, report, film, reading, cutaway, counter, classroom };
inline constexpr int pageCount = 9;
std::string_view name(PageName page); // "Shelf", "Bedside", ...

/// A case on the shelf, and how far a lesson with it has come.
struct Shelved {
    std::string path, name, title, level, complaint, patient, who;
    body::Kind kind{};
    std::uint64_t seed = 0; ///< the case's own animal
    int minutes = 0;
    std::vector<std::string> aims;
};

/// What all pages share: what is known, the lesson that is open, the settings, and what was last
/// said. Pages act on it; it draws nothing.
class Session {
public:
    /// Reads assets, settings and shelf. Throws as scenario::loadAssets.
    explicit Session(const Outside& outside);

    const scenario::Assets& assets() const { return assets_; }
    const lesson::Knowledge& knowledge() const { return assets_.knowledge; }
    const std::vector<Shelved>& shelf() const { return shelf_; }
    /// Paths of the sets that came with the program.
    std::vector<std::string> sets() const;
    scenario::Set readSet(const std::string& path) const;
    const base::Files& files() const { return *files_; }
    Keeping& keeping() { return keeping_; }
    /// Lessons kept, read again once one has been kept since.
    const std::vector<KeptLesson>& kept();
    /// The one with this animal; null if there is none.
    const KeptLesson* kept(const std::string& name, std::uint64_t seed);

    const Settings& settings() const { return settings_; }
    /// Changes the settings and keeps them.
    void set(const Settings& settings);

    /// Opens a case with its own animal or another; a lesson that was begun with it goes on, unless
    /// `anew`. Throws as scenario::readCase.
    void open(const std::string& path, std::optional<std::uint64_t> seed = std::nullopt,
              bool anew = false);
    bool hasLesson() const { return lesson_.has_value(); }
    /// The lesson that is open. Throws std::bad_optional_access if none is.
    const lesson::Lesson& lesson() const { return lesson_.value(); }
    const std::string& casePath() const { return path_; }
    /// Counts the lessons opened, so that a page sees that its own is gone.
    unsigned lessonNumber() const { return lessonNumber_; }
    /// Does an action of the lesson on a page where it is allowed, and keeps the lesson. A refusal
    /// is said, and false returned.
    bool act(const lesson::Action& action, lesson::Stage stage);
    /// Several actions that are one change to the learner, and are taken back together.
    bool act(const std::vector<lesson::Action>& actions, lesson::Stage stage);
    void undo();
    /// What was counted on the film of a draw, as text; kept beside the lesson.
    std::string film(std::size_t draw) const;
    void keepFilm(std::size_t draw, const std::string& text);
    /// Commits to the reading and turns to the cutaway.
    bool commit();
    /// The ideal reader at work beside the learner. Puts its sheet among the marks once it is
    /// ready; true if it just did.
    bool compareIfReady();
    lesson::ReaderBeside& reader() { return *reader_; }

    PageName page() const { return page_; }
    /// Turns to a page, or says why not.
    void go(PageName page);
    /// Why a page cannot be opened now; empty if it can.
    std::string closed(PageName page) const;

    /// One sentence for the person, until the next is said; empty clears it.
    void say(std::string sentence) { said_ = std::move(sentence); }
    const std::string& said() const { return said_; }

private:
    void keepLesson();

    std::string said_; ///< before the settings, which may have something to say
    Keeping keeping_;
    base::Files* files_;
    std::string data_;
    scenario::Assets assets_;
    Settings settings_;
    std::vector<Shelved> shelf_;
    std::unique_ptr<lesson::Case> subject_;
    std::optional<lesson::Lesson> lesson_;
    std::optional<lesson::ReaderBeside> reader_{std::in_place}; ///< reads from the lesson
    std::vector<std::size_t> changes_; ///< how many actions made each change, since it was opened
    std::string path_;
    PageName page_ = PageName::shelf;
    std::optional<std::vector<KeptLesson>> kept_;
    unsigned lessonNumber_ = 0;
};

} // namespace cistern::desk
