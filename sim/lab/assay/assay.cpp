#include "lab/assay/assay.h"

#include <cmath>
#include <stdexcept>

namespace cistern::lab {

namespace {

void eachVolume(Volumes& volumes, const body::Visit& visit) {
    visit({"sample", "uL", &volumes.sample, 0.5, 1000});
    visit({"total", "uL", &volumes.total, 1, 10000});
}

template<class Photometric>
void scale(Photometric& assay, double content) {
    assay.calibration = 1;
    Setting setting;
    setting.content = content;
    const Signal signal = run(assay, setting, Noise());
    if (signal.bent || !(signal.content > 0))
        throw std::invalid_argument("the calibrator cannot be read");
    assay.calibration = content / signal.content;
}

} // namespace

double poured(const Volumes& volumes, const Photometer& photometer, double taken,
              const Noise& noise) {
    const auto drop = [&](double volume) {
        const double spread =
            std::hypot(photometer.pipetteShare * volume, photometer.pipetteVolume);
        return volume + spread * noise.normal();
    };
    const double sample = std::max(drop(volumes.sample) * taken, 0.0);
    return sample / (sample + drop(volumes.total - volumes.sample));
}

void calibrate(Assay& assay, double content) {
    if (Kinetic* kinetic = std::get_if<Kinetic>(&assay)) scale(*kinetic, content);
    if (EndPoint* endPoint = std::get_if<EndPoint>(&assay)) scale(*endPoint, content);
}

void eachParameter(Kinetic& a, const body::Visit& visit) {
    eachVolume(a.volumes, visit);
    visit({"wavelength", "nm", &a.wavelength, 200, 1100});
    visit({"absorption", "L/mmol/cm", &a.absorption, 0.1, 200});
    visit({"substrate", "mmol/L", &a.substrate, 1e-3, 5000});
    visit({"affinity", "mmol/L", &a.affinity, 1e-4, 1000});
    visit({"indicator", "mmol/L", &a.indicator, 1e-3, 100});
    visit({"q10", "1", &a.q10, 1, 4});
    visit({"delay", "s", &a.delay, 0, 600});
    visit({"read", "s", &a.read, 24, 900});
    visit({"interval", "s", &a.interval, 1, 60});
    visit({"blank spread", "/min", &a.blankSpread, 0, 0.1});
    visit({"limit", "1", &a.limit, 0, 4});
}

void eachOption(Kinetic& a, const body::Visit& visit) {
    visit({"turnover", "1", &a.turnover, 1e-3, 1000});
    visit({"indicator affinity", "mmol/L", &a.indicatorAffinity, 0, 10});
    visit({"coupling", "U/L", &a.coupling, 0, 1e6});
    visit({"coupling affinity", "mmol/L", &a.couplingAffinity, 1e-4, 10});
    visit({"blank", "/min", &a.blank, 0, 0.1});
    visit({"reaction", "1", &a.reaction, 0, 0.2});
}

void eachParameter(EndPoint& a, const body::Visit& visit) {
    eachVolume(a.volumes, visit);
    visit({"wavelength", "nm", &a.wavelength, 200, 1100});
    visit({"color", "1", &a.color, 1e-6, 1000});
    visit({"capacity", "1", &a.capacity, 1e-6, 1e6});
    visit({"pace", "/min", &a.pace, 1e-3, 600});
    visit({"q10", "1", &a.q10, 1, 4});
    visit({"to", "s", &a.to, 24, 1200});
}

void eachOption(EndPoint& a, const body::Visit& visit) {
    visit({"other wavelength", "nm", &a.otherWavelength, 200, 1100});
    visit({"from", "s", &a.from, 0, 1200});
    visit({"reagent", "1", &a.reagent, 0, 2});
    visit({"blank spread", "1", &a.blankSpread, 0, 0.1});
    visit({"reaction", "1", &a.reaction, 0, 0.2});
}

void eachParameter(Electrode& a, const body::Visit& visit) {
    eachVolume(a.volumes, visit);
    visit({"charge", "1", &a.charge, -3, 3});
    visit({"slope", "1", &a.slope, 0.5, 1});
    visit({"noise", "mV", &a.noise, 0, 5});
    visit({"carry", "mmol/L", &a.carry, 0, 10});
    visit({"others", "mmol/L", &a.others, 0, 100});
    visit({"standard", "mmol/L", &a.standard, 0.1, 1000});
    visit({"water", "1", &a.water, 0.5, 1});
}

void eachParameter(Ligand& a, const body::Visit& visit) {
    eachVolume(a.volumes, visit);
    visit({"start", "1", &a.start, 0, 1e12});
    visit({"end", "1", &a.end, 0, 1e12});
    visit({"middle", "1", &a.middle, 1e-6, 1e6});
    visit({"steepness", "1", &a.steepness, 0.2, 5});
    visit({"washing", "1", &a.washing, 0, 0.5});
    visit({"temperature", "/K", &a.temperature, 0, 0.2});
}

void eachParameter(Refractometer& a, const body::Visit& visit) {
    visit({"eye", "1", &a.eye, 0, 0.01});
    visit({"line", "1", &a.line, 1e-5, 0.01});
    visit({"temperature", "/K", &a.temperature, 0, 0.01});
}

void eachParameter(Timer& a, const body::Visit& visit) {
    eachVolume(a.volumes, visit);
    visit({"detection", "s", &a.detection, 0, 5});
    visit({"reaction", "1", &a.reaction, 0, 0.2});
    visit({"q10", "1", &a.q10, 1, 4});
    visit({"thinning", "1", &a.thinning, 0, 3});
    visit({"reagent", "1", &a.reagent, 0, 3});
}

void eachOption(Timer& a, const body::Visit& visit) {
    visit({"at one", "s", &a.atOne, 0, 1000});
    visit({"power", "1", &a.power, 0.1, 3});
}

} // namespace cistern::lab
