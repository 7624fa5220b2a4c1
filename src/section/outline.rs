//! A body's half-section: a closed chain of runs in the (r, z) half-plane, with its threads.

use super::{EnvelopeRun, Facet, Feature, Item, Thread};
use crate::quantity::Length;

/// Values closer than this are one value: they are snapped to one `f64` in [`Part::snapped`].
///
/// If it grew, a step that was meant would vanish; if it shrank, the rounding of a conversion
/// (5/16 in and 7.9375 mm) would become a step.
pub const COINCIDENT: Length = Length::mm(1e-7);

/// Two different stations lie at least this far apart; a smaller step is refused, for no lathe
/// cuts it and single precision in an STL could not show it.
pub const LEAST_STEP: Length = Length::mm(1e-4);

/// A point of the half-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Station {
    /// Diameter, not radius.
    pub diameter: Length,
    /// Distance from the finished front face (for a unit: from the underside of its collar).
    pub z: Length,
}

impl Station {
    /// A station at a diameter and a z.
    pub const fn new(diameter: Length, z: Length) -> Self {
        Self { diameter, z }
    }

    /// Half the diameter, in millimetres.
    pub fn radius(self) -> f64 {
        self.diameter.as_mm() / 2.0
    }
}

/// The line between two stations in the half-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shape {
    /// A straight line: turned about the axis, a plane, a cylinder or a cone.
    Straight,
    /// A circular arc: turned about the axis, a torus.
    Arc {
        /// The tangent of a quarter of the arc's sweep, positive where it turns left on a
        /// drawing with z to the right and r upwards: on the outside, walked from the front,
        /// positive is concave and negative convex. 1 is a half circle.
        bulge: f64,
    },
}

impl Shape {
    /// The same shape, walked from its end to its beginning.
    #[must_use]
    pub fn reversed(self) -> Self {
        match self {
            Self::Straight => Self::Straight,
            Self::Arc { bulge } => Self::Arc { bulge: -bulge },
        }
    }
}

/// Which side of the wall a run lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Skin {
    /// What the hand touches, and the tenon.
    Outside,
    /// What is drilled.
    Bore,
    /// Front and back face, with their chamfers.
    End,
}

/// One line of a half-section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Its name in every output.
    pub feature: Feature,
    /// Its side of the wall.
    pub skin: Skin,
    /// Where it begins.
    pub from: Station,
    /// Where it ends.
    pub to: Station,
    /// How it gets there.
    pub shape: Shape,
}

impl Run {
    /// The same run, walked the other way.
    #[must_use]
    pub fn reversed(self) -> Self {
        Self { from: self.to, to: self.from, shape: self.shape.reversed(), ..self }
    }
}

/// A body of revolution with threads cut into it: all that the solid needs to know.
///
/// The runs are a closed chain, walked counter-clockwise in (r, z): up the outside, in over the
/// back face, down the bore, out over the front face, so that material lies to the left.
///
/// ```text
///   r ^        outside ->
///     |   +------------------+____
///     |   | front            |    | back
///     |   +---+              |    |
///     |       +--------------+----+
///     |            <- bore
///     +-----------------------------> z
/// ```
///
/// A chain that meets the axis (a nib unit has no bore) begins and ends on it and is not closed
/// along it.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// The half-section, closed unless it begins and ends on the axis.
    pub runs: Vec<Run>,
    /// Threads cut into cylinders among the runs.
    pub threads: Vec<Thread>,
}

impl Part {
    /// The same part with every two diameters, and every two z, closer than [`COINCIDENT`] made
    /// one value; a thread's diameters and ends take part, so that `==` decides coincidence from
    /// here on.
    #[must_use]
    pub fn snapped(mut self) -> Self {
        let (diameters, stations) = self.values(|_| true);
        let (diameters, stations) = (anchors(diameters), anchors(stations));
        let diameter = |v: &mut Length| *v = anchor_of(&diameters, *v);
        let z = |v: &mut Length| *v = anchor_of(&stations, *v);
        for run in &mut self.runs {
            for station in [&mut run.from, &mut run.to] {
                diameter(&mut station.diameter);
                z(&mut station.z);
            }
        }
        for thread in &mut self.threads {
            diameter(&mut thread.form.crest);
            diameter(&mut thread.form.root);
            z(&mut thread.from);
            z(&mut thread.to);
        }
        self.runs.retain(|run| run.from != run.to);
        self
    }

