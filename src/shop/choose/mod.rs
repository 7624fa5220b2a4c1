//! The tool for every hole: each that might serve is put into the section with the hole and the
//! point that it really leaves, and the checker measures what comes of it.
//!
//! ```text
//!   rack -> candidate   what a tool would leave in this hole
//!        -> effect      which verdicts get worse, and in which words
//!        -> Choice      the best, what its neighbours would cost, what to buy where none serves
//!        -> mistaken    sizes that are taken for one another
//! ```

mod candidate;
mod effect;
mod mistaken;

pub use effect::{Cost, Effect};
pub use mistaken::Mistaken;

use crate::quantity::Length;
use crate::scene::Scene;
use crate::section::{Bore, Depth, Item, Point, Section, Tool, ToolKind, Workshop};
use crate::solid::BuildError;
use crate::standard::drill::nearest;
use crate::standard::{DrillSize, Series};
use candidate::{Candidate, before_reamer, candidates};

/// How a hole is made.
#[derive(Clone, Debug, PartialEq)]
pub enum Taken {
    /// With this tool.
    Tool(Tool),
    /// By a cut from inside: a relief, with a hook tool; or turned or sunk at a mouth.
    ByHand(&'static str),
    /// Nothing at hand serves: this drill is to be bought, or the hole bored to its size by a
    /// single point.
    Buy(Option<DrillSize>),
}

/// A tool that was not taken, and what it would cost.
#[derive(Clone, Debug, PartialEq)]
pub struct RunnerUp {
    /// The tool.
    pub tool: Tool,
    /// Whether its end is of another kind than the design's.
    pub other_point: bool,
    /// What comes of it.
    pub effect: Effect,
}

/// What was chosen for a hole.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The hole.
    pub item: Item,
    /// Its diameter in the design.
    pub wanted: Length,
    /// Its diameter as it will be.
    pub becomes: Length,
    /// How it is made.
    pub taken: Taken,
    /// What goes before it: a drill before a reamer.
    pub first: Option<Tool>,
    /// Whether its end is of another kind than the design's: a cone for a flat floor.
    pub other_point: bool,
    /// What the choice changes against the design.
    pub effect: Effect,
    /// The nearest tools to either side that were not taken.
    pub runners_up: Vec<RunnerUp>,
    /// Sizes that the taken tool is easily mistaken for.
    pub mistaken: Vec<Mistaken>,
}

/// The section as these tools leave it, where that is another one, and what was chosen for each of
/// its holes.
///
/// Holes are settled from the narrowest on, each with those before it as they will be. The
/// section stays as designed where a tool leaves just what was asked for, and where nothing at
/// hand serves.
///
/// Holes that are done by then stay as they are.
///
/// # Errors
/// [`BuildError`] where the section can't be built as the tools before leave it.
pub fn choose(
    scene: &Scene,
    workshop: &Workshop,
    done: &[Item],
) -> Result<(Option<Scene>, Vec<Choice>), BuildError> {
    let mut settled: Option<Scene> = None;
    let mut choices = Vec::new();
    let mut bores: Vec<Bore> = scene.section().bores.clone();
    bores.sort_by(|a, b| a.diameter.as_mm().total_cmp(&b.diameter.as_mm()));
    for bore in bores {
        let is_done = done.contains(&bore.item).then_some("done");
        let choice = if let Some(how) = is_done.or(by_hand(&bore)) {
            Choice {
                item: bore.item,
                wanted: bore.diameter,
                becomes: bore.diameter,
                taken: Taken::ByHand(how),
                first: None,
                other_point: false,
                effect: Effect::default(),
                runners_up: Vec::new(),
                mistaken: Vec::new(),
            }
        } else {
            let before = settled.as_ref().unwrap_or(scene);
            let (next, choice) = one(before, &bore, workshop);
            if next != *before.section() {
                settled = Some(Scene::of(&next)?);
            }
            choice
        };
        choices.push(choice);
    }
    Ok((settled, choices))
}

/// Holes that no tool of a rack is chosen for.
fn by_hand(bore: &Bore) -> Option<&'static str> {
    match (bore.item, bore.depth) {
        (Item::Countersink(_), _) => Some("countersink or centre drill"),
        (_, Depth::Between(..)) => Some("hook tool"),
        _ => None,
    }
}

/// A candidate with what comes of it.
struct Tried {
    candidate: Candidate,
    section: Section,
    effect: Effect,
}

