// Bundles broken one way each: who must refuse them. It shows that the validators bite.
// usage: node broken.js FOLDER PROGRAM CASE UNITS
'use strict';
const { unitCodes, bundleText } = require('./bundles');
const [folder, program, name, table] = process.argv.slice(2);
const faultsOf = require('./validators')(folder, unitCodes(table));
const good = bundleText(program, name, 'conventional');

const first = (bundle, type) => bundle.entry.find(one => one.resource.resourceType === type).resource;
const ranged = bundle => bundle.entry.map(one => one.resource).find(one => one.referenceRange);
const breaks = [
    ['no status of an observation', ['fhir'], b => { delete first(b, 'Observation').status; }],
    ['a status that does not exist', ['schema', 'fhir'], b => { first(b, 'Observation').status = 'finished'; }],
    ['a value that is text', ['schema', 'fhir'], b => { first(b, 'Observation').valueQuantity.value = '7'; }],
    ['a comparator that does not exist', ['schema', 'fhir'],
        b => { first(b, 'Observation').valueQuantity.comparator = '=<'; }],
    ['a misspelt property', ['schema', 'fhir'], b => { first(b, 'Observation').statuss = 'final'; }],
    ['no code of a report', ['schema', 'fhir'], b => { delete first(b, 'DiagnosticReport').code; }],
    ['results that are no list', ['schema', 'fhir'],
        b => { first(b, 'DiagnosticReport').result = first(b, 'DiagnosticReport').result[0]; }],
    ['a resource that does not exist', ['schema', 'fhir'], b => { first(b, 'Specimen').resourceType = 'Tube'; }],
    ['no type of the bundle', ['fhir'], b => { delete b.type; }],
    ['a date of another calendar', ['schema'], b => { first(b, 'Observation').effectiveDateTime = '02/01/2024'; }],
    ['a gender that does not exist', ['schema', 'fhir'], b => { first(b, 'Patient').gender = 'spayed'; }],
    ['no narrative status', ['fhir'], b => { delete first(b, 'DiagnosticReport').text.status; }],
    ['a range that is a number', ['own'], b => { ranged(b).referenceRange[0].low = 3; }],
    ['a limit that is text', ['schema', 'fhir'], b => { ranged(b).referenceRange[0].low.value = '3'; }],
    ['two values', ['own'], b => { first(b, 'Observation').valueString = 'seven'; }],
    ['no value', ['own'], b => { delete first(b, 'Observation').valueQuantity; }],
    ['a result that points nowhere', ['own'],
        b => { first(b, 'DiagnosticReport').result[0].reference = 'urn:uuid:00000000-0000-5000-8000-000000000000'; }],
    ['a specimen that is not there', ['own'],
        b => { b.entry = b.entry.filter(one => one.resource.resourceType !== 'Specimen'); }],
    ['a unit that is not ours', ['own'], b => { first(b, 'Observation').valueQuantity.code = 'K/uL'; }],
    ['a quantity without a code system', ['own'], b => { delete first(b, 'Observation').valueQuantity.system; }],
    ['a resource without its label', ['own'], b => { delete first(b, 'Patient').meta; }],
    ['an id twice', ['own'], b => { b.entry.push(b.entry[b.entry.length - 1]); }],
];

let wrong = 0;
const say = text => { ++wrong; console.log(text); };
for (const [who, faults] of Object.entries(faultsOf(JSON.parse(good))))
    if (faults.length > 0) say(`the unbroken bundle, ${who}: ${faults[0]}`);
for (const [what, finders, damage] of breaks) {
    const bundle = JSON.parse(good);
    damage(bundle);
    const faults = faultsOf(bundle);
    for (const who of finders) if (faults[who].length === 0) say(`${what}: not refused by ${who}`);
}
console.log(`${breaks.length} ways to break a bundle, ${wrong} surprises`);
if (wrong > 0) process.exitCode = 1;
