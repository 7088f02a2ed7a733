#include "body/constants.h"
#include "body/species.h"

namespace cistern::body {

void eachParameter(PlateletParameters& p, const Visit& visit) {
    const Section platelets("platelets", visit);
    platelets("count", "10*9/L", p.count, 20, 2000);
    platelets("life", "h", p.life, 12, 500);
    platelets("share in spleen", "1", p.splenicShare, 0, 0.9);
    platelets("rise with the spleen", "1", p.ofContraction, 0, 5);
    platelets("time in megakaryocytes", "h", p.megakaryocytes, 12, 500);
    platelets("lag of call", "h", p.callLag, 1, 200);
    platelets("call of lack", "1", p.callOfLack, 0, 20);
    platelets("call of inflammation", "1", p.callOfInflammation, 0, 10);
    platelets("call of iron lack", "1", p.callOfIronLack, 0, 10);
    platelets("most output", "1", p.mostOutput, 1.5, 20);
    platelets("use in inflammation", "1/h", p.usedInInflammation, 0, 0.2);
}

void setPlatelets(const Species& s, Constants<double>& c) {
    const auto& p = s.platelets;
    auto& k = c.platelets;
    const double amount = p.count * s.redCells.bloodVolume / (1 - p.splenicShare);
    k.made = amount / p.life;
    k.perPlatelets = 1 / amount;
    k.circulating = 1 - p.splenicShare;
    k.ofContraction = p.ofContraction;
    k.callOfLack = p.callOfLack;
    k.callOfInflammation = p.callOfInflammation;
    k.callOfIronLack = p.callOfIronLack;
    k.mostOutput = p.mostOutput;
    k.perMostOutput = 1 / p.mostOutput;
    k.ageing = plateletStages / p.life;
    k.usedInInflammation = p.usedInInflammation;
    k.life = p.life;
    c.rate.platelets = {1 / p.callLag, 1 / p.megakaryocytes};
}

void restPlatelets(const Species&, const Constants<double>& c, double, State<double>& y) {
    y.platelets = {};
    y.platelets.megakaryocytes = 1;
    for (double& stage : y.platelets.platelets) stage = c.platelets.made / c.platelets.ageing;
}

} // namespace cistern::body
