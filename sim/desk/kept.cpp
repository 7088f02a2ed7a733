#include "desk/kept.h"

#include "base/fault.h"
#include "lesson/record.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace cistern::desk {

namespace {

using nlohmann::json;

constexpr std::size_t mostRecord = 8u << 20; // a lesson of many thousand changes

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
                   {"projector", settings.projector}};
    outside_.files->write(outside_.settingsFolder + "/settings.json", all.dump(2) + "\n");
}

std::string Keeping::path(const std::string& name, std::uint64_t seed) const {
    return outside_.lessonsFolder + "/" + name + "." + std::to_string(seed) + ".json";
}

std::string Keeping::lesson(const std::string& name, std::uint64_t seed) const {
    if (outside_.lessonsFolder.empty()) return "";
    const std::string wanted = path(name, seed);
    const auto kept = outside_.files->list(outside_.lessonsFolder, ".json");
    if (std::find(kept.begin(), kept.end(), wanted) == kept.end()) return "";
    return outside_.files->read(wanted, mostRecord);
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
        try {
            const json all = json::parse(outside_.files->read(path, mostRecord));
            KeptLesson one{
                all.at("case").get<std::string>(), all.at("seed").get<std::uint64_t>(), false, {}};
            if (const json& marks = all.at("marks"); !marks.is_null()) {
                one.finished = true;
                one.total = marks.at("learner").at("total").get<double>();
            }
            out.push_back(one);
        } catch (const std::exception&) {
            // Not a record of ours, or a spoiled one: opening its case says so.
        }
    }
    return out;
}

} // namespace cistern::desk
