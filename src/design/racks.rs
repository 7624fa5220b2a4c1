//! A rack and the racks that it takes tools from.

use super::library::Kind;
use super::load::Loader;
use super::rack_file::RackFile;
use crate::diagnostic::{Diagnostic, Place};

/// Sets within sets at most. Fewer, and a bench that takes a workshop's tools, which takes a
/// maker's set, would be refused; more, and nobody finds where a tool comes from.
const MOST_DEPTH: usize = 4;

/// Names in `sets` at most, in all racks together: more are no bench, and a thousand of them would
/// be a thousand files to read.
const MOST_SETS: usize = 50;

/// A rack as written, and all whose tools are put to its own.
#[derive(Debug)]
pub(super) struct Racks {
    /// The rack itself first, then its sets, each with its own sets behind it; each once.
    files: Vec<RackFile>,
}

impl Racks {
    /// The rack by its name or path, with its sets; none where it can't be read.
    pub(super) fn load(
        loader: &mut Loader<'_>,
        reference: &str,
        from: Option<Place>,
    ) -> Option<Self> {
        let mut gathering =
            Gathering { loader, trail: Vec::new(), taken: Vec::new(), files: Vec::new(), asked: 0 };
        gathering.take(reference, from);
        let files = gathering.files;
        (!files.is_empty()).then_some(Self { files })
    }

    /// The rack itself, whose lathe and holdings are in force.
    pub(super) fn own(&self) -> &RackFile {
        &self.files[0]
    }

    /// All racks whose tools are at hand, the rack itself first.
    pub(super) fn all(&self) -> &[RackFile] {
        &self.files
    }
}

/// Racks on their way in.
struct Gathering<'a, 'b> {
    loader: &'a mut Loader<'b>,
    /// From the rack itself to the one being read: what tells it apart, and its file.
    trail: Vec<(String, String)>,
    /// What tells those apart that were read.
    taken: Vec<String>,
    files: Vec<RackFile>,
    /// How many sets were asked for.
    asked: usize,
}

impl Gathering<'_, '_> {
    /// Reads a rack and its sets, unless it was read before.
    fn take(&mut self, reference: &str, from: Option<Place>) {
        let Some((id, origin)) = self.loader.identify(Kind::Rack, reference, from) else { return };
        if let Some(first) = self.trail.iter().position(|(other, _)| *other == id) {
            let names = self.trail[first..].iter().map(|(_, name)| name.as_str());
            let names: Vec<_> = names.chain([origin.as_str()]).collect();
            let message =
                format!("racks are sets of each other in a circle: {}", names.join(" -> "));
            let hint =
                format!("take \"{reference}\" out of these `sets`; `like` starts from a rack");
            return self.wrong("rack.cycle", message, from, hint);
        }
        if self.taken.contains(&id) {
            return;
        }
        if self.trail.len() > MOST_DEPTH {
            let message = format!("`{reference}` is a set within more than {MOST_DEPTH} others");
            let hint = "name it in the `sets` of the first rack".to_owned();
            return self.wrong("rack.too-deep", message, from, hint);
        }
        let Some(document) = self.loader.document(Kind::Rack, reference, from) else { return };
        let file = self.loader.read(&document, RackFile::read);
        let sets = file.sets.clone();
        self.files.push(file);
        self.taken.push(id.clone());
        self.trail.push((id, origin));
        for set in sets {
            self.asked += 1;
            if self.asked <= MOST_SETS {
                self.take(&set.value, set.place());
            } else if self.asked == MOST_SETS + 1 {
                let message = format!("more than {MOST_SETS} sets are no rack");
                let hint = "put tools into one file, as [[drill]] or [[series]]".to_owned();
                self.wrong("rack.too-many-sets", message, set.place(), hint);
            }
        }
        self.trail.pop();
    }

    fn wrong(&mut self, code: &'static str, message: String, at: Option<Place>, hint: String) {
        let mut error = Diagnostic::error(code, message).hint(hint);
        error.at = at;
        self.loader.log.push(error);
    }
}
