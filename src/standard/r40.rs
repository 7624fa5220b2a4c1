//! The R40 series of preferred numbers, on which ISO 965-1 puts its tolerances.

/// The forty members from 1 to 10, in hundredths so that their halves stay exact (ISO 3:1973, from
/// memory; the tolerances of ISO 965-1 are members of it; the deviations of position f are not all).
const HUNDREDTHS: [u16; 40] = [
    100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280,
    300, 315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850,
    900, 950,
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
        let below = HUNDREDTHS.iter().rposition(|&member| f64::from(member) <= scaled * 100.0);
        let low = Self { place: decade * 40 + below.unwrap_or(0) as i32 };
        let high = low.step(1);
        if value - low.value() <= high.value() - value { low } else { high }
    }

    /// The member so many places on: one grade of ISO 965-1 is four places, a ratio of 10^0.1.
    pub(super) fn step(self, places: i32) -> Self {
        Self { place: self.place + places }
    }

    /// The member itself.
    pub(super) fn value(self) -> f64 {
        let hundredths = f64::from(HUNDREDTHS[self.place.rem_euclid(40) as usize]);
        let decades = self.place.div_euclid(40) - 2;
        let power = (0..decades.abs()).fold(1.0, |power, _| power * 10.0);
        if decades < 0 { hundredths / power } else { hundredths * power }
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
        for (value, whole) in
            [(26.5, 26.0), (37.5, 38.0), (42.5, 42.0), (47.5, 48.0), (31.5, 32.0), (35.5, 36.0)]
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
