#pragma once
#include "desk/sheet.h"

#include <vector>

namespace cistern::desk {

struct TableColumn {
    std::string head;    ///< with the unit, if there is one
    double share = 1;    ///< of the width
    bool number = false; ///< set flush right, in figures of one width
};

/// Rows of words under heads, wrapped in their columns, ruled between. Gives the box of each row.
std::vector<Box> table(Flow& flow, const std::vector<TableColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows);

/// A bar that fills, with what it says above it.
void progress(Flow& flow, const std::string& words, double share);

} // namespace cistern::desk
