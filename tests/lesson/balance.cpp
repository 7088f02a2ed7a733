#include "lesson/balance.h"

#include "case_at_hand.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace cistern;
using namespace cistern::lesson;

namespace {

CaseFigures figuresOf(double fold, double lost, double ideal, double naive, double shrug,
                      double weight = 1) {
    CaseFigures one;
    one.leading = body::Analyte::ALT;
    one.organ = body::Tissue::liver;
    one.fold = fold;
    one.lost = lost;
    one.ideal = ideal;
    one.naive = naive;
    one.shrug = shrug;
    one.weight = weight;
    return one;
}

/// Marks made up; the truth is the case's own.
Readers madeUp(const Case& subject, std::vector<OrganTruth> organs) {
    Readers readers;
    readers.truth.organs = std::move(organs);
    readers.ideal.total = 90;
    readers.naive.total = 40;
    readers.shrug.total = 50;
    (void)subject;
    return readers;
}

} // namespace

TEST_CASE("A set in which loud and sick have nothing to do with one another is balanced",
          "[lesson]") {
    // Ranks of loss against 1 2 3 4 5: 2 5 3 1 4; sum of d^2 = 1 + 9 + 0 + 9 + 1 = 20, rho = 1 - 6
    // * 20 / 120 = 0.
    const std::vector<CaseFigures> cases{
        figuresOf(0.5, 10, 80, 30, 50), figuresOf(1, 90, 90, 40, 50), figuresOf(3, 20, 85, 60, 50),
        figuresOf(9, 0, 80, 50, 50), figuresOf(40, 50, 75, 20, 50)};
    const Balance found = balance(cases);
    CHECK(found.pairs == 5);
    CHECK(*found.correlation == Approx(0).margin(1e-12));
    REQUIRE(found.limits);
    CHECK(found.limits->first < -0.8); // five cases say little
    CHECK(found.ideal == Approx(82));
    CHECK(found.naive == Approx(40));
    CHECK(found.shrug == Approx(50));
    CHECK(found.balanced());
}

TEST_CASE("Each way in which a set may be out of balance is found", "[lesson]") {
    std::vector<CaseFigures> loudIsSick{figuresOf(0.5, 0, 80, 30, 50), figuresOf(1, 10, 80, 30, 50),
                                        figuresOf(9, 60, 80, 30, 50)};
    CHECK(*balance(loudIsSick).correlation == 1);
    CHECK_FALSE(balance(loudIsSick).loudIsNoSickness());
    CHECK_FALSE(balance(loudIsSick).balanced());

    std::vector<CaseFigures> naive{figuresOf(1, 0, 80, 51, 50), figuresOf(2, 90, 80, 51, 50),
                                   figuresOf(3, 80, 80, 51, 50), figuresOf(4, 5, 80, 51, 50)};
    CHECK_FALSE(balance(naive).naiveGainsNothing());
    for (CaseFigures& one : naive) one.ideal = 50;
    CHECK_FALSE(balance(naive).idealDoesWell());

    const std::vector<CaseFigures> well{figuresOf(1, 0, 80, 30, 50), figuresOf(5, 0, 80, 30, 50)};
    CHECK_FALSE(balance(well).correlation); // nobody lost anything
    CHECK_FALSE(balance(well).loudIsNoSickness());
    CHECK_FALSE(balance({}).correlation);
}

TEST_CASE("Losses that nobody could tell apart count as tied", "[lesson]") {
    const std::vector<CaseFigures> cases{figuresOf(1, 0.3, 80, 30, 50),
                                         figuresOf(2, 0.1, 80, 30, 50), figuresOf(3, 0, 80, 30, 50),
                                         figuresOf(4, 60, 80, 30, 50)};
    // Ranks 1 2 3 4 against 2 2 2 4: 4.5 - 1.5 over sqrt(5 * 3) by hand, 3 / sqrt(15).
    CHECK(*balance(cases).correlation == Approx(3 / std::sqrt(15.)));
}

TEST_CASE("Weights count in the marks of a set, and a case without figures only there",
          "[lesson]") {
    std::vector<CaseFigures> cases{figuresOf(1, 0, 80, 30, 50, 3), figuresOf(2, 5, 40, 10, 50, 1)};
    cases.push_back(figuresOf(0, 0, 100, 0, 50, 1));
    cases.back().leading.reset();
    const Balance found = balance(cases);
    CHECK(found.pairs == 2);
    CHECK(found.ideal == Approx((3 * 80 + 40 + 100) / 5.));
    CHECK(found.naive == Approx(20));
}

TEST_CASE("The loudest enzyme leads, and the organ that lost most is in question", "[lesson]") {
    const Case subject = scarredLiver();
    const CaseFigures one =
        figures(subject, known(),
                madeUp(subject, {{body::Tissue::liver, 5, 20}, {body::Tissue::bileDucts, 1, 97}}));
    CHECK(one.name == "scarred_liver");
    CHECK(one.organ == body::Tissue::liver);
    CHECK(one.lost == 80);
    CHECK(one.ideal == 90);
    CHECK(one.naive == 40);
    CHECK(one.shrug == 50);
    // A blow of a tenth of the liver's cells, four days ago, stands in ALT above all other enzymes.
    CHECK(one.leading == body::Analyte::ALT);
    CHECK(one.fold > 1);

    // Of organs that lost alike the one whose own result stands farthest out: not GGT but ALT.
    const CaseFigures even = figures(
        subject, known(),
        madeUp(subject, {{body::Tissue::liver, 5, 97.5}, {body::Tissue::bileDucts, 1, 97}}));
    CHECK(even.organ == body::Tissue::liver);
    CHECK(even.lost == Approx(2.5));
}

TEST_CASE("Where no enzyme was measured the organ's own result leads", "[lesson]") {
    Case subject = healthyCat();
    subject.draws[0].tests = {"blood count"};
    subject.organs = {body::Tissue::platelets};
    const CaseFigures one =
        figures(subject, known(), madeUp(subject, {{body::Tissue::platelets, 1, 100}}));
    CHECK(one.leading == body::Analyte::platelets);
    CHECK(one.fold > 0);
    CHECK(one.fold < 1.2); // a healthy cat's count lies inside, or hardly outside
    CHECK(one.lost == 0);
    // A case that asks for no organ has nothing in question.
    const CaseFigures none = figures(healthyCat(), known(), madeUp(subject, {}));
    CHECK_FALSE(none.organ);
    CHECK_FALSE(none.pair());
}

TEST_CASE("One animal of a case is fair, unanswerable or trivial", "[lesson]") {
    CHECK(worth(90, 40, 50) == Worth::fair);
    CHECK(worth(54, 40, 50) == Worth::unanswerable);
    CHECK(worth(55, 40, 50) == Worth::unanswerable); // must be more than five ahead
    CHECK(worth(56, 40, 50) == Worth::fair);
    CHECK(worth(92, 88, 50) == Worth::trivial);
    CHECK(worth(92, 86, 50) == Worth::fair);
    CHECK(worth(75, 74, 50) == Worth::fair); // alike, but neither does well
    CHECK(worth(90, 95, 88) == Worth::unanswerable);
}
