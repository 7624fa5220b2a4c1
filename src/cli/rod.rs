//! `rod`: how many sections a rod gives, and where it is parted.

use std::path::PathBuf;

use super::outcome::Outcome;
use super::screen::Screen;
use crate::archive;
use crate::design::{self, Library};
use crate::diagnostic::{Diagnostic, Severity, Sources, Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::drawing::part::Units;
use crate::drawing::rod_plan::{self, ROD_NAMES};
use crate::export::{ExportError, File, pdf, svg};
use crate::quantity::{Length, parse_length};
use crate::section::Section;
use crate::shop::rod::{RodError, RodPlan, RodRequest, Shown, Wanted, plan};

/// The plan's folder in the one that is written to.
const FOLDER: &str = "rod";

/// What is asked of a rod, as typed.
#[derive(Clone, Debug, clap::Args)]
pub(super) struct Rod {
    /// Designs' files, or names of built-in ones: all of them are a set, as a matched pair
    #[arg(required = true, value_name = "DESIGN")]
    designs: Vec<String>,
    /// The rod's length, in mm, or as `9 in`
    #[arg(long, value_name = "LENGTH", allow_negative_numbers = true)]
    length: String,
    /// The rod's diameter; left out, the plan says how thick it must be
    #[arg(long, value_name = "LENGTH", allow_negative_numbers = true)]
    diameter: Option<String>,
    /// What a cut takes, of the saw or the parting tool
    #[arg(long, value_name = "LENGTH", allow_negative_numbers = true)]
    kerf: String,
    /// What comes off each end of a piece until it is square
    #[arg(long, value_name = "LENGTH", default_value = "0.5", allow_negative_numbers = true)]
    squaring: String,
    /// What the chuck keeps hold of; 0 where pieces are sawn by hand
    #[arg(long, value_name = "LENGTH", default_value = "15", allow_negative_numbers = true)]
    holding: String,
    /// Spares that are wanted
    #[arg(long, value_name = "COUNT", default_value_t = crate::shop::rod::DEFAULT_SPARES)]
    spare: u32,
    /// So many sets and no more; left out, as many as the rod gives
    #[arg(long, value_name = "COUNT")]
    sets: Option<u32>,
    /// inch shows inches beside millimetres
    #[arg(long, value_name = "UNIT", default_value = "mm")]
    units: String,
    /// Write to a folder `rod` in this one
    #[arg(long, value_name = "FOLDER", default_value = "out")]
    out: PathBuf,
}

/// Plans a rod; prints the plan and draws it.
pub(super) fn rod(library: &Library, typed: &Rod, screen: Screen) -> Outcome {
    let load = |design: &String| load(library, design, screen);
    let sections: Vec<Option<Section>> = typed.designs.iter().map(load).collect();
    let sections: Option<Vec<Section>> = sections.into_iter().collect();
    let mut wrong = Vec::new();
    let shown = shown(&typed.units, &mut wrong);
    let lengths = lengths(typed, &mut wrong);
    screen.diagnostics(&wrong, &Sources::default());
    let (Some(sections), Some(shown), Some(lengths)) = (sections, shown, lengths) else {
        return Outcome::Wrong;
    };
    let [length, kerf, squaring, holding] = lengths.0;
    let request = RodRequest {
        diameter: lengths.1,
        squaring,
        holding,
        sets: typed.sets,
        spares: typed.spare,
        ..RodRequest::new(Wanted::set(&sections), length, kerf)
    };
    let plan = match plan(&request) {
        Ok(plan) => plan,
        Err(errors) => {
            let errors: Vec<Diagnostic> = errors.iter().map(told).collect();
            screen.diagnostics(&errors, &Sources::default());
            return Outcome::Wrong;
        }
    };
    let files = match files(&plan, shown) {
        Ok(files) => files,
        Err((code, message)) => {
            screen.complain(code, message);
            return Outcome::Wrong;
        }
    };
    let folder = typed.out.join(FOLDER);
    if let Err(error) = archive::replace(&folder, &files, &ROD_NAMES) {
        screen.complain(error.code(), error.to_string());
        return Outcome::Failed;
    }
    let written = ROD_NAMES.map(|name| format!("  {}\n", folder.join(name).display())).concat();
    screen.say(&said(&plan, shown, screen.style()));
    screen.say(&format!("\nWritten:\n{written}\n{CAUTION}\n"));
    Outcome::Fine
}

/// Reads a design; says what is wrong with it, and no more: its notes are for who makes it.
fn load(library: &Library, design: &str, screen: Screen) -> Option<Section> {
    match design::load(library, design) {
        Ok(resolved) => Some(resolved.section),
        Err(mut failure) => {
            failure.diagnostics.retain(|said| said.severity == Severity::Error);
            screen.diagnostics(&failure.diagnostics, &failure.sources);
            None
        }
    }
}

fn told(error: &RodError) -> Diagnostic {
    Diagnostic::error(error.code(), error.to_string()).hint(error.hint())
}

fn shown(units: &str, wrong: &mut Vec<Diagnostic>) -> Option<Shown> {
    let known = Units::ALL.into_iter().find(|known| known.name() == units);
    if known.is_none() {
        let message = format!("`{units}` is no unit of a plan; there are mm, inch");
        wrong.push(Diagnostic::error("rod.units", message).hint("--units inch"));
    }
    known.map(|known| Shown { inches: known == Units::Inches })
}

/// Length, kerf, squaring and holding, and the diameter if it is given; notes all that are none.
fn lengths(typed: &Rod, wrong: &mut Vec<Diagnostic>) -> Option<([Length; 4], Option<Length>)> {
    let mut read = |code: &'static str, text: &str| {
        let name = code.trim_start_matches("rod.");
        let told = |error: crate::quantity::LengthError| {
            Diagnostic::error(code, format!("--{name}: {error}")).hint(error.hint())
        };
        parse_length(text).map_err(|error| wrong.push(told(error))).ok()
    };
    let lengths = [
        read("rod.length", &typed.length),
        read("rod.kerf", &typed.kerf),
        read("rod.squaring", &typed.squaring),
        read("rod.holding", &typed.holding),
    ];
    let diameter = typed.diameter.as_ref().map(|text| read("rod.diameter", text));
    let [Some(length), Some(kerf), Some(squaring), Some(holding)] = lengths else { return None };
    let diameter = match diameter {
        Some(None) => return None,
        Some(Some(diameter)) => Some(diameter),
        None => None,
    };
    Some(([length, kerf, squaring, holding], diameter))
}

