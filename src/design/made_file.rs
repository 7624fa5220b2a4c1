//! `[made]`: what was really cut, by the keys of its sizes. Which sizes there are is not known
//! here: [`crate::design`] keeps words and places.

use super::reader::{Read, wrong_type};
use super::resolved::{Made, MadeSize};
use super::tree::{Node, Table, Value};
use super::value::Size;
use crate::diagnostic::Diagnostic;

/// The key of the last step that is done.
const AFTER: &str = "after";

impl Read for Made {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::Table(table) = &node.value else {
            log.push(
                wrong_type(key, "a table", node.value.kind(), node.at).hint(
                    "write [made] on a line of its own, bores.clearance.depth = 4.3 below it",
                ),
            );
            return None;
        };
        let noted = log.len();
        let mut made = Self::default();
        let mut sizes = Vec::new();
        for entry in table.entries() {
            if entry.key == AFTER {
                let text = String::read(&entry.node, &format!("{key}.{AFTER}"), log);
                made.after = text.map(|text| (text, Some(entry.node.at)));
            } else {
                collect(&entry.key, &entry.node, &mut sizes, log);
            }
        }
        made.sizes = sizes;
        (log.len() == noted).then_some(made)
    }
}

/// Dotted keys are tables in tables: their words are put together again.
fn collect(key: &str, node: &Node, sizes: &mut Vec<MadeSize>, log: &mut Vec<Diagnostic>) {
    if let Value::Table(table) = &node.value {
        collect_all(key, table, sizes, log);
    } else if let Some(Size(value)) = Size::read(node, &format!("made.{key}"), log) {
        sizes.push(MadeSize { key: key.to_owned(), value, at: Some(node.at) });
    }
}

fn collect_all(key: &str, table: &Table, sizes: &mut Vec<MadeSize>, log: &mut Vec<Diagnostic>) {
    for entry in table.entries() {
        collect(&format!("{key}.{}", entry.key), &entry.node, sizes, log);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;
    use crate::quantity::Length;

    #[test]
    fn dotted_keys_are_put_together_again() {
        let text = "{ bores.clearance.depth = 4.3, bores.recess = { depth = \"0.05 in\" }, after = \"t\" }";
        let (made, said) = read::<Made>(text);
        assert!(said.is_empty(), "{said:?}");
        let made = made.unwrap();
        let sizes: Vec<_> = made.sizes.iter().map(|s| (s.key.as_str(), s.value)).collect();
        let expected = [
            ("bores.clearance.depth", Length::mm(4.3)),
            ("bores.recess.depth", Length::inch(0.05)),
        ];
        assert_eq!(sizes, expected);
        assert_eq!(made.after.map(|(word, _)| word), Some("t".to_owned()));
    }

    #[test]
    fn every_mistake_is_said() {
        let (made, said) = read::<Made>("{ a.b = -1, c = nan, d = [1], after = 3 }");
        assert!(made.is_none());
        let codes: Vec<_> = said.iter().map(|d| d.code).collect();
        assert_eq!(codes, ["value.negative", "value.not-finite", "value.type", "value.type"]);
        assert_eq!(read::<Made>("3").1.len(), 1);
    }
}
