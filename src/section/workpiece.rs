//! The rod on its way to the section, as the cuts taken so far have left it.

use super::cut::moved;
use super::outside::{self, Pen};
use super::{
    Bore, Cut, Facet, Feature, Grip, GripRun, Item, Mouth, Part, Run, Section, Shape, Skin,
    Station, Tenon, Thread, envelope, outline,
};
use crate::quantity::Length;

/// A rod with cuts taken.
///
/// Its z is that of the finished section: the back face lies where the section's will lie, the
/// front face before z = 0 by what is still to come off it.
#[derive(Clone, Debug)]
pub struct Workpiece {
    /// Diameter of the rod.
    rod: Length,
    front: Length,
    back: Length,
    /// Depths from the finished faces.
    bores: Vec<Bore>,
    /// Places from the finished front face.
    threads: Vec<Thread>,
    tenon: Option<Tenon>,
    grip: Option<Grip>,
    /// Where the shoulder will be.
    shoulder: Length,
}

impl Workpiece {
    /// The rod that a section is made of, as it was sawn; what is over lies in front.
    pub fn rod(section: &Section) -> Self {
        let back = section.length();
        Self {
            rod: section.blank.diameter,
            front: back - section.blank.length,
            back,
            bores: Vec::new(),
            threads: Vec::new(),
            tenon: None,
            grip: None,
            shoulder: section.grip.length(),
        }
    }

    /// z of the front face as it is now: 0 when it is finished, less before.
    pub fn front(&self) -> Length {
        self.front
    }

    /// From the front face as it is now to the back face.
    pub fn length(&self) -> Length {
        self.back - self.front
    }

    /// Takes a cut.
    pub fn take(&mut self, cut: &Cut) {
        match cut {
            Cut::Square { length } => self.front = self.back - *length,
            Cut::Bore(bore) => self.bores.push(self.placed(bore)),
            Cut::Tenon(tenon) => self.tenon = Some(tenon.clone()),
            Cut::Face { off } | Cut::Sand { off } => self.front += *off,
            Cut::TenonThread(thread) | Cut::CapThread(thread) => self.threads.push(thread.clone()),
            Cut::Tap(thread) => self.threads.push(moved(thread, self.front)),
            Cut::Outside(grip) => self.grip = Some(grip.as_ref().clone()),
        }
        // A sum of decimals that ends a hair off the finished face is there.
        if self.front.abs() <= super::COINCIDENT {
            self.front = Length::ZERO;
        }
    }

    /// The same with one hole as another one, whose depths are from the finished face; a hole that
    /// has not been cut is cut.
    #[must_use]
    pub fn with_bore(&self, bore: Bore) -> Self {
        let mut other = self.clone();
        other.bores.retain(|cut| cut.item != bore.item);
        other.bores.push(bore);
        other
    }

    /// A hole with its depths from the finished face.
    fn placed(&self, bore: &Bore) -> Bore {
        if bore.mouth == Mouth::Front { bore.deeper(self.front) } else { bore.clone() }
    }

    /// How wide its hole is at one of its faces; zero where that is closed.
    pub fn mouth(&self, mouth: Mouth) -> Length {
        let runs = envelope(&self.bores, self.back);
        let open = match mouth {
            Mouth::Front => runs.first().filter(|run| run.from.z == Length::ZERO).map(|r| r.from),
            Mouth::Back => runs.last().filter(|run| run.to.z == self.back).map(|run| run.to),
        };
        open.map_or(Length::ZERO, |station| station.diameter)
    }

    /// How wide a hole of this diameter may have come out, by the tool that cut it.
    pub fn greatest(&self, diameter: Length) -> Length {
        let same =
            self.bores.iter().filter(|bore| (bore.diameter - diameter).abs() <= super::COINCIDENT);
        same.map(|bore| bore.limits.max()).fold(diameter, Length::max)
    }

    /// The shape of its hole, without names.
    pub(super) fn hole(&self) -> Vec<(Station, Station)> {
        envelope(&self.bores, self.back).iter().map(|run| (run.from, run.to)).collect()
    }

    /// Its half-section with the threads that are cut.
    pub fn part(&self) -> Part {
        let bores = envelope(&self.bores, self.back);
        let mouth = bores.first().map_or(Length::ZERO, |run| run.from.diameter);
        let (face, runs) = match (&self.tenon, &self.grip) {
            (None, _) => self.cylinder(mouth),
            (Some(tenon), None) => {
                let rod = Station::new(self.rod, self.shoulder);
                let grip = Grip::plain(self.rod, vec![GripRun::straight(rod)]);
                let (face, mut runs) = outside::outside(&grip, tenon, mouth);
                for run in &mut runs {
                    if matches!(run.feature.item, Item::Grip(_)) {
                        run.feature = Feature::new(Item::Blank, Facet::Side);
                    }
                }
                (face, runs)
            }
            (Some(tenon), Some(grip)) => outside::outside(grip, tenon, mouth),
        };
        let runs = outline::joined(face, runs, &bores, self.back);
        let runs = if self.front == Length::ZERO { runs } else { self.longer_in_front(runs) };
        Part { runs, threads: self.threads.clone() }.snapped()
    }

    /// Front face and outside of the rod.
    fn cylinder(&self, mouth: Length) -> (Vec<Run>, Vec<Run>) {
        let name = |facet| Feature::new(Item::Blank, facet);
        let mut face = Pen::start(Station::new(mouth, Length::ZERO));
        face.to(name(Facet::Floor), Skin::End, self.rod, Length::ZERO);
        let mut side = Pen::start(Station::new(self.rod, Length::ZERO));
        side.to(name(Facet::Side), Skin::Outside, self.rod, self.back);
        (face.finish(), side.finish())
    }

    /// The chain with its front face moved to where it is now: what reaches the finished face goes
    /// on to it as a cylinder.
    fn longer_in_front(&self, mut runs: Vec<Run>) -> Vec<Run> {
        let in_face = |station: Station| station.z == Length::ZERO;
        let plane = |run: &Run| run.skin == Skin::End && in_face(run.from) && in_face(run.to);
        let Some(n) = runs.iter().position(plane) else { return runs };
        let there = |station: Station| Station::new(station.diameter, self.front);
        let cylinder =
            |run: &Run| run.from.diameter == run.to.diameter && run.shape == Shape::Straight;
        let Run { from: mouth, to: rim, .. } = runs[n];
        (runs[n].from, runs[n].to) = (there(mouth), there(rim));
        // Outside: the rod goes on, everything else has a piece of rod in front of it.
        match runs.get_mut(n + 1) {
            Some(next) if next.feature.item == Item::Blank && cylinder(next) => {
                next.from = there(rim);
            }
            _ => {
                let feature = Feature::new(Item::Blank, Facet::Side);
                let (skin, from) = (Skin::Outside, there(rim));
                runs.insert(n + 1, Run { feature, skin, from, to: rim, shape: Shape::Straight });
            }
        }
        // Inside: before the plane, or, where the chain begins with it, at its end.
        if mouth.diameter > Length::ZERO {
            let last = runs.len() - 1;
            let before = n.checked_sub(1).unwrap_or(last);
            let wall = &mut runs[before];
            if cylinder(wall) {
                wall.to = there(mouth);
            } else {
                let (feature, skin, to) = (wall.feature, Skin::Bore, there(mouth));
                let goes_on = Run { feature, skin, from: mouth, to, shape: Shape::Straight };
                runs.insert(before + 1, goes_on);
            }
        }
        runs
    }
}
