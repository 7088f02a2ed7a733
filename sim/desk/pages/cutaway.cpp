#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Cutaway : public Page {
public:
    explicit Cutaway(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Cutaway", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> cutawayPage(Session& session) {
    return std::make_unique<Cutaway>(session);
}

} // namespace cistern::desk
