//! `profiles`: what a name finds.

use super::outcome::Outcome;
use super::screen::{Screen, print};
use crate::design::{Kind, Library};
use crate::diagnostic::{Tone, paint};

/// Lists all profiles, or shows the text of one.
pub(super) fn profiles(library: &Library, name: Option<&str>, screen: Screen) -> Outcome {
    let Some(name) = name else {
        print(&list(library, screen));
        return Outcome::Fine;
    };
    let texts: Vec<String> =
        Kind::ALL.into_iter().filter_map(|kind| library.text(kind, name)).collect();
    if texts.is_empty() {
        let known: Vec<String> =
            Kind::ALL.into_iter().flat_map(|kind| library.list(kind)).map(|e| e.name).collect();
        let known = known.join(", ");
        screen.complain(
            "profile.missing",
            format!("no profile is called {name:?}; there are {known}"),
        );
        return Outcome::Wrong;
    }
    for text in texts {
        print(&text);
    }
    Outcome::Fine
}

fn list(library: &Library, screen: Screen) -> String {
    let mut text = String::new();
    for kind in Kind::ALL {
        text += &paint(kind.folder(), Tone::Strong, screen.style());
        text.push('\n');
        for entry in library.list(kind) {
            let place = entry.path.map_or("built in".to_owned(), |path| path.display().to_string());
            text += &format!("  {:<20} {place}\n", entry.name);
        }
    }
    text
}