    /// The least difference, above coincidence, between two of the part's diameters or two of
    /// its z, where it is under [`LEAST_STEP`]: a step that is too small to be cut.
    ///
    /// An arc's ends are left out: where a fillet begins is no size of its own, and may lie as
    /// near to another one as it likes. How long it is itself is its own rule.
    pub fn step_too_small(&self) -> Option<(Length, Length)> {
        let arcs = self.runs.iter().filter(|run| run.shape != Shape::Straight);
        let ends: Vec<Station> = arcs.flat_map(|run| [run.from, run.to]).collect();
        let (diameters, stations) = self.values(|station| !ends.contains(&station));
        [anchors(diameters), anchors(stations)].iter().find_map(|values| {
            values.windows(2).find(|w| w[1] - w[0] < LEAST_STEP).map(|w| (w[0], w[1]))
        })
    }

    /// The same part turned half round about an axis square to its own, so that z becomes -z; its
    /// threads keep their hands, as they do on a part that is turned round.
    #[must_use]
    pub fn turned_over(&self) -> Self {
        let over = |s: Station| Station::new(s.diameter, Length::ZERO - s.z);
        let run = |run: &Run| Run { from: over(run.to), to: over(run.from), ..*run };
        let thread = |thread: &Thread| {
            let [first, last] = thread.run_outs;
            Thread {
                from: Length::ZERO - thread.to,
                to: Length::ZERO - thread.from,
                phase: thread.to - thread.from - thread.phase,
                run_outs: [last, first],
                ..thread.clone()
            }
        };
        Self {
            runs: self.runs.iter().rev().map(run).collect(),
            threads: self.threads.iter().map(thread).collect(),
        }
    }

    /// The same part so much farther along z.
    #[must_use]
    pub fn moved(mut self, by: Length) -> Self {
        for run in &mut self.runs {
            run.from.z += by;
            run.to.z += by;
        }
        for thread in &mut self.threads {
            thread.from += by;
            thread.to += by;
        }
        self
    }

    /// The least and the greatest z of its runs' ends.
    pub fn extent(&self) -> [Length; 2] {
        let ends = || self.runs.iter().flat_map(|run| [run.from.z, run.to.z]);
        [
            ends().reduce(Length::min).unwrap_or(Length::ZERO),
            ends().reduce(Length::max).unwrap_or(Length::ZERO),
        ]
    }

    fn values(&self, counts: impl Fn(Station) -> bool) -> (Vec<Length>, Vec<Length>) {
        let all = || self.runs.iter().flat_map(|run| [run.from, run.to]);
        let ends = || all().filter(|station| counts(*station));
        let diameters = ends().map(|s| s.diameter);
        let stations = ends().map(|s| s.z);
        (
            diameters
                .chain(self.threads.iter().flat_map(|t| [t.form.crest, t.form.root]))
                .collect(),
            stations.chain(self.threads.iter().flat_map(|t| [t.from, t.to])).collect(),
        )
    }
}

/// Closes an outside, walked from the front rim to the back rim, with its bore and its faces.
///
/// A part that is bored through is a closed chain that begins with the outside. A part with
/// material on its axis is a chain that begins there, in the hole from the front, or on the front
/// face where there is none, and ends there.
pub(super) fn joined(
    front_face: Vec<Run>,
    outside: Vec<Run>,
    bore: &[EnvelopeRun],
    length: Length,
) -> Vec<Run> {
    let Some(back_rim) = outside.last() else { return outside };
    let axis = |z| Station::new(Length::ZERO, z);
    let back_rim = back_rim.to;
    let on_axis = |run: &&EnvelopeRun| run.from.diameter == Length::ZERO;
    let from_front = bore.iter().take_while(|run| !on_axis(run)).count();
    let (front, back) = bore.split_at(from_front);
    let through = front.last().is_some_and(|run| run.to.z == length && run.to != axis(length));
    let wall = |runs: &[EnvelopeRun]| -> Vec<Run> {
        let turned = runs.iter().rev().map(|run| Run {
            feature: run.feature,
            skin: Skin::Bore,
            from: run.to,
            to: run.from,
            shape: Shape::Straight,
        });
        turned.collect()
    };
    let back_mouth = if through { front.last() } else { back.last() };
    let back_mouth = back_mouth.map_or(axis(back_rim.z), |run| run.to);
    let back_face = Run {
        feature: Feature::new(Item::BackFace, Facet::Side),
        skin: Skin::End,
        from: back_rim,
        to: back_mouth,
        shape: Shape::Straight,
    };
    let (outside, front) =
        ([outside, vec![back_face]].concat(), [wall(front), front_face].concat());
    if through { [outside, front].concat() } else { [front, outside, wall(back)].concat() }
}

/// The values, ascending, each group of coincident ones reduced to its least.
fn anchors(mut values: Vec<Length>) -> Vec<Length> {
    values.sort_by(|a, b| a.as_mm().total_cmp(&b.as_mm()));
    values.dedup_by(|b, a| *b - *a <= COINCIDENT);
    values
}

fn anchor_of(anchors: &[Length], value: Length) -> Length {
    anchors[anchors.partition_point(|a| *a <= value).saturating_sub(1)]
}
