//! The cap, as far as the section goes into it.
//!
//! ```text
//!   r ^  ___________________________________
//!     | |  ______              ____________|   outside: of no matter here
//!     | | |      |____________|       |    |
//!     | |_|/\/\/\              bores  |____|   an inner cap, if there is one
//!     |                             rim    |
//!     +-- mouth ---------------------------|-> s
//! ```
//! Its own axis: s = 0 is its mouth, growing to its closed end. When it is closed its mouth stands
//! at z = `stops_at` of the section, whose front is ahead: s = `stops_at` - z.

use super::outside::Pen;
use super::{Counterbore, Facet, Feature, Item, Part, Reading, Skin, Station, Thread};
use crate::quantity::Length;

/// What the grip passes at the cap's mouth.
#[derive(Clone, Debug, PartialEq)]
pub enum CapMouth {
    /// A thread in a hole of its minor diameter; `from` is the counterbore's end (or 0).
    Thread(Box<Thread>),
    /// A thread for the barrel, of which only the hole is known.
    Minor {
        /// The thread's minor diameter.
        diameter: Reading,
        /// Where that hole ends, from the mouth.
        to: Length,
    },
}

/// A bore of the cap; it begins where the one before it, or the hole of the mouth, ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CapBore {
    /// Its diameter.
    pub diameter: Reading,
    /// Where it ends, from the mouth; the last ends at the closed end, wherever that lies.
    pub to: Length,
}

/// An inner cap: a sleeve that reaches from the closed end to a rim, which closes on the section's
/// front to keep the ink from drying.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InnerCap {
    /// From the cap's mouth to the rim.
    pub depth: Reading,
    /// Its bore.
    pub diameter: Reading,
}

/// A cap.
#[derive(Clone, Debug, PartialEq)]
pub struct Cap {
    /// z of the section at which its mouth stands when it is closed.
    pub stops_at: Length,
    /// A wider, unthreaded mouth, if there is one.
    pub counterbore: Option<Counterbore>,
    /// What the grip passes at the mouth.
    pub mouth: CapMouth,
    /// The bores behind it; without any, the hole of the mouth goes on to the closed end.
    pub bores: Vec<CapBore>,
    /// From the mouth to the closed end.
    pub inner_length: Reading,
    /// The inner cap, if there is one.
    pub seal: Option<InnerCap>,
}

/// How thick the closed end and the side are drawn, of which nothing is measured: less, and an
/// exported cap could not be printed; more wastes a rod.
const BODY: Length = Length::mm(1.2);

impl Cap {
    /// The thread at its mouth, if it is known.
    pub fn thread(&self) -> Option<&Thread> {
        match &self.mouth {
            CapMouth::Thread(thread) => Some(thread),
            CapMouth::Minor { .. } => None,
        }
    }

    /// Diameter of the hole at the mouth, behind the counterbore.
    pub fn hole(&self) -> Length {
        match &self.mouth {
            CapMouth::Thread(thread) => thread.form.crest,
            CapMouth::Minor { diameter, .. } => diameter.value,
        }
    }

    /// Where that hole ends: behind the thread's last groove.
    pub fn hole_end(&self) -> Length {
        match &self.mouth {
            CapMouth::Thread(thread) => thread.to,
            CapMouth::Minor { to, .. } => *to,
        }
    }

    /// Every cylinder from the mouth to the closed end: item, diameter, end; the inner cap, which
    /// lines what is wider, included.
    pub fn cylinders(&self) -> Vec<(Item, Length, Length)> {
        let end = self.inner_length.value;
        let mut all: Vec<(Item, Length, Length)> = Vec::new();
        all.extend(self.counterbore.map(|c| (Item::CapCounterbore, c.diameter, c.depth)));
        let hole_end = if self.bores.is_empty() { end } else { self.hole_end() };
        all.push((Item::CapHole, self.hole(), hole_end));
        for (n, bore) in (1..).zip(&self.bores) {
            let to = if usize::from(n) == self.bores.len() { end } else { bore.to };
            all.push((Item::CapBore(n), bore.diameter.value, to));
        }
        let Some(InnerCap { depth, diameter }) = self.seal else { return all };
        let mut lined = Vec::new();
        let mut from = Length::ZERO;
        for (item, own, to) in all {
            if own > diameter.value && to > depth.value {
                if from < depth.value {
                    lined.push((item, own, depth.value));
                }
                lined.push((Item::InnerCap, diameter.value, to));
            } else {
                lined.push((item, own, to));
            }
            from = to;
        }
        lined
    }

