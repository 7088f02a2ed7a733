#pragma once
#include "lesson/lesson.h"

namespace cistern::lesson {

/// A belief made by hand about the scarred liver of case_at_hand.h: chronic liver disease at 70 %,
/// albumin speaks for it, potassium against it.
inline reader::Posterior believed(const Lesson& lesson) {
    reader::Posterior out;
    out.animals = 20000;
    out.stories = 10000;
    out.effective = 840;
    out.names = lesson.subject().explanations; // nothing wrong, chronic liver disease, steroid
    out.prior = {0.60, 0.10, 0.30};
    out.signs = {0.30, 0.40, 0.30};
    out.weights = {0.10, 0.70, 0.20};
    out.errors = {0.01, 0.01, 0.01};
    for (const body::Tissue organ : lesson.subject().organs)
        out.organs.push_back({organ, {0.15, 0.20, 0.30, 0.45, 0.50}, {0.8, 1, 2, 4, 6}, {}});
    out.results = {{0, body::Analyte::albumin, 24}, {0, body::Analyte::K, 4.5}};
    out.spoiled = {0.01, 0.02};
    out.moved = {{"ascites", 0, true, {0.40, 0.30, 0.30}, 0.25},
                 {"albumin", 0, false, {0.20, 0.60, 0.20}, 1.2},
                 {"K", 0, false, {0.75, 0.02, 0.23}, 0.1}};
    out.gains = {{"clotting", 0.4, 0.01, 2}, {"bile acids", 0.3, 0.01, 1}, {"T4", 0.01, 0.01, 1}};
    return out;
}

} // namespace cistern::lesson
