//! The bodies round the section and on it that are measured: cap, nib, converter, barrel's bore.
//!
//! Each as modelled, at the ends of what its maker's tolerances allow, and at the ends of the
//! readings: bores narrow, what goes in wide and long.

use super::bodies::{Built, Extremes, at_most_material};
use crate::quantity::Length;
use crate::section::{
    Barrel, Cap, CapMouth, Converter, ConverterMouth, InnerCap, Item, Reading, Section, Skin,
    Thread, Unit,
};
use crate::solid::BuildError;

/// The cap with what goes into it beside the section.
#[derive(Debug)]
pub(crate) struct CapBodies {
    /// In its own axis: 0 is its mouth.
    pub cap: Extremes,
    /// The least room that readings and tolerances leave in it.
    pub tightest: Built,
    /// The cap turned round, its thread in the direction of the section's, z growing to its mouth.
    pub facing: Extremes,
    /// Nib and feed as read, in the unit's axis.
    pub nib: Built,
    /// Nib and feed as wide and long as the readings allow.
    pub greatest_nib: Built,
}

/// The converter with the barrel that closes over it.
#[derive(Debug)]
pub(crate) struct ConverterBodies {
    /// As read, 0 being its mouth.
    pub converter: Built,
    /// As wide and long as the readings allow.
    pub greatest: Built,
    /// The barrel with its bore; the ring of its mouth where that is not known.
    pub barrel: Extremes,
}

/// A reading at its least, without falling under half of what was read.
fn least(reading: Reading) -> Reading {
    let value = (reading.value - reading.uncertainty).max(reading.value / 2.0);
    Reading { value, ..reading }
}

/// A reading at its greatest.
fn greatest(reading: Reading) -> Reading {
    Reading { value: reading.greatest(), ..reading }
}

/// The cap with every bore, its depth and its inner cap at the readings' least.
///
/// Its closed end stays behind its last step where the reading's uncertainty would swallow that.
fn cap_read(cap: &Cap) -> Cap {
    let mut read = cap.clone();
    if let CapMouth::Minor { diameter, .. } = &mut read.mouth {
        *diameter = least(*diameter);
    }
    for bore in &mut read.bores {
        bore.diameter = least(bore.diameter);
    }
    read.seal =
        cap.seal.map(|seal| InnerCap { depth: least(seal.depth), diameter: least(seal.diameter) });
    let last_step = cap.bores.iter().rev().nth(1).map_or(cap.hole_end(), |bore| bore.to);
    let shorter = least(cap.inner_length);
    let behind_seal = read.seal.is_none_or(|seal| shorter.value > seal.depth.value);
    if shorter.value > last_step && behind_seal {
        read.inner_length = shorter;
    }
    if let Some(last) = read.bores.last_mut() {
        last.to = read.inner_length.value;
    }
    read
}

fn with_thread(cap: &Cap, of: impl Fn(&Thread) -> Thread) -> Cap {
    let mut changed = cap.clone();
    if let CapMouth::Thread(thread) = &mut changed.mouth {
        **thread = of(thread);
    }
    changed
}

impl CapBodies {
    /// The bodies of a section's cap, if it has one.
    pub fn of(section: &Section) -> Result<Option<Self>, BuildError> {
        let Some(cap) = &section.cap else { return Ok(None) };
        let full = with_thread(cap, at_most_material);
        let open = with_thread(cap, Thread::at_least_material);
        let bodies = Extremes::new(&[cap.part(), open.part(), full.part()])?;
        let unit = &section.unit;
        let widest = Unit {
            nib_reach: greatest(unit.nib_reach),
            nib_width: greatest(unit.nib_width),
            thickness: greatest(unit.thickness),
            ..unit.clone()
        };
        Ok(Some(Self {
            facing: bodies.turned(),
            cap: bodies,
            tightest: Built::new(&cap_read(&full).part())?,
            nib: Built::new(&unit.nib_part())?,
            greatest_nib: Built::new(&widest.nib_part())?,
        }))
    }
}

impl ConverterBodies {
    /// The bodies of a section's converter, if it has one.
    pub fn of(section: &Section) -> Result<Option<Self>, BuildError> {
        let Some(converter) = &section.converter else { return Ok(None) };
        let nipple = section.unit.step(Item::Nipple).map(|(_, step)| step.diameter.value);
        let nipple = nipple.unwrap_or(converter.diameter.value / 2.0);
        let widest = Converter {
            diameter: greatest(converter.diameter),
            length: greatest(converter.length),
            mouth: converter
                .mouth
                .map(|mouth| ConverterMouth { diameter: greatest(mouth.diameter), ..mouth }),
            ..*converter
        };
        let barrel = &section.barrel;
        let with = |thread| Barrel { thread, ..barrel.clone() }.whole();
        let (open, full) = (barrel.thread.at_least_material(), at_most_material(&barrel.thread));
        Ok(Some(Self {
            converter: Built::new(&converter.part(nipple))?,
            greatest: Built::new(&widest.part(nipple))?,
            barrel: Extremes::new(&[barrel.whole(), with(open), with(full)])?,
        }))
    }
}

/// The greatest z of a body's bore: the bottom of a hole from the front.
pub(super) fn bottom(body: &Built) -> f64 {
    let bore = body.lines.iter().filter(|l| l.skin == Skin::Bore);
    bore.flat_map(|l| [l.from[1], l.to[1]]).fold(f64::MIN, f64::max)
}

/// How far a reading may be off, in millimetres.
pub(super) fn off(reading: Reading) -> f64 {
    reading.uncertainty.max(Length::ZERO).as_mm()
}
