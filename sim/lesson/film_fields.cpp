#include "lesson/film_fields.h"

#include "base/statistics.h"
#include "base/text.h"
#include "lab/counter/film.h"

#include <array>
#include <cmath>
#include <cstdlib>
#include <stdexcept>

namespace cistern::lesson {

namespace {

constexpr double confidence = 0.95;
constexpr double fewPlatelets = 15, manyPlatelets = 20; // for each in a field [10*9/L]

/// The grade whose lowest number a whole count reaches; 0 below the first.
int gradeFrom(double perField, const std::array<double, 4>& lowest) {
    const double whole = std::round(perField);
    int grade = 0;
    for (const double from : lowest) grade += whole >= from;
    return grade;
}

std::string tens(double value) {
    return base::rounded(value, value < 100 ? 1 : 10);
}

} // namespace

FieldMean fieldMean(std::span<const FieldCount> fields) {
    if (fields.empty()) throw std::invalid_argument("No field was counted yet.");
    double area = 0;
    FieldMean out;
    for (const FieldCount& field : fields) {
        if (!(field.area > 0 && std::isfinite(field.area)) || field.cells < 0)
            throw std::invalid_argument("A field has an area above 0 and no negative count.");
        area += field.area;
        out.cells += field.cells;
        ++out.fields;
    }
    const double usual = area / usualField; // usual fields that were seen
    const auto [low, high] = base::countLimits(out.cells, confidence);
    out.mean = out.cells / usual;
    out.limits = {low / usual, high / usual};
    return out;
}

PlateletFields plateletFields(std::span<const FieldCount> fields) {
    PlateletFields out;
    out.field = fieldMean(fields);
    out.low = lab::plateletEstimate(out.field.mean, fewPlatelets);
    out.high = lab::plateletEstimate(out.field.mean, manyPlatelets);
    out.limits = {lab::plateletEstimate(out.field.limits.first, fewPlatelets),
                  lab::plateletEstimate(out.field.limits.second, manyPlatelets)};
    out.sentence =
        std::to_string(out.field.cells) + " platelets in " + std::to_string(out.field.fields) +
        (out.field.fields == 1 ? " field" : " fields") + ", " + base::rounded(out.field.mean, 0.1) +
        " in a usual one: about " + tens(out.low) + " to " + tens(out.high) +
        " x 10*9/L; with the luck of the "
        "count " +
        tens(out.limits.first) + " to " + tens(out.limits.second) + "." +
        (out.field.enough()
             ? ""
             : " Count " + std::to_string(enoughFields) + " fields before you trust it.");
    return out;
}

int polychromasiaGrade(double perField, body::Kind kind) {
    constexpr std::array<double, 4> dog{2, 8, 15, 30}, cat{1, 3, 9, 16};
    return gradeFrom(perField, kind == body::Kind::dog ? dog : cat);
}

std::optional<int> spherocyteGrade(double perField, body::Kind kind) {
    constexpr std::array<double, 4> dog{1, 11, 51, 151};
    if (kind != body::Kind::dog) return std::nullopt;
    return gradeFrom(perField, dog);
}

std::string gradeWords(int grade) {
    constexpr std::array<const char*, 5> words{"none", "slight (1+)", "moderate (2+)",
                                               "marked (3+)", "very marked (4+)"};
    if (grade < 0 || grade >= static_cast<int>(words.size()))
        throw std::invalid_argument("A grade lies between 0 and 4.");
    return words[static_cast<std::size_t>(grade)];
}

GradeMark gradeMark(int said, int truly) {
    const std::string named = "You said " + gradeWords(said) + "; ";
    const std::string was = "it is " + gradeWords(truly);
    switch (std::abs(said - truly)) {
    case 0:
        return {100, named + "so it is."};
    case 1:
        return {50, named + was + ", one step off: count the cells in ten fields."};
    default:
        return {0, named + was + ": count the cells in ten fields and take the mean."};
    }
}

} // namespace cistern::lesson
