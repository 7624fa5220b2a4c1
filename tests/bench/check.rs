//! How long the checks take: one core, the demo and the reference part.
//!
//! `cargo bench --bench check`. The goals: a whole check of the demo under 50 ms, with the room of
//! every size under 500 ms.

use criterion::{Criterion, criterion_group, criterion_main};
use sectionwright::design::{Library, load};
use sectionwright::scene::{Scene, examine, verdicts};
use sectionwright::section::Section;

fn section(design: &str) -> Section {
    load(&Library::default(), design).expect("a sound design").section
}

fn checks(criterion: &mut Criterion) {
    for (name, design) in [("demo", "demo"), ("r1", "tests/fixtures/r1.toml")] {
        let section = section(design);
        let mut group = criterion.benchmark_group(format!("check {name}"));
        group.sample_size(10);
        group.bench_function("verdicts", |b| b.iter(|| verdicts(&section).unwrap()));
        group.bench_function("examine", |b| b.iter(|| examine(&section).unwrap()));
        group.bench_function("room", |b| b.iter(|| Scene::of(&section).unwrap().room().to_vec()));
        group.finish();
    }
}

criterion_group!(benches, checks);
criterion_main!(benches);
