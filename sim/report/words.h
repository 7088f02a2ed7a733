#pragma once
#include "lab/specimen/volume.h"
#include "lesson/lesson.h"

#include <string>
#include <string_view>
#include <vector>

/// What every front end says in the same words.
namespace cistern::report {

/// Stands on pages on which blood is taken or handled; `caution` stands on every face.
extern const std::string_view bloodCaution;

/// "bile acids" of "bile_acids".
std::string spoken(std::string_view name);
/// "Liver".
std::string capital(std::string_view text);
/// The same words with their units as people write them: "14 um" is "14 µm", "24 10*9/L" is
/// "24 × 10⁹/L".
std::string shownUnits(std::string text);
/// A number of things: counted(1, "draw") is "1 draw".
std::string counted(std::size_t number, const std::string& thing);
/// A number without trailing zeros, three significant digits.
std::string shownNumber(double value);

/// "Bramble, dog, spayed female, 9 y, 18 kg, body condition 4 of 9, seed 4711".
std::string signalment(const lesson::Case& one);
/// "ascites (moderate)", "body temperature 38.4 °C"; without a word for absence.
std::string shownFinding(const lesson::Finding& finding);
/// "Draw 2 at 72 h (3 d), jugular vein, fasted 12 h".
std::string shownDraw(const lesson::Draw& draw, std::size_t number);
/// An amount of an insult as people write it: "75 %", "0.5 g/kg".
std::string shownSeverity(double severity, const body::InsultKind& kind);
/// "Takes 1.5 mL (serum) of about 310 mL of blood: 0.48 %.", and whether that is much.
std::string volumeWords(const lab::Volume& volume);

// The questions of a reading, and what helps to answer them.
std::string leakQuestion(body::Tissue organ, double hour);
std::string workQuestion(body::Tissue organ, double hour);
extern const std::string_view bandWords, pointsQuestion, nextQuestion, distrustQuestion;
extern const std::string_view leakHelp, workHelp, pointsHelp, nextHelp, distrustHelp;

/// "1.5 fold (0.8 to 3)".
std::string shownBand(const lesson::Band& band, const std::string& unit);

/// "naive" of "the naive reader": four of them and their marks stand side by side.
std::string shortName(std::string reader);
/// "Liver, leak"; "What is going on".
std::string partName(const lesson::Mark& mark);
/// What befell the blood of each draw on its way, and what was wrong with the machines, a line
/// each. For after the commitment.
std::vector<std::string> wayOfTheBlood(const lesson::Lesson& lesson);

} // namespace cistern::report
