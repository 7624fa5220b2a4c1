//! Where profiles are found: the folders that were given, then those built in.
//!
//! A folder, like the built-in one, holds a folder a kind: `units/`, `designs/`, `materials/`,
//! `makers/`, `racks/`, `printers/`.

use std::collections::BTreeMap;
use std::fs::{self, File};
use std::io::{ErrorKind, Read};
use std::path::{Path, PathBuf};

use include_dir::{Dir, include_dir};

use super::Written;

/// The profiles that come with the program.
static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/profiles");

/// Bytes of a file at most: twenty times the longest that is shipped. More, and a device that
/// never ends would be read into memory, and faults on each of many thousand lines would be worked
/// out for seconds; less, and a design with long notes would be refused.
const LARGEST: u64 = 64 * 1024;

/// What the origin of a built-in profile begins with.
const BUILT_IN_ORIGIN: &str = "built-in/";

/// What a profile describes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Kind {
    /// A nib unit.
    Unit,
    /// A section's design.
    Design,
    /// A material, with what a part of it is judged by.
    Material,
    /// A maker, with what can be held at the lathe.
    Maker,
    /// A rack, with the tools, the lathe and what holds the work.
    Rack,
    /// A printer, with what it does to the surfaces that it prints.
    Printer,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 6] =
        [Self::Unit, Self::Design, Self::Material, Self::Maker, Self::Rack, Self::Printer];

    /// The folder that holds its profiles.
    pub const fn folder(self) -> &'static str {
        match self {
            Self::Unit => "units",
            Self::Design => "designs",
            Self::Material => "materials",
            Self::Maker => "makers",
            Self::Rack => "racks",
            Self::Printer => "printers",
        }
    }

    /// One of them, as people say it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Design => "design",
            Self::Material => "material",
            Self::Maker => "maker",
            Self::Rack => "rack",
            Self::Printer => "printer",
        }
    }
}

/// A profile that a name finds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The name by which files ask for it.
    pub name: String,
    /// Its file; none for a built-in one.
    pub path: Option<PathBuf>,
}

/// The text of a profile and where it was found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Profile {
    /// The path as it was made up, or `built-in/units/demo-unit.toml`.
    pub(super) origin: String,
    /// Its text.
    pub(super) text: String,
    /// The folder of its file; none for a built-in one.
    pub(super) folder: Option<PathBuf>,
}

/// Folders of profiles, in the order in which they are searched.
#[derive(Clone, Debug, Default)]
pub struct Library {
    folders: Vec<PathBuf>,
    /// The files of one design, which go before everything else.
    written: Option<Written>,
}

impl Library {
    /// A library that searches these folders before the built-in profiles.
    pub fn new(folders: Vec<PathBuf>) -> Self {
        Self { folders, written: None }
    }

    /// A library of the files that one design was made from: no other file is read. What that
    /// design did not look for, since the program did not then, is found among the built-in
    /// profiles.
    pub fn of_written(written: Written) -> Self {
        Self { folders: Vec::new(), written: Some(written) }
    }

    /// The files of one design, where it is a library of those.
    pub(super) fn written(&self) -> Option<&Written> {
        self.written.as_ref()
    }

    /// The profiles of a kind, by name; of two of one name the one that is found first.
    pub fn list(&self, kind: Kind) -> Vec<Entry> {
        let mut found: BTreeMap<String, Option<PathBuf>> = BTreeMap::new();
        for folder in &self.folders {
            let Ok(files) = fs::read_dir(folder.join(kind.folder())) else { continue };
            for path in files.filter_map(|file| Some(file.ok()?.path())) {
                if let Some(name) = profile_name(&path) {
                    found.entry(name).or_insert(Some(path));
                }
            }
        }
        for file in BUILT_IN.get_dir(kind.folder()).map(Dir::files).into_iter().flatten() {
            if let Some(name) = profile_name(file.path()) {
                found.entry(name).or_insert(None);
            }
        }
        found.into_iter().map(|(name, path)| Entry { name, path }).collect()
    }

    /// The text of a profile.
    pub fn text(&self, kind: Kind, name: &str) -> Option<String> {
        Some(self.find(kind, name, None)?.ok()?.text)
    }

    /// A profile by its name; none where there is none, why where it can't be read.
    ///
    /// A profile that is `like` it has the origin `like`: it is not what it is like itself, so that
    /// it may be like the next one of its own name; what is built in is like what is built in.
    pub(super) fn find(
        &self,
        kind: Kind,
        name: &str,
        like: Option<&str>,
    ) -> Option<Result<Profile, &'static str>> {
        let file = format!("{name}.{EXTENSION}");
        let built_in = like.is_some_and(|origin| origin.starts_with(BUILT_IN_ORIGIN));
        for folder in self.folders.iter().filter(|_| !built_in) {
            let path = folder.join(kind.folder()).join(&file);
            let itself = like.is_some_and(|origin| path.display().to_string() == origin);
            if path.is_file() && !itself {
                return Some(read(&path));
            }
        }
        let inside = format!("{}/{file}", kind.folder());
        let text = BUILT_IN.get_file(&inside)?.contents_utf8()?.to_owned();
        Some(Ok(Profile { origin: format!("{BUILT_IN_ORIGIN}{inside}"), text, folder: None }))
    }
}

/// The text of a file, or why there is none: the system's own words differ from one to the next.
pub(super) fn read(path: &Path) -> Result<Profile, &'static str> {
    let mut bytes = Vec::new();
    let taken = File::open(path).and_then(|file| file.take(LARGEST + 1).read_to_end(&mut bytes));
    let size = taken.map_err(|error| match error.kind() {
        ErrorKind::NotFound | ErrorKind::NotADirectory => "there is no such file",
        ErrorKind::PermissionDenied => "its permissions forbid it",
        ErrorKind::IsADirectory => "it is a folder",
        _ => "the system does not give it",
    })?;
    if size as u64 > LARGEST {
        return Err("it is larger than 64 KiB, the most that is read");
    }
    let text = String::from_utf8(bytes).map_err(|_| "it is not a text in UTF-8")?;
    let folder = path.parent().unwrap_or(Path::new("")).to_owned();
    Ok(Profile { origin: path.display().to_string(), text, folder: Some(folder) })
}

/// A template that new files are made from.
pub(super) fn template(name: &str) -> &'static str {
    BUILT_IN
        .get_file(format!("templates/{name}.{EXTENSION}"))
        .and_then(|file| file.contents_utf8())
        .unwrap_or_default()
}

/// Profiles are TOML files.
pub(super) const EXTENSION: &str = "toml";

fn profile_name(path: &Path) -> Option<String> {
    let is_profile = path.extension()?.to_str()? == EXTENSION;
    is_profile.then(|| path.file_stem()?.to_str().map(str::to_owned)).flatten()
}
