//! Finds files, reads them, and lays a file over the one it is `like`.

use std::fs;
use std::path::{MAIN_SEPARATOR, Path, PathBuf};

use super::library::{self, EXTENSION, Kind, Library, Profile};
use super::reader::{Reader, nearest, wrong_type};
use super::tree::{Table, Value, parse};
use super::written::Trail;
use crate::diagnostic::{Diagnostic, Place, SourceId, Sources};

/// The format that this program reads.
const FORMAT: f64 = 1.0;

/// A file, laid over those it is like.
#[derive(Clone, Debug)]
pub(super) struct Document {
    table: Table,
    /// The start of the file that was asked for.
    at: Place,
    /// What is missing may be in a part that could not be read.
    partial: bool,
    /// Syntax errors.
    broken: Vec<Place>,
    /// The files that it was laid together from.
    sources: Vec<SourceId>,
}

impl Document {
    /// Lays more keys over it.
    pub(super) fn overlay(&mut self, over: Table) {
        self.table.overlay(over);
    }

    /// Its keys.
    pub(super) fn table(&self) -> Table {
        self.table.clone()
    }

    /// Its keys, to be read.
    pub(super) fn tree(&self) -> &Table {
        &self.table
    }

    /// The start of the file that was asked for.
    pub(super) fn start(&self) -> Place {
        self.at
    }

    /// The file that was asked for.
    pub(super) fn source(&self) -> SourceId {
        self.at.source
    }

    /// Whether something is written in one of its files.
    pub(super) fn holds(&self, place: Place) -> bool {
        self.sources.contains(&place.source)
    }
}

/// Where a source comes from.
struct Origin {
    source: SourceId,
    /// A path in a file is relative to the file's folder.
    folder: Option<PathBuf>,
    /// Its place among the files that were found; none of what was typed.
    file: Option<usize>,
}

/// Reads files and remembers all of them, and everything that is wrong.
pub(super) struct Loader<'a> {
    library: &'a Library,
    pub(super) sources: Sources,
    pub(super) log: Vec<Diagnostic>,
    /// Where the sources come from, in their order.
    origins: Vec<Origin>,
    /// What led to which file.
    pub(super) trail: Trail,
}

impl<'a> Loader<'a> {
    pub(super) fn new(library: &'a Library) -> Self {
        Self {
            library,
            sources: Sources::default(),
            log: Vec::new(),
            origins: Vec::new(),
            trail: Trail::default(),
        }
    }

    /// A profile by name or path, with everything that it is like below it.
    pub(super) fn document(
        &mut self,
        kind: Kind,
        reference: &str,
        from: Option<Place>,
    ) -> Option<Document> {
        let mut profile = self.find(kind, reference, from, None)?;
        let mut chain: Vec<(String, String)> = Vec::new();
        let mut layers: Vec<Table> = Vec::new();
        let (mut partial, mut broken, mut sources) = (false, Vec::new(), Vec::new());
        let mut asked = from;
        loop {
            let id = identity(&profile);
            let known = chain.iter().any(|(other, _)| *other == id);
            let file = self.trail.place(&id);
            chain.push((id, profile.origin.clone()));
            if known {
                let names: Vec<_> = chain.iter().map(|(_, name)| name.as_str()).collect();
                let mut cycle = Diagnostic::error(
                    "profile.cycle",
                    format!("profiles are like each other in a circle: {}", names.join(" -> ")),
                );
                cycle.at = asked;
                self.log.push(cycle.hint("take `like` out of one of them"));
                partial = true;
                break;
            }
            let source = self.sources.add(&profile.origin, &profile.text);
            self.origins.push(Origin { source, folder: profile.folder.clone(), file });
            sources.push(source);
            let (table, errors) = parse(&profile.text, source);
            partial |= !errors.is_empty();
            broken.extend(errors.iter().filter_map(|error| error.at));
            self.log.extend(errors);
            if !self.readable(&table, source) {
                return None;
            }
            let like = table.get("like").map(|entry| entry.node.clone());
            layers.push(table);
            let Some(like) = like else { break };
            let Value::Text(base) = like.value else {
                self.log.push(
                    wrong_type("like", "the name of a profile", like.value.kind(), like.at)
                        .hint("write a name or a path in quotes"),
                );
                partial = true;
                break;
            };
            let Some(found) = self.find(kind, &base, Some(like.at), Some(&profile.origin)) else {
                partial = true;
                break;
            };
            (profile, asked) = (found, Some(like.at));
        }
        let mut table = layers.pop()?;
        while let Some(over) = layers.pop() {
            table.overlay(over);
        }
        let at = Place::new(*sources.first()?, 0..0);
        Some(Document { table, at, partial, broken, sources })
    }