fn one(scene: &Scene, bore: &Bore, workshop: &Workshop) -> (Section, Choice) {
    let section = scene.section();
    let mut tried: Vec<Tried> = candidates(bore, section, workshop)
        .into_iter()
        .map(|candidate| tried(scene, candidate))
        .collect();
    // The best first; of equals the one that comes first in the rack.
    tried.sort_by(|a, b| rank(a, bore).partial_cmp(&rank(b, bore)).expect("ranks are numbers"));
    let serves = tried.first().is_some_and(|best| best.effect.serves());
    let wanted = bore.diameter;
    let best = if serves { Some(tried.remove(0)) } else { None };
    let runners_up = neighbours(tried, best.as_ref().map_or(wanted, |best| best.candidate.hole));
    let other_point = best.as_ref().is_some_and(|best| best.candidate.other_point);
    let (next, taken, becomes, effect) = if let Some(best) = best {
        let Tried { candidate, section, effect } = best;
        (section, Taken::Tool(candidate.tool), candidate.hole, effect)
    } else {
        let drill = to_buy(scene, bore);
        (section.clone(), Taken::Buy(drill), wanted, Effect::default())
    };
    let mistaken = match &taken {
        Taken::Tool(tool) if tool.kind != ToolKind::BoringBar => mistaken::of(tool.size, workshop),
        Taken::Buy(Some(drill)) => mistaken::of(*drill, workshop),
        _ => Vec::new(),
    };
    let item = bore.item;
    let first = match &taken {
        Taken::Tool(tool) if tool.kind == ToolKind::Reamer => before_reamer(tool, workshop),
        _ => None,
    };
    let choice =
        Choice { item, wanted, becomes, taken, first, other_point, effect, runners_up, mistaken };
    (next, choice)
}

fn tried(scene: &Scene, candidate: Candidate) -> Tried {
    let fitted = candidate.fitted(scene.section());
    let of = |fitted: &Section| Effect::of(scene, fitted);
    let effect = fitted.as_ref().map_or_else(Effect::impossible, of);
    let section = fitted.unwrap_or_else(|| scene.section().clone());
    Tried { candidate, section, effect }
}

/// From good to bad: what breaks, what gets worse, a size that is far off, another point than the
/// design's, more work than a drill, another size than the design's, less that gets better, and how
/// far the size is off.
fn rank(tried: &Tried, bore: &Bore) -> [f64; 8] {
    let Tried { candidate, effect, .. } = tried;
    let off = (candidate.hole - bore.diameter).abs().as_mm();
    let count = |n: usize| n as f64;
    [
        count(effect.breaks()),
        count(effect.worse.len()),
        (off / FAR_OFF.as_mm()).floor(),
        f64::from(u8::from(candidate.other_point)),
        f64::from(candidate.effort),
        f64::from(u8::from(off > SAME.as_mm())),
        -count(effect.better),
        off,
    ]
}

/// A size that is off by this much is another one, whatever the checks say of it. Larger, and the
/// end of a tool outranks its size; smaller, and a drill a little off loses to a boring bar.
const FAR_OFF: Length = Length::mm(0.25);

/// Two sizes this near are one to whoever drills. Larger, and 21/64 in passes for 8.3 mm.
const SAME: Length = Length::mm(0.01);

/// The nearest tool to either side of a size that was not taken.
fn neighbours(tried: Vec<Tried>, size: Length) -> Vec<RunnerUp> {
    let drills = tried.into_iter().filter(|one| one.candidate.tool.kind != ToolKind::BoringBar);
    let mut nearest: [Option<Tried>; 2] = [None, None];
    for one in drills {
        let off = one.candidate.hole - size;
        let side = usize::from(off > Length::ZERO);
        let nearer = |other: &Tried| off.abs() < (other.candidate.hole - size).abs();
        if nearest[side].as_ref().is_none_or(nearer) {
            nearest[side] = Some(one);
        }
    }
    let found = nearest.into_iter().flatten();
    let told = |Tried { candidate, effect, .. }: Tried| RunnerUp {
        tool: candidate.tool,
        other_point: candidate.other_point,
        effect,
    };
    found.map(told).collect()
}

impl RunnerUp {
    /// What it would cost, `drill 8 mm: ...`; none where it would serve as well. `length` writes a
    /// length with its unit.
    pub fn said(&self, length: impl Fn(Length) -> String) -> Option<String> {
        let why = self.effect.why(length)?;
        let end = if self.other_point { " with its end" } else { "" };
        Some(format!("{}{end}: {why}", self.tool))
    }
}

/// The drill in the trade that would serve, nearest to the design: metric tenths before inch sizes.
fn to_buy(scene: &Scene, bore: &Bore) -> Option<DrillSize> {
    if !matches!(bore.point, Point::Cone(_)) && bore.depth != Depth::Through {
        return None;
    }
    [Series::Metric, Series::Fractional, Series::Number, Series::Letter].into_iter().find_map(
        |series| {
            let near = nearest(&series.sizes(), bore.diameter, TO_BUY);
            near.into_iter().find(|size| {
                let fitted = Candidate::bought(bore, *size).fitted(scene.section());
                fitted.is_some_and(|fitted| Effect::of(scene, &fitted).serves())
            })
        },
    )
}

/// Drills of a series that are tried before it is said that none serves: the nearest to either
/// side, and one more for where the nearest breaks a limit by a hair.
const TO_BUY: usize = 3;
