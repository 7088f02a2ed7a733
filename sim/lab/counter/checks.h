#pragma once
#include <string>
#include <vector>

namespace cistern::lab {

struct Report;

/// Where results of one tube of blood disagree beyond chance: the counter's hematocrit with the
/// spun volume, hemoglobin times three with the hematocrit. In plain words; nothing where one was
/// not asked for.
std::vector<std::string> disagreements(const Report& report);

} // namespace cistern::lab
