#include "desk/widgets/table.h"

#include <algorithm>

namespace cistern::desk {

using drawing::Align;
using drawing::Shape;
using drawing::Stroke;
namespace theme = drawing::theme;

namespace {

constexpr double gutter = .8, leading = .3; // [em]

/// One row of cells, each in its column; gives its box and moves the flow on.
Box row(Flow& flow, const std::vector<TableColumn>& columns, const std::vector<std::string>& cells,
        bool head) {
    const double em = flow.em();
    double all = 0;
    for (const TableColumn& one : columns) all += one.share;
    const double free = flow.width() - gutter * em * static_cast<double>(columns.size() - 1);
    const double top = flow.y();
    double x = flow.x(), bottom = top;
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const double width = free * columns[i].share / all;
        Flow cell(flow.sheet(), x, flow.y() + leading * em, width, flow.floor());
        const drawing::Type& type = head                ? flow.letters().small
                                    : columns[i].number ? flow.letters().number
                                                        : flow.letters().text;
        if (i < cells.size())
            cell.write(cells[i], type, columns[i].number ? Align::right : Align::left);
        bottom = std::max(bottom, cell.y());
        x += width + gutter * em;
    }
    flow.room(bottom + leading * em - flow.y());
    flow.sheet().add(
        Shape{drawing::polyline({{flow.x(), flow.y()}, {flow.x() + flow.width(), flow.y()}}),
              std::nullopt, Stroke{theme::line, 1, {}}});
    return {flow.x(), top, flow.width(), flow.y() - top};
}

} // namespace

std::vector<Box> table(Flow& flow, const std::vector<TableColumn>& columns,
                       const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::string> heads;
    for (const TableColumn& one : columns) heads.push_back(one.head);
    row(flow, columns, heads, true);
    std::vector<Box> boxes;
    for (const auto& cells : rows) boxes.push_back(row(flow, columns, cells, false));
    return boxes;
}

void progress(Flow& flow, const std::string& words, double share) {
    flow.small(words);
    flow.gap(.3);
    const Box box = flow.room(.6 * flow.em());
    flow.sheet().add(Shape{drawing::rounded(box, box.height / 2), theme::line, std::nullopt});
    Box done = box;
    done.width *= std::clamp(share, 0., 1.);
    if (done.width > box.height)
        flow.sheet().add(Shape{drawing::rounded(done, box.height / 2), theme::ink, std::nullopt});
}

} // namespace cistern::desk
