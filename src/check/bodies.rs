//! The bodies that are measured: section, unit and barrel, as modelled and at both extremes.

use std::cell::RefCell;

use super::enclosing::{CapBodies, ConverterBodies};
use super::slide::Rest;
use super::stretch::Stretch;
use crate::quantity::Length;
use crate::section::{
    Barrel, Depth, Item, Part, Point, Section, Side, Skin, Thread, ThreadForm, Unit,
};
use crate::solid::{BuildError, CutThread, Cuts, Lines, Swept, lines};

/// A body's lines in the half-plane, and its threads.
#[derive(Debug)]
pub(crate) struct Built {
    pub threads: Vec<CutThread>,
    pub lines: Vec<Swept>,
    /// What of its lines may be used again; nothing of a body that was turned round.
    cuts: Cuts,
    /// The same lines, cut where r or z turns back.
    pub(super) stretches: Vec<Stretch>,
}

impl Built {
    /// A part as the solid has it, whose faces nobody closes for this.
    pub fn new(part: &Part) -> Result<Self, BuildError> {
        Ok(Self::of(lines(part, &Cuts::default())?))
    }

    /// The same of a part that is much like the one of another body.
    fn like(&self, part: &Part) -> Result<Self, BuildError> {
        Ok(Self::of(lines(part, &self.cuts)?))
    }

    fn of(Lines { swept: lines, threads, cuts }: Lines) -> Self {
        let stretches = lines.iter().flat_map(Stretch::of).collect();
        Self { threads, lines, cuts, stretches }
    }

    /// The body turned half round about an axis square to its own, so that z becomes -z. Its
    /// threads keep their hands, as they do on a part that is turned round.
    pub fn turned(&self) -> Self {
        let over = |[r, z]: [f64; 2]| [r, -z];
        let span = |[from, to]: [f64; 2]| [-to, -from];
        // The material stays on the left of every line: it is walked the other way.
        let line = |l: &Swept| Swept { from: over(l.to), to: over(l.from), ..*l };
        let thread = |t: &CutThread| CutThread {
            ridge_z: -t.ridge_z,
            full: span(t.full),
            extent: span(t.extent),
            ..t.clone()
        };
        let swept = self.lines.iter().map(line).collect();
        let threads = self.threads.iter().map(thread).collect();
        Self::of(Lines { swept, threads, cuts: Cuts::default() })
    }

    /// The least z of the body.
    pub fn start(&self) -> f64 {
        self.lines.iter().flat_map(|l| [l.from[1], l.to[1]]).fold(f64::MAX, f64::min)
    }

    /// The greatest z of the body.
    pub fn end(&self) -> f64 {
        self.lines.iter().flat_map(|l| [l.from[1], l.to[1]]).fold(f64::MIN, f64::max)
    }

    /// One of its threads. A body always has the threads of its part.
    pub fn thread(&self, item: Item) -> Option<&CutThread> {
        self.threads.iter().find(|thread| thread.item == item)
    }
}

/// A body as modelled, with the least material that its limits allow, and with the most.
#[derive(Debug)]
pub(crate) struct Extremes {
    pub drawn: Built,
    pub least: Built,
    pub most: Built,
}

impl Extremes {
    pub fn new([drawn, least, most]: &[Part; 3]) -> Result<Self, BuildError> {
        Ok(Self { drawn: Built::new(drawn)?, least: Built::new(least)?, most: Built::new(most)? })
    }

    /// As [`Extremes::new`], of parts that are much like those of other bodies.
    pub fn like(&self, [drawn, least, most]: &[Part; 3]) -> Result<Self, BuildError> {
        Ok(Self {
            drawn: self.drawn.like(drawn)?,
            least: self.least.like(least)?,
            most: self.most.like(most)?,
        })
    }

    /// Each of them turned round.
    pub fn turned(&self) -> Self {
        let Self { drawn, least, most } = self;
        Self { drawn: drawn.turned(), least: least.turned(), most: most.turned() }
    }

    /// Whether another body is otherwise where one looks at it from within ([`Skin::Bore`], with
    /// the threads inside), or from without; end faces are seen from both.
    pub fn differs(&self, other: &Self, from: Skin, threads: Side) -> bool {
        let hidden = if from == Skin::Bore { Skin::Outside } else { Skin::Bore };
        let pairs =
            [(&self.drawn, &other.drawn), (&self.least, &other.least), (&self.most, &other.most)];
        pairs.into_iter().any(|(a, b)| {
            let [lines, others] =
                [a, b].map(|body| body.lines.iter().filter(|it| it.skin != hidden));
            let [cut, other] =
                [a, b].map(|body| body.threads.iter().filter(|it| it.side == threads));
            !lines.eq(others) || !cut.eq(other)
        })
    }

    /// The section's parts, in this order.
    pub fn parts_of(section: &Section) -> [Part; 3] {
        let (least, most) = (section.at_least_material(), section_at_most_material(section));
        [section.part(), least.part(), most.part()]
    }

    /// The section.
    pub fn of_section(section: &Section) -> Result<Self, BuildError> {
        Self::new(&Self::parts_of(section))
    }

    /// The unit, at the readings and at the least and the greatest that they allow.
    pub fn of_unit(unit: &Unit) -> Result<Self, BuildError> {
        Self::new(&[unit.part(), unit_read(unit, -1.0).part(), unit_read(unit, 1.0).part()])
    }

