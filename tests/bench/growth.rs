//! Time against turns of thread and against the chord error: in proportion to the triangles, so
//! the throughput (triangles a second) stays level down each table.

#[path = "../common/mod.rs"]
mod common;
mod parts;

use common::{basic_thread, chain};
use criterion::{BenchmarkId, Criterion, Throughput};
use parts::r1;
use sectionwright::export::stl;
use sectionwright::mesh::tessellate;
use sectionwright::section::{Item, Part, Side};
use sectionwright::solid::build;

/// The chord error for the turns, in millimetres.
const CHORD: f64 = 0.002;

/// Turns of the ring's thread.
const TURNS: [u32; 5] = [5, 10, 20, 40, 80];

/// Chord errors in millimetres.
const CHORDS: [f64; 6] = [0.02, 0.01, 0.005, 0.002, 0.001, 0.0005];

fn main() {
    let mut criterion = Criterion::default().configure_from_args().sample_size(20);
    by_turns(&mut criterion);
    by_chord(&mut criterion);
    criterion.final_summary();
}

/// A ring of 10 mm with a thread M10x0.75 of so many turns from end to end.
fn ring(turns: u32) -> Part {
    let back = 0.75 * f64::from(turns);
    let thread = basic_thread(Item::TenonThread, Side::External, "M10x0.75", 0.0, back);
    let runs = chain(&[(10.0, 0.0), (10.0, back)], &[(6.9, back), (6.9, 0.0)]);
    Part { runs, threads: vec![thread] }.snapped()
}

/// From the half-section to the bytes of the STL.
fn bytes(part: &Part, chord: f64) -> Vec<u8> {
    let body = build(part).expect("the part can be built");
    let (mesh, _) = tessellate(&body, chord).expect("the part can be cut");
    stl(&mesh)
}

/// Triangles in an STL of so many bytes.
fn triangles(bytes: &[u8]) -> Throughput {
    Throughput::Elements((bytes.len() as u64 - 84) / 50)
}

fn by_turns(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("turns");
    for turns in TURNS {
        let part = ring(turns);
        group.throughput(triangles(&bytes(&part, CHORD)));
        let id = BenchmarkId::from_parameter(turns);
        group.bench_with_input(id, &part, |b, part| b.iter(|| bytes(part, CHORD)));
    }
    group.finish();
}

fn by_chord(criterion: &mut Criterion) {
    let part = r1().part();
    let mut group = criterion.benchmark_group("chord");
    for chord in CHORDS {
        group.throughput(triangles(&bytes(&part, chord)));
        let id = BenchmarkId::from_parameter(chord);
        group.bench_with_input(id, &chord, |b, chord| b.iter(|| bytes(&part, *chord)));
    }
    group.finish();
}