    /// A file that is no profile: by its path alone, and like no other; `what` is its word.
    pub(super) fn form(&mut self, what: &str, path: &Path) -> Option<Document> {
        let profile = match library::read(path) {
            Ok(profile) => profile,
            Err(why) => {
                let message = format!("can't read the {what} `{}`: {why}", path.display());
                let unreadable = Diagnostic::error("file.unreadable", message);
                self.log.push(unreadable.hint("a path starts at the working folder"));
                return None;
            }
        };
        let source = self.sources.add(&profile.origin, &profile.text);
        self.origins.push(Origin { source, folder: profile.folder, file: None });
        let (table, errors) = parse(&profile.text, source);
        let partial = !errors.is_empty();
        let broken = errors.iter().filter_map(|error| error.at).collect();
        self.log.extend(errors);
        let readable = self.readable(&table, source);
        if let Some(like) = table.get("like") {
            let message = format!("a file of {what} is like no other");
            let error = Diagnostic::error("file.no-like", message).at(like.key_at);
            self.log.push(error.hint("take `like` out"));
        }
        let at = Place::new(source, 0..0);
        readable.then(|| Document { table, at, partial, broken, sources: vec![source] })
    }

    /// What tells a profile apart from all others, and where it was found; none where it is missing,
    /// which is noted.
    pub(super) fn identify(
        &mut self,
        kind: Kind,
        reference: &str,
        from: Option<Place>,
    ) -> Option<(String, String)> {
        let profile = self.find(kind, reference, from, None)?;
        Some((identity(&profile), profile.origin))
    }

    /// The path of a document's file; none where it is built in.
    pub(super) fn file(&self, document: &Document) -> Option<PathBuf> {
        let id = document.source();
        let origin = self.origins.iter().find(|origin| origin.source == id)?;
        origin.folder.as_ref().map(|_| PathBuf::from(&self.sources.get(id).name))
    }

    /// Limits as they were typed, a line each; none where none was.
    pub(super) fn typed(&mut self, limits: &[String]) -> Option<Document> {
        if limits.is_empty() {
            return None;
        }
        let text = limits.join("\n");
        let source = self.sources.add("the command line", &text);
        self.origins.push(Origin { source, folder: None, file: None });
        let (table, errors) = parse(&text, source);
        let partial = !errors.is_empty();
        let broken = errors.iter().filter_map(|error| error.at).collect();
        self.log.extend(errors);
        let at = Place::new(source, 0..0);
        Some(Document { table, at, partial, broken, sources: vec![source] })
    }

