//! The files of a design as they were written, and which name or path led to which: enough to
//! resolve it again years later, whatever the profiles at hand have become.

use std::path::Path;

use super::library::{EXTENSION, Kind, Profile};
use super::pen_name::file_name_fault;

/// A file that a design was made from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenFile {
    /// Its place among them, from 1, and the name that it had, without its folder:
    /// `2-demo-unit.toml`. No two of a design have one name.
    pub name: String,
    /// All of its text.
    pub text: String,
}

/// A name or path that led to a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lookup {
    /// What was looked for.
    pub kind: Kind,
    /// The name or path, as the asking file writes it; of a path that was typed, the name of the
    /// file that it led to, for what is typed is a place on one machine.
    pub reference: String,
    /// The file that asks, counted from 0; none where it is no file that asks.
    pub from: Option<usize>,
    /// Whether it asks to start from the other.
    pub like: bool,
    /// The file that was found, counted from 0.
    pub file: usize,
}

/// Every file that a design was made from, in the order of reading, and every lookup, once.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Written {
    /// The files.
    pub files: Vec<WrittenFile>,
    /// The lookups.
    pub lookups: Vec<Lookup>,
}

impl Written {
    /// What was asked for where no file asks: the design itself, a rack that was typed.
    pub fn asked(&self, kind: Kind) -> Option<&str> {
        let mut asked = self.lookups.iter().filter(|it| it.kind == kind && it.from.is_none());
        asked.next().map(|lookup| lookup.reference.as_str())
    }

    /// The file that a reference led to.
    pub(super) fn find(
        &self,
        kind: Kind,
        reference: &str,
        from: Option<&str>,
        like: bool,
    ) -> Option<&WrittenFile> {
        let name = |n: usize| self.files.get(n).map(|file| file.name.as_str());
        let is = |it: &&Lookup| {
            it.kind == kind
                && it.reference == reference
                && it.like == like
                && it.from.and_then(name) == from
                && it.from.is_some() == from.is_some()
        };
        self.files.get(self.lookups.iter().find(is)?.file)
    }
}

/// What is found while a design is read.
#[derive(Debug, Default)]
pub(super) struct Trail {
    written: Written,
    /// What tells each file apart, in their order.
    identities: Vec<String>,
}

impl Trail {
    /// The place of a file that was found before.
    pub fn place(&self, identity: &str) -> Option<usize> {
        self.identities.iter().position(|known| known == identity)
    }

    /// Notes what a reference led to; `typed` where it is a path on this machine.
    pub fn note(
        &mut self,
        (kind, reference): (Kind, &str),
        (from, like, typed): (Option<usize>, bool, bool),
        (identity, profile): (String, &Profile),
    ) {
        let file = self.place(&identity).unwrap_or_else(|| {
            let name = name(self.identities.len() + 1, &profile.origin);
            self.written.files.push(WrittenFile { name, text: profile.text.clone() });
            self.identities.push(identity);
            self.identities.len() - 1
        });
        let reference =
            if typed { self.written.files[file].name.clone() } else { reference.to_owned() };
        let lookup = Lookup { kind, reference, from, like, file };
        if !self.written.lookups.contains(&lookup) {
            self.written.lookups.push(lookup);
        }
    }

    pub fn written(self) -> Written {
        self.written
    }
}

/// Bytes of a name at most, without number and ending. More, and with both it is longer than what a
/// file may be called ([`file_name_fault`]); less, and a maker's own long name is lost.
const LONGEST_STEM: usize = 80;

/// A name that no other file of the design has.
fn name(number: usize, origin: &str) -> String {
    let stem = Path::new(origin).file_stem().and_then(|stem| stem.to_str());
    let usable = |stem: &&str| file_name_fault(stem).is_none() && stem.len() <= LONGEST_STEM;
    let stem = stem.filter(usable).unwrap_or("profile");
    // A file that was kept before has its number already.
    let stem = stem.strip_prefix(&format!("{number}-")).unwrap_or(stem);
    format!("{number}-{stem}.{EXTENSION}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Asked, Library, load, load_asked};
    use std::fs;

    fn again(written: &Written, rack: Option<&str>) -> crate::design::Resolved {
        let library = Library::of_written(written.clone());
        let asked = Asked { limits: &[], rack };
        load_asked(&library, written.asked(Kind::Design).unwrap(), asked).unwrap()
    }

    #[test]
    fn what_was_written_is_enough() {
        for design in ["demo", "tests/fixtures/r1.toml", "tests/fixtures/capped.toml"] {
            let first = load(&Library::default(), design).unwrap();
            let second = again(&first.written, None);
            assert_eq!(first.section, second.section, "{design}");
            assert_eq!(first.workshop, second.workshop, "{design}");
            assert!(first.written.files == second.written.files, "{design}");
        }
    }

    /// Folders of profiles over the built-in ones, a profile that is like the built-in one of its
    /// own name, a rack by a typed path: all gone when it is read again.
    #[test]
    fn profiles_that_are_gone_are_not_missed() {
        let home = tempfile::tempdir().unwrap();
        let unit = home.path().join("units/demo-unit.toml");
        fs::create_dir_all(unit.parent().unwrap()).unwrap();
        let text = "format = 1\nlike = \"demo-unit\"\n[collar]\ndiameter = 8.9\n";
        fs::write(&unit, text).unwrap();
        let rack = home.path().join("my rack.toml");
        fs::write(&rack, "format = 1\nname = \"mine\"\nsets = [\"metric-tenths\"]\n").unwrap();
        let library = Library::new(vec![home.path().to_owned()]);
        let asked = Asked { limits: &[], rack: rack.to_str() };
        let first = load_asked(&library, "demo", asked).unwrap();
        drop(home);
        let names: Vec<_> = first.written.files.iter().map(|file| file.name.as_str()).collect();
        assert!(names.iter().any(|name| name.ends_with("-my rack.toml")), "{names:?}");
        let second = again(&first.written, first.written.asked(Kind::Rack));
        assert_eq!(first.section, second.section);
        assert_eq!(first.workshop, second.workshop);
        assert!(first.written == second.written);
    }

    /// Nothing on the disk is read where everything is written.
    #[test]
    fn a_path_that_was_not_written_is_missing() {
        let mut written = load(&Library::default(), "tests/fixtures/r1.toml").unwrap().written;
        written.lookups.retain(|lookup| lookup.kind != Kind::Unit);
        let library = Library::of_written(written.clone());
        let failure = load(&library, written.asked(Kind::Design).unwrap()).unwrap_err();
        assert_eq!(failure.diagnostics[0].code, "profile.missing");
        let failure = load(&library, "tests/fixtures/r1.toml").unwrap_err();
        assert_eq!(failure.diagnostics[0].code, "profile.missing");
    }
}
