#pragma once
#include "lab/specimen/handling.h"
#include "lab/specimen/laws.h"

namespace cistern::lab {

/// By how much a temperature [Cel] quickens what cells do, over that at another.
double quickened(const WaitLaws& laws, double temperature, double over);

/// Share of glucose left to serum after so long on its cells [h]: exponential, at a share of the
/// first hour (0..1), `pace` times as fast.
double glucoseLeft(double firstHour, double pace, double hours);

/// Share of bilirubin left after light [h].
double bilirubinLeft(const WaitLaws& laws, Light light, double hours);

/// Volume of red cells over that of fresh ones, after standing in EDTA [h] at the usual
/// temperature.
double swollen(const WaitLaws& laws, double hours);

} // namespace cistern::lab
