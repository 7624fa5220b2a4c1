//! Random parts that a lathe could turn, with coincidences on purpose.

mod bore;
pub mod form;
mod outside;

use sectionwright::section::{Facet, Feature, Item, Part, Run, Shape, Skin, Station};

use super::mm;

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

/// A corner of the outline: diameter, z, and the bulge of the run that leads to it.
#[derive(Clone, Copy)]
pub struct Corner {
    pub d: f64,
    pub z: f64,
    pub bulge: f64,
}

impl Corner {
    pub fn at(d: f64, z: f64) -> Self {
        Self { d, z, bulge: 0.0 }
    }
}

/// Runs through corners, all of one skin; a corner where the outline is already is left out.
fn runs(from: Corner, corners: &[Corner], item: Item, skin: Skin, to: &mut Vec<Run>) -> Corner {
    let station = |c: Corner| Station::new(mm(c.d), mm(c.z));
    let mut here = from;
    for corner in corners.iter().filter(|c| !(c.d == from.d && c.z == from.z)) {
        let shape =
            if corner.bulge == 0.0 { Shape::Straight } else { Shape::Arc { bulge: corner.bulge } };
        let feature = Feature::new(item, Facet::Side);
        if (here.d, here.z) != (corner.d, corner.z) {
            to.push(Run { feature, skin, from: station(here), to: station(*corner), shape });
        }
        here = *corner;
    }
    here
}

/// A random section-like part, and what is special about it.
pub fn part(seed: u64) -> (Part, Traits) {
    let mut dice = Dice(seed.wrapping_mul(0xD134_2543_DE82_EF95));
    let mut traits = Traits::new();
    let outside = outside::outside(&mut dice, &mut traits);
    let root = outside.threads[0].form.root.as_mm();
    let back = outside.corners[outside.corners.len() - 1].z;
    let bore = bore::bore(&mut dice, &mut traits, root, back);
    let mut chain = Vec::new();
    let (first, mouth) = (bore.corners[0], bore.corners[bore.corners.len() - 1]);
    let rim = outside.corners[0];
    if bore.blind {
        // From the axis to the front, round the outside, and back to the axis.
        let end = runs(first, &bore.corners, Item::ThroughBore, Skin::Bore, &mut chain);
        let end = runs(end, &[rim], Item::FrontFace, Skin::End, &mut chain);
        let end = runs(end, &outside.corners, Item::Grip(1), Skin::Outside, &mut chain);
        runs(end, &[Corner::at(0.0, back)], Item::BackFace, Skin::End, &mut chain);
    } else {
        let end = runs(rim, &outside.corners, Item::Grip(1), Skin::Outside, &mut chain);
        let end = runs(end, &[first], Item::BackFace, Skin::End, &mut chain);
        let end = runs(end, &bore.corners, Item::ThroughBore, Skin::Bore, &mut chain);
        debug_assert!(end.d == mouth.d);
        runs(end, &[rim], Item::FrontFace, Skin::End, &mut chain);
    }
    let threads = outside.threads.into_iter().chain([bore.thread]).collect();
    (Part { runs: chain, threads }.snapped(), traits)
}
