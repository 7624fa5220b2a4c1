//! `make`, `draw` and `sheet`: what was made of a section, and whatever else of its parts is asked
//! for.

mod said;
mod tools;

use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::Screen;
use super::table;
use crate::design::Library;
use crate::job::make::{self, Request};

/// How a drawing is asked for, as typed.
#[derive(Clone, Debug, clap::Args)]
pub(super) struct Drawing {
    /// The drawing's sheet, A4 or A3 (A2, A1); left out, A3 or what the part needs
    #[arg(long, value_name = "SIZE")]
    sheet: Option<String>,
    /// The drawing's scale, such as 5:1; left out, the largest that fits
    #[arg(long, value_name = "SCALE")]
    scale: Option<String>,
    /// The drawing's unit, mm or inch
    #[arg(long, value_name = "UNIT", default_value = "mm")]
    units: String,
}

impl From<Drawing> for make::Drawing {
    fn from(Drawing { sheet, scale, units }: Drawing) -> Self {
        Self { sheet, scale, units }
    }
}

/// Makes a design's files; says what was found and written, and with `tools` which were chosen.
pub(super) fn make(library: &Library, request: &Request, tools: bool, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    let made = make::make(library, request, &progress);
    drop(progress);
    let made = match made {
        Ok(made) => made,
        Err(stopped) => return screen.stopped(&stopped),
    };
    screen.said(&made.said);
    let examination = &made.products.examination;
    screen.say(&table::table(&made.resolved, examination, screen.style()));
    if let Some(plan) = made.products.plan.as_ref().filter(|_| tools) {
        screen.say(&tools::tools(plan, screen.style()));
    }
    screen.say(&said::said(&made));
    table::outcome(examination)
}
