//! The data section of an exchange file: numbered instances, equal ones written once.

use std::collections::HashMap;
use std::fmt;

/// The number of an instance; written as `#12`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Id(usize);

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

/// Instances, in the order in which they were added.
#[derive(Default)]
pub(super) struct Exchange {
    text: String,
    count: usize,
    known: HashMap<String, Id>,
}

impl Exchange {
    /// A new instance, whatever there is already.
    pub fn add(&mut self, record: &str) -> Id {
        self.count += 1;
        self.text += &format!("#{}={record};\n", self.count);
        Id(self.count)
    }

    /// An instance of a value: geometry that is the same is the same instance.
    pub fn value(&mut self, record: String) -> Id {
        if let Some(id) = self.known.get(&record) {
            return *id;
        }
        let id = self.add(&record);
        self.known.insert(record, id);
        id
    }

    /// All instances, one a line.
    pub fn into_text(self) -> String {
        self.text
    }
}

/// References in brackets: `(#1,#2)`.
pub(super) fn list(ids: impl IntoIterator<Item = Id>) -> String {
    let ids: Vec<String> = ids.into_iter().map(|id| id.to_string()).collect();
    format!("({})", ids.join(","))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_are_written_once_and_things_each() {
        let mut data = Exchange::default();
        let a = data.value("CARTESIAN_POINT('',(0.,0.,0.))".to_owned());
        let b = data.value("CARTESIAN_POINT('',(0.,0.,0.))".to_owned());
        assert_eq!(a, b);
        let vertex = format!("VERTEX_POINT('',{a})");
        assert_ne!(data.add(&vertex), data.add(&vertex));
        assert_eq!(data.into_text().lines().last(), Some("#3=VERTEX_POINT('',#1);"));
    }
}
