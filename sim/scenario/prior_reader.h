#pragma once
#include "reader/priors.h"
#include "scenario/asset_reader.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace cistern::scenario {

/// Where the numbers of a row come from: what it says itself, else what is usual around it.
Sourced knownFrom(Shelf& shelf, Reader& row, const Sourced& usual);

/// A chance as a share, written in %.
std::optional<double> readChance(Reader reader);

/// {median: 12 %, usual: 3..60 %}, within a range; beside them source and standing if they are not
/// the usual ones. It is kept under `name`.
reader::Spread readSpread(Shelf& shelf, Reader map, const Range& range, reader::Spread::Shape shape,
                          const std::string& name, const Sourced& usual);

/// In which numbers a severity, and a time before an animal is seen, may be.
Range severityRange(const body::InsultKind& kind);
reader::Spread::Shape severityShape(const body::InsultKind& kind);
Range timeRange();

/// {weight loss: 30 %}: findings that are named, by assets/findings.yaml.
std::map<std::string, double> readShows(Reader map,
                                        const std::vector<lesson::FindingKind>& findings);

/// "ended", "running" or "slow".
std::optional<reader::Span> readActing(Reader reader);

/// What is believed of an insult that a case defines: its `prior`, and where that says nothing,
/// what is plain: a weight of 10 in 1000, the usual severities, begun within days and going on.
reader::InsultPrior readCasePrior(Shelf& shelf, Reader& insult, const body::InsultKind& kind);

} // namespace cistern::scenario
