//! `shelf`: what is kept.

mod table;

use std::path::PathBuf;

use super::outcome::Outcome;
use super::screen::{Screen, print};
use crate::design::Library;
use crate::job::shelf::{self, Request};

/// What is asked of [`shelf`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// The folder of archives; without it the one that `keep` takes
    folder: Option<PathBuf>,
    #[command(flatten)]
    looked: Looked,
    /// Only what goes into the barrel and cap of this design or archive, by the checker
    #[arg(long, value_name = "BARREL")]
    fits: Option<String>,
    /// Verify every archive anew, byte by byte
    #[arg(long)]
    verify: bool,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// What of an archive is asked for, as typed. All of it has to be so.
#[derive(Debug, clap::Args)]
struct Looked {
    /// Only designs with this in their name, whatever the case
    #[arg(long, value_name = "WORDS")]
    name: Option<String>,
    /// Only those for a nib unit with this in its name
    #[arg(long, value_name = "WORDS")]
    unit: Option<String>,
    /// Only those whose thread for the unit is this one: M7.9x0.6
    #[arg(long, value_name = "THREAD")]
    thread: Option<String>,
    /// Only those whose tenon has this thread: M10x0.75, or with its class, M10x0.75-6g
    #[arg(long, value_name = "THREAD")]
    tenon: Option<String>,
    /// Only those with a grip of this length, to half a tenth
    #[arg(long, value_name = "LENGTH")]
    grip: Option<String>,
    /// Only those of this diameter at the shoulder, to half a tenth
    #[arg(long, value_name = "LENGTH")]
    shoulder: Option<String>,
    /// Only those of a material with this in its name
    #[arg(long, value_name = "WORDS")]
    material: Option<String>,
    /// Only those whose worst verdict is this one: holds, close, breaks
    #[arg(long, value_name = "VERDICT")]
    verdict: Option<String>,
    /// Only those kept on this day, or in this month or year: 2031, 2031-05, 2031-05-01
    #[arg(long, value_name = "DAY")]
    date: Option<String>,
}

impl From<Looked> for shelf::Looked {
    fn from(typed: Looked) -> Self {
        Self {
            name: typed.name,
            unit: typed.unit,
            thread: typed.thread,
            tenon: typed.tenon,
            grip: typed.grip,
            shoulder: typed.shoulder,
            material: typed.material,
            verdict: typed.verdict,
            date: typed.date,
        }
    }
}

/// Lists what is kept, and what of it is damaged.
pub(super) fn shelf(library: &Library, typed: Typed, screen: Screen) -> Outcome {
    let Typed { folder, looked, fits, verify, json } = typed;
    let request = Request { folder, looked: looked.into(), fits, verify };
    let listing = match shelf::shelf(library, &request, &()) {
        Ok(listing) => listing,
        Err(stopped) => return screen.stopped(&stopped),
    };
    if json {
        print(&table::json(&listing.folder, &listing.archives));
    } else {
        let (folder, archives) = (&listing.folder, &listing.archives);
        screen.say(&table::table(folder, archives, listing.of_all, screen.style()));
    }
    if listing.is_damaged() { Outcome::Breaks } else { Outcome::Fine }
}
