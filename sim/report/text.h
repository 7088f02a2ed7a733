#pragma once
#include "lab/report.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace cistern::report {

/// Stands on every report.
inline constexpr std::string_view caution =
    "Invented animal, for teaching. Not for diagnosing or treating. A licensed veterinarian "
    "decides.";

/// Who a report is about.
struct Patient {
    std::string name;
    body::Signalment who;
};

/// How several draws are laid out: in columns of one table, or one table after another with the
/// analyzer's doubt beside each result.
enum class Draws { together, apart };

/// The laboratory's report for the terminal: UTF-8, lines of 80 cells at most, each ended. `within`
/// is the species' day-to-day coefficient of variation by analyte, against which a result counts as
/// moved since the draw before. Reports in the order of their draws.
std::string laboratoryReport(const Patient& patient, const std::vector<lab::Report>& reports,
                             const lab::Bench& bench,
                             const std::array<double, body::analyteCount>& within, lab::Units units,
                             Draws layout = Draws::together);

std::string_view name(lab::Units units); // "conventional", "si", as the commands spell them

/// "spayed female", as scenario files spell it.
std::string_view name(body::Sex sex);

/// "dog, spayed female, 9 y, 18 kg"; the young in weeks or months.
std::string signalment(const body::Signalment& who);

/// "36 h", "960 h (40 d)".
std::string shownTime(double hour);

} // namespace cistern::report
