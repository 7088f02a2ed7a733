#pragma once
#include "report/text.h"

#include <string>
#include <vector>

namespace cistern::report {

/// Results as a FHIR R4 Bundle of the type `collection`, two blanks a level, ended by a line end:
/// the Patient (an animal); for each draw a DiagnosticReport, a Specimen of each kind, and an
/// Observation of each result. Every resource is labeled as test data (HTEST).
///
/// Codes: LOINC where one is known, and always our own, the analyte's name, of urn:cistern:analyte;
/// units are UCUM codes. A result beyond the method's range has the comparator < or >. The case has
/// a clock of its own and no calendar, so there is no effective time: the hour stands in the
/// extension urn:cistern:hour, the analyzer's doubt (1.96 standard deviations) in
/// urn:cistern:half-width. Ids are UUIDs named after patient, seed, draw and analyte: the same
/// results give the same bytes.
std::string resultsFhir(const Patient& patient, const std::vector<lab::Report>& reports,
                        const lab::Bench& bench, lab::Units units);

} // namespace cistern::report
