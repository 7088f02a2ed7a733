#pragma once
#include "../lab/hand_bench.h"
#include "report/text.h"

/// Made-up draws of one invented dog on the hand-built bench.
namespace sample {

namespace body = cistern::body;
namespace lab = cistern::lab;
namespace report = cistern::report;
using body::Analyte;

inline report::Patient bramble() {
    body::Signalment who = hand::dog().who;
    who.condition = 4;
    return {"Bramble", who};
}

/// Day-to-day variation (design values, assumed).
inline std::array<double, body::analyteCount> within() {
    std::array<double, body::analyteCount> cv{};
    for (double& one : cv) one = 0.07;
    for (const Analyte loose : {Analyte::ALT, Analyte::ALP, Analyte::CK, Analyte::bilirubin})
        cv[static_cast<std::size_t>(loose)] = 0.15;
    cv[static_cast<std::size_t>(Analyte::albumin)] = 0.027;
    return cv;
}

/// A draw of a liver that leaks by `leak` fold and makes little albumin.
inline lab::Report draw(int number, double hour, double leak, double albumin, double bilirubin) {
    body::Snapshot truth = hand::healthyLevels(hour);
    hand::level(truth, Analyte::ALT) = 30 * leak;
    hand::level(truth, Analyte::ALP) = 24 * (1 + leak / 3);
    hand::level(truth, Analyte::albumin) = albumin;
    hand::level(truth, Analyte::bilirubin) = bilirubin;
    return lab::measure(hand::bench(), hand::dog(), truth, hand::specimen(hour, number),
                        {"chemistry", "bile acids", "urine", "blood count"},
                        static_cast<std::uint64_t>(number));
}

} // namespace sample
