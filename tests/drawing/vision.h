#pragma once
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

/// How colors look to those who lack one kind of cone, and how far apart two of them are.
namespace cistern::test {

using Triple = std::array<double, 3>;
using Matrix = std::array<Triple, 3>;

inline double dot(const Triple& a, const Triple& b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}
inline Triple times(const Matrix& m, const Triple& v) {
    return {dot(m[0], v), dot(m[1], v), dot(m[2], v)};
}

/// Linear sRGB to CIE L*a*b* (D65); CIE 15, sRGB matrix of IEC 61966-2-1.
inline Triple toLab(Triple light) {
    for (double& part : light) part = std::clamp(part, 0.0, 1.0);
    const Triple xyz = times(
        {{{0.4124, 0.3576, 0.1805}, {0.2126, 0.7152, 0.0722}, {0.0193, 0.1192, 0.9505}}}, light);
    const auto f = [](double t) {
        return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
    };
    const double x = f(xyz[0] / 0.95047), y = f(xyz[1]), z = f(xyz[2] / 1.08883);
    return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

/// CIE 1976.
inline double difference(const Triple& a, const Triple& b) {
    return std::sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                     (a[2] - b[2]) * (a[2] - b[2]));
}

/// How colors look to those who lack one kind of cone. Machado, Oliveira and Fernandes 2009, "A
/// physiologically-based model for simulation of color vision deficiency", severity 1.0, applied to
/// linear light; the numbers as reprinted in public source code, not read in the paper itself.
inline const std::array<std::pair<const char*, Matrix>, 4> eyes{
    {{"all cones", {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}}},
     {"protanopia",
      {{{0.152286, 1.052583, -0.204868},
        {0.114503, 0.786281, 0.099216},
        {-0.003882, -0.048116, 1.051998}}}},
     {"deuteranopia",
      {{{0.367322, 0.860646, -0.227968},
        {0.280085, 0.672501, 0.047413},
        {-0.011820, 0.042940, 0.968881}}}},
     {"tritanopia",
      {{{1.255528, -0.076749, -0.178779},
        {-0.078411, 0.930809, 0.147602},
        {0.004733, 0.691367, 0.303900}}}}}};

} // namespace cistern::test
