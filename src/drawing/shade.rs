//! Shades for areas: five steps from dark to light.

/// A step of a scale on which every step is lighter than the one before it, so that they are told
/// apart by who sees no colours, and on a print in grey.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shade {
    /// A violet near black.
    Darkest,
    /// A red.
    Dark,
    /// An orange.
    Middle,
    /// A yellow.
    Light,
    /// Cream.
    Lightest,
}

impl Shade {
    /// All of them, from dark to light.
    pub const ALL: [Self; 5] =
        [Self::Darkest, Self::Dark, Self::Middle, Self::Light, Self::Lightest];

    /// Its colour in sRGB, as SVG and HTML write it. Dark steps are bluish, light ones yellow: an
    /// eye without red or without green cones still tells blue from yellow.
    pub const fn colour(self) -> &'static str {
        match self {
            Self::Darkest => "#3a1266",
            Self::Dark => "#b8324f",
            Self::Middle => "#ee9447",
            Self::Light => "#f7cb74",
            Self::Lightest => "#fff6d9",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of sRGB. Source: IEC 61966-2-1 (transfer function), ITU-R BT.709
    /// (0.2126, 0.7152, 0.0722).
    fn luminance(rgb: [f64; 3]) -> f64 {
        let linear = |c: f64| {
            if c <= 0.040_45 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
        };
        let [r, g, b] = rgb.map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    fn rgb(shade: Shade) -> [f64; 3] {
        let digits = shade.colour().trim_start_matches('#');
        let part = |n: usize| u8::from_str_radix(&digits[2 * n..2 * n + 2], 16).unwrap();
        [0, 1, 2].map(|n| f64::from(part(n)) / 255.0)
    }

    /// CIE 1976 lightness; a step of 10 is plain to see side by side.
    fn lightness(luminance: f64) -> f64 {
        116.0 * libm::cbrt(luminance) - 16.0
    }

    #[test]
    fn every_step_is_lighter_by_far() {
        let steps: Vec<f64> = Shade::ALL.map(|shade| lightness(luminance(rgb(shade)))).to_vec();
        assert!(steps.windows(2).all(|pair| pair[1] - pair[0] > 10.0), "{steps:?}");
    }

    /// Without green cones, and without red ones. Source: Machado, Oliveira, Fernandes, "A
    /// Physiologically-based Model for Simulation of Color Vision Deficiency" (2009), severity
    /// 1.0, in linear sRGB (the matrices from memory).
    #[test]
    fn every_step_is_lighter_without_red_or_green_too() {
        let deutan = [
            [0.367_322, 0.860_646, -0.227_968],
            [0.280_085, 0.672_501, 0.047_413],
            [-0.011_820, 0.042_940, 0.968_881],
        ];
        let protan = [
            [0.152_286, 1.052_583, -0.204_868],
            [0.114_503, 0.786_281, 0.099_216],
            [-0.003_882, -0.048_116, 1.051_998],
        ];
        let linear = |c: f64| {
            if c <= 0.040_45 { c / 12.92 } else { libm::pow((c + 0.055) / 1.055, 2.4) }
        };
        for matrix in [deutan, protan] {
            let seen = |shade: Shade| {
                let rgb = rgb(shade).map(linear);
                let [r, g, b] = matrix.map(|row| {
                    let sum: f64 = row.iter().zip(rgb).map(|(m, c)| m * c).sum();
                    sum.clamp(0.0, 1.0)
                });
                lightness(0.2126 * r + 0.7152 * g + 0.0722 * b)
            };
            let steps = Shade::ALL.map(seen);
            assert!(steps.windows(2).all(|pair| pair[1] - pair[0] > 10.0), "{steps:?}");
        }
    }
}
