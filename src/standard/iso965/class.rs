//! Tolerance classes: `6g`, `4g6g`, `6H`, `4H5H`.

use std::fmt;
use std::str::FromStr;

use super::Quantity;

/// Which of the two threads of a pair.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Side {
    /// The screw.
    External,
    /// The nut.
    Internal,
}

impl fmt::Display for Side {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::External => "external",
            Self::Internal => "internal",
        })
    }
}

/// A tolerance position: how far the thread keeps away from the basic profile. The standard's own
/// letter tells the side by its case.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Position {
    /// `e`: external, the widest gap of those used.
    ExternalE,
    /// `f`: external.
    ExternalF,
    /// `g`: external, the usual gap.
    ExternalG,
    /// `h`: external, none.
    ExternalH,
    /// `G`: internal, as far as `g`.
    InternalG,
    /// `H`: internal, none.
    InternalH,
}

impl Position {
    const ALL: [Self; 6] = [
        Self::ExternalE,
        Self::ExternalF,
        Self::ExternalG,
        Self::ExternalH,
        Self::InternalG,
        Self::InternalH,
    ];

    /// The standard's letter.
    pub const fn letter(self) -> char {
        match self {
            Self::ExternalE => 'e',
            Self::ExternalF => 'f',
            Self::ExternalG => 'g',
            Self::ExternalH => 'h',
            Self::InternalG => 'G',
            Self::InternalH => 'H',
        }
    }

    /// The thread it is for.
    pub const fn side(self) -> Side {
        match self {
            Self::ExternalE | Self::ExternalF | Self::ExternalG | Self::ExternalH => Side::External,
            Self::InternalG | Self::InternalH => Side::Internal,
        }
    }

    fn from_letter(letter: char) -> Option<Self> {
        Self::ALL.into_iter().find(|position| position.letter() == letter)
    }
}

/// A tolerance class: a grade for the pitch diameter, a grade for the crest (the major diameter of
/// an external thread, the minor of an internal one), and the position they share.
///
/// A class that exists has grades that exist, so limits never fail on one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct ToleranceClass {
    position: Position,
    pitch_grade: u8,
    crest_grade: u8,
}

impl ToleranceClass {
    /// 6g, the medium class of an external thread.
    pub const MEDIUM_EXTERNAL: Self =
        Self { position: Position::ExternalG, pitch_grade: 6, crest_grade: 6 };
    /// 6H, the medium class of an internal thread.
    pub const MEDIUM_INTERNAL: Self =
        Self { position: Position::InternalH, pitch_grade: 6, crest_grade: 6 };

    /// A class of these grades.
    ///
    /// # Errors
    /// [`ClassError::NoSuchGrade`] when the standard lacks one of the grades.
    pub fn new(position: Position, pitch_grade: u8, crest_grade: u8) -> Result<Self, ClassError> {
        let class = Self { position, pitch_grade, crest_grade };
        let (pitch, crest) = class.quantities();
        for (quantity, grade) in [(pitch, pitch_grade), (crest, crest_grade)] {
            if !quantity.grades().contains(&grade) {
                return Err(ClassError::NoSuchGrade { quantity, grade });
            }
        }
        Ok(class)
    }

    /// The position, which tells the side as well.
    pub const fn position(self) -> Position {
        self.position
    }

    /// The grade of the pitch diameter.
    pub const fn pitch_grade(self) -> u8 {
        self.pitch_grade
    }

    /// The grade of the major diameter of an external thread, the minor of an internal one.
    pub const fn crest_grade(self) -> u8 {
        self.crest_grade
    }

    /// What the pitch grade and the crest grade are of.
    pub(super) const fn quantities(self) -> (Quantity, Quantity) {
        match self.position.side() {
            Side::External => (Quantity::PitchExternal, Quantity::MajorExternal),
            Side::Internal => (Quantity::PitchInternal, Quantity::MinorInternal),
        }
    }
}

/// `6g` when both grades are equal, else pitch first: `4g6g`.
impl fmt::Display for ToleranceClass {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = self.position.letter();
        write!(f, "{}{letter}", self.pitch_grade)?;
        if self.crest_grade == self.pitch_grade {
            return Ok(());
        }
        write!(f, "{}{letter}", self.crest_grade)
    }
}

/// Why a text is no tolerance class.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClassError {
    /// It is not a grade and a letter, once or twice; holds the text.
    Unreadable(String),
    /// The letter is none of the positions that work.
    UnknownPosition(char),
    /// Pitch and crest have different positions, as in `4g6h`.
    MixedPositions(String),
    /// Two classes, one for each thread of a pair, as in `6H/6g`.
    Pair(String),
    /// The quantity has no such grade, as 5g: the major diameter has 4, 6 and 8.
    NoSuchGrade {
        /// What is toleranced.
        quantity: Quantity,
        /// The grade that is written.
        grade: u8,
    },
}

