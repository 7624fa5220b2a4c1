//! The texts that diagnostics point into.

use std::ops::Range;

/// Which of the [`Sources`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SourceId(usize);

/// A span of a text, in bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The text.
    pub source: SourceId,
    /// First byte.
    pub start: usize,
    /// One behind the last byte.
    pub end: usize,
}

impl Place {
    /// A span of a text.
    pub fn new(source: SourceId, span: Range<usize>) -> Self {
        Self { source, start: span.start, end: span.end }
    }
}

/// A text and the name that people know it by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Source {
    /// A path as it was given, or the name of a built-in profile.
    pub name: String,
    /// Everything that was read.
    pub text: String,
}

/// All texts that were read, in the order of reading.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sources(Vec<Source>);

impl Sources {
    /// Keeps a text.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<String>) -> SourceId {
        self.0.push(Source { name: name.into(), text: text.into() });
        SourceId(self.0.len() - 1)
    }

    /// A text by its id, which must be one of this collection's.
    pub fn get(&self, id: SourceId) -> &Source {
        &self.0[id.0]
    }

    /// All texts, in the order of reading.
    pub fn iter(&self) -> impl Iterator<Item = &Source> {
        self.0.iter()
    }

    /// A place's bytes, moved to where characters begin and end, within the text.
    pub(super) fn span(&self, place: Place) -> Range<usize> {
        let text = &self.get(place.source).text;
        let start = text.floor_char_boundary(place.start.min(text.len()));
        let end = text.ceil_char_boundary(place.end.clamp(start, text.len()));
        start..end
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_beyond_the_text_is_its_end() {
        let mut sources = Sources::default();
        let id = sources.add("a", "dia ø");
        assert_eq!(sources.span(Place::new(id, 3..90)), 3..6);
        assert_eq!(sources.span(Place::new(id, 90..95)), 6..6);
        // ø takes two bytes: a span that ends inside it takes all of it.
        assert_eq!(sources.span(Place::new(id, 5..5)), 4..6);
    }
}
