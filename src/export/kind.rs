//! The kinds of files that can be asked for one by one.

use std::fmt;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The triangles.
    Stl,
    /// The exact solid, with threads and without.
    Step,
    /// The drawing to make it from; the half-section, to measure; the profile, for a lathe's
    /// control.
    Dxf,
    /// The drawing, the half-section and its walls, to look at.
    Svg,
    /// The drawing, to print.
    Pdf,
    /// The drawing alone, as DXF, SVG and PDF.
    Drawing,
    /// The sheet beside the lathe, as HTML and PDF.
    Sheet,
    /// The measures; written with any of the others too.
    Report,
}

impl Kind {
    /// All of them.
    pub const ALL: [Self; 8] = [
        Self::Stl,
        Self::Step,
        Self::Dxf,
        Self::Svg,
        Self::Pdf,
        Self::Drawing,
        Self::Sheet,
        Self::Report,
    ];

    /// Those that every part is written in; sheet and report are the section's.
    pub const OF_EVERY_PART: [Self; 6] =
        [Self::Stl, Self::Step, Self::Dxf, Self::Svg, Self::Pdf, Self::Drawing];

    /// Those with a drawing in them.
    pub const WITH_DRAWING: [Self; 4] = [Self::Dxf, Self::Svg, Self::Pdf, Self::Drawing];

    /// As it is typed.
    pub fn name(self) -> &'static str {
        match self {
            Self::Stl => "stl",
            Self::Step => "step",
            Self::Dxf => "dxf",
            Self::Svg => "svg",
            Self::Pdf => "pdf",
            Self::Drawing => "drawing",
            Self::Sheet => "sheet",
            Self::Report => "report",
        }
    }
}

/// Some kinds of files.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kinds(Vec<Kind>);

/// Words that name no kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownKinds(Vec<String>);

impl Kinds {
    /// Every kind.
    pub fn all() -> Self {
        Self(Kind::ALL.to_vec())
    }

    /// The kinds of a list such as `stl,step`.
    ///
    /// # Errors
    /// [`UnknownKinds`], with all the words that name none; an empty word does not either.
    pub fn read(list: &str) -> Result<Self, UnknownKinds> {
        let (mut kinds, mut unknown) = (Vec::new(), Vec::new());
        for word in list.split(',').map(str::trim) {
            match Kind::ALL.into_iter().find(|kind| kind.name() == word) {
                Some(kind) => kinds.push(kind),
                None => unknown.push(word.to_owned()),
            }
        }
        if unknown.is_empty() { Ok(Self(kinds)) } else { Err(UnknownKinds(unknown)) }
    }

    /// The names of the kinds, as [`Self::read`] reads them.
    pub fn list(&self) -> String {
        let names: Vec<&str> = self.0.iter().map(|kind| kind.name()).collect();
        names.join(",")
    }

    /// The kind of a name alone.
    pub fn only(kind: Kind) -> Self {
        Self(vec![kind])
    }

    /// The drawing's kinds alone.
    pub fn drawing() -> Self {
        Self(vec![Kind::Drawing])
    }

    /// Whether the drawing is among them, in one format at least.
    pub fn have_drawing(&self) -> bool {
        Kind::WITH_DRAWING.into_iter().any(|kind| self.has(kind))
    }

    /// Whether a kind is among them.
    pub fn has(&self, kind: Kind) -> bool {
        self.0.contains(&kind)
    }
}

impl UnknownKinds {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "export.unknown-kind"
    }
}

impl fmt::Display for UnknownKinds {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let words: Vec<String> = self.0.iter().map(|word| format!("`{word}`")).collect();
        let verb = if words.len() == 1 { "is no kind" } else { "are no kinds" };
        let kinds = Kind::ALL.map(Kind::name).join(", ");
        write!(f, "{} {verb} of file; there are {kinds}", words.join(", "))
    }
}

impl std::error::Error for UnknownKinds {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_is_read() {
        let kinds = Kinds::read("stl, step").unwrap();
        assert!(kinds.has(Kind::Stl) && kinds.has(Kind::Step) && !kinds.has(Kind::Svg));
        assert!(Kind::ALL.iter().all(|kind| Kinds::all().has(*kind)));
    }

    #[test]
    fn all_unknown_words_are_named_with_what_there_is() {
        let error = Kinds::read("stl,obj,STEP,").unwrap_err();
        assert_eq!(
            error.to_string(),
            "`obj`, `STEP`, `` are no kinds of file; there are stl, step, dxf, svg, pdf, \
             drawing, sheet, report"
        );
    }
}
