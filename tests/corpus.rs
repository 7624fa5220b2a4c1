//! What fuzzing of the design file has found, and what asks for too much, once more: the fuzzer
//! itself is run by tests/fuzz/run.

#[path = "fuzz/workshop.rs"]
mod workshop;

use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

use sectionwright::design::{Library, load};
use sectionwright::mesh::{DEFAULT_CHORD, LEAST_CHORD, MOST_TRIANGLES, MeshError, tessellate};
use sectionwright::solid::build;
use workshop::{Outcome, Workshop};

/// No design may take longer; generous, for a build without optimisation on a busy machine.
const PATIENCE: Duration = Duration::from_secs(30);

/// What asks for too much, and in `reached` what the fuzzer came to: the least design for each code
/// of a refusal, and some that are made.
fn corpus() -> Vec<(String, Vec<u8>)> {
    let mut found = Vec::new();
    for folder in ["tests/fuzz/corpus", "tests/fuzz/corpus/reached"] {
        for file in fs::read_dir(folder).expect("there") {
            let path = file.expect("a file").path();
            if path.is_file() {
                let name = path.file_stem().and_then(|name| name.to_str()).expect("ASCII");
                found.push((name.to_owned(), fs::read(&path).expect("readable")));
            }
        }
    }
    found.sort();
    found
}

#[test]
fn the_corpus_is_small() {
    let size: usize = corpus().iter().map(|(_, bytes)| bytes.len()).sum();
    assert!(size < 200_000, "{size} bytes");
}

/// No panic, no hang; what asks for too much is refused by the name of its limit.
#[test]
fn every_find_gets_an_answer() {
    let workshop = Workshop::new(Path::new("tests"));
    let (mut refused, mut made) = (Vec::new(), 0);
    for (name, design) in corpus() {
        let begun = Instant::now();
        let outcome = workshop.make(&design, DEFAULT_CHORD);
        assert!(begun.elapsed() < PATIENCE, "{name}: {:?}", begun.elapsed());
        match outcome {
            Outcome::Refused(codes) => refused.push((name, codes[0])),
            Outcome::Made { triangles, bytes } => {
                assert!(triangles as f64 <= MOST_TRIANGLES && bytes > 0, "{name}: {triangles}");
                made += 1;
            }
        }
    }
    assert!(made >= 10, "{made}");
    // Those that ask for too much, by their files' names.
    for (name, code) in [
        ("a-million-turns", "value.class"),
        ("a-device-for-a-unit", "file.unreadable"),
        ("a-wide-fine-thread", "mesh.too-large"),
        ("a-long-fine-thread", "export.step-too-large"),
        ("a-hundred-starts", "value.thread"),
        ("a-hundred-points", "value.points"),
        ("a-hundred-runs", "grip.too-many-runs"),
        ("a-long-grip", "value.huge"),
    ] {
        assert!(refused.contains(&(name.to_owned(), code)), "{name} {code}: {refused:?}");
    }
}

/// A chord error that takes too many triangles is refused with one that does not.
#[test]
fn a_mesh_too_large_names_a_chord_that_works() {
    let section = |name: &str| {
        let file = format!("tests/{name}.toml");
        load(&Library::default(), &file).expect("sound").section
    };
    let wide = build(&section("fuzz/corpus/a-wide-fine-thread").part()).expect("it can be built");
    let Err(MeshError::TooLarge { works: Some(works), limit, .. }) = tessellate(&wide, 0.005)
    else {
        panic!("it is not refused")
    };
    let (mesh, _) = tessellate(&wide, works).expect("the chord named works");
    let made = mesh.triangles.len() as f64;
    // The estimate is near what is made.
    assert!(made < limit * 1.05 && made > limit / 2.0, "{made}");
    // The reference part is made at any chord error from the finest on.
    let r1 = build(&section("fixtures/r1").part()).expect("it can be built");
    assert!(tessellate(&r1, LEAST_CHORD).is_ok());
    assert!(matches!(tessellate(&r1, 1e-9), Err(MeshError::Chord { least: LEAST_CHORD, .. })));
}
