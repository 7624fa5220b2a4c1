//! A file as a tree of values that know where they are written.
//!
//! The `toml` crate's own tree borrows one text; trees of several files are laid over each other
//! here, so every value carries the file it comes from.

use toml::de::{DeTable, DeValue};

use crate::diagnostic::{Diagnostic, Place, SourceId};

/// A value and where it is written.
#[derive(Clone, Debug)]
pub(super) struct Node {
    pub(super) value: Value,
    pub(super) at: Place,
}

/// What a value may be.
#[derive(Clone, Debug)]
pub(super) enum Value {
    Text(String),
    Number(f64),
    List(Vec<Node>),
    Table(Table),
    /// A boolean or a date, which no key here takes; its kind, for the message.
    Other(&'static str),
}

impl Value {
    /// What it is, with its article.
    pub(super) fn kind(&self) -> &'static str {
        match self {
            Self::Text(_) => "a text",
            Self::Number(_) => "a number",
            Self::List(_) => "a list",
            Self::Table(_) => "a table",
            Self::Other(kind) => kind,
        }
    }
}

/// A key, where it is written, and its value.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    pub(super) key: String,
    pub(super) key_at: Place,
    pub(super) node: Node,
}

/// The entries of a table, in the order of the file.
#[derive(Clone, Debug, Default)]
pub(super) struct Table(Vec<Entry>);

impl Table {
    pub(super) fn get(&self, key: &str) -> Option<&Entry> {
        self.0.iter().find(|entry| entry.key == key)
    }

    pub(super) fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.0.iter()
    }

    /// Takes the entries of `over` in place of its own, table by table, key by key; lists are
    /// replaced whole. Of keys that say one thing in different ways, the new one stays alone.
    pub(super) fn overlay(&mut self, over: Table) {
        for entry in over.0 {
            for rival in rivals(&entry.key) {
                self.0.retain(|own| own.key != rival || own.node.at.source == entry.node.at.source);
            }
            let own = self.0.iter_mut().find(|own| own.key == entry.key);
            match (own, entry) {
                (Some(own), Entry { node: Node { value: Value::Table(over), at }, key_at, .. })
                    if matches!(own.node.value, Value::Table(_)) =>
                {
                    if let Value::Table(table) = &mut own.node.value {
                        table.overlay(over);
                    }
                    (own.node.at, own.key_at) = (at, key_at);
                }
                (Some(own), entry) => *own = entry,
                (None, entry) => self.0.push(entry),
            }
        }
    }
}

/// The path of a key as sizes have it, dots between its words.
fn words(key: &str) -> Vec<&str> {
    key.split('.').collect()
}

impl Table {
    /// What is written at a key, dots between its words and of lists the number from 1:
    /// `grip.run.2.to`.
    pub(super) fn at(&self, key: &str) -> Option<&Value> {
        self.nodes(&words(key)).last()?.map(|node| &node.value)
    }

    /// Where it is written.
    pub(super) fn place(&self, key: &str) -> Option<Place> {
        Some(self.nodes(&words(key)).last()??.at)
    }

    /// Where the list is written whose item a key names; none where it names none, or nothing is
    /// there.
    pub(super) fn list_at(&self, key: &str) -> Option<Place> {
        let list = |node: &&Node| matches!(node.value, Value::List(_));
        Some(self.nodes(&words(key)).flatten().find(list)?.at)
    }

    /// What is written at each word of a key on the way to it; none from the first that is missing.
    fn nodes(&self, words: &[&str]) -> impl Iterator<Item = Option<&Node>> {
        let mut above: Option<&Node> = None;
        words.iter().enumerate().map(move |(n, word)| {
            above = match above.map(|node| &node.value) {
                None if n == 0 => self.get(word).map(|entry| &entry.node),
                Some(Value::Table(table)) => table.get(word).map(|entry| &entry.node),
                Some(Value::List(list)) => {
                    let n = word.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                    n.and_then(|n| list.get(n))
                }
                _ => None,
            };
            above
        })
    }

