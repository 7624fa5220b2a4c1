//! The blank on its way from the rod to the finished section.
//!
//! Work goes on as at the lathe (common practice): the rod is squared, the tenon turned and
//! threaded and what comes in by the back face bored in one holding, then, turned round, the
//! holes from the front, the narrowest first, the thread, and last the outside and the front
//! face. Until then the front lies before z = 0 by what is still to come off it.

use std::fmt;

use super::outside::Pen;
use super::{
    Bore, Depth, Facet, Feature, Grip, GripRun, Item, Mouth, Part, Section, Skin, Station, envelope,
};
use crate::quantity::Length;

/// What has been done last.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// The rod as it was sawn, where it is longer than it is needed.
    Rod,
    /// The rod squared to the part's length and what is to come off the front.
    Squared,
    /// The tenon turned, with relief, pilot and chamfer.
    TenonTurned,
    /// The tenon's thread cut.
    TenonThreaded,
    /// A hole bored.
    Bored(Item),
    /// The thread for the unit tapped.
    Tapped,
    /// Outside turned, front faced and, where there is one, countersunk.
    Finished,
}

impl fmt::Display for Stage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rod => f.write_str("the rod as sawn"),
            Self::Squared => f.write_str("squared to length"),
            Self::TenonTurned => f.write_str("tenon turned"),
            Self::TenonThreaded => f.write_str("tenon threaded"),
            Self::Bored(item) => write!(f, "{item} bored"),
            Self::Tapped => f.write_str("unit thread tapped"),
            Self::Finished => f.write_str("outside turned, front faced"),
        }
    }
}

impl Section {
    /// Every stage of making, in order, with the part as it is then; each holds less material
    /// than the one before it, and the last is [`Section::part`].
    ///
    /// A hole that another one has taken away by then is no stage.
    pub fn stages(&self) -> Vec<(Stage, Part)> {
        let rod = self.blank;
        let squared = self.squared_length();
        let mut stages = Vec::new();
        if rod.length - squared > super::LEAST_STEP {
            stages.push((Stage::Rod, self.cylinder(rod.length)));
        }
        stages.push((Stage::Squared, self.cylinder(squared)));
        stages.push((Stage::TenonTurned, self.blank(&[], &[])));
        let tenon = [Item::TenonThread];
        stages.push((Stage::TenonThreaded, self.blank(&[], &tenon)));
        let mut done: Vec<Bore> = Vec::new();
        for bore in self.in_order() {
            let before = self.hole(&done);
            done.push(bore.clone());
            if self.hole(&done) != before {
                stages.push((Stage::Bored(bore.item), self.blank(&done, &tenon)));
            }
        }
        let both = [Item::TenonThread, Item::UnitThread];
        stages.push((Stage::Tapped, self.blank(&done, &both)));
        stages.push((Stage::Finished, self.part()));
        stages
    }

    /// The holes in the order in which they are cut: from the back while the tenon is held out,
    /// then from the front, each side the narrowest first and its reliefs last. A countersink at
    /// the front is cut into the finished face.
    fn in_order(&self) -> Vec<&Bore> {
        let late = |bore: &&Bore| bore.item != Item::Countersink(Mouth::Front);
        let mut order: Vec<&Bore> = self.bores.iter().filter(late).collect();
        let place =
            |bore: &Bore| (bore.mouth == Mouth::Front, matches!(bore.depth, Depth::Between(..)));
        order.sort_by(|a, b| {
            let size = a.diameter.as_mm().total_cmp(&b.diameter.as_mm());
            place(a).cmp(&place(b)).then(size)
        });
        order
    }

    /// The shape of a hole, without names.
    fn hole(&self, bores: &[Bore]) -> Vec<(Station, Station)> {
        envelope(bores, self.length()).iter().map(|run| (run.from, run.to)).collect()
    }

    /// The rod alone, its back at the part's back face.
    fn cylinder(&self, length: Length) -> Part {
        let (back, rod) = (self.length(), self.blank.diameter);
        let name = |facet| Feature::new(Item::Blank, facet);
        let mut pen = Pen::start(Station::new(Length::ZERO, back - length));
        pen.to(name(Facet::Floor), Skin::End, rod, back - length);
        pen.to(name(Facet::Side), Skin::Outside, rod, back);
        pen.to(name(Facet::Floor), Skin::End, Length::ZERO, back);
        Part { runs: pen.finish(), threads: Vec::new() }.snapped()
    }

    /// The rod with the tenon turned, some holes bored and some threads cut: the front face lies
    /// before z = 0 by what is still to come off, and holes from there go on to it.
    fn blank(&self, bores: &[Bore], threads: &[Item]) -> Part {
        let mut blank = self.clone();
        blank.bores = bores.to_vec();
        let rod = Station::new(self.blank.diameter, self.grip.length());
        blank.grip = Grip::plain(self.blank.diameter, vec![GripRun::straight(rod)]);
        let mut part = blank.part();
        part.threads.retain(|thread| threads.contains(&thread.item));
        let front = self.length() - self.squared_length();
        for run in &mut part.runs {
            if matches!(run.feature.item, Item::Grip(_)) {
                run.feature = Feature::new(Item::Blank, Facet::Side);
            }
            for station in [&mut run.from, &mut run.to] {
                if station.z == Length::ZERO {
                    station.z = front;
                }
            }
        }
        part.snapped()
    }
}
