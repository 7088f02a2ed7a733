#include "desk/kept.h"

#include "base/fault.h"
#include "lesson/film_drill.h"
#include "lesson/record.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <charconv>

namespace cistern::desk {

namespace {

using nlohmann::json;

constexpr std::size_t mostRecord = 8u << 20; // a lesson of many thousand changes

constexpr const char* filmEnding = ".film";

/// NAME.SEED.DRAW.film, draws from 1.
std::string filmPath(const std::string& folder, const std::string& name, std::uint64_t seed,
                     std::size_t draw) {
    return folder + "/" + name + "." + std::to_string(seed) + "." + std::to_string(draw + 1) +
           filmEnding;
}

/// The lesson that a file is named for: NAME.SEED.json.
std::optional<KeptLesson> named(const std::string& path) {
    const std::string file = path.substr(path.find_last_of('/') + 1);
    const std::string stem = file.substr(0, file.rfind('.'));
    const std::size_t dot = stem.rfind('.');
    if (dot == std::string::npos) return std::nullopt;
    KeptLesson one;
    one.name = stem.substr(0, dot);
    const char *from = stem.data() + dot + 1, *end = stem.data() + stem.size();
    const auto [at, error] = std::from_chars(from, end, one.seed);
    return error == std::errc{} && at == end ? std::optional(one) : std::nullopt;
}

} // namespace

Settings Keeping::settings(std::string& said) const {
    Settings out;
    if (outside_.settingsFolder.empty()) return out;
    const std::string path = outside_.settingsFolder + "/settings.json";
    if (outside_.files->list(outside_.settingsFolder, "settings.json").empty()) return out;
    try {
        const json all = json::parse(outside_.files->read(path));
        out.textScale =
            std::clamp(all.at("text scale").get<double>(), leastTextScale, mostTextScale);
        out.units = all.at("units") == "si" ? lab::Units::si : lab::Units::conventional;
        out.still = all.at("still").get<bool>();
        out.projector = all.at("projector").get<bool>();
        if (all.contains("tally keys")) // since the film is drawn
            out.keys = lesson::tallyKeys(all.at("tally keys").get<std::string>());
        if (all.contains("drill")) {
            out.drill = all.at("drill").get<std::string>();
            if (!out.drill.empty()) lesson::FilmDrill::read(out.drill);
        }
        return out;
    } catch (const std::exception&) {
        said = path + " cannot be read as settings; plain ones are used until you change one.";
        return Settings{};
    }
}

void Keeping::keep(const Settings& settings) {
    if (outside_.settingsFolder.empty()) return;
    const json all{{"cistern settings", 1},
                   {"text scale", settings.textScale},
                   {"units", settings.units == lab::Units::si ? "si" : "conventional"},
                   {"still", settings.still},
                   {"projector", settings.projector},
                   {"tally keys", lesson::toText(settings.keys)},
                   {"drill", settings.drill}};
    outside_.files->write(outside_.settingsFolder + "/settings.json", all.dump(2) + "\n");
}

std::string Keeping::path(const std::string& name, std::uint64_t seed) const {
    return outside_.lessonsFolder + "/" + name + "." + std::to_string(seed) + ".json";
}

std::string Keeping::lesson(const std::string& name, std::uint64_t seed) const {
    return read(path(name, seed), ".json");
}

std::string Keeping::read(const std::string& path, const std::string& ending) const {
    if (outside_.lessonsFolder.empty()) return "";
    const auto kept = outside_.files->list(outside_.lessonsFolder, ending);
    if (std::find(kept.begin(), kept.end(), path) == kept.end()) return "";
    return outside_.files->read(path, mostRecord);
}

std::string Keeping::film(const std::string& name, std::uint64_t seed, std::size_t draw) const {
    return read(filmPath(outside_.lessonsFolder, name, seed, draw), filmEnding);
}

void Keeping::keepFilm(const std::string& name, std::uint64_t seed, std::size_t draw,
                       const std::string& text) {
    if (outside_.lessonsFolder.empty()) return;
    outside_.files->write(filmPath(outside_.lessonsFolder, name, seed, draw), text);
}

void Keeping::keep(const lesson::Lesson& lesson) {
    if (outside_.lessonsFolder.empty()) return;
    outside_.files->write(path(lesson.subject().name, lesson.subject().who.seed),
                          lesson::toJson(lesson).dump(2) + "\n");
}

std::vector<KeptLesson> Keeping::lessons() const {
    std::vector<KeptLesson> out;
    if (outside_.lessonsFolder.empty()) return out;
    for (const std::string& path : outside_.files->list(outside_.lessonsFolder, ".json")) {
        auto one = named(path);
        if (!one) continue; // not a record of ours
        try {
            const json marks = json::parse(outside_.files->read(path, mostRecord)).at("marks");
            one->finished = !marks.is_null();
            if (one->finished) one->total = marks.at("learner").at("total").get<double>();
        } catch (const std::exception&) {
            one->spoiled = true;
        }
        out.push_back(*one);
    }
    return out;
}

} // namespace cistern::desk
