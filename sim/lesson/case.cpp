#include "lesson/case.h"

#include <algorithm>

namespace cistern::lesson {

namespace {

constexpr double day = 24; // [h]

} // namespace

body::Individual patient(const Case& lesson, const Knowledge& knowledge) {
    return body::individual(knowledge.species(lesson.who.kind), lesson.who);
}

body::Plan plan(const Case& lesson, const Knowledge& knowledge, std::vector<double> looks) {
    const body::Species& species = knowledge.species(lesson.who.kind);
    body::Plan plan;
    plan.animal = patient(lesson, knowledge);
    for (const body::Insult& insult : lesson.insults) {
        const auto windows = body::windows(insult, species);
        plan.windows.insert(plan.windows.end(), windows.begin(), windows.end());
    }
    for (const double at : lesson.meals) plan.windows.push_back(body::meal(at, species));

    std::optional<double> first = firstInsult(lesson);
    if (!looks.empty()) {
        const double look = *std::min_element(looks.begin(), looks.end());
        first = first ? std::min(*first, look) : look;
    }
    plan.from = first.value_or(0) - day;
    plan.looks = std::move(looks);
    return plan;
}

std::optional<double> firstInsult(const Case& lesson) {
    std::optional<double> first;
    const auto consider = [&](double hour) { first = first ? std::min(*first, hour) : hour; };
    for (const body::Insult& insult : lesson.insults) consider(insult.from);
    for (const double at : lesson.meals) consider(at);
    return first;
}

double lastDraw(const Case& lesson) {
    const auto last = std::max_element(lesson.draws.begin(), lesson.draws.end(),
                                       [](const Draw& a, const Draw& b) { return a.at < b.at; });
    return last == lesson.draws.end() ? 0 : last->at;
}

body::Parts partsFor(const std::vector<std::string>& tests, const lab::Bench& bench,
                     body::Kind kind) {
    std::vector<body::Analyte> wanted = bench.analytes(tests, kind);
    // The counter draws all cells of a tube through one hole.
    if (bench.counter && std::any_of(wanted.begin(), wanted.end(), lab::counted))
        wanted.insert(wanted.end(), {body::Analyte::WBC, body::Analyte::platelets});
    // The film made beside it shows more than is counted.
    if (bench.film && std::any_of(wanted.begin(), wanted.end(), lab::counted))
        wanted.insert(wanted.end(), {body::Analyte::globulin, body::Analyte::cholesterol});
    // The serum of every draw is looked at for what makes it yellow or hazy.
    wanted.insert(wanted.end(), {body::Analyte::bilirubin, body::Analyte::triglycerides});
    // What befalls blood on its way to the machine depends on its cells, its sugar and its protein.
    if (bench.specimen)
        wanted.insert(wanted.end(), {body::Analyte::WBC, body::Analyte::platelets,
                                     body::Analyte::protein, body::Analyte::glucose});
    return body::partsFor(wanted);
}

std::vector<body::Snapshot> atDraws(const Case& lesson, const Knowledge& knowledge,
                                    body::Parts parts) {
    std::vector<double> hours; // several draws may share one
    for (const Draw& draw : lesson.draws) hours.push_back(draw.at);
    std::sort(hours.begin(), hours.end());
    hours.erase(std::unique(hours.begin(), hours.end()), hours.end());
    if (hours.empty()) return {};

    body::Plan look = plan(lesson, knowledge, hours);
    look.parts = parts;
    const body::Course course = body::simulate(look);
    std::vector<body::Snapshot> animals;
    for (const Draw& draw : lesson.draws) {
        const auto at = std::lower_bound(hours.begin(), hours.end(), draw.at);
        animals.push_back(course.at(static_cast<std::size_t>(at - hours.begin())));
    }
    return animals;
}

body::RedSigns redSigns(const Case& lesson, const lab::FilmLaws& laws, double hour) {
    body::RedSigns signs;
    for (const body::Insult& insult : lesson.insults) {
        const double shown = lab::signsShown(laws.red, insult.from, insult.to, hour);
        for (const body::RedSign sign : body::redSigns()) // insults know nothing of one another
            signs.of(sign) = 1 - (1 - signs.of(sign)) * (1 - shown * insult.film.of(sign));
    }
    return signs;
}

lab::Specimen specimen(const Case& lesson, std::size_t draw, const lab::Handling& handling) {
    lab::Specimen specimen;
    specimen.id = std::to_string(lesson.who.seed) + "-" + std::to_string(draw + 1);
    specimen.hour = lesson.draws.at(draw).at;
    specimen.handling = handling;
    return specimen;
}

lab::Report report(const Case& lesson, const Knowledge& knowledge, const body::Individual& animal,
                   const body::Snapshot& truth, std::size_t draw,
                   const std::vector<std::string>& tests, const lab::Handling& handling) {
    lab::Specimen tube = specimen(lesson, draw, handling);
    if (knowledge.bench.film) tube.signs = redSigns(lesson, *knowledge.bench.film, tube.hour);
    return lab::measure(knowledge.bench, animal, truth, tube, tests, draw, lesson.machine);
}

lab::Report report(const Case& lesson, const Knowledge& knowledge, const body::Individual& animal,
                   const body::Snapshot& truth, std::size_t draw,
                   const std::vector<std::string>& tests) {
    return report(lesson, knowledge, animal, truth, draw, tests, lesson.draws.at(draw).handling);
}

} // namespace cistern::lesson