impl ClassError {
    /// What to write instead.
    pub fn hint(&self) -> String {
        match self {
            Self::Unreadable(_) => "write a class such as 6g, 4g6g, 6H or 4H5H".to_owned(),
            Self::UnknownPosition(_) => {
                "the positions are e, f, g, h (external thread) and G, H (internal thread)"
                    .to_owned()
            }
            Self::MixedPositions(_) => "give both grades the same letter, as in 4g6g".to_owned(),
            Self::Pair(_) => "write the class of one thread: 6H or 6g".to_owned(),
            Self::NoSuchGrade { quantity, .. } => {
                let example = match quantity {
                    Quantity::MajorExternal | Quantity::PitchExternal => "5g6g",
                    Quantity::MinorInternal | Quantity::PitchInternal => "4H5H",
                };
                let grades = list(quantity.grades());
                format!("{quantity} has the grades {grades}; pitch comes first, as in {example}")
            }
        }
    }
}

impl fmt::Display for ClassError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable(text) => write!(f, "`{text}` is not a tolerance class"),
            Self::UnknownPosition(letter) => write!(f, "unknown tolerance position `{letter}`"),
            Self::MixedPositions(text) => write!(f, "`{text}` has two tolerance positions"),
            Self::Pair(text) => write!(f, "`{text}` is a class for each of two threads"),
            Self::NoSuchGrade { quantity, grade } => write!(f, "{quantity} has no grade {grade}"),
        }
    }
}

impl std::error::Error for ClassError {}

impl FromStr for ToleranceClass {
    type Err = ClassError;

    fn from_str(text: &str) -> Result<Self, ClassError> {
        let text = text.trim();
        if text.contains('/') {
            return Err(ClassError::Pair(text.to_owned()));
        }
        let unreadable = || ClassError::Unreadable(text.to_owned());
        let mut grades = Vec::with_capacity(2);
        let mut letters = Vec::with_capacity(2);
        let mut chars = text.chars();
        while let Some(grade) = chars.next() {
            let letter = chars.next().filter(char::is_ascii_alphabetic).ok_or_else(unreadable)?;
            grades.push(grade.to_digit(10).ok_or_else(unreadable)? as u8);
            letters.push(Position::from_letter(letter).ok_or(ClassError::UnknownPosition(letter))?);
        }
        match (letters.as_slice(), grades.as_slice()) {
            (&[position], &[grade]) => Self::new(position, grade, grade),
            (&[first, second], _) if first != second => {
                Err(ClassError::MixedPositions(text.to_owned()))
            }
            (&[position, _], &[pitch, crest]) => Self::new(position, pitch, crest),
            _ => Err(unreadable()),
        }
    }
}

/// Grades as people list them: `4, 6, 8`.
pub(super) fn list(grades: &[u8]) -> String {
    grades.iter().map(u8::to_string).collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_and_writes() {
        for text in ["6g", "4g6g", "5g6g", "6h", "4h", "6e", "6f", "6H", "4H5H", "6G", "9g8g"] {
            let class: ToleranceClass = text.parse().unwrap_or_else(|error| panic!("{error}"));
            assert_eq!(class.to_string(), text);
        }
        assert_eq!(" 6g6g ".parse(), Ok(ToleranceClass::MEDIUM_EXTERNAL));
        assert_eq!("6H".parse(), Ok(ToleranceClass::MEDIUM_INTERNAL));
    }

    #[test]
    fn refuses_with_a_hint() {
        use ClassError as E;
        let major = Quantity::MajorExternal;
        let cases = [
            ("", E::Unreadable(String::new())),
            ("6", E::Unreadable("6".into())),
            ("g6", E::Unreadable("g6".into())),
            ("4g6g8g", E::Unreadable("4g6g8g".into())),
            ("4g6", E::Unreadable("4g6".into())),
            ("6k", E::UnknownPosition('k')),
            ("6E", E::UnknownPosition('E')),
            ("4g6h", E::MixedPositions("4g6h".into())),
            ("6H/6g", E::Pair("6H/6g".into())),
            ("5g", E::NoSuchGrade { quantity: major, grade: 5 }),
            ("2g6g", E::NoSuchGrade { quantity: Quantity::PitchExternal, grade: 2 }),
            ("9H", E::NoSuchGrade { quantity: Quantity::PitchInternal, grade: 9 }),
            ("4H9H", E::NoSuchGrade { quantity: Quantity::MinorInternal, grade: 9 }),
        ];
        for (text, expected) in cases {
            let error = text.parse::<ToleranceClass>().expect_err(text);
            assert_eq!(error, expected, "{text}");
            assert!(!error.hint().is_empty() && !error.to_string().is_empty());
        }
    }
}
