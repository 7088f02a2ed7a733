#include "lesson/film_pairs.h"

#include <array>

namespace cistern::lesson {

namespace {

using lab::FilmCell;

struct Pair {
    FilmCell one, other;
    std::string_view dog, cat; // an empty text of the cat is that of the dog
};

// From memory of the textbooks (Harvey; Reagan; Stockham and Scott).
constexpr std::array pairs{
    Pair{FilmCell::segmented,
         FilmCell::band,
         "Look for the narrowest place of the nucleus: below half of the widest part (some say a "
         "third) it is segmented, with parallel sides throughout it is a band. Call a band only "
         "if you are sure.",
         {}},
    Pair{FilmCell::band,
         FilmCell::metamyelocyte,
         "A metamyelocyte's nucleus is a kidney with a shallow dent, thicker than its cytoplasm is "
         "wide; a band's is bent to a U or S of even width.",
         {}},
    Pair{FilmCell::segmented,
         FilmCell::metamyelocyte,
         "A metamyelocyte's nucleus is one kidney with a shallow dent; a segmented one has three "
         "to five lobes with narrow necks.",
         {}},
    Pair{FilmCell::band,
         FilmCell::monocyte,
         "The shape of the nucleus may be the same. A monocyte is larger, its chromatin lacy and "
         "pale, its cytoplasm gray-blue like ground glass with sharp round holes; a band's, even a "
         "toxic one's, chromatin is clumped, its cytoplasm nearly clear or patchy blue and foamy.",
         {}},
    Pair{FilmCell::segmented,
         FilmCell::monocyte,
         "A monocyte may have lobes too, but broad ones of lacy, pale chromatin in gray-blue "
         "cytoplasm; a segmented neutrophil's are dark and clumped in nearly clear cytoplasm.",
         {}},
    Pair{FilmCell::metamyelocyte,
         FilmCell::monocyte,
         "Both may have a kidney of a nucleus. A monocyte is larger, lacier and gray-blue, often "
         "with holes; a metamyelocyte is pale blue, with clumped chromatin, and comes in company "
         "of many bands.",
         {}},
    Pair{FilmCell::metamyelocyte,
         FilmCell::reactiveLymphocyte,
         "A reactive lymphocyte's cytoplasm is deep royal blue with a pale zone by the nucleus; a "
         "metamyelocyte's is an even pale blue and its nucleus is dented.",
         {}},
    Pair{FilmCell::lymphocyte,
         FilmCell::monocyte,
         "A monocyte is twice as wide, with a lacy nucleus of any shape and gray-blue cytoplasm; a "
         "lymphocyte has a smooth, dense, round nucleus and a thin sky-blue rim.",
         {}},
    Pair{FilmCell::reactiveLymphocyte,
         FilmCell::monocyte,
         "A reactive lymphocyte's cytoplasm is deep royal blue and paler beside the nucleus; a "
         "monocyte's is gray-blue, with sharp round holes, and its nucleus is lacy.",
         {}},
    Pair{FilmCell::lymphocyte,
         FilmCell::reactiveLymphocyte,
         "A reactive lymphocyte has more cytoplasm, of a deep royal blue; both count as "
         "lymphocytes.",
         {}},
    Pair{FilmCell::lymphocyte,
         FilmCell::nucleatedRed,
         "A nucleated red cell has a small, round, almost black nucleus in plenty of pink to lilac "
         "cytoplasm; a lymphocyte's nucleus is larger and smoother and leaves only a thin sky-blue "
         "rim.",
         {}},
    Pair{FilmCell::segmented, FilmCell::eosinophil,
         "An eosinophil has round orange-pink granules of unequal size, or the empty holes they "
         "left, and only two or three lobes; a neutrophil shows no colored granules.",
         "A cat's eosinophil is filled with small brick-to-orange rods; a neutrophil shows no "
         "colored granules."},
    Pair{FilmCell::band, FilmCell::eosinophil,
         "Colored granules decide: round and orange-pink in an eosinophil, none in a band; empty "
         "round holes beside two lobes are an eosinophil's too.",
         "Colored granules decide: brick-to-orange rods in an eosinophil, none in a band."},
    Pair{
        FilmCell::segmented, FilmCell::basophil,
        "A basophil's nucleus is a long, twisted ribbon in gray-lavender cytoplasm with a few dark "
        "violet granules; a neutrophil's cytoplasm is nearly clear.",
        "A cat's basophil is packed with pale lavender-gray ovals, also over the nucleus; a "
        "neutrophil's cytoplasm is nearly clear."},
    Pair{FilmCell::band, FilmCell::basophil,
         "A basophil's ribbon is longer and more twisted than a band, its cytoplasm gray-lavender "
         "with a few dark violet granules.",
         "A cat's basophil is packed with pale lavender-gray ovals, also over the nucleus; a band "
         "has none."},
    Pair{FilmCell::eosinophil, FilmCell::basophil,
         "An eosinophil's granules are orange-pink and round; a basophil's are few, scattered and "
         "dark violet, beside a twisted ribbon of a nucleus.",
         "An eosinophil's granules are brick-to-orange rods; a basophil's are pale lavender-gray "
         "ovals that make its nucleus look moth-eaten."},
    Pair{FilmCell::monocyte, FilmCell::basophil,
         "A basophil has a twisted ribbon of a nucleus and violet granules; a monocyte has neither "
         "colored granules nor a narrow ribbon, but lace and holes.",
         "A cat's basophil is packed with lavender-gray ovals; a monocyte's cytoplasm is smooth "
         "like ground glass, with a few sharp holes."},
    Pair{
        FilmCell::platelet,
        FilmCell::precipitate,
        "Precipitate lies above the cells, out of their focus, as separate hard grains; a platelet "
        "has a pale, fuzzy body around its grains.",
        {}},
    Pair{FilmCell::plateletClump,
         FilmCell::smudge,
         "A clump is grainy and shows single platelets at its border; a smudge is a net of pink-"
         "purple strands without grains.",
         {}},
    Pair{FilmCell::plateletClump,
         FilmCell::precipitate,
         "Precipitate is separate hard grains above the cells; a clump is a soft mass in which "
         "single platelets show.",
         {}},
    Pair{FilmCell::lymphocyte, FilmCell::platelet,
         "A platelet has no nucleus, only fine grains in a fuzzy body; a lymphocyte has a smooth, "
         "round nucleus with a sharp edge.",
         "A large platelet of a cat may be as wide as a red cell, but is grainy and fuzzy; a "
         "lymphocyte has a smooth, round nucleus with a sharp edge."},
    Pair{FilmCell::lymphocyte,
         FilmCell::smudge,
         "A smudge has neither outline nor cytoplasm; only a whole cell is counted.",
         {}},
    Pair{FilmCell::monocyte,
         FilmCell::smudge,
         "A smudge has neither outline nor cytoplasm; only a whole cell is counted.",
         {}},
    Pair{FilmCell::discocyte, FilmCell::polychromatophil,
         "A polychromatophil is larger, lilac to blue-gray, and lacks a pale middle.",
         "A polychromatophil is larger and lilac to blue-gray; an ordinary red cell is pink."},
    Pair{FilmCell::discocyte,
         FilmCell::spherocyte,
         "A spherocyte is smaller, denser and has no pale middle at all; at the feathered edge "
         "every red cell looks like that, so judge in the monolayer.",
         {}},
    Pair{FilmCell::discocyte, FilmCell::hypochromic,
         "In a hypochromic cell the pale middle takes more than half of the width and the rim is "
         "thin; an ordinary one is pale in about a third.",
         "A cat's ordinary red cell has hardly any pale middle; a thin rim around a wide pale one "
         "is hypochromic."},
    Pair{
        FilmCell::hypochromic,
        FilmCell::target,
        "A target cell has a red spot in the middle of the pale ring; a hypochromic cell has none.",
        {}},
    Pair{FilmCell::discocyte,
         FilmCell::target,
         "A target cell has a red spot in the middle of its pale ring.",
         {}},
    Pair{FilmCell::echinocyte,
         FilmCell::acanthocyte,
         "Even, short points all around, 10 to 30 of them: echinocyte. Few knobs of uneven length, "
         "unevenly set: acanthocyte.",
         {}},
    Pair{FilmCell::schistocyte,
         FilmCell::keratocyte,
         "A keratocyte is a cell of about full size with a bite between two horns; a schistocyte "
         "is a smaller fragment with pointed ends.",
         {}},
    Pair{FilmCell::spherocyte,
         FilmCell::schistocyte,
         "A spherocyte is perfectly round; a fragment has points or a straight side.",
         {}},
    Pair{FilmCell::acanthocyte,
         FilmCell::keratocyte,
         "A keratocyte has two horns beside one gap; an acanthocyte has knobs all around.",
         {}},
    Pair{FilmCell::polychromatophil,
         FilmCell::nucleatedRed,
         "A nucleated red cell has a small, almost black nucleus; a polychromatophil has none.",
         {}},
    Pair{FilmCell::spherocyte,
         FilmCell::polychromatophil,
         "Both lack a pale middle: a spherocyte is small and dense red, a polychromatophil large "
         "and lilac.",
         {}},
    Pair{FilmCell::polychromatophil,
         FilmCell::hypochromic,
         "A polychromatophil is lilac to blue-gray throughout; a hypochromic cell is a thin pink "
         "rim around a wide pale middle.",
         {}},
    Pair{FilmCell::discocyte,
         FilmCell::platelet,
         "A platelet that lies on a red cell is fuzzy and grainy and has a pale halo; a "
         "Howell-Jolly body in the cell is one smooth, round, blue-black dot.",
         {}},
    Pair{FilmCell::discocyte,
         FilmCell::nucleatedRed,
         "A nucleus takes a third of the cell or more and shows clumps; a Howell-Jolly body is one "
         "smooth dot of at most 1 um.",
         {}},
    Pair{FilmCell::nucleatedRed,
         FilmCell::platelet,
         "A platelet that lies on a red cell is fuzzy and grainy and has a pale halo; a nucleus is "
         "almost black, round and sharp.",
         {}},
    Pair{FilmCell::hypochromic,
         FilmCell::keratocyte,
         "A hypochromic cell is round and pale in the middle; a keratocyte's gap breaks the edge "
         "and leaves two horns.",
         {}},
    Pair{FilmCell::target,
         FilmCell::keratocyte,
         "A target cell is round, with a ring and a spot inside; a keratocyte's gap breaks the "
         "edge and leaves two horns.",
         {}},
    Pair{FilmCell::target,
         FilmCell::acanthocyte,
         "A target cell's edge is smooth and its mark lies inside; an acanthocyte has knobs at its "
         "edge.",
         {}},
    Pair{FilmCell::spherocyte,
         FilmCell::echinocyte,
         "A spherocyte's edge is smooth; a late echinocyte may be as dense and round but shows "
         "short points.",
         {}},
    Pair{FilmCell::echinocyte,
         FilmCell::keratocyte,
         "An echinocyte has short, even points all around; a keratocyte two horns beside one gap.",
         {}},
    Pair{FilmCell::echinocyte,
         FilmCell::schistocyte,
         "An echinocyte is a whole cell with short, even points all around; a schistocyte is a "
         "smaller fragment with two or three sharp ends.",
         {}},
    Pair{FilmCell::acanthocyte,
         FilmCell::schistocyte,
         "An acanthocyte is a whole cell with knobs all around; a schistocyte is a smaller "
         "fragment with two or three sharp ends.",
         {}},
    Pair{FilmCell::nucleatedRed,
         FilmCell::reactiveLymphocyte,
         "A reactive lymphocyte is larger, with royal-blue cytoplasm and an open nucleus; a "
         "nucleated red cell's nucleus is small and almost black, its cytoplasm pink to lilac.",
         {}},
    Pair{FilmCell::smudge,
         FilmCell::precipitate,
         "A smudge is a pink-purple net among the cells; precipitate is separate hard grains above "
         "them.",
         {}},
    Pair{FilmCell::platelet,
         FilmCell::plateletClump,
         "One fuzzy body is a platelet; a grainy mass in which several show is a clump.",
         {}},
    Pair{FilmCell::eosinophil, FilmCell::monocyte,
         "An eosinophil has colored granules, or the empty round holes they left beside two dense "
         "lobes; a monocyte's holes are few, its chromatin lacy, its cytoplasm gray-blue.",
         "An eosinophil is filled with brick-to-orange rods; a monocyte's cytoplasm is smooth and "
         "gray-blue, with a few sharp holes."},
    Pair{FilmCell::discocyte,
         FilmCell::echinocyte,
         "An echinocyte has short, even points all around; an ordinary red cell's edge is smooth.",
         {}},
    Pair{FilmCell::plateletClump,
         FilmCell::basophil,
         "A basophil is one cell with an outline and a twisted nucleus; a clump has neither, and "
         "single platelets show at its border.",
         {}},
    Pair{FilmCell::precipitate,
         FilmCell::basophil,
         "A basophil's granules lie inside one cell and in focus with it; precipitate lies above "
         "the cells and between them.",
         {}}};

} // namespace

std::string apart(FilmCell one, FilmCell other, body::Kind kind) {
    for (const Pair& pair : pairs)
        if ((pair.one == one && pair.other == other) || (pair.one == other && pair.other == one))
            return std::string(kind == body::Kind::cat && !pair.cat.empty() ? pair.cat : pair.dog);
    if (one == other) return std::string(lab::telling(one, kind));
    const auto told = [&](lab::FilmCell cell) {
        const std::string name(lab::name(cell));
        const bool vowel = std::string_view("aeio").find(name.front()) != std::string_view::npos;
        return (vowel ? "An " : "A ") + name + ": " + std::string(lab::telling(cell, kind));
    };
    return told(one) + " " + told(other);
}

} // namespace cistern::lesson
