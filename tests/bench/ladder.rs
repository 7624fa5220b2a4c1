//! A ladder of five rungs from the section to the bytes of its STLs, on one core: moved for the
//! printer, built, cut at the chord error that a plate has, audited and encoded; beside it one R1
//! by the same stages, so that a ratio can be said.

mod parts;

use criterion::{Criterion, Throughput};
use parts::r1;
use sectionwright::check::chord;
use sectionwright::design::{Library, load, load_printer};
use sectionwright::export::stl;
use sectionwright::mesh::tessellate;
use sectionwright::print::pieces;
use sectionwright::print::specimen::{Ladder, Mated, SpecimenKind};
use sectionwright::quantity::Length;
use sectionwright::section::Part;
use sectionwright::solid::build;

/// The chord error of a plate, in millimetres.
const CHORD: f64 = 0.005;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    ladder(&mut criterion);
    criterion.final_summary();
}

fn encoded(part: &Part) -> usize {
    let body = build(part).expect("it can be built");
    let chord = chord(part, &body, CHORD);
    let (mesh, _) = tessellate(&body, chord.in_force).expect("it can be cut");
    stl(&mesh).len()
}

fn ladder(criterion: &mut Criterion) {
    let library = Library::new(Vec::new());
    let section = load(&library, "demo").expect("the demo is sound").section;
    let printer = load_printer(&library, "resin").expect("it is built in").printer;
    let rungs = Ladder::usual(&printer, Mated::Unit);
    let chord = Length::mm(CHORD);
    let mut group = criterion.benchmark_group("ladder");
    group.throughput(Throughput::Elements(u64::from(rungs.rungs)));
    group.bench_function("five rungs", |b| {
        b.iter(|| {
            let made = pieces(&section, &[SpecimenKind::Ladder], &printer, &rungs, chord);
            let made = made.expect("the demo has a ladder");
            made.iter().map(|piece| encoded(&piece.part)).sum::<usize>()
        });
    });
    group.bench_function("offset alone", |b| {
        b.iter(|| pieces(&section, &[SpecimenKind::Ladder], &printer, &rungs, chord));
    });
    group.bench_function("one R1", |b| b.iter(|| encoded(&r1().part())));
    group.finish();
}
