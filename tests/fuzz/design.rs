//! Whatever a design file says: no fault, no hang, no more memory than there is.
#![no_main]

mod lines;
mod workshop;

use std::path::Path;
use std::sync::LazyLock;

use libfuzzer_sys::{fuzz_mutator, fuzz_target, fuzzer_mutate};
use workshop::Workshop;

/// As coarse as a first print; finer, and fewer designs are tried.
const CHORD: f64 = 0.02;

static WORKSHOP: LazyLock<Workshop> =
    LazyLock::new(|| Workshop::new(Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))));

fuzz_target!(|design: &[u8]| {
    WORKSHOP.make(design, CHORD);
});

fuzz_mutator!(|data: &mut [u8], size: usize, max_size: usize, seed: u32| {
    // One in eight is left to libFuzzer, for the parser.
    let text = std::str::from_utf8(&data[..size]);
    match text {
        Ok(text) if seed % 8 != 0 => {
            let edited = lines::edit(text, u64::from(seed));
            let length = edited.len().min(max_size);
            data[..length].copy_from_slice(&edited.as_bytes()[..length]);
            length
        }
        _ => fuzzer_mutate(data, size, max_size),
    }
});
