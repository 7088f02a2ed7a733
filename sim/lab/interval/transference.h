#pragma once

namespace cistern::lab {

/// Animals that are measured to see whether a published interval fits here.
inline constexpr int animalsToTransfer = 20;

/// What their number outside of it says: up to 2 it fits, 3 or 4 ask for another twenty, 5 and more
/// send it back. Source: Friedrichs and others 2012, Vet Clin Pathol 41:441 (from memory).
enum class Transfer { fits, twentyMore, fails };
Transfer transfer(int outside);

/// Chances of an interval outside of which a share (0..1) of the animals here truly lies: 0.05
/// where it is the right one. Exact, binomial.
double chanceToFitAtOnce(double share);
/// Another twenty have to fit; 3 and more outside send it back as well.
double chanceToFail(double share);
/// By the older rule any 3 and more outside ask for another twenty: EP28-A3c (from memory).
double chanceToFailTwice(double share);

} // namespace cistern::lab
