//! What a tool of the rack would leave in a hole.

use crate::quantity::{Length, Limits};
use crate::section::{Bore, Depth, Item, Point, Section, Tool, ToolKind, Workshop};
use crate::size::SizeId;
use crate::standard::DrillSize;

/// Tools farther off than this are not tried, on the diameter: the section would be another one.
/// More takes time; less hides the only tool in a poor rack.
const WINDOW: Length = Length::mm(0.8);

/// What a reamer may leave over its size where its rack does not say it (common practice, no
/// source): a sharp one cuts to size.
const REAMED: Length = Length::mm(0.02);

/// A tool, with the hole that it leaves.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Candidate {
    pub tool: Tool,
    item: Item,
    /// Diameter of the hole as it is modelled.
    pub hole: Length,
    /// Between which it may come out.
    limits: Limits,
    /// The end that it leaves.
    point: Point,
    /// Whether that is of another kind than the design's.
    pub other_point: bool,
    /// How much more work it is than a drill's hole.
    pub effort: u8,
}

/// Every tool of the workshop that might serve for a hole.
pub(super) fn candidates(bore: &Bore, section: &Section, workshop: &Workshop) -> Vec<Candidate> {
    let near = |candidate: &Candidate| (candidate.hole - bore.diameter).abs() <= WINDOW;
    // A tool has to reach with its tip, from the face as it is before it is sanded.
    let allowance = section.allowance;
    let full = match bore.depth {
        Depth::Through => section.squared_length(),
        _ => bore.full_depth(section.length()) + allowance.sanding,
    };
    let reaches = |tool: &Tool| {
        let point = tool.point.length_between(bore.diameter, Length::ZERO);
        tool.reach.is_none_or(|reach| reach >= full + point)
    };
    let tools = workshop.tools.iter().filter(|tool| reaches(tool));
    tools.filter_map(|tool| Candidate::of(bore, section, tool)).filter(near).collect()
}

impl Candidate {
    fn of(bore: &Bore, section: &Section, tool: &Tool) -> Option<Self> {
        if tool.kind == ToolKind::BoringBar {
            return Self::bored(bore, section, tool);
        }
        let through = bore.depth == Depth::Through;
        // Nothing with a pilot or a flat end goes through the solid.
        if through && !matches!(tool.point, Point::Cone(_)) && tool.kind != ToolKind::Reamer {
            return None;
        }
        // A centre drill makes a seat for the collar, and no other hole.
        if tool.kind == ToolKind::CentreDrill && bore.item != Item::Recess {
            return None;
        }
        // A mill follows a hole, or is no deeper than wide.
        let shallow = bore.full_depth(section.length()) <= bore.diameter;
        if tool.kind == ToolKind::EndMill && !shallow && !is_led(bore, section, Length::ZERO) {
            return None;
        }
        let size = tool.diameter();
        let (hole, limits) = match (tool.hole, tool.cuts_over) {
            (Some(hole), _) => (hole.mid(), hole),
            (None, Some(over)) => (size, shifted(over, size)?),
            (None, None) if tool.kind == ToolKind::Reamer => {
                (size, Limits::new(size, size + REAMED)?)
            }
            // As the design says of its own tool.
            (None, None) => (size, shifted(bore.limits, size - bore.diameter)?),
        };
        // A reamer follows the drill's hole, and leaves its end as it is.
        let follows = through || tool.kind == ToolKind::Reamer;
        let point = if follows { bore.point } else { tool.point };
        let effort = u8::from(tool.kind == ToolKind::Reamer);
        let other_point = kind(point) != kind(bore.point);
        Some(Self { tool: tool.clone(), item: bore.item, hole, limits, point, other_point, effort })
    }

    /// Bored to the design's own size, where a hole is there that the bar enters, as deep as it is
    /// to go.
    fn bored(bore: &Bore, section: &Section, bar: &Tool) -> Option<Self> {
        if bore.depth == Depth::Through || !is_led(bore, section, bar.diameter()) {
            return None;
        }
        let held = bore.diameter;
        let point = Point::Flat;
        Some(Self {
            tool: bar.clone(),
            item: bore.item,
            hole: held,
            limits: bore.limits,
            point,
            other_point: kind(bore.point) != kind(point),
            effort: 2,
        })
    }

    /// A drill that is not at hand, with the hole's own point.
    pub fn bought(bore: &Bore, size: DrillSize) -> Self {
        let diameter = size.diameter();
        let tool = Tool {
            kind: ToolKind::Drill,
            size,
            measured: None,
            point: bore.point,
            hole: None,
            cuts_over: None,
            reach: None,
        };
        let limits = shifted(bore.limits, diameter - bore.diameter);
        Self {
            tool,
            item: bore.item,
            hole: diameter,
            limits: limits.unwrap_or(Limits::exactly(diameter)),
            point: bore.point,
            other_point: false,
            effort: 0,
        }
    }

    /// The section with this tool's hole in it; none where it has no such hole.
    pub fn fitted(&self, section: &Section) -> Option<Section> {
        let mut fitted = SizeId::BoreDiameter(self.item).set(section, self.hole.as_mm())?;
        let bore = fitted.bores.iter_mut().find(|bore| bore.item == self.item)?;
        let same = bore.diameter == self.hole && bore.point == self.point;
        let named = section.bore(self.item)?;
        bore.limits = self.limits;
        bore.point = self.point;
        bore.tool =
            if same && named.diameter == self.hole { named.tool.clone() } else { self.name() };
        if self.item == Item::TapDrill {
            // The thread's crest is what this hole leaves.
            fitted.unit_thread.limits.minor = self.limits;
        }
        Some(fitted)
    }

    fn name(&self) -> Option<String> {
        self.tool.size.name().map(|name| name.to_string())
    }
}

/// Whether a narrower hole, of a diameter at least, is there before a hole is cut, as deep as it is to
/// go.
fn is_led(bore: &Bore, section: &Section, least: Length) -> bool {
    let length = section.length();
    section.bores.iter().any(|other| {
        let from_there = other.mouth == bore.mouth || other.depth == Depth::Through;
        from_there
            && other.diameter >= least
            && other.diameter < bore.diameter
            && other.full_depth(length) >= bore.full_depth(length)
    })
}

/// The drill that goes before a reamer: the widest that leaves a tenth or more to it, and no more than
/// four (common practice, no source: less rubs, more tears).
pub(super) fn before_reamer(reamer: &Tool, workshop: &Workshop) -> Option<Tool> {
    let leaves = |tool: &&Tool| {
        let stock = reamer.diameter() - tool.hole.map_or(tool.diameter(), Limits::max);
        tool.kind == ToolKind::Drill && stock >= Length::mm(0.099) && stock <= Length::mm(0.401)
    };
    let drills = workshop.tools.iter().filter(leaves);
    let widest = |a: &'_ &Tool, b: &'_ &Tool| a.diameter().as_mm().total_cmp(&b.diameter().as_mm());
    drills.max_by(|a, b| widest(a, b)).cloned()
}

/// What kind of end it is: a hole's cone may be of any angle.
fn kind(point: Point) -> u8 {
    match point {
        Point::Flat => 0,
        Point::Cone(_) => 1,
        Point::Centre(..) => 2,
    }
}

fn shifted(limits: Limits, by: Length) -> Option<Limits> {
    Limits::new(limits.min() + by, limits.max() + by)
}
