#include "desk/screen.h"

namespace cistern::desk {

namespace {

void collect(const std::vector<drawing::Mark>& marks, Point shift,
             std::vector<drawing::Text>& into) {
    for (const drawing::Mark& mark : marks) {
        if (const auto* text = std::get_if<drawing::Text>(&mark.is)) {
            into.push_back(*text);
            into.back().at.x += shift.x;
            into.back().at.y += shift.y;
        } else if (const auto* group = std::get_if<drawing::Group>(&mark.is))
            collect(group->marks, {shift.x + group->shift.x, shift.y + group->shift.y}, into);
    }
}

} // namespace

std::vector<drawing::Text> texts(const Screen& screen) {
    std::vector<drawing::Text> all;
    collect(screen.picture.marks, {}, all);
    return all;
}

std::string words(const Screen& screen) {
    std::string all;
    for (const drawing::Text& one : texts(screen)) {
        std::string whole;
        for (const std::string& line : one.lines) whole += (whole.empty() ? "" : " ") + line;
        all += whole + "\n";
    }
    return all;
}

} // namespace cistern::desk
