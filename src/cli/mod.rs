//! The command line, as typed, and what it does: one file a command.
//!
//! Exit status: 0 nothing breaks, 1 a check breaks, 2 the input is wrong, 3 the machine failed.

mod asmade;
mod check;
mod compare;
mod explain;
mod keep;
mod make;
mod new;
mod outcome;
mod print;
mod profiles;
mod progress;
mod recall;
mod rod;
mod screen;
mod shelf;
mod table;
mod tight;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::design::Library;
use crate::drawing::CAUTION;
use crate::export::Kind;
use crate::job::{self, make::Request};
use crate::mesh::DEFAULT_CHORD;
use outcome::Outcome;
use screen::Screen;

/// The design that is made when none is named.
const DEMO: &str = "demo";

/// Designs the grip section of a one-off fountain pen, proves it on the solid, and writes what it
/// takes to print it and to cut it.
#[derive(Debug, Parser)]
#[command(version, max_term_width = 100, after_help = CAUTION)]
struct Typed {
    #[command(subcommand)]
    command: Command,
    #[command(flatten)]
    common: Common,
}

/// What every command takes; listed behind what is its own.
#[derive(Debug, Args)]
struct Common {
    /// Look for units, designs, materials, makers, racks and printers in this folder before the built-in ones
    #[arg(long, global = true, value_name = "FOLDER", display_order = 100)]
    profiles: Vec<PathBuf>,
    /// Print only what is wrong
    #[arg(long, short, global = true, display_order = 101)]
    quiet: bool,
    /// When to colour what is printed
    #[arg(long, global = true, value_enum, default_value_t = Colour::Auto, display_order = 102)]
    color: Colour,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Colour {
    Auto,
    Always,
    Never,
}

#[derive(Debug, Subcommand)]
enum Command {
    /// Build a section, check it, and write its files to out/NAME
    Make {
        /// A design's file, or the name of a built-in one
        #[arg(default_value = DEMO)]
        design: String,
        /// Write to a folder of the design's name in this one
        #[arg(long, value_name = "FOLDER", default_value = "out")]
        out: PathBuf,
        /// How far flat triangles may stray from the true surface, in mm
        #[arg(long, value_name = "MM", default_value_t = DEFAULT_CHORD)]
        chord: f64,
        /// Write only these kinds of files: stl, step, dxf, svg, pdf, drawing (alone, as dxf, svg
        /// and pdf), sheet, report, comma-separated (the report comes with any of them)
        #[arg(long, value_name = "KINDS")]
        only: Option<String>,
        /// Make these parts, comma-separated: section, unit, barrel, cap, converter, check-plug,
        /// unit-ring, check-ring, barrel-plug, bushing, lip-plug, sizing-tap, or the blank at a
        /// stage, blank-1 and on (an unknown name lists them all), or tap-order, a sheet to have the
        /// unit thread's tap made
        #[arg(long, value_name = "NAMES", value_delimiter = ',', default_value = "section")]
        part: Vec<String>,
        /// A limit in place of the material's and the design's: `walls.lip=0.35`; as often as there
        /// are limits
        #[arg(long, value_name = "KEY=VALUE")]
        limit: Vec<String>,
        /// The rack of tools that are at hand, in place of the design's
        #[arg(long, value_name = "RACK")]
        rack: Option<String>,
        #[command(flatten)]
        drawing: make::Drawing,
    },
    /// Set out the work at the lathe, step by step: sheet.html and sheet.pdf to out/NAME
    Sheet {
        /// A design's file, or the name of a built-in one
        #[arg(default_value = DEMO)]
        design: String,
        /// Write to a folder of the design's name in this one
        #[arg(long, value_name = "FOLDER", default_value = "out")]
        out: PathBuf,
        /// The rack of tools that are at hand, in place of the design's
        #[arg(long, value_name = "RACK")]
        rack: Option<String>,
        /// The unit of its lengths, mm or inch
        #[arg(long, value_name = "UNIT", default_value = "mm")]
        units: String,
        /// A limit in place of the material's and the design's, as for `make`
        #[arg(long, value_name = "KEY=VALUE")]
        limit: Vec<String>,
    },
    /// Draw a section, or a part beside it, for a machinist: as DXF, SVG and PDF to out/NAME
    Draw {
        /// A design's file, or the name of a built-in one
        #[arg(default_value = DEMO)]
        design: String,
        /// Write to a folder of the design's name in this one
        #[arg(long, value_name = "FOLDER", default_value = "out")]
        out: PathBuf,
        /// Draw these parts, comma-separated: section, unit, bushing, lip-plug, sizing-tap,
        /// check-plug, check-ring, tap-order and all others of `make`
        #[arg(long, value_name = "NAMES", value_delimiter = ',', default_value = "section")]
        part: Vec<String>,
        #[command(flatten)]
        drawing: make::Drawing,
    },
    /// Check a section and write nothing
    Check {
        /// A design's file, or the name of a built-in one
        #[arg(required_unless_present_any = ["list", "explain"])]
        design: Option<String>,
        /// Print the checks as JSON instead of a table
        #[arg(long)]
        json: bool,
        /// Print only these checks, by their codes, comma-separated; `wall.*` is all of a kind
        #[arg(long, value_name = "CODES", value_delimiter = ',')]
        only: Vec<String>,
        /// Say what a check measures and what its limit means; with a design, all that it found
        #[arg(long, value_name = "CODE")]
        explain: Option<String>,
        /// Show how far each size may be off before a verdict gets worse
        #[arg(long)]
        room: bool,
        /// Draw the walls into this file, as SVG; over one that is there
        #[arg(long, value_name = "FILE")]
        picture: Option<PathBuf>,
        /// List all checks
        #[arg(long)]
        list: bool,
        /// A limit in place of the material's and the design's, as a material writes it:
        /// `walls.lip=0.35`, `thread_percent.unit.high=95`; as often as there are limits
        #[arg(long, value_name = "KEY=VALUE")]
        limit: Vec<String>,
    },
    /// Plan a rod: how many sections and spares it gives, and where to part it; to out/rod
    Rod(rod::Rod),
    /// Measure a section as it was really cut, and say what can save it and what is left to do
    Asmade(asmade::Typed),
    /// Print a fit test: the section, coupons, a ladder of thread clearances, a stand-in for the unit,
    /// made right for a printer; calibrate the printer; or say what the print said
    Print(Box<print::Typed>),
    /// Keep a design for years: its files as written, its exports, notes and photographs in one
    /// sealed file on the shelf
    Keep(keep::Typed),
    /// Verify what was kept, make it again with this program, and say what differs; it ends with 0
    /// where nothing but bytes of files does, with 1 where the geometry does or a verdict is worse
    Recall(recall::Typed),
    /// Set two pens side by side: what differs, whether their sections go into one barrel and cap,
    /// what to change so that they do; drawn over each other
    Compare(compare::Typed),
    /// List what is kept: by unit, thread, tenon, grip, material, verdict
    Shelf(shelf::Typed),
    /// Write a design and a nib unit to fill in: NAME.toml and NAME-unit.toml
    New {
        /// What the pen is to be called
        name: String,
    },
    /// List the units, designs, materials, makers, racks and printers that a name finds, or show one
    Profiles {
        /// The one to show
        name: Option<String>,
    },
}

/// Runs what was typed.
pub fn run() -> ExitCode {
    let typed = match Typed::try_parse() {
        Ok(typed) => typed,
        Err(asked) => {
            // Help and version are no error; where they can't be printed nobody reads them.
            let _ = asked.print();
            return if asked.use_stderr() { Outcome::Wrong } else { Outcome::Fine }.into();
        }
    };
    let Common { profiles, quiet, color } = typed.common;
    let screen = Screen::new(quiet, color);
    let library = Library::new(profiles);
    let outcome = match typed.command {
        Command::Make { design, out, chord, only, part, limit, rack, drawing } => {
            let request = Request {
                chord,
                only,
                drawing: drawing.into(),
                parts: part,
                limits: limit,
                rack,
                ..Request::of(design, out)
            };
            make::make(&library, &request, false, screen)
        }
        Command::Draw { design, out, part, drawing } => {
            let request = Request {
                only: Some(Kind::Drawing.name().to_owned()),
                drawing: drawing.into(),
                parts: part,
                ..Request::of(design, out)
            };
            make::make(&library, &request, false, screen)
        }
        Command::Sheet { design, out, rack, units, limit } => {
            let request = Request {
                only: Some(Kind::Sheet.name().to_owned()),
                drawing: job::make::Drawing { units, ..Default::default() },
                limits: limit,
                rack,
                ..Request::of(design, out)
            };
            make::make(&library, &request, true, screen)
        }
        Command::Check { design, json, only, explain, room, picture, list, limit } => {
            let request =
                check::Request { json, only, explain, room, picture, list, limits: limit };
            check::check(&library, design.as_deref(), &request, screen)
        }
        Command::Rod(typed) => rod::rod(&library, typed, screen),
        Command::Asmade(typed) => asmade::asmade(&library, typed, screen),
        Command::Print(typed) => print::print(&library, *typed, screen),
        Command::Keep(typed) => keep::keep(&library, typed, screen),
        Command::Recall(typed) => recall::recall(typed, screen),
        Command::Compare(typed) => compare::compare(&library, typed, screen),
        Command::Shelf(typed) => shelf::shelf(&library, typed, screen),
        Command::New { name } => new::new(&name, screen),
        Command::Profiles { name } => profiles::profiles(&library, name.as_deref(), screen),
    };
    outcome.into()
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_consistent() {
        Typed::command().debug_assert();
    }
}
