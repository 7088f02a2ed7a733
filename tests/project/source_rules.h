#pragma once
#include <string>
#include <string_view>
#include <vector>

namespace cistern::project {

/// Breaches of the rules about #include lines in one source file, each "file:line: what is wrong".
/// `file` is the path from the top of the project: "sim/body/plan.h". The rules: a layer includes
/// only itself and layers below it; a library is known only where it belongs; the model does not
/// print.
std::vector<std::string> includeBreaches(std::string_view file, std::string_view text);

/// True if a name may stand at the top of the project.
bool belongsAtTop(std::string_view name);

} // namespace cistern::project
