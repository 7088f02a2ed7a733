#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Reading : public Page {
public:
    explicit Reading(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Reading", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> readingPage(Session& session) {
    return std::make_unique<Reading>(session);
}

} // namespace cistern::desk
