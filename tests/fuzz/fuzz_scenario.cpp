// Feeds whatever the fuzzer thinks of to the reader of scenarios. The only way out but a case is
// InputError; anything else, a crash or a hang is a find. See CMakeLists.txt beside it.
#include "scenario/assets.h"

#include <cstddef>
#include <cstdint>

using namespace cistern;

namespace {

/// One file, whatever its name.
class OneFile : public base::Files {
public:
    explicit OneFile(std::string text) : text_(std::move(text)) {}
    std::string read(const std::string&, std::size_t) const override { return text_; }
    void write(const std::string&, const std::string&) override {}
    std::vector<std::string> list(const std::string&, const std::string&) const override {
        return {};
    }

private:
    std::string text_;
};

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const scenario::Assets assets =
        scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    const OneFile file(std::string(data, data + size));
    try {
        scenario::readCase(file, "fuzz.yaml", assets.knowledge);
    } catch (const base::InputError& error) {
        if (error.faults().empty()) __builtin_trap(); // a refusal without a reason
    }
    return 0;
}
