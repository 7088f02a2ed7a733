// Units and factors of the assets against a general UCUM library.
// usage: node units.js FOLDER UNITS
'use strict';
const fs = require('fs');
const path = require('path');
const { createRequire } = require('module');
const [folder, table] = process.argv.slice(2);
const load = createRequire(path.join(path.resolve(folder), 'package.json'));
const ucum = load('@lhncbc/ucum-lhc').UcumLhcUtils.getInstance();
const tolerance = 1e-6; // relative; molar masses of the assets have five or six digits

let checked = 0, wrong = 0;
const check = (good, text) => { ++checked; if (!good) { ++wrong; console.log(text); } };
const valid = unit => ucum.validateUnitString(unit, true).status === 'valid';
function factor(from, to, molarMass) {
    const answer = ucum.convertUnitTo(from, 1, to, molarMass > 0 ? { molecularWeight: molarMass } : {});
    return answer.status === 'succeeded' ? answer.toVal : NaN;
}
const near = (a, b) => Math.abs(a - b) <= tolerance * Math.abs(b);

const rows = JSON.parse(fs.readFileSync(table, 'utf8'));
for (const row of rows) {
    check(valid(row.unit), `${row.analyte}: ${row.unit} is not a UCUM code`);
    for (const system of ['conventional', 'si']) {
        const { unit, factor: ours } = row[system];
        check(valid(unit), `${row.analyte}: ${unit} is not a UCUM code`);
        const theirs = factor(row.unit, unit, row.molarMass);
        check(near(ours, theirs), `${row.analyte}: 1 ${row.unit} is ${ours} ${unit} here and ${theirs} there`);
    }
    const between = row.si.factor / row.conventional.factor;
    const theirs = factor(row.conventional.unit, row.si.unit, row.molarMass);
    check(near(between, theirs),
        `${row.analyte}: 1 ${row.conventional.unit} is ${between} ${row.si.unit} here and ${theirs} there`);
}
// The library refuses what is wrong, so that its consent means something.
check(!valid('µmol/L') && !valid('IU/L'), 'units that are none were taken for valid');
check(Number.isNaN(factor('mg/dL', 'U/L', 0)), 'mass was turned into activity');
check(Number.isNaN(factor('mg/dL', 'umol/L', 0)), 'mass was turned into amount without a molar mass');
console.log(`${rows.length} analytes, ${checked} checks, ${wrong} wrong`);
if (rows.length === 0 || wrong > 0) process.exitCode = 1;
