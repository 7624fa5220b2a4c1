//! Scales of ISO 5455.

use std::fmt;
use std::str::FromStr;

/// A scale of ISO 5455:1979 (from memory): size on paper to size of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    paper: u8,
    part: u8,
}

/// Words that are no scale there is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct UnknownScale(String);

impl Scale {
    /// All of them, the greatest first. ISO 5455 enlarges up to 50:1 and goes on reducing to
    /// 1:10000: at 1:5 an A3 sheet already takes two metres.
    pub const ALL: [Self; 8] = [
        Self { paper: 50, part: 1 },
        Self { paper: 20, part: 1 },
        Self { paper: 10, part: 1 },
        Self { paper: 5, part: 1 },
        Self { paper: 2, part: 1 },
        Self::FULL_SIZE,
        Self { paper: 1, part: 2 },
        Self { paper: 1, part: 5 },
    ];

    /// 1:1.
    pub const FULL_SIZE: Self = Self { paper: 1, part: 1 };

    /// Millimetres on paper per millimetre of the part.
    pub fn factor(self) -> f64 {
        f64::from(self.paper) / f64::from(self.part)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.paper, self.part)
    }
}

impl FromStr for Scale {
    type Err = UnknownScale;

    fn from_str(words: &str) -> Result<Self, Self::Err> {
        let close: String = words.split_whitespace().collect();
        let named = |scale: &Self| scale.to_string() == close;
        Self::ALL.into_iter().find(named).ok_or_else(|| UnknownScale(words.to_owned()))
    }
}

impl UnknownScale {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        "export.unknown-scale"
    }
}

impl fmt::Display for UnknownScale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = Scale::ALL.map(|scale| scale.to_string()).join(", ");
        write!(f, "`{}` is no scale of ISO 5455; there are {all}", self.0)
    }
}

impl std::error::Error for UnknownScale {}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 5455:1979, table (from memory): enlargements 50:1 20:1 10:1 5:1 2:1, full size 1:1,
    /// reductions 1:2 1:5 ...
    #[test]
    fn scales_are_those_of_the_standard() {
        let all = "50:1 20:1 10:1 5:1 2:1 1:1 1:2 1:5";
        let shown: Vec<String> = Scale::ALL.iter().map(Scale::to_string).collect();
        assert_eq!(shown.join(" "), all);
        let factors = Scale::ALL.map(Scale::factor);
        assert_eq!(factors, [50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5, 0.2]);
    }

    #[test]
    fn a_scale_is_read_as_it_is_shown() {
        for scale in Scale::ALL {
            assert_eq!(scale.to_string().parse(), Ok(scale));
        }
        assert_eq!(" 5 : 1".parse::<Scale>().map(Scale::factor), Ok(5.0));
    }

    #[test]
    fn what_is_no_scale_is_told_what_there_is() {
        for words in ["3:1", "5", "", "0:1", "1:0", "10:2", "5/1"] {
            assert!(words.parse::<Scale>().is_err(), "{words}");
        }
        assert_eq!(
            "3:1".parse::<Scale>().unwrap_err().to_string(),
            "`3:1` is no scale of ISO 5455; there are 50:1, 20:1, 10:1, 5:1, 2:1, 1:1, 1:2, 1:5"
        );
    }
}
