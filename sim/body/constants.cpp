#include "body/constants.h"

#include "body/individual.h"

namespace cistern::body {

Constants<double> constants(const Individual& animal) {
    const Species& s = animal.own;
    Constants<double> c{};
    setHormones(s, c);
    setLiver(s, c);
    setMuscle(s, c);
    setDigestion(s, c);
    setWater(s, c);
    setKidney(s, c);
    setRedCells(s, c);
    setEnzymes(s, c);
    setBile(s, c);
    setPortal(s, c);
    setProtein(s, c);
    setSugar(s, c);
    setSalts(s, c);
    setWhiteCells(s, c);
    setPlatelets(s, c);
    return c;
}

State<double> healthy(const Individual& animal, const Constants<double>& c, double age) {
    const Species& s = animal.own;
    State<double> y{};
    restHormones(s, c, age, y);
    restLiver(s, c, age, y);
    restMuscle(s, c, age, y);
    restDigestion(s, c, age, y);
    restWater(s, c, age, y);
    restKidney(s, c, age, y);
    restRedCells(s, c, age, y);
    restEnzymes(s, c, age, y);
    restBile(s, c, age, y);
    restPortal(s, c, age, y);
    restProtein(s, c, age, y);
    restSugar(s, c, age, y);
    restSalts(s, c, age, y);
    restWhiteCells(s, c, age, y);
    restPlatelets(s, c, age, y);
    return y;
}

} // namespace cistern::body
