#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Bedside : public Page {
public:
    explicit Bedside(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Bedside", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> bedsidePage(Session& session) {
    return std::make_unique<Bedside>(session);
}

} // namespace cistern::desk
