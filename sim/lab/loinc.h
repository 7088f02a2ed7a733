#pragma once
#include <string_view>

namespace cistern::lab {

/// True of digits, a hyphen and the digit that checks them: "1742-6". Source: LOINC Users' Guide,
/// mod 10 algorithm (from memory; it agrees with every code of assets/codes.yaml).
bool isLoinc(std::string_view code);

} // namespace cistern::lab