    /// The cap closed at its end, its outside a plain cylinder.
    pub fn part(&self) -> Part {
        let name = Feature::new;
        let cylinders = self.cylinders();
        let end = self.inner_length.value;
        let root = self.thread().map_or(Length::ZERO, |thread| thread.form.root);
        let widest = cylinders.iter().map(|(_, diameter, _)| *diameter).fold(root, Length::max);
        let outside = widest + BODY * 2.0;
        let mut pen = Pen::start(Station::new(Length::ZERO, end));
        // From the closed end to the mouth: each step belongs to what is wider in front of it, or
        // to the narrower one whose rim it is.
        let mut before: Option<(Item, Length)> = None;
        for (n, (item, diameter, to)) in cylinders.iter().enumerate().rev() {
            let floor = match before {
                Some((behind, narrow)) if narrow < *diameter => behind,
                _ => *item,
            };
            pen.to(name(floor, Facet::Floor), Skin::Bore, *diameter, *to);
            let from = n.checked_sub(1).map_or(Length::ZERO, |n| cylinders[n].2);
            pen.to(name(*item, Facet::Side), Skin::Bore, *diameter, from);
            before = Some((*item, *diameter));
        }
        pen.to(name(Item::Cap, Facet::Floor), Skin::End, outside, Length::ZERO);
        pen.to(name(Item::Cap, Facet::Side), Skin::Outside, outside, end + BODY);
        pen.to(name(Item::Cap, Facet::Floor), Skin::End, Length::ZERO, end + BODY);
        Part { runs: pen.finish(), threads: self.thread().cloned().into_iter().collect() }.snapped()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::mm(value)
    }

    fn read(value: f64) -> Reading {
        Reading { value: mm(value), uncertainty: Length::ZERO }
    }

    fn cap() -> Cap {
        Cap {
            stops_at: mm(20.0),
            counterbore: None,
            mouth: CapMouth::Minor { diameter: read(12.6), to: mm(6.0) },
            bores: vec![
                CapBore { diameter: read(13.0), to: mm(30.0) },
                CapBore { diameter: read(11.0), to: mm(99.0) },
            ],
            inner_length: read(45.0),
            seal: None,
        }
    }

    /// By hand: the last bore ends at the closed end, whatever it says.
    #[test]
    fn bores_follow_each_other_to_the_closed_end() {
        let plain = [
            (Item::CapHole, mm(12.6), mm(6.0)),
            (Item::CapBore(1), mm(13.0), mm(30.0)),
            (Item::CapBore(2), mm(11.0), mm(45.0)),
        ];
        assert_eq!(cap().cylinders(), plain);
    }

    /// By hand: a sleeve of 12 from 21 on lines the bore of 13, and not the one of 11.
    #[test]
    fn an_inner_cap_lines_what_is_wider() {
        let seal = Some(InnerCap { depth: read(21.0), diameter: read(12.0) });
        let lined = Cap { seal, ..cap() }.cylinders();
        let expected = [
            (Item::CapHole, mm(12.6), mm(6.0)),
            (Item::CapBore(1), mm(13.0), mm(21.0)),
            (Item::InnerCap, mm(12.0), mm(30.0)),
            (Item::CapBore(2), mm(11.0), mm(45.0)),
        ];
        assert_eq!(lined, expected);
    }

    /// The chain is closed along the axis and every step has the name of its rim.
    #[test]
    fn steps_are_named() {
        let seal = Some(InnerCap { depth: read(21.0), diameter: read(12.0) });
        let part = Cap { seal, ..cap() }.part();
        assert!(part.runs.windows(2).all(|w| w[0].to == w[1].from));
        let rim = part.runs.iter().find(|run| run.from.z == mm(21.0) && run.to.z == mm(21.0));
        assert_eq!(rim.unwrap().feature, Feature::new(Item::InnerCap, Facet::Floor));
    }
}
