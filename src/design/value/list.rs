//! Lists in brackets.

use super::super::reader::{Placed, Read, wrong_type};
use super::super::tree::{Node, Value};
use super::length::Size;
use crate::diagnostic::Diagnostic;

/// Values of one kind, each with its place.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::design) struct List<T>(pub(in crate::design) Vec<Placed<T>>);

impl<T: Read> Read for List<T> {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let Value::List(list) = &node.value else {
            log.push(
                wrong_type(key, "a list", node.value.kind(), node.at)
                    .hint("write a list in brackets, such as [1, 2] or [\"a\", \"b\"]"),
            );
            return None;
        };
        let item = |(n, node): (usize, &Node)| {
            T::read(node, &format!("{key}[{n}]"), log).map(|value| Placed::new(value, node.at))
        };
        // What is good of a list is read on, so that all that is wrong with it is said at once.
        Some(Self((1..).zip(list).filter_map(item).collect()))
    }
}

/// Numbers or lengths, each above the one before.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::design) struct Ascending<T>(pub(in crate::design) Vec<T>);

impl<T: Read + Copy + Into<f64>> Read for Ascending<T> {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let List(items) = List::<T>::read(node, key, log)?;
        let number = |item: &Placed<T>| -> f64 { item.value.into() };
        let Some(pair) = items.windows(2).find(|pair| number(&pair[1]) <= number(&pair[0])) else {
            return Some(Self(items.into_iter().map(|item| item.value).collect()));
        };
        let (before, behind) = (shown(number(&pair[0])), shown(number(&pair[1])));
        let mut sorted: Vec<f64> = items.iter().map(number).collect();
        sorted.sort_by(f64::total_cmp);
        sorted.dedup();
        let sorted: Vec<String> = sorted.into_iter().map(shown).collect();
        log.push(
            Diagnostic::error(
                "value.order",
                format!("`{key}` does not ascend: {behind} stands behind {before}"),
            )
            .at(pair[1].at())
            .also(pair[0].at(), "the one before it")
            .hint(format!("write [{}], if that is what they are", sorted.join(", "))),
        );
        None
    }
}

/// A number with no more digits than anybody wrote.
fn shown(number: f64) -> String {
    /// Four decimals, as lengths are shown.
    const DIGITS: f64 = 1e4;
    ((number * DIGITS).round() / DIGITS).to_string()
}

/// In mm.
impl From<Size> for f64 {
    fn from(size: Size) -> Self {
        size.0.as_mm()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::reader::tests::read;
    use crate::design::value::Speed;

    #[test]
    fn every_value_of_a_list_is_looked_at() {
        let list = read::<List<String>>("[\"a\", \"b\"]").0.expect("a list");
        assert_eq!(list.0.iter().map(|item| item.value.as_str()).collect::<Vec<_>>(), ["a", "b"]);
        let (rest, said) = read::<List<String>>("[1, \"a\", 2]");
        assert_eq!((rest.map(|rest| rest.0.len()), said.len()), (Some(1), 2));
        assert!(said[1].message.contains("key[3]"), "{}", said[1].message);
        assert_eq!(read::<List<String>>("\"a\"").1[0].code, "value.type");
    }

    #[test]
    fn what_does_not_ascend_is_shown_sorted() {
        let sizes = read::<Ascending<Size>>("[\"1/8 in\", 3.2]").0.expect("they ascend");
        assert_eq!(sizes.0.len(), 2);
        let (none, said) = read::<Ascending<Speed>>("[120, 600, 350, 350]");
        assert!(none.is_none());
        assert_eq!(said[0].code, "value.order");
        assert!(said[0].hint.as_ref().is_some_and(|hint| hint.contains("[120, 350, 600]")));
    }
}
