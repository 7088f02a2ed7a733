#pragma once
#include "lesson/lesson.h"
#include "scenario/assets.h"
#include "view/crowd.h"

#include <string>

/// What tests of this layer look at: shipped cases, with the assets they came with.
namespace cistern::test {

inline const lesson::Knowledge& known() {
    static const scenario::Assets all =
        scenario::loadAssets(base::Disk(), CISTERN_SOURCE "/assets");
    return all.knowledge;
}

inline lesson::Case shipped(const std::string& name) {
    return scenario::readCase(base::Disk(), CISTERN_SOURCE "/scenarios/" + name + ".yaml", known());
}

/// Three that differ: muscle and liver of a dog, a cat, and tubes gone wrong.
inline const char* const three[] = {"all_legs", "the_new_flat", "the_topped_up_tube"};

inline const view::Crowd& crowd(body::Kind kind) {
    static const view::Crowd dogs(known(), body::Kind::dog), cats(known(), body::Kind::cat);
    return kind == body::Kind::dog ? dogs : cats;
}

} // namespace cistern::test
