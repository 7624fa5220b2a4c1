//! Numbers put into a file that somebody wrote; all else of it, comments and order, stays as it is.

use std::fmt;

use toml_edit::{ArrayOfTables, DocumentMut, InlineTable, Item, Table, TableLike, Value, value};

use super::tree::rivals;

/// Why a file can't be changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EditError {
    /// It is no TOML.
    Syntax(String),
    /// A key stands where a table is needed.
    NoTable {
        /// The key's path.
        key: String,
    },
}

/// The text with numbers set, each by its key with dots between the words, of lists the number from
/// 1: `bores.thread.form.pitch_diameter`, `grip.run.2.to`.
///
/// What a key has is replaced, of a reading its value alone; other ways to say the same measure go.
/// Tables that are missing are made, the last of them in one line.
///
/// # Errors
/// [`EditError`]; then nothing is changed.
pub fn with_numbers(text: &str, numbers: &[(&str, f64)]) -> Result<String, EditError> {
    let mut document: DocumentMut =
        text.parse().map_err(|error: toml_edit::TomlError| EditError::Syntax(error.to_string()))?;
    for (key, number) in numbers {
        let path: Vec<&str> = key.split('.').collect();
        let done = in_table(document.as_table_mut(), &path, *number);
        done.ok_or_else(|| EditError::NoTable { key: (*key).to_owned() })?;
    }
    Ok(document.to_string())
}

/// Sets a number in a table; none where something else stands where a table would be.
fn in_table(table: &mut dyn TableLike, path: &[&str], number: f64) -> Option<()> {
    let (key, rest) = path.split_first()?;
    for rival in rivals(key) {
        table.remove(rival);
    }
    if !table.contains_key(key) {
        table.insert(key, missing(rest, number)?);
    }
    let item = table.get_mut(key)?;
    match (item, rest) {
        (Item::Value(Value::InlineTable(reading)), []) if reading.contains_key("value") => {
            in_table(reading, &["value"], number)
        }
        (item, []) => {
            put(item, number);
            Some(())
        }
        (Item::ArrayOfTables(tables), [index, rest @ ..]) => {
            in_table(tables.get_mut(place(index)?)?, rest, number)
        }
        (Item::Value(Value::Array(list)), [index, rest @ ..]) => {
            in_table(list.get_mut(place(index)?)?.as_inline_table_mut()?, rest, number)
        }
        // A chamfer by its length alone becomes the table that says more of it.
        (item @ Item::Value(Value::Float(_) | Value::Integer(_)), rest) if *key == "chamfer" => {
            *item = missing(rest, number)?;
            in_table(item.as_table_like_mut()?, rest, number)
        }
        (item, rest) => in_table(item.as_table_like_mut()?, rest, number),
    }
}

/// What stands where nothing was: the number, the last table of a path in one line, a list with its first item.
fn missing(rest: &[&str], number: f64) -> Option<Item> {
    Some(match rest {
        [] => value(number),
        [index, ..] if index.parse::<usize>().is_ok() => {
            (place(index)? == 0).then_some(())?;
            let mut tables = ArrayOfTables::new();
            tables.push(Table::new());
            Item::ArrayOfTables(tables)
        }
        [_] => Item::Value(Value::InlineTable(InlineTable::new())),
        _ => {
            let mut table = Table::new();
            table.set_implicit(true);
            Item::Table(table)
        }
    })
}

fn place(index: &str) -> Option<usize> {
    index.parse::<usize>().ok()?.checked_sub(1)
}

/// A number in place of what was there, a comment behind it kept.
fn put(item: &mut Item, number: f64) {
    let mut value = Value::from(number);
    if let Some(old) = item.as_value() {
        *value.decor_mut() = old.decor().clone();
    }
    *item = Item::Value(value);
}

impl EditError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Syntax(_) => "file.syntax",
            Self::NoTable { .. } => "file.no-table",
        }
    }
}

impl fmt::Display for EditError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Syntax(why) => write!(f, "the file can't be read: {why}"),
            Self::NoTable { key } => {
                write!(f, "`{key}` can't be set: something else stands where its table would be")
            }
        }
    }
}

impl std::error::Error for EditError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_set_and_all_else_stays() {
        let text = "# mine\nformat = 1\nthread = { internal = 0.04, external = 0.03 } # flanks\n\n\
                    [bores.thread]\nto = 11.75\n";
        let changed = with_numbers(
            text,
            &[
                ("thread.internal", 0.06),
                ("bores.thread.form.pitch_diameter", 7.76),
                ("bores.thread.form.major", 8.09),
                ("face", 0.01),
            ],
        )
        .unwrap();
        assert_eq!(
            changed,
            "# mine\nformat = 1\nthread = { internal = 0.06, external = 0.03 } # flanks\nface = 0.01\n\n\
             [bores.thread]\nto = 11.75\nform = { pitch_diameter = 7.76, major = 8.09 }\n"
        );
    }

    #[test]
    fn lists_readings_and_other_ways_to_say_it() {
        let text = "[bores.recess]\nunder = 0.1 # rather\n\n[[grip.run]]\nto = 9\nchamfer = 0.3\n\
                    [[grip.run]]\nto = 22 # end\n\n[cap]\nbores = [{ to = 12, diameter = 12.5 }]\n\
                    length = { value = 40, uncertainty = 0.1 }\n";
        let numbers = [
            ("bores.recess.depth", 1.3),
            ("grip.run.2.to", 23.0),
            ("grip.run.1.chamfer.before", 0.2),
            ("cap.bores.1.diameter", 12.7),
            ("cap.length", 41.5),
        ];
        let changed = with_numbers(text, &numbers).unwrap();
        assert_eq!(
            changed,
            "[bores.recess]\ndepth = 1.3\n\n[[grip.run]]\nto = 9\nchamfer = { before = 0.2 }\n\
             [[grip.run]]\nto = 23.0 # end\n\n[cap]\nbores = [{ to = 12, diameter = 12.7 }]\n\
             length = { value = 41.5, uncertainty = 0.1 }\n"
        );
        assert!(with_numbers(text, &[("grip.run.3.to", 23.0)]).is_err());
    }

    #[test]
    fn what_is_no_table_is_not_overwritten() {
        let error = with_numbers("thread = 3\n", &[("thread.internal", 0.06)]).unwrap_err();
        assert_eq!(error.code(), "file.no-table");
        let error = with_numbers("thread = \n", &[]).unwrap_err();
        assert_eq!(error.code(), "file.syntax");
    }
}
