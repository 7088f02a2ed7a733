#pragma once
#include <functional>
#include <string>

namespace cistern::body {

/// One parameter of a species as the program knows it: its name in the files, the unit it is held
/// in, where it lives and what is sensible.
struct Parameter {
    std::string name; ///< "liver.mass", "pools.ALT.half-life", "variation.ALT.between"
    std::string unit; ///< unit inside the model, as base::conversion understands it
    double* value;
    double least, most;   ///< outside is refused
    double molarMass = 0; ///< [g/mol] if the file may give it as mass
};
using Visit = std::function<void(const Parameter&)>;

/// Gathers parameters under one heading of the file.
class Section {
public:
    Section(std::string heading, const Visit& visit)
        : heading_(std::move(heading)), visit_(visit) {}
    void operator()(const char* name, const char* unit, double& value, double least, double most,
                    double molarMass = 0) const {
        visit_({heading_ + "." + name, unit, &value, least, most, molarMass});
    }

private:
    std::string heading_;
    const Visit& visit_;
};

/// Molar masses [g/mol], for what may be written as mass.
inline constexpr double bilirubinMass = 584.66, creatinineMass = 113.12, glucoseMass = 180.156,
                        cholesterolMass = 386.65, sdmaMass = 202.25,
                        triglycerideMass = 885.4, // triolein
    ureaNitrogenMass = 28.014; // two nitrogens a molecule: urea is written as urea nitrogen

/// Upper bound of what has no physical bound of its own.
inline constexpr double unbounded = 1e6;

// Forward names of the whole that systems are parts of; see species.h and constants.h.
struct Species;
template<class T>
struct Constants;
template<class T>
struct State;

} // namespace cistern::body
