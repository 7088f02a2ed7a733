#pragma once
#include "lab/film/slide.h"

/// Slides of invented animals for tests of the film.
namespace cistern::films {

/// A healthy animal's blood, counts in the middle of usual reference intervals (from memory).
inline lab::Slide healthy(body::Kind kind) {
    using lab::FilmCell;
    const bool dog = kind == body::Kind::dog;
    lab::Slide slide;
    slide.kind = kind;
    slide.seed = 11;
    slide.red = dog ? 7 : 8.5;
    slide.redSpread = dog ? 0.045 : 0.069;
    slide.white = 10;
    slide.platelets = 300;
    slide.of(FilmCell::segmented) = 0.70;
    slide.of(FilmCell::band) = 0.01;
    slide.of(FilmCell::lymphocyte) = 0.19;
    slide.of(FilmCell::monocyte) = 0.05;
    slide.of(FilmCell::eosinophil) = 0.045;
    slide.of(FilmCell::basophil) = 0.005;
    slide.of(FilmCell::polychromatophil) = dog ? 0.008 : 0.004;
    return slide;
}

/// Blood that holds much of everything a plan can lay down.
inline lab::Slide crowd(body::Kind kind) {
    using lab::FilmCell;
    lab::Slide slide = healthy(kind);
    slide.seed = 7;
    slide.white = 60;
    slide.nucleated = 30;
    slide.of(FilmCell::segmented) = 0.35;
    slide.of(FilmCell::band) = 0.15;
    slide.of(FilmCell::metamyelocyte) = 0.05;
    slide.of(FilmCell::lymphocyte) = 0.15;
    slide.of(FilmCell::reactiveLymphocyte) = 0.05;
    slide.of(FilmCell::monocyte) = 0.10;
    slide.of(FilmCell::eosinophil) = 0.06;
    slide.of(FilmCell::basophil) = 0.04;
    slide.of(FilmCell::smudge) = 0.05;
    slide.of(FilmCell::polychromatophil) = 0.06;
    slide.of(FilmCell::hypochromic) = 0.03;
    slide.of(FilmCell::spherocyte) = 0.05;
    slide.of(FilmCell::echinocyte) = 0.03;
    slide.of(FilmCell::acanthocyte) = 0.02;
    slide.of(FilmCell::target) = 0.03;
    slide.of(FilmCell::schistocyte) = 0.02;
    slide.of(FilmCell::keratocyte) = 0.01;
    slide.howellJolly = 0.01;
    slide.heinz = 0.02;
    slide.water = 0.03;
    slide.rouleaux = 0.2;
    slide.agglutinated = 0.1;
    slide.toxic = 0.5;
    slide.hypersegmented = 0.1;
    slide.drumstick = 0.05;
    slide.doubtful = 0.2;
    slide.emptyGranules = 0.3;
    slide.aged = 0.2;
    slide.largePlatelets = 0.1;
    slide.clumps = 5;
    slide.clumpSize = 20;
    slide.precipitate = 200;
    return slide;
}

} // namespace cistern::films
