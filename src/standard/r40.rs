//! The R40 series of preferred numbers, on which ISO 965-1 puts its tolerances.

/// The forty members from 1 to 10 (ISO 3:1973, from memory; every tolerance of the tables of
/// ISO 965-1 but two is one of them).
const MEMBERS: [f64; 40] = [
    1.00, 1.06, 1.12, 1.18, 1.25, 1.32, 1.40, 1.50, 1.60, 1.70, 1.80, 1.90, 2.00, 2.12, 2.24, 2.36,
    2.50, 2.65, 2.80, 3.00, 3.15, 3.35, 3.55, 3.75, 4.00, 4.25, 4.50, 4.75, 5.00, 5.30, 5.60, 6.00,
    6.30, 6.70, 7.10, 7.50, 8.00, 8.50, 9.00, 9.50,
];

/// One member of the series, by its place: place 0 is 1, place 40 is 10, place 80 is 100.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Member {
    place: i32,
}

impl Member {
    /// The member nearest to a value by difference, the lower one of a tie.
    ///
    /// The value is above zero and finite: the formulas of ISO 965-1 give nothing else for the
    /// pitches it covers.
    pub(super) fn nearest(value: f64) -> Self {
        let mut decade = 0;
        let mut scaled = value;
        while scaled >= 10.0 {
            scaled /= 10.0;
            decade += 1;
        }
        while scaled < 1.0 {
            scaled *= 10.0;
            decade -= 1;
        }
        let below = MEMBERS.iter().rposition(|&member| member <= scaled).unwrap_or(0);
        let low = Self { place: decade * 40 + below as i32 };
        let high = low.step(1);
        if value - low.value() <= high.value() - value { low } else { high }
    }

    /// The member so many places on: one grade of ISO 965-1 is four places, a ratio of 10^0.1.
    pub(super) fn step(self, places: i32) -> Self {
        Self { place: self.place + places }
    }

    /// The member itself.
    pub(super) fn value(self) -> f64 {
        let mut value = MEMBERS[self.place.rem_euclid(40) as usize];
        for _ in 0..self.place.div_euclid(40) {
            value *= 10.0;
        }
        for _ in self.place.div_euclid(40)..0 {
            value /= 10.0;
        }
        value
    }

    /// The member as the tables of ISO 965-1 print it: a whole number, halves to the even one
    /// (26 for 26.5, 38 for 37.5, 42 for 42.5).
    pub(super) fn whole(self) -> f64 {
        self.value().round_ties_even()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_and_values() {
        assert_eq!(Member::nearest(1.0), Member { place: 0 });
        assert_eq!(Member::nearest(100.0).whole(), 100.0);
        assert_eq!(Member::nearest(0.95).value(), 0.95);
        assert_eq!(Member::nearest(9.8).value(), 10.0);
        assert_eq!(Member::nearest(97.4).whole(), 95.0);
        assert_eq!(Member::nearest(97.6).whole(), 100.0);
        // A step of forty places is a decade.
        assert_eq!(Member::nearest(132.0).step(40).whole(), 1320.0);
        assert_eq!(Member::nearest(132.0).step(-40).value(), 13.2);
    }

    #[test]
    fn prints_as_the_tables_do() {
        for (value, whole) in [(26.5, 26.0), (37.5, 38.0), (42.5, 42.0), (47.5, 48.0), (31.5, 32.0)]
        {
            assert_eq!(Member::nearest(value).whole(), whole);
        }
    }

    #[test]
    fn every_member_is_its_own_nearest() {
        for place in 40..130 {
            let member = Member { place };
            assert_eq!(Member::nearest(member.value()), member);
        }
    }
}
