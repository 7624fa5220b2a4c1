//! R1 from its design file to an STL on disk, again and again in one process: for
//! `tests/bench/versus`, which sets time and peak memory beside those of other libraries.
//!
//! Arguments: the STL's path, the chord error in millimetres, how often. Prints JSON: of each build
//! the seconds on the processor (others may be busy there meanwhile), and the peak of memory. Under `cargo
//! bench`, which gives it none of these, it does nothing.

mod parts;

use sectionwright::export::stl;
use sectionwright::mesh::tessellate;
use sectionwright::section::faults;
use sectionwright::solid::build;

fn main() {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [path, chord, times] = arguments.as_slice() else { return };
    let chord: f64 = chord.parse().expect("a chord error in millimetres");
    let times: usize = times.parse().expect("how often");
    let seconds: Vec<f64> = (0..times).map(|_| once(path, chord)).collect();
    println!("{{\"seconds\": {seconds:?}, \"peak_kb\": {}}}", peak_kb());
}

/// One build, in seconds.
fn once(path: &str, chord: f64) -> f64 {
    let begun = busy();
    let section = parts::r1();
    assert_eq!(faults(&section), []);
    let body = build(&section.part()).expect("R1 can be built");
    let (mesh, _) = tessellate(&body, chord).expect("R1 can be cut");
    std::fs::write(path, stl(&mesh)).expect("a file can be written");
    busy() - begun
}

/// Seconds that the process has spent on a processor, in its own code and in the kernel's.
fn busy() -> f64 {
    let spent = std::fs::read_to_string("/proc/self/schedstat").expect("Linux' count of time");
    let nanoseconds = spent.split_whitespace().next().and_then(|word| word.parse::<f64>().ok());
    nanoseconds.expect("a number") / 1e9
}

/// The most memory that the process has held, in kilobytes; 0 where the system does not say.
fn peak_kb() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.and_then(|rest| rest.split_whitespace().next()?.parse().ok()).unwrap_or(0)
}
