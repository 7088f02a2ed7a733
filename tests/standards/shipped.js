// Every shipped case, in both unit systems, through all validators.
// usage: node shipped.js FOLDER PROGRAM SCENARIOS UNITS
'use strict';
const { systems, unitCodes, caseNames, bundleText } = require('./bundles');
const [folder, program, scenarios, table] = process.argv.slice(2);
const faultsOf = require('./validators')(folder, unitCodes(table));

let bundles = 0, resources = 0, faulty = 0;
for (const name of caseNames(scenarios))
    for (const units of systems) {
        const bundle = JSON.parse(bundleText(program, name, units));
        ++bundles;
        resources += bundle.entry.length;
        for (const [who, faults] of Object.entries(faultsOf(bundle)))
            if (faults.length > 0) {
                ++faulty;
                console.log(`${name}, ${units}, ${who}:\n  ${faults.slice(0, 5).join('\n  ')}`);
            }
    }
console.log(`${bundles} bundles with ${resources} resources, ${faulty} faulty`);
if (bundles === 0 || resources < 10 * bundles || faulty > 0) process.exitCode = 1;
