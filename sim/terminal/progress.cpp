#include "terminal/progress.h"

#include "base/text.h"
#include "terminal/page.h"

#include <algorithm>
#include <cmath>
#include <ostream>

namespace cistern::terminal {

void Progress::show(double share, const std::string& words) {
    if (!world_.progress) return;
    constexpr int cells = 20;
    const std::string head =
        "[" + bar(share, cells) + "] " + base::padLeft(base::rounded(100 * share, 1), 3) + " %  ";
    const auto fitting = base::wrapped(words, pageWidth - 1 - base::width(head));
    const std::string line = head + (fitting.empty() ? "" : fitting.front());
    const int width = base::width(line);
    world_.err << "\r" << base::padRight(line, std::max(width, width_)) << std::flush;
    width_ = width;
}

void Progress::clear() {
    if (width_ == 0) return;
    world_.err << "\r" << std::string(static_cast<std::size_t>(width_), ' ') << "\r" << std::flush;
    width_ = 0;
}

} // namespace cistern::terminal
