#include "body/part.h"

#include "body/reading.h"

namespace cistern::body {

namespace {

constexpr Parts only(Part part) {
    return 1u << static_cast<int>(part);
}

Parts neededFor(Analyte analyte) {
    switch (analyte) {
    case Analyte::ALT:
    case Analyte::AST:
    case Analyte::ALP:
    case Analyte::GGT:
    case Analyte::GLDH:
    case Analyte::SDH:
    case Analyte::CK:
    case Analyte::LDH:
    case Analyte::lipase:
    case Analyte::amylase:
    case Analyte::TLI:
    case Analyte::cTnI:
        return only(Part::enzymes);
    case Analyte::bilirubin:
        return only(Part::bile);
    case Analyte::bileAcids:
    case Analyte::ammonia:
        return only(Part::portal);
    case Analyte::protein:
    case Analyte::albumin:
    case Analyte::globulin:
    case Analyte::CRP:
    case Analyte::SAA:
    case Analyte::PT:
    case Analyte::aPTT:
    case Analyte::fibrinogen:
    case Analyte::TP:
    case Analyte::UPC:
        return only(Part::protein);
    case Analyte::glucose:
    case Analyte::cholesterol:
    case Analyte::triglycerides:
    case Analyte::USG:
        return only(Part::sugar);
    case Analyte::Na:
    case Analyte::K:
    case Analyte::Cl:
    case Analyte::tCO2:
    case Analyte::anionGap:
    case Analyte::Ca:
    case Analyte::P:
    case Analyte::Mg:
        return only(Part::salts) | only(Part::sugar) | only(Part::protein);
    case Analyte::WBC:
    case Analyte::neutrophils:
    case Analyte::bands:
    case Analyte::lymphocytes:
    case Analyte::monocytes:
    case Analyte::eosinophils:
    case Analyte::toxic:
        return only(Part::whiteCells);
    case Analyte::platelets:
        return only(Part::platelets);
    default:
        return 0;
    }
}

Parts neededFor(Tissue tissue, bool leak) {
    switch (tissue) {
    case Tissue::liver:
    case Tissue::bileDucts:
    case Tissue::bone:
        return leak ? only(Part::enzymes) : 0;
    case Tissue::kidney:
        return leak ? only(Part::protein) : 0;
    case Tissue::whiteCells:
        return only(Part::whiteCells);
    case Tissue::platelets:
        return only(Part::platelets);
    default:
        return 0;
    }
}

} // namespace

Parts partsFor(const std::vector<Analyte>& wanted) {
    if (wanted.empty()) return allParts;
    Parts parts = 0;
    for (Analyte analyte : wanted) parts |= neededFor(analyte);
    return parts;
}

bool known(int which, Parts parts) {
    Parts needed = 0;
    if (which < reading::leak)
        needed = neededFor(static_cast<Tissue>(which), false);
    else if (which < reading::analyte)
        needed = neededFor(static_cast<Tissue>(which - reading::leak), true);
    else if (which < reading::gfr)
        needed = neededFor(static_cast<Analyte>(which - reading::analyte));
    else if (which == reading::conjugated || which == reading::delta)
        needed = only(Part::bile);
    else if (which >= reading::pool)
        needed = only(Part::enzymes);
    return (needed & ~parts) == 0;
}

} // namespace cistern::body
