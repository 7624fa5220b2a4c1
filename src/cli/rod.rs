//! `rod`: how many sections a rod gives, and where it is parted.

use std::path::PathBuf;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use crate::design::Library;
use crate::diagnostic::{Style, Tone, paint};
use crate::drawing::CAUTION;
use crate::job::rod::{self, Request};
use crate::quantity::Length;
use crate::shop::rod::{RodPlan, Shown};

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

/// Plans a rod; prints the plan and says where it is drawn.
pub(super) fn rod(library: &Library, typed: Rod, screen: Screen) -> Outcome {
    let request = Request {
        designs: typed.designs,
        length: typed.length,
        diameter: typed.diameter,
        kerf: typed.kerf,
        squaring: typed.squaring,
        holding: typed.holding,
        spares: typed.spare,
        sets: typed.sets,
        units: typed.units,
        out: typed.out,
    };
    let progress = Progress::start(screen.quiet());
    let planned = rod::rod(library, &request, &progress);
    drop(progress);
    let planned = match planned {
        Ok(planned) => planned,
        Err(stopped) => return screen.stopped(&stopped),
    };
    let written = planned.files.iter().map(|file| format!("  {}\n", file.display()));
    let written: String = written.collect();
    screen.say(&said(&planned.plan, planned.shown, screen.style()));
    screen.say(&format!("\nWritten:\n{written}\n{CAUTION}\n"));
    Outcome::Fine
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