    /// Where such a key is written, or the nearest of its tables that is, and how many of its words
    /// lead there; of other ways to say the same measure, the one that is there. None where not even
    /// its first word is.
    pub(super) fn nearest(&self, key: &str) -> Option<(usize, Place)> {
        let words = words(key);
        let mut found = None;
        let mut table = Some(self);
        let mut list: Option<&[Node]> = None;
        for (n, word) in (1..).zip(words) {
            let (node, at) = if let Some(table) = table {
                let same = || rivals(word).find_map(|rival| table.get(rival));
                let Some(entry) = table.get(word).or_else(same) else { break };
                let is_table = matches!(entry.node.value, Value::Table(_) | Value::List(_));
                (&entry.node, if is_table { entry.key_at } else { entry.node.at })
            } else {
                let index = word.parse::<usize>().ok().and_then(|n| n.checked_sub(1));
                let Some(node) = list.zip(index).and_then(|(list, n)| list.get(n)) else { break };
                (node, node.at)
            };
            found = Some((n, at));
            (table, list) = match &node.value {
                Value::Table(inner) => (Some(inner), None),
                Value::List(inner) => (None, Some(inner.as_slice())),
                _ => break,
            };
        }
        found
    }

    /// Every number in it and in its tables, by such a key, with its place; of a reading its value.
    /// Numbers in a list have no key of their own.
    pub(super) fn numbers(&self) -> Vec<(String, f64, Place)> {
        let mut all = Vec::new();
        for entry in self.entries() {
            numbers_of(&entry.node, &entry.key, &mut all);
        }
        all
    }

    /// Writes a number at such a key: in place of what is there, of a reading its value alone, and
    /// of other ways to say the same measure. Tables that are missing are made, and an item behind
    /// the last of a list. What is new has the place `at`.
    pub(super) fn put(&mut self, key: &str, number: f64, at: Place) {
        put_in_table(self, &words(key), number, at);
    }
}

fn numbers_of(node: &Node, key: &str, all: &mut Vec<(String, f64, Place)>) {
    match &node.value {
        Value::Number(number) if key != "format" => all.push((key.to_owned(), *number, node.at)),
        Value::Table(table) => {
            for entry in table.entries() {
                numbers_of(&entry.node, &format!("{key}.{}", entry.key), all);
            }
        }
        Value::List(list) => {
            for (n, item) in (1..).zip(list) {
                if matches!(item.value, Value::Table(_)) {
                    numbers_of(item, &format!("{key}.{n}"), all);
                }
            }
        }
        _ => {}
    }
}

fn put_in_table(table: &mut Table, path: &[&str], number: f64, at: Place) {
    let Some((key, rest)) = path.split_first() else { return };
    for rival in rivals(key) {
        table.0.retain(|own| own.key != rival);
    }
    if let Some(entry) = table.0.iter_mut().find(|entry| entry.key == *key) {
        put_in_node(&mut entry.node, rest, number);
        return;
    }
    let mut node = Node { value: Value::Number(number), at };
    put_in_node(&mut node, rest, number);
    table.0.push(Entry { key: (*key).to_owned(), key_at: at, node });
}

fn put_in_node(node: &mut Node, path: &[&str], number: f64) {
    let reading = |table: &Table| table.get("value").is_some();
    match (&mut node.value, path) {
        (Value::Table(table), []) if reading(table) => {
            put_in_table(table, &["value"], number, node.at);
        }
        (value, []) => *value = Value::Number(number),
        (Value::Table(table), path) => put_in_table(table, path, number, node.at),
        (Value::List(list), [index, rest @ ..]) => {
            let Some(n) = index.parse::<usize>().ok().and_then(|n| n.checked_sub(1)) else {
                return;
            };
            if n == list.len() {
                list.push(Node { value: Value::Table(Table::default()), at: node.at });
            }
            if let Some(item) = list.get_mut(n) {
                put_in_node(item, rest, number);
            }
        }
        (value, path) => {
            *value = if path[0].parse::<usize>().is_ok() {
                Value::List(Vec::new())
            } else {
                Value::Table(Table::default())
            };
            put_in_node(node, path, number);
        }
    }
}

/// Keys of which a table has one: each says the same measure in another way.
const RIVALS: [&[&str]; 8] = [
    &["diameter", "over"],
    &["depth", "under", "proud", "beyond"],
    &["fillet", "chamfer"],
    &["concave", "convex", "through", "tangent"],
    &["crest_flat", "crest_radius"],
    &["root_flat", "root_radius"],
    &["thread", "thread_minor"],
    &["pixel", "nozzle"],
];

/// The other keys that say what a key says.
pub(super) fn rivals(key: &str) -> impl Iterator<Item = &'static str> {
    let groups = RIVALS.iter().filter(move |group| group.contains(&key));
    groups.flat_map(|group| group.iter().copied()).filter(move |rival| *rival != key)
}

/// Syntax errors that are said of one file at most: a file with more is no TOML at all. More, and
/// another kind of file would be answered by thousands of them, for seconds.
const MOST_SYNTAX_ERRORS: usize = 100;

