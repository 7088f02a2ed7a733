#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace cistern::base {

/// A value with its unit as written: "58 h" is {58, "h"}.
struct Quantity {
    double value = 0;
    std::string unit;
};

/// Splits "58 h", "0.9 mg/dL", "-36 h", "75 %", "14d". Empty if it does not start with a finite
/// decimal number (no hexadecimal, octal, nan or inf). The unit may be empty.
std::optional<Quantity> readQuantity(std::string_view text);

/// True if the unit is one this program knows. Units follow UCUM ("umol/L", "U/L", "mg/kg/d",
/// "Cel", "%"); besides, "y" stands for a year, "wk" for a week, "fold" and "1" for a plain ratio.
bool knownUnit(std::string_view unit);

/// Factor by which a value in `from` is multiplied to give it in `to`; empty if the dimensions
/// differ. `molarMass` [g/mol], if above zero, lets mass and amount of substance pass into one
/// another. Cel has no factor to K and converts only to itself.
std::optional<double> conversion(std::string_view from, std::string_view to, double molarMass = 0);

/// The unit in letters people read: "umol/L" becomes "µmol/L", "Cel" becomes "°C".
std::string shown(std::string_view unit);

} // namespace cistern::base
