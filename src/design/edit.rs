//! Numbers put into a file that somebody wrote; all else of it, comments and order, stays as it is.

use std::fmt;

use toml_edit::{DocumentMut, InlineTable, Item, Table, Value};

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

/// The text with numbers set, each by the path of its key: `["bores", "thread", "form",
/// "pitch_diameter"]`. Tables that are missing are made, the last of them in one line.
///
/// # Errors
/// [`EditError`]; then nothing is changed.
pub fn with_numbers(text: &str, numbers: &[(&[&str], f64)]) -> Result<String, EditError> {
    let mut document: DocumentMut =
        text.parse().map_err(|error: toml_edit::TomlError| EditError::Syntax(error.to_string()))?;
    for (path, number) in numbers {
        set(document.as_table_mut(), path, path, *number)?;
    }
    Ok(document.to_string())
}

fn set(table: &mut Table, whole: &[&str], path: &[&str], number: f64) -> Result<(), EditError> {
    let no_table = || EditError::NoTable { key: whole.join(".") };
    match path {
        [] => Ok(()),
        [key] => {
            put(table.entry(key).or_insert(Item::None), number);
            Ok(())
        }
        [key, rest @ ..] => {
            let made = if rest.len() == 1 {
                Item::Value(Value::InlineTable(InlineTable::new()))
            } else {
                let mut table = Table::new();
                table.set_implicit(true);
                Item::Table(table)
            };
            match table.entry(key).or_insert(made) {
                Item::Table(inner) => set(inner, whole, rest, number),
                Item::Value(Value::InlineTable(inner)) => set_inline(inner, whole, rest, number),
                _ => Err(no_table()),
            }
        }
    }
}

fn set_inline(
    table: &mut InlineTable,
    whole: &[&str],
    path: &[&str],
    number: f64,
) -> Result<(), EditError> {
    match path {
        [] => Ok(()),
        [key] => {
            let mut value = Value::from(number);
            if let Some(old) = table.get(key) {
                *value.decor_mut() = old.decor().clone();
            }
            table.insert(*key, value);
            Ok(())
        }
        [key, rest @ ..] => {
            let inner = table.entry(*key).or_insert(Value::InlineTable(InlineTable::new()));
            match inner {
                Value::InlineTable(inner) => set_inline(inner, whole, rest, number),
                _ => Err(EditError::NoTable { key: whole.join(".") }),
            }
        }
    }
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
                (&["thread", "internal"], 0.06),
                (&["bores", "thread", "form", "pitch_diameter"], 7.76),
                (&["bores", "thread", "form", "major"], 8.09),
                (&["face"], 0.01),
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
    fn what_is_no_table_is_not_overwritten() {
        let error = with_numbers("thread = 3\n", &[(&["thread", "internal"], 0.06)]).unwrap_err();
        assert_eq!(error.code(), "file.no-table");
        let error = with_numbers("thread = \n", &[]).unwrap_err();
        assert_eq!(error.code(), "file.syntax");
    }
}
