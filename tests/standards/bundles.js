// The bundles of shipped cases, and the UCUM codes that they may hold.
'use strict';
const fs = require('fs');
const path = require('path');
const { execFileSync } = require('child_process');

const systems = ['conventional', 'si'];

/** Codes of the units table, and hours. */
function unitCodes(table) {
    const codes = new Set(['h']);
    for (const row of JSON.parse(fs.readFileSync(table, 'utf8')))
        for (const system of systems) codes.add(row[system].unit);
    return codes;
}

function caseNames(folder) {
    const files = fs.readdirSync(folder).filter(file => file.endsWith('.yaml'));
    return files.map(file => path.basename(file, '.yaml')).sort();
}

function bundleText(program, name, units) {
    return execFileSync(program, ['run', name, '--format', 'fhir', '--units', units],
        { encoding: 'utf8', maxBuffer: 1 << 26 });
}

module.exports = { systems, unitCodes, caseNames, bundleText };
