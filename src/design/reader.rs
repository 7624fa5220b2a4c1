//! Takes keys out of a table and notes everything that is wrong with it.
//!
//! A key that is missing or bad is noted and replaced by a stand-in, so that reading goes on and
//! finds the rest; nothing is made of what was read once something was noted.

use super::tree::{Entry, Node, Table, Value};
use crate::diagnostic::{Diagnostic, Place};

/// A value and where it is written.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Placed<T> {
    pub(super) value: T,
    /// None only in a stand-in.
    at: Option<Place>,
}

impl<T> Placed<T> {
    pub(super) fn new(value: T, at: Place) -> Self {
        Self { value, at: Some(at) }
    }

    /// A value that nobody wrote.
    pub(super) fn stand_in(value: T) -> Self {
        Self { value, at: None }
    }

    /// Where it is written; none for a stand-in.
    pub(super) fn place(&self) -> Option<Place> {
        self.at
    }

    /// The same place, what is there seen another way.
    pub(super) fn map<U>(self, f: impl FnOnce(T) -> U) -> Placed<U> {
        Placed { value: f(self.value), at: self.at }
    }

    /// Where it is written.
    pub(super) fn at(&self) -> Place {
        self.at.expect("a stand-in has no place, and nothing is resolved from one")
    }
}

/// What a value of a key is read as.
pub(super) trait Read: Sized {
    /// The value, or none with everything that is wrong noted; `key` is its whole path.
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self>;
}

/// What can stand in for a needed value that is missing or bad.
pub(super) trait Needed: Read {
    fn stand_in() -> Self;
}

impl<T: Read + Default> Needed for T {
    fn stand_in() -> Self {
        Self::default()
    }
}

