#pragma once
#include "desk/microscope.h"
#include "desk/session.h"
#include "desk/sheet.h"

#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace cistern::desk {

/// One page of the desk. It is made once, keeps what only it needs to know (a draft, a point in
/// time) and lays itself out anew whenever something has changed.
class Page {
public:
    virtual ~Page() = default;
    virtual void build(Flow& flow) = 0;
    /// Lets time pass [s]; true if the page must be laid out anew.
    virtual bool pass(double) { return false; }
    /// True while something is worked out beside the page that it will show.
    virtual bool busy() const { return false; }
    /// A slide under the lens that is seen on the page, placed as it was last laid out; null if
    /// there is none. It may move in pass() without the page being laid out anew.
    virtual const Microscope* microscope() const { return nullptr; }
    /// Keys of its own beyond those of every page, each with what it does.
    virtual std::vector<std::pair<std::string, std::string>> keys() const { return {}; }
};

std::unique_ptr<Page> shelfPage(Session& session);
std::unique_ptr<Page> bedsidePage(Session& session);
std::unique_ptr<Page> benchPage(Session& session);
std::unique_ptr<Page> reportPage(Session& session);
std::unique_ptr<Page> filmPage(Session& session);
std::unique_ptr<Page> readingPage(Session& session);
std::unique_ptr<Page> cutawayPage(Session& session);
std::unique_ptr<Page> counterPage(Session& session);
std::unique_ptr<Page> classPage(Session& session);

} // namespace cistern::desk