    /// Reads a document's keys and notes what is wrong with them.
    pub(super) fn read<T>(
        &mut self,
        document: &Document,
        read: impl FnOnce(&mut Reader<'_>) -> T,
    ) -> T {
        let mut log = Vec::new();
        let mut reader = Reader::new(&document.table, document.at, String::new(), &mut log);
        reader.skip(&["format", "like"]);
        let value = read(&mut reader);
        reader.finish();
        // Behind a syntax error keys stand in the wrong table, or are lost; their values are as
        // they were written, unless they stand on the line of the error.
        if document.partial {
            log.retain(|diagnostic| diagnostic.code != "key.missing");
        }
        if !document.broken.is_empty() {
            let on_a_broken_line = |place: Place| {
                document.broken.iter().any(|broken| {
                    let text = &self.sources.get(broken.source).text;
                    broken.source == place.source
                        && line_of(text, broken.start) == line_of(text, place.start)
                })
            };
            log.retain(|diagnostic| {
                diagnostic.code.starts_with("value.")
                    && !diagnostic.at.is_some_and(on_a_broken_line)
            });
        }
        self.log.extend(log);
        value
    }

    /// Whether the file has a format that can be read; notes it where it has not.
    fn readable(&mut self, table: &Table, source: SourceId) -> bool {
        let Some(entry) = table.get("format") else {
            self.log.push(
                Diagnostic::error("file.format-missing", "the file does not say its format")
                    .at(Place::new(source, 0..0))
                    .hint(format!("write format = {FORMAT} as the first line")),
            );
            return true;
        };
        let hint = format!("this program reads format = {FORMAT}");
        match entry.node.value {
            Value::Number(FORMAT) => true,
            Value::Number(newer) if newer > FORMAT => {
                self.log.push(
                    Diagnostic::error(
                        "file.format-newer",
                        format!("the file has format {newer}, which is newer than this program"),
                    )
                    .at(entry.node.at)
                    .hint(format!("{hint}; a newer release of it reads the file as it is")),
                );
                false
            }
            Value::Number(other) => {
                self.log.push(
                    Diagnostic::error("file.format-unknown", format!("there is no format {other}"))
                        .at(entry.node.at)
                        .hint(hint),
                );
                false
            }
            ref other => {
                self.log
                    .push(wrong_type("format", "a number", other.kind(), entry.node.at).hint(hint));
                false
            }
        }
    }

    /// The text that a name or a path stands for.
    ///
    /// `from` is where it is written, `like` the origin of the profile that is like it.
    fn find(
        &mut self,
        kind: Kind,
        reference: &str,
        from: Option<Place>,
        like: Option<&str>,
    ) -> Option<Profile> {
        let path = is_path(reference).then(|| self.path(reference, from));
        let kept = self.library.written();
        let asker = from.map(|from| self.sources.get(from.source).name.clone());
        let found = if let Some(file) =
            kept.and_then(|kept| kept.find(kind, reference, asker.as_deref(), like.is_some()))
        {
            let (origin, text) = (file.name.clone(), file.text.clone());
            Some(Ok(Profile { origin, text, folder: None }))
        } else if let Some(path) = &path {
            path.as_ref().filter(|_| kept.is_none()).map(|path| library::read(path))
        } else {
            self.library.find(kind, reference, like)
        };
        let (code, message) = match found {
            Some(Ok(profile)) => {
                let from_file = from.and_then(|from| self.origin(from)?.file);
                let typed = path.is_some() && from.is_none();
                let found = (identity(&profile), &profile);
                self.trail.note((kind, reference), (from_file, like.is_some(), typed), found);
                return Some(profile);
            }
            Some(Err(why)) => {
                ("file.unreadable", format!("can't read the {} `{reference}`: {why}", kind.word()))
            }
            None => ("profile.missing", format!("there is no {} `{reference}`", kind.word())),
        };
        let hint = match path {
            Some(Some(path)) if from.is_some() => {
                format!("a path starts at the file that names it: this one is {}", path.display())
            }
            Some(Some(_)) => "a path starts at the working folder".to_owned(),
            Some(None) => "a built-in profile names others without a path".to_owned(),
            None => self.names(kind, reference, from),
        };
        let mut missing = Diagnostic::error(code, message).hint(hint);
        missing.at = from;
        self.log.push(missing);
        None
    }

    /// Where the text comes from that a place lies in.
    fn origin(&self, place: Place) -> Option<&Origin> {
        self.origins.iter().find(|origin| origin.source == place.source)
    }

    /// A path in a file is relative to the file, any other to the working folder. A built-in file
    /// has no folder.
    fn path(&self, reference: &str, from: Option<Place>) -> Option<PathBuf> {
        let Some(from) = from else { return Some(PathBuf::from(reference)) };
        Some(self.origin(from)?.folder.as_ref()?.join(reference))
    }

    /// The profiles that may have been meant.
    fn names(&self, kind: Kind, reference: &str, from: Option<Place>) -> String {
        let beside = format!("{reference}.{EXTENSION}");
        if self.path(&beside, from).is_some_and(|path| path.is_file()) {
            return format!("the file of that name is \"{beside}\"");
        }
        let entries = self.library.list(kind);
        let names: Vec<&str> = entries.iter().map(|entry| entry.name.as_str()).collect();
        nearest(reference, names.iter().copied()).map_or_else(
            || {
                let names: Vec<_> = names.iter().map(|name| format!("\"{name}\"")).collect();
                format!("there are {}; a path ends in .{EXTENSION}", names.join(", "))
            },
            |near| format!("did you mean \"{near}\"?"),
        )
    }
}

/// Whether a reference is a path and no name.
fn is_path(reference: &str) -> bool {
    let ends = Path::new(reference).extension().is_some_and(|ext| ext == EXTENSION);
    ends || reference.contains(['/', MAIN_SEPARATOR])
}

/// What tells two profiles apart: a file by where it really is.
fn identity(profile: &Profile) -> String {
    let real = profile.folder.as_ref().and_then(|_| fs::canonicalize(&profile.origin).ok());
    real.map_or_else(|| profile.origin.clone(), |path| path.display().to_string())
}

/// The number of a byte's line, from 0.
fn line_of(text: &str, byte: usize) -> usize {
    text.bytes().take(byte).filter(|b| *b == b'\n').count()
}