/// A table being read.
pub(super) struct Reader<'a> {
    table: &'a Table,
    /// Its header, or the start of the file.
    at: Place,
    /// `bores.recess`; empty at the top.
    path: String,
    known: Vec<&'static str>,
    log: &'a mut Vec<Diagnostic>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(
        table: &'a Table,
        at: Place,
        path: String,
        log: &'a mut Vec<Diagnostic>,
    ) -> Self {
        Self { table, at, path, known: Vec::new(), log }
    }

    /// Where the table begins.
    pub(super) fn at(&self) -> Place {
        self.at
    }

    fn entry(&mut self, key: &'static str) -> Option<&'a Entry> {
        self.known.push(key);
        self.table.get(key)
    }

    /// Keys that are read elsewhere.
    pub(super) fn skip(&mut self, keys: &[&'static str]) {
        self.known.extend(keys);
    }

    /// The whole path of a key.
    fn path_of(&self, key: &str) -> String {
        if self.path.is_empty() { key.to_owned() } else { format!("{}.{key}", self.path) }
    }

    /// A key that may be left out.
    pub(super) fn maybe<T: Read>(&mut self, key: &'static str) -> Option<Placed<T>> {
        let entry = self.entry(key)?;
        let path = self.path_of(key);
        let at = entry.value_at();
        T::read(&entry.node, &path, self.log).map(|value| Placed::new(value, at))
    }

    /// A key that must be there; `example` is a line that would do.
    pub(super) fn need<T: Needed>(&mut self, key: &'static str, example: &str) -> Placed<T> {
        if self.table.get(key).is_none() {
            self.missing(key, example);
        }
        self.maybe(key).unwrap_or_else(|| Placed::stand_in(T::stand_in()))
    }

    /// Whether a key is there.
    pub(super) fn has(&self, key: &str) -> bool {
        self.table.get(key).is_some()
    }

    /// Whether a table is there, but is `"none"`.
    pub(super) fn left_out(&self, key: &str) -> bool {
        let none = |entry: &Entry| matches!(&entry.node.value, Value::Text(text) if text == NONE);
        self.table.get(key).is_some_and(none)
    }

    /// Notes that a key is missing; `example` is a line that would do.
    pub(super) fn missing(&mut self, key: &str, example: &str) {
        let whole = self.path_of(key);
        let place =
            if self.path.is_empty() { "the file".to_owned() } else { format!("`{}`", self.path) };
        self.log.push(
            Diagnostic::error("key.missing", format!("{place} lacks `{key}`"))
                .at(self.at)
                .hint(format!("write {example} (`{whole}`)")),
        );
    }

    /// Notes that only one of two keys may stand.
    pub(super) fn one_of(&mut self, keys: &[&'static str]) {
        let found: Vec<&Entry> = keys.iter().filter_map(|key| self.table.get(key)).collect();
        if let [first, second, ..] = found[..] {
            let (first_key, second_key) = (&first.key, &second.key);
            self.log.push(
                Diagnostic::error(
                    "key.both",
                    format!("`{first_key}` and `{second_key}` say the same thing twice"),
                )
                .at(second.key_at)
                .also(first.key_at, "the other one")
                .hint(format!("keep `{first_key}` or `{second_key}`")),
            );
        }
    }

    /// A table that may be left out, or be `"none"`.
    pub(super) fn table<T>(
        &mut self,
        key: &'static str,
        read: impl FnOnce(&mut Reader<'_>) -> T,
    ) -> Option<T> {
        let entry = self.entry(key)?;
        let path = self.path_of(key);
        match &entry.node.value {
            Value::Table(table) => {
                let mut reader = Reader::new(table, entry.key_at, path, self.log);
                let value = read(&mut reader);
                reader.finish();
                Some(value)
            }
            Value::Text(text) if text == NONE => None,
            other => {
                let found = other.kind();
                self.log.push(
                    wrong_type(&path, "a table", found, entry.node.at)
                        .hint(format!("write [{path}] on a line of its own, its keys below it")),
                );
                None
            }
        }
    }

    /// A table that must be there; none where it is not, which is noted.
    pub(super) fn need_table<T>(
        &mut self,
        key: &'static str,
        example: &str,
        read: impl FnOnce(&mut Reader<'_>) -> T,
    ) -> Option<T> {
        if !self.has(key) || self.left_out(key) {
            self.missing(key, example);
        }
        self.table(key, read)
    }

    /// A table that is read elsewhere, with its header's place.
    pub(super) fn unread(&mut self, key: &'static str) -> Option<(Table, Place)> {
        let entry = self.entry(key)?;
        if let Value::Table(table) = &entry.node.value {
            return Some((table.clone(), entry.key_at));
        }
        let path = self.path_of(key);
        self.log.push(
            wrong_type(&path, "a table", entry.node.value.kind(), entry.node.at)
                .hint(format!("write [{path}] on a line of its own, its keys below it")),
        );
        None
    }

    /// The tables of `[[key]]`; none when there are none.
    pub(super) fn tables<T>(
        &mut self,
        key: &'static str,
        mut read: impl FnMut(&mut Reader<'_>) -> T,
    ) -> Vec<T> {
        let Some(entry) = self.entry(key) else { return Vec::new() };
        let path = self.path_of(key);
        let bad = |found: &str, at| {
            wrong_type(&path, "a list of tables", found, at)
                .hint(format!("write [[{path}]] on a line of its own, once for each"))
        };
        let Value::List(list) = &entry.node.value else {
            self.log.push(bad(entry.node.value.kind(), entry.node.at));
            return Vec::new();
        };
        let mut found = Vec::new();
        for (n, node) in (1..).zip(list) {
            if let Value::Table(table) = &node.value {
                let mut reader = Reader::new(table, node.at, format!("{path}.{n}"), self.log);
                found.push(read(&mut reader));
                reader.finish();
            } else {
                self.log.push(bad(node.value.kind(), node.at));
            }
        }
        found
    }

    /// Notes every key that nobody asked for.
    pub(super) fn finish(self) {
        for entry in self.table.entries().filter(|e| !self.known.contains(&e.key.as_str())) {
            let place =
                if self.path.is_empty() { String::new() } else { format!(" in `{}`", self.path) };
            let hint = match nearest(&entry.key, self.known.iter().copied()) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("the keys here are {}", self.known.join(", ")),
            };
            self.log.push(
                Diagnostic::error("key.unknown", format!("unknown key `{}`{place}", entry.key))
                    .at(entry.key_at)
                    .hint(hint),
            );
        }
    }
}

/// The word that leaves out what a profile of the same kind has.
pub(super) const NONE: &str = "none";

impl Entry {
    /// Where to point for the value: a table's header is its key.
    fn value_at(&self) -> Place {
        if matches!(self.node.value, Value::Table(_)) { self.key_at } else { self.node.at }
    }
}

/// A value of another type than the key takes.
pub(super) fn wrong_type(key: &str, wanted: &str, found: &str, at: Place) -> Diagnostic {
    Diagnostic::error("value.type", format!("`{key}` takes {wanted}, not {found}")).at(at)
}

/// The word that somebody may have meant, if one is near.
pub(super) fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// Words less alike than this are no slip of the pen: lower, and any two short keys are near;
    /// higher, and two swapped letters in a short key are far.
    const ALIKE: f64 = 0.7;
    let likeness = |other: &str| strsim::jaro_winkler(word, other);
    let best = known.into_iter().max_by(|a, b| likeness(a).total_cmp(&likeness(b)))?;
    (likeness(best) >= ALIKE).then_some(best)
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::design::tree::parse;
    use crate::diagnostic::Sources;

    /// What a value reads as, and what is said of it.
    pub(in crate::design) fn read<T: Read>(value: &str) -> (Option<T>, Vec<Diagnostic>) {
        let text = format!("key = {value}");
        let source = Sources::default().add("a test", &text);
        let (table, errors) = parse(&text, source);
        assert!(errors.is_empty(), "{errors:?}");
        let mut log = Vec::new();
        let mut reader = Reader::new(&table, Place::new(source, 0..0), String::new(), &mut log);
        let value = reader.maybe("key").map(|placed| placed.value);
        (value, log)
    }

    #[test]
    fn what_nobody_asks_for_is_noted_where_it_stands() {
        let text = "a = 1\nb = 2\n";
        let source = Sources::default().add("a test", text);
        let (table, _) = parse(text, source);
        let mut log = Vec::new();
        let mut reader = Reader::new(&table, Place::new(source, 0..0), String::new(), &mut log);
        reader.skip(&["a"]);
        let missing: Placed<String> = reader.need("c", "c = \"x\"");
        assert_eq!(missing.place(), None);
        reader.finish();
        let said: Vec<_> = log.iter().map(|d| (d.code, d.at.map(|at| at.start))).collect();
        assert_eq!(said, [("key.missing", Some(0)), ("key.unknown", Some(6))]);
    }

    #[test]
    fn slips_are_near_and_other_words_are_not() {
        let keys = ["diameter", "depth", "point", "cuts_over"];
        assert_eq!(nearest("diametre", keys), Some("diameter"));
        assert_eq!(nearest("dpeth", keys), Some("depth"));
        assert_eq!(nearest("cutsover", keys), Some("cuts_over"));
        assert_eq!(nearest("colour", keys), None);
        assert_eq!(nearest("x", []), None);
    }
}
