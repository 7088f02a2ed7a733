#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Report : public Page {
public:
    explicit Report(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Report", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> reportPage(Session& session) {
    return std::make_unique<Report>(session);
}

} // namespace cistern::desk
