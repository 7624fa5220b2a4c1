//! A DXF file as records: group codes with their values, each record led by a code 0 or 9.

use crate::export::ExportError;

/// A group code with its value.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// What the value is.
    pub code: i32,
    /// The value as it stands in the file.
    pub value: String,
}

/// One object, table entry, entity or header variable.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Record(pub Vec<Pair>);

impl Record {
    /// A record of codes and values.
    pub fn new<V: ToString, const N: usize>(pairs: [(i32, V); N]) -> Self {
        let pair = |(code, value): (i32, V)| Pair { code, value: value.to_string() };
        Self(pairs.into_iter().map(pair).collect())
    }

    /// The same with more codes and values.
    #[must_use]
    pub fn with<V: ToString, const N: usize>(mut self, pairs: [(i32, V); N]) -> Self {
        self.0.extend(Self::new(pairs).0);
        self
    }

    /// Its kind: the value that leads it.
    pub fn kind(&self) -> &str {
        self.0.first().map_or("", |pair| pair.value.as_str())
    }

    /// The first value of a code.
    pub fn value(&self, code: i32) -> Option<&str> {
        self.0.iter().find(|pair| pair.code == code).map(|pair| pair.value.as_str())
    }

    /// The same without some codes.
    #[must_use]
    pub fn without(mut self, codes: &[i32]) -> Self {
        self.0.retain(|pair| !codes.contains(&pair.code));
        self
    }

    /// The same with a handle and an owner behind its kind, in place of those it had.
    #[must_use]
    pub fn owned(self, handle_code: i32, handle: &str, owner: &str) -> Self {
        let mut record = self.without(&[5, 105, 330]);
        let ids = Self::new([(handle_code, handle), (330, owner)]);
        let behind = record.0.len().min(1);
        record.0.splice(behind..behind, ids.0);
        record
    }

    /// The same with the first value of a code replaced, or added at its end.
    #[must_use]
    pub fn set(mut self, code: i32, value: &str) -> Self {
        match self.0.iter_mut().find(|pair| pair.code == code) {
            Some(pair) => value.clone_into(&mut pair.value),
            None => self.0.push(Pair { code, value: value.to_owned() }),
        }
        self
    }
}

/// The records of an ASCII DXF file.
pub fn read(bytes: &[u8]) -> Result<Vec<Record>, ExportError> {
    let text = String::from_utf8_lossy(bytes);
    let mut lines = text.lines().enumerate();
    let mut records: Vec<Record> = Vec::new();
    while let Some((n, code)) = lines.next() {
        let missing = ExportError::NoGroupCode { line: n + 1 };
        let (Ok(code), Some((_, value))) = (code.trim().parse(), lines.next()) else {
            return Err(missing);
        };
        let pair = Pair { code, value: value.to_owned() };
        match records.last_mut() {
            Some(record) if code != 0 && code != 9 => record.0.push(pair),
            _ => records.push(Record(vec![pair])),
        }
    }
    Ok(records)
}

/// The records as text, a code and a value a line.
pub fn write(records: &[Record]) -> Vec<u8> {
    let pairs = records.iter().flat_map(|record| &record.0);
    pairs.flat_map(|p| format!("{:>3}\n{}\n", p.code, p.value).into_bytes()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_it_writes() {
        let records =
            vec![Record::new([(0, "SECTION"), (2, "HEADER")]), Record::new([(9, "$X"), (70, "1")])];
        assert_eq!(read(&write(&records)).expect("records"), records);
        assert!(matches!(read(b"0\nEOF\nx\n1\n"), Err(ExportError::NoGroupCode { line: 3 })));
        assert!(matches!(read(b"0\n"), Err(ExportError::NoGroupCode { line: 1 })));
    }

    #[test]
    fn a_new_owner_takes_the_place_of_the_old_one() {
        let record = Record::new([(0, "LINE"), (5, "1F"), (8, "axis")]);
        let owned = record.owned(5, "A", "B");
        let expected = Record::new([(0, "LINE"), (5, "A"), (330, "B"), (8, "axis")]);
        assert_eq!(owned, expected);
        assert_eq!(owned.owned(5, "A", "B"), expected);
    }
}
