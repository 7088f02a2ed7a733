#pragma once
#include "body/names.h"

#include <optional>
#include <span>
#include <string>
#include <utility>

namespace cistern::lesson {

/// A usual field of the oil lens: field number 20 at 100x, 200 um across [um2].
inline constexpr double usualField = 31416;
/// Fields from which platelets may be estimated. Common practice: ten.
inline constexpr int enoughFields = 10;

/// What was counted in one field, platelets or one form of red cells.
struct FieldCount {
    double area = usualField; ///< [um2], > 0
    int cells = 0;
};

/// Mean of a usual field, with exact 95 % limits of a count (Poisson).
struct FieldMean {
    int fields = 0, cells = 0;
    double mean = 0;
    std::pair<double, double> limits;
    bool enough() const { return fields >= enoughFields; }
};
/// Throws std::invalid_argument for no field, an area that is not above 0, or a negative count.
FieldMean fieldMean(std::span<const FieldCount> fields);

/// Platelets as estimated from fields [10*9/L].
struct PlateletFields {
    FieldMean field;
    double low = 0, high = 0;         ///< 15 and 20 for each in a field
    std::pair<double, double> limits; ///< 15 times the lower, 20 times the upper limit of the mean
    std::string sentence;
};
PlateletFields plateletFields(std::span<const FieldCount> fields);

/// Grade 0..4 of polychromasia by the mean of a usual field, rounded to a whole cell. Dog 2-7,
/// 8-14, 15-29, 30 on; cat 1-2, 3-8, 9-15, 16 on. Weiss 1984, Vet Clin Pathol (from memory).
int polychromasiaGrade(double perField, body::Kind kind);
/// Grade 0..4 of spherocytes in dogs: 1-10, 11-50, 51-150, and beyond (inclusion text of a trial
/// in immune-mediated anemia, which ends at 150). Nothing in cats: they are not judged there.
std::optional<int> spherocyteGrade(double perField, body::Kind kind);
/// "none", "slight (1+)", "moderate (2+)", "marked (3+)", "very marked (4+)". Throws
/// std::invalid_argument for another.
std::string gradeWords(int grade);

struct GradeMark {
    double points = 0; ///< 100 right, 50 one step off, else 0
    std::string sentence;
};
GradeMark gradeMark(int said, int truly);

} // namespace cistern::lesson
