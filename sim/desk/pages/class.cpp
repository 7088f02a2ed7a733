#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Class : public Page {
public:
    explicit Class(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Class", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> classPage(Session& session) {
    return std::make_unique<Class>(session);
}

} // namespace cistern::desk
