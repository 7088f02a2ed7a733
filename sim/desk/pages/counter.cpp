#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Counter : public Page {
public:
    explicit Counter(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Counter", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> counterPage(Session& session) {
    return std::make_unique<Counter>(session);
}

} // namespace cistern::desk
