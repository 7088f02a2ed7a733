#include "view/meaning.h"

#include <map>
#include <string>

namespace cistern::view {

drawing::Meaning meaning(const lab::Method& method) {
    using drawing::Meaning;
    static const std::map<std::string, Meaning> groups{{"what leaks", Meaning::leaks},
                                                       {"what works", Meaning::works},
                                                       {"clotting", Meaning::works},
                                                       {"what is cleared", Meaning::cleared}};
    const auto group = groups.find(method.group);
    return group == groups.end() ? Meaning::held : group->second;
}

} // namespace cistern::view
