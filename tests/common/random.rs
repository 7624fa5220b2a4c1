//! Random parts that a lathe could turn, with coincidences on purpose.

use sectionwright::quantity::{Angle, Length, Limits};
use sectionwright::section::{Flank, Item, Part, RunOut, Side, Thread, ThreadForm, ThreadLimits};
use sectionwright::standard::designation::{Hand, ThreadDesignation};

use super::{chain, mm};

/// A small generator of numbers (splitmix64): the same on every machine, no crate's version.
/// Source: Steele, Lea, Flood, "Fast splittable pseudorandom number generators" (2014), fig. 15.
pub struct Dice(pub u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Between two values, in steps of 0.01 so that they are such as people write.
    pub fn within(&mut self, low: f64, high: f64) -> f64 {
        let share = (self.next() >> 11) as f64 / (1_u64 << 53) as f64;
        ((low + (high - low) * share) * 100.0).round() / 100.0
    }

    /// True in so many of a hundred throws.
    pub fn percent(&mut self, share: u64) -> bool {
        self.next() % 100 < share
    }

    pub fn one_of<T: Copy>(&mut self, values: &[T]) -> T {
        values[(self.next() % values.len() as u64) as usize]
    }
}

/// What a random part has, for counting how often each occurred.
pub type Traits = Vec<&'static str>;

/// A random thread form, by crest diameter.
fn form(dice: &mut Dice, side: Side, crest: f64, traits: &mut Traits) -> ThreadForm {
    let pitch = dice.one_of(&[0.5, 0.55, 0.6, 0.75, 0.8, 1.0]);
    let starts = dice.one_of(&[1, 1, 1, 2, 3, 4, 6]);
    let left = dice.percent(25);
    let trapezoidal = dice.percent(15);
    let half_angle = Angle::deg(if trapezoidal { 15.0 } else { 30.0 });
    // Depth and flats: of ISO 68-1 (5/8 H, P/8 or P/4), or half a pitch deep (ISO 2901).
    let depth = if trapezoidal { 0.5 * pitch } else { 0.541_265_877 * pitch };
    let crest_flat = if trapezoidal {
        0.366 * pitch
    } else if side == Side::External {
        pitch / 8.0
    } else {
        pitch / 4.0
    };
    let sign = if side == Side::External { -1.0 } else { 1.0 };
    let root = crest + sign * 2.0 * depth;
    // ridge(d) = P/2 + (towards root) tan(a) is the crest's flat at the crest.
    let pitch_diameter = crest + sign * (pitch / 2.0 - crest_flat) / half_angle.tan();
    traits.extend([
        if left { "left-hand" } else { "right-hand" },
        if trapezoidal { "trapezoidal" } else { "iso-60" },
        if starts > 1 { "multi-start" } else { "one-start" },
    ]);
    ThreadForm {
        pitch: mm(pitch),
        starts,
        hand: if left { Hand::Left } else { Hand::Right },
        half_angle,
        crest: mm(crest),
        pitch_diameter: mm(pitch_diameter),
        root: mm(root),
        flank: Flank::Straight,
        crest_radius: mm(0.0),
        root_radius: mm(0.0),
    }
}

fn thread(item: Item, side: Side, form: ThreadForm, from: f64, to: f64, phase: f64) -> Thread {
    let size = |d: Length| Limits::new(d, d).unwrap();
    let limits = ThreadLimits {
        major: size(form.crest),
        pitch: size(form.pitch_diameter),
        minor: size(form.root),
    };
    let designation: ThreadDesignation = "M10x0.75".parse().unwrap();
    let (from, to, phase, run_outs) = (mm(from), mm(to), mm(phase), [RunOut::Wall; 2]);
    Thread { item, side, designation, form, from, to, phase, run_outs, limits }
}

/// Half of a part: corners (diameter, z) and the thread.
type Half = (Vec<(f64, f64)>, Thread);

