#include "lab/bench.h"

#include "base/text.h"

#include <algorithm>
#include <stdexcept>

namespace cistern::lab {

const Method* Bench::find(body::Analyte analyte) const {
    const auto found = std::find_if(methods.begin(), methods.end(),
                                    [&](const Method& m) { return m.analyte == analyte; });
    return found == methods.end() ? nullptr : &*found;
}

const Method& Bench::method(body::Analyte analyte) const {
    if (const Method* found = find(analyte)) return *found;
    throw std::out_of_range("this laboratory has no method for " +
                            std::string(body::name(analyte)));
}

const Test* Bench::test(const std::string& name) const {
    const auto found =
        std::find_if(tests.begin(), tests.end(), [&](const Test& t) { return t.name == name; });
    return found == tests.end() ? nullptr : &*found;
}

const Interval* Bench::interval(const body::Signalment& who, double hour,
                                body::Analyte analyte) const {
    const double age = who.age + hour;
    const auto fits = [&](const Interval& i) {
        return i.kind == who.kind && i.analyte == analyte && i.fromAge <= age && age < i.toAge;
    };
    const auto found = std::find_if(intervals.begin(), intervals.end(), fits);
    return found == intervals.end() ? nullptr : &*found;
}

namespace {

[[noreturn]] void refuseTest(const Bench& bench, const std::string& name) {
    std::vector<std::string> known;
    for (const Test& test : bench.tests) known.push_back(test.name);
    const std::string near = base::nearest(name, known);
    throw std::invalid_argument("no test is called \"" + name + "\"" +
                                (near.empty() ? "" : "; did you mean \"" + near + "\"?"));
}

} // namespace

std::vector<body::Analyte> Bench::analytes(const std::vector<std::string>& names,
                                           std::optional<body::Kind> kind) const {
    std::vector<body::Analyte> wanted;
    for (const std::string& name : names) {
        const Test* one = test(name);
        if (!one) refuseTest(*this, name);
        wanted.insert(wanted.end(), one->analytes.begin(), one->analytes.end());
    }
    for (const body::Analyte analyte : wanted) method(analyte);
    std::vector<body::Analyte> panel;
    for (const Method& one : methods)
        if (std::find(wanted.begin(), wanted.end(), one.analyte) != wanted.end() &&
            (!kind || one.serves(*kind)))
            panel.push_back(one.analyte);
    return panel;
}

} // namespace cistern::lab
