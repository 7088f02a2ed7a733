#include "reader/question.h"

namespace cistern::reader {

double Question::presented() const {
    constexpr double sixWeeks = 6 * 7 * 24; // [h]
    for (const Sample& sample : samples)
        if (sample.hour >= last() - sixWeeks) return sample.hour;
    return last();
}

} // namespace cistern::reader