/// The outside, from the front to the back, with the tenon's thread.
fn outside(dice: &mut Dice, traits: &mut Traits) -> Half {
    let crest = dice.within(9.0, 12.0);
    let outer = form(dice, Side::External, crest, traits);
    let root = outer.root.as_mm();
    let depth = (crest - root) / 2.0;
    let shoulder = dice.within(14.0, 22.0);
    let length = dice.within(5.0, 11.0);
    let back = shoulder + length;
    let mut outside = vec![(dice.within(crest + 0.2, crest + 2.0), 0.0)];
    let knee = dice.within(5.0, 12.0);
    outside.push((dice.within(crest + 0.2, crest + 3.0), knee));
    outside.push((dice.within(crest + 0.2, crest + 2.0), shoulder));
    let relief = dice.percent(40);
    let mut from = shoulder;
    if relief {
        let width = dice.within(0.8, 1.6);
        let kind = dice.one_of(&["deeper", "at-root", "shallower"]);
        let d = match kind {
            "deeper" => root - dice.within(0.05, 0.3),
            "at-root" => root,
            _ => root + depth,
        };
        outside.extend([(d, shoulder), (d, shoulder + width), (crest, shoulder + width)]);
        from += width;
        traits.push(match kind {
            "deeper" => "relief-below-root",
            "at-root" => "relief-at-root",
            _ => "relief-above-root",
        });
    } else {
        outside.push((crest, shoulder));
    }
    let pilot = dice.percent(30);
    let pilot_length = if pilot { dice.within(0.8, 2.0) } else { 0.0 };
    let end = back - pilot_length;
    let lead = if dice.percent(25) {
        traits.push("chamfer-is-depth");
        depth
    } else {
        dice.one_of(&[0.0, 0.1, 0.15, 0.3, 0.5, 0.8])
    };
    // At any angle: this long for so deep.
    let steep = dice.one_of(&[1.0, 1.0, 0.5, 2.0, 4.0]);
    let run = lead * steep;
    if lead > 0.0 {
        outside.extend([(crest, end - run), (crest - 2.0 * lead, end)]);
    } else {
        outside.push((crest, end));
    }
    let tip = crest - 2.0 * lead;
    if pilot {
        let d = if dice.percent(30) {
            traits.push("pilot-at-root");
            root
        } else {
            root - 0.2
        };
        if d < tip {
            outside.push((d, end));
            outside.push((d, back));
        } else {
            outside.push((tip, back));
        }
    }
    let thread = thread(Item::TenonThread, Side::External, outer, from, end, dice.within(0.0, 1.0));
    (outside, thread)
}

/// The bore, from the back to the front, with the unit's thread.
fn bore(dice: &mut Dice, traits: &mut Traits, root: f64, back: f64) -> Half {
    let through = dice.within(5.0, root - 2.4);
    let minor = through + dice.within(0.1, 0.6);
    let inner = form(dice, Side::Internal, minor, traits);
    let major = inner.root.as_mm();
    let clearance = match dice.one_of(&["wide", "wide", "major", "between", "minor"]) {
        "major" => {
            traits.push("bore-is-major");
            major
        }
        "between" => {
            traits.push("bore-between");
            f64::midpoint(major, minor)
        }
        "minor" => {
            traits.push("bore-is-minor");
            minor
        }
        _ => major + dice.within(0.05, 0.4),
    };
    let start = dice.within(2.0, 4.0);
    let lead_of = inner.lead().as_mm();
    let under_one_turn = dice.percent(15);
    let threaded = if under_one_turn {
        traits.push("under-one-turn");
        lead_of * dice.within(0.2, 0.9)
    } else {
        dice.within(2.0, 6.0)
    };
    let stop = start + threaded;
    let drilled = if dice.percent(20) {
        traits.push("thread-to-the-floor");
        stop
    } else {
        stop + dice.within(0.2, 2.0)
    };
    let cone = dice.percent(50);
    let drop = if cone { (minor - through) / 2.0 / Angle::deg(59.0).tan() } else { 0.0 };
    let mut bore = vec![(through, back), (through, drilled + drop), (minor, drilled)];
    if clearance == minor {
        bore.push((minor, 0.0));
    } else {
        bore.extend([(minor, start), (clearance, start), (clearance, 0.0)]);
    }
    let thread =
        thread(Item::UnitThread, Side::Internal, inner, start, stop, dice.within(0.0, 1.0));
    (bore, thread)
}

/// A random section-like part, and what is special about it.
pub fn part(seed: u64) -> (Part, Traits) {
    let mut dice = Dice(seed.wrapping_mul(0xD134_2543_DE82_EF95));
    let mut traits = Traits::new();
    let (outside, tenon) = outside(&mut dice, &mut traits);
    let back = outside.last().map_or(0.0, |corner| corner.1);
    let (bore, unit) = bore(&mut dice, &mut traits, tenon.form.root.as_mm(), back);
    let part = Part { runs: chain(&outside, &bore), threads: vec![tenon, unit] };
    (part.snapped(), traits)
}
