// An organ opened: everything lies on the page, and no words lie on others.
#include "drawing/opened.h"

#include "marks.h"

#include <catch2/catch.hpp>

using namespace cistern::test;

namespace {

OpenedView view(double work, double leak, const std::string& reading) {
    OpenedView view;
    view.title = "A case with a rather long title for a heading: the skeletal muscle opened";
    view.subtitle = "Bodkin, dog, neutered male, 7 y, 24 kg, at 168 h (7 d)";
    view.here.name = "Bodkin: skeletal muscle";
    view.here.caption = "as it is, which no laboratory sees";
    view.here.work = work;
    view.here.leak = leak;
    view.here.level = 0.6;
    view.healthy.name = "The same in health";
    view.healthy.level = 0.1;
    for (VesselView* one : {&view.here, &view.healthy}) {
        one->mark = 0.3;
        one->spout = 0.5;
        one->reading = reading;
        one->levelWords = "below the upper limit";
    }
    view.planeSubtitle = "From the first insult to the last draw";
    view.plane.truth = PlanePoint{work, leak, {}};
    view.plane.path = {{1, 1, {}}, {(1 + work) / 2, (1 + leak) / 2, "-3 d"}, {work, leak, {}}};
    return view;
}

} // namespace

TEST_CASE("an opened organ stands on its page, no words over others", "[drawing]") {
    for (const double work : {0.05, 0.5, 1.})
        for (const double leak : {0.5, 3., 90.})
            for (const char* reading : {"ALT 70 U/L", "creatinine 10.4 mg/dL"}) {
                CAPTURE(work, leak, reading);
                const Picture page = picture(view(work, leak, reading));
                Group all{"page", {}, {}, page.marks};
                CHECK(faults(all, {0, 0, page.width, page.height}) == "");
                CHECK(page.description.find("work") != std::string::npos);
            }
}
