//! Random parts: each is built right or refused with a reason, never wrong.

mod common;

use std::collections::BTreeMap;

use common::random::part;
use sectionwright::mesh::tessellate;
use sectionwright::section::{Part, Side, Skin, Station};
use sectionwright::solid::{Body, build};

/// How many parts every run of the tests builds. `SECTIONWRIGHT_PARTS` asks for more.
const PARTS: u64 = 500;

fn count() -> u64 {
    std::env::var("SECTIONWRIGHT_PARTS").ok().and_then(|n| n.parse().ok()).unwrap_or(PARTS)
}

/// Independent route: the solid's volume by summing half-sections over z and angle, from the
/// outline and the thread's form alone, without any of the solid's faces.
fn volume_by_slices(part: &Part) -> f64 {
    /// Thickness of a slice in millimetres, at most; slices end at every corner.
    const SLICE: f64 = 0.012;
    const ANGLES: usize = 16;
    let mut corners: Vec<f64> = part.runs.iter().map(|r| r.from.z.as_mm()).collect();
    corners.extend(part.threads.iter().flat_map(|t| [t.from.as_mm(), t.to.as_mm()]));
    corners.sort_by(f64::total_cmp);
    let (mut sum, mut turn) = (0.0, 0.0_f64);
    for pair in corners.windows(2) {
        let slices = ((pair[1] - pair[0]) / SLICE).ceil().max(1.0);
        let step = (pair[1] - pair[0]) / slices;
        for n in 0..slices as usize {
            let z = pair[0] + (n as f64 + 0.5) * step;
            // Each slice turned by the golden ratio, so that no number of starts repeats.
            turn = (turn + 0.618_033_988_749_895).fract();
            for k in 0..ANGLES {
                let theta = (k as f64 + turn) * std::f64::consts::TAU / ANGLES as f64;
                let outer = radius(part, Skin::Outside, Side::External, theta, z);
                let inner = radius(part, Skin::Bore, Side::Internal, theta, z);
                sum += (outer * outer - inner * inner) / 2.0 * step;
            }
        }
    }
    sum * std::f64::consts::TAU / ANGLES as f64
}

/// The radius of one skin at an angle and z: the outline, cut back where a groove passes.
fn radius(part: &Part, skin: Skin, side: Side, theta: f64, z: f64) -> f64 {
    let at = |a: Station, b: Station| {
        let (za, zb) = (a.z.as_mm(), b.z.as_mm());
        ((z - za) * (z - zb) < 0.0)
            .then(|| a.radius() + (b.radius() - a.radius()) * (z - za) / (zb - za))
    };
    let mut runs = part.runs.iter().filter(|r| r.skin == skin);
    let outline = runs.find_map(|r| at(r.from, r.to)).unwrap_or(0.0);
    let thread = part.threads.iter().find(|t| t.side == side).unwrap();
    if z < thread.from.as_mm() || z > thread.to.as_mm() {
        return outline;
    }
    let form = &thread.form;
    let pitch = form.pitch.as_mm();
    let climb = form.lead().as_mm() / std::f64::consts::TAU;
    let right = form.hand == sectionwright::standard::designation::Hand::Right;
    let rise = theta * if right { climb } else { -climb };
    let middle = (thread.from + thread.phase).as_mm() + rise;
    let middle = if side == Side::External { middle } else { middle + pitch / 2.0 };
    // Distance from the nearest ridge's middle, 0 to P/2.
    let off = (z - middle) - ((z - middle) / pitch).round() * pitch;
    let (crest, root) = (form.crest.as_mm() / 2.0, form.root.as_mm() / 2.0);
    let (half_crest, half_root) =
        (form.crest_flat().as_mm() / 2.0, (pitch - form.root_flat().as_mm()) / 2.0);
    let t = ((off.abs() - half_crest) / (half_root - half_crest)).clamp(0.0, 1.0);
    let profile = crest + (root - crest) * t;
    if side == Side::External { outline.min(profile) } else { outline.max(profile) }
}

fn examine(seed: u64, part: &Part, body: &Body) {
    let exact = body.measures();
    assert_eq!(body.genus(), 1, "seed {seed}");
    let slices = volume_by_slices(part);
    assert!((slices / exact.volume - 1.0).abs() < 1e-4, "seed {seed}: {slices} {}", exact.volume);
    let error = |chord: f64| {
        let (mesh, found) = tessellate(body, chord).unwrap_or_else(|e| panic!("seed {seed}: {e}"));
        // By the sides really made, which are a little finer than asked.
        (found.volume / exact.volume - 1.0) * f64::from(mesh.sides * mesh.sides)
    };
    let (coarse, fine) = (error(0.02), error(0.005));
    assert!((coarse - fine).abs() < 0.1 * coarse.abs().max(0.5), "seed {seed}: {coarse} {fine}");
}

#[test]
fn built_right_or_refused() {
    let mut refused: BTreeMap<&str, Vec<u64>> = BTreeMap::new();
    let mut pairs = BTreeMap::new();
    for seed in 0..count() {
        let (part, traits) = part(seed);
        for (n, a) in traits.iter().enumerate() {
            for b in &traits[n..] {
                *pairs.entry((*a.min(b), *a.max(b))).or_insert(0) += 1;
            }
        }
        match build(&part) {
            Ok(body) => examine(seed, &part, &body),
            Err(reason) => {
                refused.entry(reason.code()).or_default().push(seed);
            }
        }
    }
    println!("{} parts; refused: {refused:?}", count());
    for ((a, b), n) in &pairs {
        println!("{n:6} {a} + {b}");
    }
    for coincidence in
        ["chamfer-is-depth", "bore-is-major", "under-one-turn", "thread-to-the-floor"]
    {
        let n = pairs.get(&(coincidence, coincidence)).copied().unwrap_or(0);
        assert!(n * 20 >= count(), "{coincidence} occurs {n} times only");
    }
    let refusals: usize = refused.values().map(Vec::len).sum();
    assert!(refusals as u64 * 5 < count(), "too many are refused: {refused:?}");
}
