#pragma once
#include "desk/pages/page.h"

namespace cistern::desk {

/// The rail at the top: all pages, and whose lesson it is. Gives its bottom.
double rail(Sheet& sheet, Session& session);

/// What the foot says.
struct Foot {
    std::string caution, news, hint;
};
/// The foot at the bottom of the window. Gives its top.
double foot(Sheet& sheet, const Foot& says);

/// Height of the foot, before it is drawn.
double footHeight(const Setting& setting, const Foot& says);

/// A card with the keys of every page and of this one.
void help(Flow& flow, const Page& page);

} // namespace cistern::desk