/// What a text says, with the first [`MOST_SYNTAX_ERRORS`] syntax errors in it; what is behind an
/// error may be missing.
pub(super) fn parse(text: &str, source: SourceId) -> (Table, Vec<Diagnostic>) {
    let (root, errors) = DeTable::parse_recoverable(text);
    let errors = errors.iter().take(MOST_SYNTAX_ERRORS);
    let errors = errors.map(|error| syntax(error, text, source)).collect();
    (table(root.get_ref(), source), errors)
}

fn table(table: &DeTable<'_>, source: SourceId) -> Table {
    let mut entries: Vec<Entry> = table
        .iter()
        .map(|(key, value)| Entry {
            key: key.get_ref().to_string(),
            key_at: Place::new(source, key.span()),
            node: node(value.get_ref(), Place::new(source, value.span())),
        })
        .collect();
    entries.sort_by_key(|entry| entry.key_at);
    Table(entries)
}

fn node(value: &DeValue<'_>, at: Place) -> Node {
    let value = match value {
        DeValue::String(text) => Value::Text(text.to_string()),
        DeValue::Integer(integer) => i64::from_str_radix(integer.as_str(), integer.radix())
            .map_or(Value::Number(f64::INFINITY), |value| Value::Number(value as f64)),
        DeValue::Float(float) => {
            float.as_str().parse().map_or(Value::Other("no number"), Value::Number)
        }
        DeValue::Boolean(_) => Value::Other("true or false"),
        DeValue::Datetime(_) => Value::Other("a date or time"),
        DeValue::Array(list) => Value::List(
            list.iter()
                .map(|item| node(item.get_ref(), Place::new(at.source, item.span())))
                .collect(),
        ),
        DeValue::Table(inner) => Value::Table(table(inner, at.source)),
    };
    Node { value, at }
}

/// A syntax error in our words where the parser's leave out what to do.
fn syntax(error: &toml::de::Error, text: &str, source: SourceId) -> Diagnostic {
    let message = error.message();
    let span = error.span().unwrap_or(text.len()..text.len());
    let hint = if message.contains("duplicate key") {
        "keep one of the two"
    } else if message.contains("quote") || message.contains("string") {
        "a text stands in quotes on one line: name = \"Pen 7\""
    } else if message.contains("array") || message.contains("`]`") {
        "a table begins with its name in brackets, [tenon]; a list looks like [0, 0.15]"
    } else {
        "a line is `key = value`: a number (length = 22), a text in quotes (thread = \"M10x0.75\") \
         or an inline table (relief = { width = 1, diameter = 8.9 })"
    };
    Diagnostic::error("file.syntax", format!("this is not TOML: {message}"))
        .at(Place::new(source, span))
        .hint(hint)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::diagnostic::Sources;

    fn tree(text: &str) -> Table {
        let (table, errors) = parse(text, Sources::default().add("a test", text));
        assert!(errors.is_empty(), "{errors:?}");
        table
    }

    fn keys(table: &Table) -> Vec<&str> {
        table.entries().map(|entry| entry.key.as_str()).collect()
    }

    #[test]
    fn keys_stand_in_the_order_of_the_file() {
        assert_eq!(keys(&tree("z = 1\na = 2\n[m]\n")), ["z", "a", "m"]);
    }

    #[test]
    fn numbers_of_every_notation() {
        let table = tree("a = 0x10\nb = 1_000\nc = 1e2\nd = -0.5\n");
        let number = |key| match table.get(key).map(|entry| &entry.node.value) {
            Some(Value::Number(number)) => *number,
            other => panic!("{other:?}"),
        };
        assert_eq!([number("a"), number("b"), number("c"), number("d")], [16.0, 1e3, 100.0, -0.5]);
    }

    /// What is no TOML in any line is not answered line by line without end.
    #[test]
    fn syntax_errors_have_an_end() {
        let text = "no key\n".repeat(5000);
        let (_, errors) = parse(&text, Sources::default().add("a test", text.as_str()));
        assert_eq!(errors.len(), MOST_SYNTAX_ERRORS);
    }

    #[test]
    fn the_other_way_to_say_a_measure_goes() {
        let mut sources = Sources::default();
        let (base, over) = ("[r]\ndiameter = 9\npoint = 1\n", "[r]\nover = 0.4\n");
        let (mut table, _) = parse(base, sources.add("base", base));
        table.overlay(parse(over, sources.add("over", over)).0);
        let Some(Value::Table(recess)) = table.get("r").map(|entry| &entry.node.value) else {
            panic!("no table")
        };
        assert_eq!(keys(recess), ["point", "over"]);
    }
}
