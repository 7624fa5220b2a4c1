//! 3MF files of plates, for the outside judges.
//!
//! They are left in Cargo's folder for tests' files, where the judges find them
//! (`tests/judges/test_three_mf.py`), with an STL of every mesh beside them and what is in them.

mod common;

use std::fs;
use std::path::PathBuf;

use common::{r1, random};
use sectionwright::design::{Library, load_printer};
use sectionwright::export::{PlatePart, stl, three_mf};
use sectionwright::mesh::{Mesh, tessellate};
use sectionwright::print::calibrate::Plate;
use sectionwright::section::Part;
use sectionwright::solid::build;

/// Random parts on the plate of random parts, of those seeds that can be built.
const RANDOM: usize = 12;

/// A name with everything that XML has to escape, and letters of other alphabets.
const AWKWARD: &str = "Füller \"A\" <r1> & 'B' — ø 10, 日本";

fn mesh(part: &Part) -> Option<Mesh> {
    let body = build(part).ok()?;
    Some(tessellate(&body, 0.02).ok()?.0)
}

/// The meshes of a plate by their names.
type Named = Vec<(String, Mesh)>;

fn plates() -> Vec<(&'static str, Named)> {
    let sound = |part: &Part| mesh(part).expect("it can be built");
    let one = vec![(AWKWARD.to_owned(), sound(&r1()))];
    let printer = load_printer(&Library::default(), "resin").expect("it is sound").printer;
    let pieces = Plate::new(&printer).pieces;
    let pieces: Named =
        pieces.iter().map(|p| (p.sizes.name.to_owned(), sound(&p.part()))).collect();
    let random = (0_u64..).filter_map(|seed| {
        let mesh = mesh(&random::part(seed).0)?;
        Some((format!("random & {seed}"), mesh))
    });
    // A name may stand twice: a plate has as many of a part as are wanted.
    let twice = vec![("twin".to_owned(), sound(&r1())), ("twin".to_owned(), sound(&r1()))];
    vec![
        ("one", one),
        ("twice", twice),
        ("calibration", pieces),
        ("random", random.take(RANDOM).collect()),
    ]
}

#[test]
fn every_plate_is_written_for_the_judges() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("3mf");
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    let mut said = serde_json::Map::new();
    for (name, meshes) in plates() {
        assert!(!meshes.is_empty(), "{name}");
        let place = |n: usize| [20.0 + 25.0 * (n % 4) as f64, 15.5 + 30.1 * (n / 4) as f64];
        let parts: Vec<PlatePart> = meshes
            .iter()
            .enumerate()
            .map(|(n, (name, mesh))| PlatePart { name, mesh, at: place(n) })
            .collect();
        let title = format!("{name} of {AWKWARD}");
        let bytes = three_mf(&title, &parts).unwrap();
        assert_eq!(bytes, three_mf(&title, &parts).unwrap(), "{name}: the same bytes");
        fs::write(folder.join(format!("{name}.3mf")), bytes).unwrap();
        let mut listed = Vec::new();
        for (n, part) in parts.iter().enumerate() {
            let file = format!("{name}-{n}.stl");
            fs::write(folder.join(&file), stl(part.mesh)).unwrap();
            let volume = part.mesh.volume();
            listed.push(serde_json::json!({
                "name": part.name, "at": part.at, "stl": file, "volume_mm3": volume,
            }));
        }
        said.insert(name.to_owned(), serde_json::json!({ "title": title, "parts": listed }));
    }
    let said = serde_json::to_string_pretty(&said).unwrap();
    fs::write(folder.join("plates.json"), said).unwrap();
}
