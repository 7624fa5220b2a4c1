//! What stands on the sheet, before it is known whether it is a page or a screen.

use super::numbers::Numbers;
use super::{cautions, figure, step, tables};
use crate::drawing::Sheet;
use crate::drawing::part::Units;
use crate::export::report::digest_of;
use crate::section::Section;
use crate::shop::{Holding, Plan};

/// Words with their weight.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A number to be set: large.
    Set(String),
    /// Everything else.
    Plain(String),
    /// What must not be overlooked.
    Warning(String),
}

impl Line {
    /// The words.
    pub fn words(&self) -> &str {
        match self {
            Self::Set(words) | Self::Plain(words) | Self::Warning(words) => words,
        }
    }
}

/// A step as a row of five columns.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Row {
    /// Its number; the rehearsal is 0.
    pub number: usize,
    /// What is done: `D: drill the tap-drill bore`.
    pub title: String,
    /// Tool and speed.
    pub tool: Vec<Line>,
    /// The face that it is measured from.
    pub face: Vec<Line>,
    /// What is set.
    pub set: Vec<Line>,
    /// How it is verified.
    pub check: Vec<Line>,
    /// What is measured and written down: a box each, with what it should read.
    pub boxes: Vec<String>,
    /// What has to be known, across all columns.
    pub notes: Vec<Line>,
}

/// A piece of the table of steps.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Block {
    /// How the work is held from here on.
    Holding(String),
    /// A step.
    Step(Row),
}

/// A table with a title.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Table {
    /// What it is.
    pub title: String,
    /// What its columns are.
    pub heads: Vec<String>,
    /// Its rows.
    pub rows: Vec<Vec<String>>,
}

/// The sheet.
#[derive(Clone, Debug)]
pub struct Content {
    /// The design's name.
    pub name: String,
    /// What it is made of, with which tools, and in which unit.
    pub about: Vec<String>,
    /// The three cautions that stand on top.
    pub first_cautions: [String; 3],
    /// The half-section with its bores lettered.
    pub figure: Sheet,
    /// What the letters are.
    pub letters: Table,
    /// The steps with their holdings.
    pub blocks: Vec<Block>,
    /// The outside's diameters.
    pub outside: Table,
    /// Slopes and curves of the outside.
    pub slopes: Vec<String>,
    /// The outside at 1:1, with a bar of 50 mm.
    pub template: Sheet,
    /// What to do when the unit binds.
    pub binding: Table,
    /// All other cautions.
    pub cautions: Vec<String>,
    /// The design's name and digest.
    pub foot: String,
}

impl Content {
    /// The sheet of a design whose work is planned.
    pub fn of(design: &Section, plan: &Plan, units: Units) -> Self {
        let numbers = Numbers { units };
        let mut blocks = Vec::new();
        for (number, operation) in plan.operations.iter().enumerate() {
            if operation.held_anew {
                blocks.push(Block::Holding(holding(&operation.holding, plan, numbers)));
            }
            blocks.push(Block::Step(step::row(number, operation, plan, numbers)));
        }
        Self {
            name: design.name.clone(),
            about: about(design, plan, numbers),
            first_cautions: cautions::first(),
            figure: figure::bores(&plan.section),
            letters: tables::letters(plan, numbers),
            blocks,
            outside: tables::outside(plan, numbers),
            slopes: tables::slopes(plan, numbers),
            template: figure::template(&plan.section),
            binding: tables::binding(plan, numbers),
            cautions: cautions::rest(plan),
            foot: format!("{}, section {}", design.name, &digest_of(design)[..DIGITS]),
        }
    }
}

impl Content {
    /// The same without the remarks under the steps that are no warnings.
    #[must_use]
    pub fn brief(&self) -> Self {
        let mut brief = self.clone();
        for block in &mut brief.blocks {
            if let Block::Step(row) = block {
                row.notes.retain(|line| matches!(line, Line::Warning(_)));
            }
        }
        brief
    }

    /// How many steps there are.
    pub fn steps(&self) -> usize {
        self.blocks.iter().filter(|block| matches!(block, Block::Step(_))).count()
    }
}

/// Digits of the section's digest at the foot: the first of those in the report. Fewer, and two
/// designs of one pen could share them; more are not read.
const DIGITS: usize = 12;

fn about(design: &Section, plan: &Plan, numbers: Numbers) -> Vec<String> {
    let rod = design.blank;
    let first = format!(
        "{}, rod {}, {} long when faced; nib unit: {}; tools: {}; made by: {}",
        design.material,
        numbers.diameter(rod.diameter),
        numbers.length(design.squared_length()),
        design.unit.name,
        plan.workshop.name,
        design.maker.name
    );
    let unit = match numbers.units {
        Units::Millimetres => "mm",
        Units::Inches => "inches",
    };
    let wheel = plan.workshop.lathe.quill.map_or(String::new(), |quill| {
        let turn = numbers.fine(quill.per_turn);
        let divisions = quill.divisions.map_or(String::new(), |divisions| {
            let each = numbers.fine(quill.per_turn / f64::from(divisions));
            format!(", {divisions} divisions (div) of {each}")
        });
        format!(" Tailstock's handwheel: {turn} a turn{divisions}.")
    });
    let second = format!(
        "All lengths in {unit}, diameters as a caliper reads them; a step's numbers are from the face \
         that it names, as it is then.{wheel}"
    );
    let mut about = vec![first, second];
    if plan.section != *design {
        about.push(
            "With these tools some holes come out otherwise than the design has them (see the \
             letters): print and drawing agree once the design says the same."
                .to_owned(),
        );
    }
    about
}

/// How the work is held, in a sentence.
fn holding(holding: &Holding, plan: &Plan, numbers: Numbers) -> String {
    let by = |collet: &Option<crate::quantity::Length>, chuck: &str| match collet {
        Some(size) => format!("collet {}", numbers.length(*size)),
        None => chuck.to_owned(),
    };
    let end = |back: bool| if back { "tenon end out" } else { "nib end out" };
    let first = plan.section.sequence() == crate::section::Sequence::TenonFirst;
    match holding {
        Holding::Offcut => {
            "HOLD: an offcut of the same material, as the rod will be held".to_owned()
        }
        Holding::Rod { diameter, collet, chuck } => format!(
            "HOLD: the rod by its outside, {}, in {}, {}",
            numbers.diameter(*diameter),
            by(collet, chuck),
            end(first)
        ),
        Holding::RodReversed { chuck } => format!(
            "HOLD: reversed, by the outside in the {chuck}, set true to the bore, {}",
            end(!first)
        ),
        Holding::Bushing => {
            "HOLD: by the tenon in a bushing bored and threaded in place, shoulder \
            seated, nib end out; it stays there to the end"
                .to_owned()
        }
        Holding::SplitBushing { bore } => format!(
            "HOLD: by the tenon in a split bushing bored {}, shoulder seated, nib end to the tailstock's \
             centre",
            numbers.diameter(*bore)
        ),
        Holding::Mandrel { diameter } => format!(
            "HOLD: on a slightly tapered or expanding mandrel of {} from the tenon's end, clear of the \
             lip plug, nib end to the tailstock's centre",
            numbers.diameter(*diameter)
        ),
    }
}