    /// The barrel's mouth.
    pub fn of_barrel(barrel: &Barrel) -> Result<Self, BuildError> {
        let least = Barrel { thread: barrel.thread.at_least_material(), ..barrel.clone() };
        let most = Barrel { thread: at_most_material(&barrel.thread), ..barrel.clone() };
        Self::new(&[barrel.part(), least.part(), most.part()])
    }
}

/// All that is measured, and what it is judged by.
pub(crate) struct Model<'a> {
    pub section: &'a Section,
    pub part: &'a Extremes,
    pub unit: &'a Extremes,
    pub barrel: &'a Extremes,
    pub cap: Option<&'a CapBodies>,
    pub converter: Option<&'a ConverterBodies>,
    /// Where bodies rest in each other, as far as that was asked: many checks ask it.
    rests: RefCell<Vec<([*const Built; 2], Rest)>>,
}

impl<'a> Model<'a> {
    /// A section, its bodies, and those of what it meets.
    pub fn new(
        section: &'a Section,
        [part, unit, barrel]: [&'a Extremes; 3],
        cap: Option<&'a CapBodies>,
        converter: Option<&'a ConverterBodies>,
    ) -> Self {
        Self { section, part, unit, barrel, cap, converter, rests: RefCell::default() }
    }

    /// Where one of these bodies rests in another one, which `of` finds once.
    pub(super) fn rest(&self, inner: &Built, outer: &Built, of: impl FnOnce() -> Rest) -> Rest {
        let pair = [inner, outer].map(std::ptr::from_ref);
        let known = self.rests.borrow().iter().find(|(of, _)| *of == pair).map(|(_, rest)| *rest);
        known.unwrap_or_else(|| {
            let rest = of();
            self.rests.borrow_mut().push((pair, rest));
            rest
        })
    }
}

/// The same thread at its most material: crest, flanks and root as full as its limits allow.
pub(super) fn at_most_material(thread: &Thread) -> Thread {
    let limits = &thread.limits;
    let form = match thread.side {
        Side::External => ThreadForm {
            crest: limits.major.max(),
            pitch_diameter: limits.pitch.max(),
            root: limits.minor.max(),
            ..thread.form.clone()
        },
        Side::Internal => ThreadForm {
            crest: limits.minor.min(),
            pitch_diameter: limits.pitch.min(),
            root: limits.major.min(),
            ..thread.form.clone()
        },
    };
    Thread { form, ..thread.clone() }
}

/// The section with the most material: every hole at its tool's least, all threads full.
fn section_at_most_material(section: &Section) -> Section {
    let mut full = section.clone();
    full.tenon.thread = at_most_material(&section.tenon.thread);
    full.unit_thread = at_most_material(&section.unit_thread);
    if let Some(cap) = &mut full.grip.thread {
        cap.thread = at_most_material(&cap.thread);
    }
    full.with_holes(|bore| bore.limits.min())
}

/// The unit at one end of its readings: `side` is -1 for the least of it, +1 for the most.
///
/// The most is widest and longest, the least narrowest with the shortest thread. Lengths stay as
/// read where their uncertainty would leave no thread.
fn unit_read(unit: &Unit, side: f64) -> Unit {
    let mut read = unit.clone();
    read.thread =
        if side < 0.0 { unit.thread.at_least_material() } else { at_most_material(&unit.thread) };
    read.collar.value += unit.collar.uncertainty * side;
    let before = unit.step(Item::UnitBody).map_or(Length::ZERO, |(from, _)| from);
    for step in &mut read.steps {
        step.diameter.value += step.diameter.uncertainty * side;
        if step.item == Item::UnitBody {
            // The thread's crest and its cylinder are one surface.
            step.diameter.value = read.thread.form.crest;
        }
    }
    let mut ends: Vec<Length> = read.steps.iter().map(|s| s.to.value).collect();
    for (end, step) in ends.iter_mut().zip(&read.steps) {
        let shortest_thread = side < 0.0 && step.item == Item::Plain;
        *end += step.to.uncertainty * if shortest_thread { 1.0 } else { side };
    }
    let body = read.steps.iter().position(|step| step.item == Item::UnitBody);
    let ascending = ends.windows(2).all(|w| w[0] < w[1]) && ends.first() > Some(&Length::ZERO);
    if let Some(body) = body.filter(|_| ascending) {
        let start = body.checked_sub(1).map_or(Length::ZERO, |n| ends[n]);
        let thread = &mut read.thread;
        let moved = ends[body] - unit.steps[body].to.value;
        let (from, to) = (thread.from + (start - before), thread.to + moved);
        if to - from > unit.chamfer && thread.to <= unit.steps[body].to.value {
            (thread.from, thread.to) = (from, to);
            for (step, end) in read.steps.iter_mut().zip(&ends) {
                step.to.value = *end;
            }
        }
    }
    read
}

/// Diameters along which a hole counts as long, so that its drill wanders: depth over diameter.
/// Common practice, no source. Growing, it would trust deep holes too much; shrinking, it would
/// take the wander off every wall.
const LONG_HOLE: f64 = 3.0;

/// Whether a hole's drill wanders: the through bore, and any drilled hole deeper than
/// [`LONG_HOLE`] diameters.
pub(super) fn wanders(section: &Section, item: Item) -> bool {
    section.bore(item).is_some_and(|bore| {
        // A relief is turned, not drilled.
        let drilled = bore.point != Point::Flat && !matches!(bore.depth, Depth::Between(..));
        let long = bore.full_depth(section.length()) / bore.diameter > LONG_HOLE;
        bore.depth == Depth::Through || (drilled && long)
    })
}
