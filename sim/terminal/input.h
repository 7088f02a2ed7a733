#pragma once
#include "lab/bench.h"
#include "lesson/case.h"
#include "scenario/assets.h"
#include "scenario/set.h"
#include "terminal/world.h"

#include <cstdint>
#include <string>
#include <vector>

namespace cistern::terminal {

/// Everything in the data folder's assets. Throws as base::dataFolder and scenario::loadAssets.
scenario::Assets loadAssets(const World& world);

/// Paths of the cases that came with the program, sorted.
std::vector<std::string> shippedCases(const World& world);

/// Paths of the sets that came with the program, sorted.
std::vector<std::string> shippedSets(const World& world);

/// Reads a set; its cases may also be shipped ones. Throws as scenario::readSet.
scenario::Set readSet(const World& world, const std::string& path);

/// "the_biscuit_thief" of "scenarios/the_biscuit_thief.yaml".
std::string stem(const std::string& path);

/// The path that a FILE argument means: itself, or the case of that bare name. Throws UsageError
/// with the nearest name if it is neither.
std::string casePath(const World& world, const std::string& file);
/// The same where a set may be meant as well; a case comes first.
std::string setOrCasePath(const World& world, const std::string& file);

/// The case that a FILE argument means; if `seed` is not empty, of that animal. Throws as
/// casePath(), readSeed() and scenario::readCase.
lesson::Case readCase(const World& world, const lesson::Knowledge& knowledge,
                      const std::string& file, const std::string& seed = "");

/// Puts an outcome where --out says: into that file, whole or not at all, or if that is empty to
/// the screen.
void deliver(World& world, const std::string& out, const std::string& text);

/// True if a regular file of this name is there.
bool exists(const World& world, const std::string& path);

// What options hold, as text, to what they mean. `option` names it in the UsageError.

/// A time or span with its unit ("36h", "14 d", "-2 h") in hours.
double readTime(const std::string& option, const std::string& text);
/// A whole number from `least` to `most`.
std::uint64_t readCount(const std::string& option, const std::string& text, std::uint64_t least,
                        std::uint64_t most);
std::uint64_t readSeed(const std::string& text);
lab::Units readUnits(const std::string& text);
/// One of a few words, or the nearest is named.
std::string readWord(const std::string& option, const std::string& text,
                     const std::vector<std::string>& allowed);
/// "a,b" taken apart, blanks at the ends dropped; empty pieces are a UsageError.
std::vector<std::string> readList(const std::string& option, const std::string& text);

/// Analytes of "ALT,CK", each once and one of those known.
std::vector<body::Analyte> readAnalytes(const std::string& option, const std::string& text,
                                        const std::vector<std::string>& known);

/// Throws UsageError if the hour lies before the animal's birth; `option` names what asked for it.
void needBorn(const lesson::Case& one, double hour, const std::string& option);

} // namespace cistern::terminal
