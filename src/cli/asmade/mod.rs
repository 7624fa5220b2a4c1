//! `asmade`: a section as it was really cut.

mod cut;
mod json;
mod said;

use super::make::load;
use super::outcome::Outcome;
use super::progress::Progress;
use super::screen::{Screen, print};
use crate::check::room_of;
use crate::design::Library;
use crate::diagnostic::Sources;
use crate::shop::{as_made, read, typed};

/// What is asked of [`asmade`], as typed.
#[derive(Debug, clap::Args)]
pub(super) struct Typed {
    /// A design's file, or the name of a built-in one
    design: String,
    /// A size that was cut otherwise: `clearance-bore.depth=4.3`; as often as there are sizes. It
    /// goes over the design's `[made]`. Diameters are what a caliper reads, depths are from the
    /// finished front face, as in the design; an unknown key lists them all
    #[arg(long, value_name = "KEY=VALUE")]
    set: Vec<String>,
    /// The last step that is done, where more is done than what was cut otherwise: `tapped`,
    /// `outside-turned`, or the name of a hole (an unknown word lists them all)
    #[arg(long, value_name = "STEP")]
    after: Option<String>,
    /// Print it as JSON instead of a table
    #[arg(long)]
    json: bool,
}

/// Measures a section as it was cut, and prints what that breaks, what saves it and what is left.
pub(super) fn asmade(library: &Library, asked: &Typed, screen: Screen) -> Outcome {
    let progress = Progress::start(screen.quiet());
    progress.step("reading the design");
    let resolved = load(library, &asked.design, &[], screen);
    let mut sources =
        resolved.as_ref().map_or(Sources::default(), |resolved| resolved.sources.clone());
    let (sizes, mut wrong) = typed(&asked.set, &mut sources);
    let said = resolved.as_ref().and_then(|resolved| {
        let mut made = resolved.made.clone();
        made.sizes.retain(|size| sizes.iter().all(|over| over.key != size.key));
        made.sizes.extend(sizes);
        made.after = asked.after.clone().map(|word| (word, None)).or(made.after);
        read(&resolved.section, &made).map_err(|more| wrong.extend(more)).ok()
    });
    screen.diagnostics(&wrong, &sources);
    let (Some(resolved), Some(said), true) = (resolved, said, wrong.is_empty()) else {
        return Outcome::Wrong;
    };
    progress.step("measuring, and looking for what can save it");
    let measured = as_made(&resolved.section, &said).and_then(|made| {
        let sizes: Vec<_> = said.sizes.iter().map(|size| size.parameter).collect();
        Ok((made, room_of(&resolved.section, &sizes)?))
    });
    drop(progress);
    let (made, rooms) = match measured {
        Ok(measured) => measured,
        Err(error) => {
            screen.complain(error.code(), error.to_string());
            return Outcome::Wrong;
        }
    };
    if asked.json {
        print(&json::json(&resolved.section, &made, &rooms));
    } else {
        screen.say(&said::said(&resolved.section, &made, &rooms, screen.style()));
    }
    if made.made.breaks() { Outcome::Breaks } else { Outcome::Fine }
}
