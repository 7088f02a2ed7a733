#pragma once
#include "base/file.h"
#include "lab/report.h"
#include "lesson/film_tally.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace cistern::lesson {
class Lesson;
}

namespace cistern::desk {

/// What the desk touches outside itself.
struct Outside {
    base::Files* files = nullptr;
    std::vector<std::string> data; ///< where assets/ and scenarios/ may be, for base::dataFolder
    /// Folders for settings and lessons, which must be there; empty: nothing is kept.
    std::string settingsFolder, lessonsFolder;
};

/// How a person likes the desk.
struct Settings {
    double textScale = 1; ///< 0.8 to 2
    lab::Units units = lab::Units::conventional;
    bool still = false;       ///< nothing moves that need not
    bool projector = false;   ///< large letters, one idea a screen
    lesson::TallyKeys keys{}; ///< of a tally of white cells
    std::string drill{};      ///< of single cells: how far it has come, FilmDrill::text()
    bool operator==(const Settings&) const = default;
};
inline constexpr double leastTextScale = 0.8, mostTextScale = 2;

/// How far a kept lesson has come.
struct KeptLesson {
    std::string name; ///< of the case
    std::uint64_t seed = 0;
    bool spoiled = false; ///< it cannot be read: opening it says why
    bool finished = false;
    std::optional<double> total; ///< the learner's marks, once finished
};

/// Settings and lessons on disk, each file written whole or not at all.
class Keeping {
public:
    explicit Keeping(const Outside& outside) : outside_(outside) {}

    /// Those kept, or plain ones where there are none or they cannot be read; `said` tells why.
    Settings settings(std::string& said) const;
    void keep(const Settings& settings);

    /// The record of a lesson with this animal; empty if there is none.
    std::string lesson(const std::string& name, std::uint64_t seed) const;
    void keep(const lesson::Lesson& lesson);
    std::string path(const std::string& name, std::uint64_t seed) const;
    /// What was counted on the film of one of its draws; empty if there is nothing.
    std::string film(const std::string& name, std::uint64_t seed, std::size_t draw) const;
    void keepFilm(const std::string& name, std::uint64_t seed, std::size_t draw,
                  const std::string& text);
    /// All that are kept.
    std::vector<KeptLesson> lessons() const;

private:
    Outside outside_;
    std::string read(const std::string& path, const std::string& ending) const;
};

} // namespace cistern::desk