fn files(plan: &RodPlan, shown: Shown) -> Result<Vec<File>, (&'static str, String)> {
    let sheet = rod_plan::sheet(plan, shown).map_err(|e| (e.code(), e.to_string()))?;
    let refused = |e: ExportError| (e.code(), e.to_string());
    let bytes = [svg::write(&sheet).into_bytes(), pdf::write(&sheet).map_err(refused)?];
    Ok(ROD_NAMES.iter().zip(bytes).map(|(name, bytes)| File::new(*name, bytes)).collect())
}

/// The plan as a maker reads it.
fn said(plan: &RodPlan, shown: Shown, style: Style) -> String {
    let strong = |words: &str| paint(words, Tone::Strong, style);
    let mut text = format!("{}\n{}\n\n", strong(&plan.gives()), plan.rod(shown));
    let unit = shown.unit();
    let heads = [format!("from, {unit}"), format!("to, {unit}"), format!("length, {unit}")];
    text += &paint(&line("", &heads.each_ref().map(String::as_str), "for"), Tone::Faint, style);
    let mut row = |number: &str, [from, to]: [Length; 2], what: &str| {
        let cells = [from, to, to - from].map(|length| shown.cell(length));
        text += &line(number, &cells.each_ref().map(String::as_str), what);
    };
    for piece in &plan.pieces {
        let (name, role) = (plan.design(piece.design), plan.role(piece));
        let what = if role.is_empty() { name } else { format!("{name}, {role}") };
        row(&piece.number.to_string(), [piece.from, piece.to], &what);
    }
    let held = plan.request.length - plan.request.holding;
    if !plan.ends_uncut() && plan.left_over > Length::ZERO {
        row("", [held - plan.left_over, held], "left over");
    }
    if !plan.request.sawn_free() {
        row("", [held, plan.request.length], "held in chuck or collet");
    }
    let off = shown.length(plan.request.squaring);
    text += &format!(
        "\n{}\n{off} of each end of a piece comes off when it is squared\n",
        plan.sum(shown)
    );
    text += &format!("\n{}\n", strong("Order of the work"));
    for (n, step) in (1..).zip(plan.order(shown)) {
        text += &format!("  {n}  {step}\n");
    }
    for wish in plan.wishes(shown) {
        text += &format!("     {wish}\n");
    }
    text += &format!("\n{}\n", strong("Care"));
    for caution in plan.cautions(shown) {
        text += &format!("  {caution}\n");
    }
    text
}

/// A line of the table in its columns.
fn line(number: &str, [from, to, length]: &[&str; 3], what: &str) -> String {
    format!("{number:>5}{from:>17}{to:>17}{length:>17}   {what}\n")
}
