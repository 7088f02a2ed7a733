#include "desk/pages/page.h"

namespace cistern::desk {

namespace {

class Bench : public Page {
public:
    explicit Bench(Session& session) : session_(session) {}
    void build(Flow& flow) override {
        flow.card("Bench", "", [](Flow&) {});
    }

private:
    [[maybe_unused]] Session& session_;
};

} // namespace

std::unique_ptr<Page> benchPage(Session& session) {
    return std::make_unique<Bench>(session);
}

} // namespace cistern::desk
