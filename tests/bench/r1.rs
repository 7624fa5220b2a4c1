//! R1 from its design file to an STL on disk, whole and by stage, on one core.
//!
//! "whole" is the sum of the stages: what is read, resolved, built, measured, cut, audited, encoded
//! and written. Nothing is synced. "audit" is a part of "tessellate", so it is not a summand.

mod parts;

use std::hint::black_box;

use criterion::{Criterion, Throughput};
use parts::r1;
use sectionwright::export::stl;
use sectionwright::mesh::{audit, tessellate};
use sectionwright::section::faults;
use sectionwright::solid::build;

/// The chord error at which the speed is stated, in millimetres.
const CHORD: f64 = 0.002;

fn main() {
    let mut criterion = Criterion::default().configure_from_args();
    stages(&mut criterion);
    criterion.final_summary();
}

fn stages(criterion: &mut Criterion) {
    let folder = tempfile::tempdir().expect("a folder for temporary files");
    let file = folder.path().join("section.stl");
    let section = r1();
    let body = build(&section.part()).expect("R1 can be built");
    let measures = body.measures();
    let (mesh, _) = tessellate(&body, CHORD).expect("R1 can be cut");
    let bytes = stl(&mesh);
    let mut group = criterion.benchmark_group("r1");
    group.throughput(Throughput::Elements(mesh.triangles.len() as u64));
    group.bench_function("whole", |b| {
        b.iter(|| {
            let section = r1();
            assert_eq!(faults(&section), []);
            let body = build(&section.part()).expect("R1 can be built");
            let (mesh, _) = tessellate(&body, CHORD).expect("R1 can be cut");
            std::fs::write(&file, stl(&mesh)).expect("a file can be written");
        });
    });
    group.bench_function("read", |b| b.iter(|| faults(&r1())));
    group.bench_function("solid", |b| b.iter(|| build(&section.part())));
    group.bench_function("measures", |b| b.iter(|| body.measures()));
    group.bench_function("tessellate", |b| b.iter(|| tessellate(&body, CHORD)));
    group.bench_function("audit", |b| b.iter(|| audit(&mesh, &measures, body.genus())));
    group.bench_function("encode", |b| b.iter(|| stl(&mesh)));
    group.bench_function("write", |b| b.iter(|| std::fs::write(&file, black_box(&bytes))));
    group.finish();
}
