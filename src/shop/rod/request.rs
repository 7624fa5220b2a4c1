//! What is asked of a rod.

use crate::quantity::Length;
use crate::section::{Depth, Mouth, Section};

/// What comes off each end of a piece until it is square, unless it is said (common practice, no
/// source). Less, and a slanting saw cut is not cleaned up; more, and dear material is wasted.
pub const DEFAULT_SQUARING: Length = Length::mm(0.5);

/// What chuck or collet keep of the rod, unless it is said (common practice, no source). Less, and
/// a short stub is pulled out of the jaws by the parting tool; more, and it is lost for a section.
pub const DEFAULT_HOLDING: Length = Length::mm(15.0);

/// Spares that are wanted, unless it is said: a section is spoiled sooner than a second rod with
/// the same pattern is found (common practice, no source).
pub const DEFAULT_SPARES: u32 = 1;

/// A design, as far as a rod has to give it.
#[derive(Clone, Debug, PartialEq)]
pub struct Wanted {
    /// The design's name.
    pub name: String,
    /// How often it is in a set; 1 or more.
    pub count: u32,
    /// How long its blank is when it is squared.
    pub squared: Length,
    /// How thick a rod must be at least: its greatest diameter.
    pub diameter: Length,
    /// From the front face to the tip of the drill that goes deepest without coming out: so much a
    /// rehearsal drills.
    pub deepest: Length,
}

impl Wanted {
    /// A section, once in a set.
    pub fn of(section: &Section) -> Self {
        Self {
            name: section.name.clone(),
            count: 1,
            squared: section.squared_length(),
            diameter: section.greatest_diameter(),
            deepest: deepest(section),
        }
    }

    /// Designs as they were named, a design that is named more than once as one of which a set has
    /// several.
    pub fn set(sections: &[Section]) -> Vec<Self> {
        let mut set: Vec<Self> = Vec::new();
        for wanted in sections.iter().map(Self::of) {
            let same = |other: &&mut Self| Self { count: 1, ..(*other).clone() } == wanted;
            match set.iter_mut().find(same) {
                Some(known) => known.count += 1,
                None => set.push(wanted),
            }
        }
        set
    }
}

/// How deep the tools of a section's front go into it, but for what goes through.
fn deepest(section: &Section) -> Length {
    let from_front = section.bores.iter().filter(|bore| bore.mouth == Mouth::Front);
    let tips = from_front.filter(|bore| bore.depth != Depth::Through).map(|bore| {
        bore.full_depth(section.length()) + bore.point.length_between(bore.diameter, Length::ZERO)
    });
    tips.fold(section.unit_thread.to, Length::max)
}

/// A rod and what it is to give.
#[derive(Clone, Debug, PartialEq)]
pub struct RodRequest {
    /// The designs: all of them together are a set.
    pub designs: Vec<Wanted>,
    /// From end to end.
    pub length: Length,
    /// The rod's diameter; none where it is not measured.
    pub diameter: Option<Length>,
    /// What a cut takes, of the saw or the parting tool.
    pub kerf: Length,
    /// What still comes off each end of a piece.
    pub squaring: Length,
    /// What the chuck or collet keeps hold of when the last piece is parted; zero where the pieces
    /// are sawn by hand.
    pub holding: Length,
    /// How many sets; none for as many as the rod gives.
    pub sets: Option<u32>,
    /// How many spares at most.
    pub spares: u32,
}

impl RodRequest {
    /// As many sets as a rod gives, with the usual allowances and a spare.
    pub fn new(designs: Vec<Wanted>, length: Length, kerf: Length) -> Self {
        Self {
            designs,
            length,
            diameter: None,
            kerf,
            squaring: DEFAULT_SQUARING,
            holding: DEFAULT_HOLDING,
            sets: None,
            spares: DEFAULT_SPARES,
        }
    }

    /// The length of a design's piece, as it is parted.
    pub fn piece(&self, design: usize) -> Length {
        self.designs[design].squared + 2.0 * self.squaring
    }

    /// How thick the rod must be for all designs.
    pub fn least_diameter(&self) -> Length {
        self.designs.iter().map(|wanted| wanted.diameter).fold(Length::ZERO, Length::max)
    }

    /// The designs of a set, in the order in which they stand in the rod.
    pub(super) fn set(&self) -> Vec<usize> {
        let times = |(n, wanted): (usize, &Wanted)| vec![n; wanted.count as usize];
        self.designs.iter().enumerate().flat_map(times).collect()
    }

    /// How much of a rod pieces take together, with cuts and what is held. A rod that is not held
    /// needs no cut behind its last piece: that ends where the rod does.
    pub(super) fn taken(&self, pieces: &[usize]) -> Length {
        let lengths: Length = pieces.iter().map(|design| self.piece(*design)).sum();
        let cuts = pieces.len().saturating_sub(usize::from(self.sawn_free()));
        lengths + self.kerf * cuts as f64 + self.holding
    }

    /// Whether pieces fit into the rod together.
    pub(super) fn holds(&self, pieces: &[usize]) -> bool {
        self.taken(pieces).as_mm() <= self.length.as_mm() + super::NOISE
    }

    /// Whether nothing of the rod stays in a chuck.
    pub fn sawn_free(&self) -> bool {
        self.holding == Length::ZERO
    }
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;

    /// A design of which only the lengths count.
    pub fn wanted(name: &str, squared: f64) -> Wanted {
        Wanted {
            name: name.to_owned(),
            count: 1,
            squared: Length::mm(squared),
            diameter: Length::mm(13.0),
            deepest: Length::mm(11.0),
        }
    }

    /// A rod of one or more designs.
    pub fn rod(squared: &[f64], length: f64) -> RodRequest {
        let designs =
            squared.iter().zip('a'..).map(|(l, name)| wanted(&name.to_string(), *l)).collect();
        RodRequest::new(designs, Length::mm(length), Length::mm(2.0))
    }

    /// Worked by hand: (31 + 2) + (20 + 2) + 15, and 31 + 2 + 20 where nothing is held.
    #[test]
    fn pieces_take_lengths_cuts_and_what_is_held() {
        let held = rod(&[30.0, 19.0], 100.0);
        assert_eq!(held.taken(&[0, 1]), Length::mm(70.0));
        let free = RodRequest { holding: Length::ZERO, ..held };
        assert_eq!(free.taken(&[0, 1]), Length::mm(53.0));
        assert_eq!(free.taken(&[]), Length::ZERO);
    }

    #[test]
    fn a_design_that_is_named_twice_is_in_the_set_twice() {
        let section = crate::design::load(&crate::design::Library::default(), "demo").unwrap();
        let section = section.section;
        let other = Section { name: "other".to_owned(), ..section.clone() };
        let set = Wanted::set(&[section.clone(), other, section]);
        let counts: Vec<_> = set.iter().map(|w| (w.name.as_str(), w.count)).collect();
        assert_eq!(counts, [("demo", 2), ("other", 1)]);
        // 22 + 9 long, 0.3 + 0.05 to come off the front.
        assert!((set[0].squared.as_mm() - 31.35).abs() < 1e-9);
    }
}
