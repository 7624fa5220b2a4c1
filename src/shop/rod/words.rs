//! What a rod plan says to a maker, on the screen and on its sheet.

use super::lay::RodPlan;
use super::piece::Piece;
use super::shown::Shown;
use crate::quantity::Length;

/// Work that stands out of the chuck by more than this, times its diameter, needs support (common
/// practice, no source). More, and it is bent or thrown out by the tool; less, and every cut would
/// ask for a steady.
pub const CUTS_STAND_OUT: f64 = 3.0;

impl RodPlan {
    /// What a design is called in short: its letter where there are several, else its name.
    pub fn letter(&self, design: usize) -> Option<char> {
        (self.request.designs.len() > 1).then(|| char::from(b'A' + (design % 26) as u8))
    }

    /// A design with its letter.
    pub fn design(&self, design: usize) -> String {
        let name = &self.request.designs[design].name;
        self.letter(design).map_or_else(|| name.clone(), |letter| format!("{letter} {name}"))
    }

    /// What a piece is: `set 2`, `spare`, or nothing where a set is one piece.
    pub fn role(&self, piece: &Piece) -> String {
        match piece.set {
            None => "spare".to_owned(),
            Some(_) if self.request.set().len() == 1 => String::new(),
            Some(set) => format!("set {set}"),
        }
    }

    /// How many sections and spares the rod gives.
    pub fn gives(&self) -> String {
        let in_set = self.request.set().len();
        let sets = match (in_set, self.sets) {
            (1, 1) => "1 section".to_owned(),
            (1, sets) => format!("{sets} sections"),
            (_, 1) => format!("1 set of {in_set} sections"),
            (_, sets) => format!("{sets} sets of {in_set} sections"),
        };
        let spares: Vec<&Piece> = self.spares().collect();
        let of = |piece: &&Piece| self.letter(piece.design).map(String::from);
        let letters: Vec<String> = spares.iter().filter_map(of).collect();
        let of =
            if letters.is_empty() { String::new() } else { format!(" ({})", letters.join(", ")) };
        match spares.len() {
            0 => format!("{sets}, no spare"),
            1 => format!("{sets} and 1 spare{of}"),
            count => format!("{sets} and {count} spares{of}"),
        }
    }

    /// The rod itself.
    pub fn rod(&self, shown: Shown) -> String {
        let length = shown.length(self.request.length);
        if let Some(diameter) = self.request.diameter {
            return format!("Rod Ø{}, {length} long", shown.length(diameter));
        }
        let least = shown.length(self.request.least_diameter());
        format!("Rod {length} long, at least Ø{least}")
    }

    /// That all lengths come to the rod's.
    pub fn sum(&self, shown: Shown) -> String {
        let pieces: Length = self.pieces.iter().map(Piece::length).sum();
        let cuts: Length = self.pieces.iter().map(|piece| piece.kerf).sum();
        let parts = [
            ("pieces", pieces),
            ("cuts", cuts),
            ("left over", self.left_over),
            ("held", self.request.holding),
        ];
        let all: Vec<String> =
            parts.iter().map(|(what, length)| format!("{what} {}", shown.cell(*length))).collect();
        let total: Length = parts.iter().map(|(_, length)| *length).sum();
        format!("{} = {} {}", all.join(" + "), shown.cell(total), shown.unit())
    }

    /// In which order to work.
    pub fn order(&self, shown: Shown) -> Vec<String> {
        let held = if self.request.sawn_free() {
            "Saw from the free end, in the order of the numbers"
        } else {
            "Saw or part from the free end, in the order of the numbers"
        };
        let mut steps = vec![format!(
            "{held}. A piece ends at its figure; the cut lies beyond. Measure the first cut: if \
             it is not {} wide, plan again.",
            shown.length(self.request.kerf)
        )];
        if self.ends_uncut() {
            steps.push(format!(
                "Piece {} ends with the rod: no cut behind it, {} more comes off when it is squared.",
                self.pieces.len(),
                shown.length(self.left_over)
            ));
        }
        steps.push(self.rehearsal(shown));
        if self.request.set().len() > 1 {
            let sides = "Write number and letter on each piece. The pieces of a set lie side by \
                 side in the rod, so that their pattern goes on from one to the next.";
            steps.push(sides.to_owned());
        }
        let last = self.pieces.len();
        steps.push(match self.spares().count() {
            0 => "Make the sections in the order of the numbers.".to_owned(),
            1 => format!(
                "Make the sections in the order of the numbers; leave the spare, piece {last}, \
                 uncut until all others are done."
            ),
            count => format!(
                "Make the sections in the order of the numbers; leave the spares, pieces {} to \
                 {last}, uncut until all others are done.",
                last + 1 - count
            ),
        });
        steps
    }

    /// What the thread is rehearsed on.
    fn rehearsal(&self, shown: Shown) -> String {
        let off = self.off_cut();
        let [length, wanted] = [off.length, off.rehearsal].map(|length| shown.length(length));
        if off.serves() {
            let both = !self.request.sawn_free() && self.left_over > Length::ZERO;
            let of = if both { ", left over and held end in one" } else { "" };
            format!(
                "Rehearse drills and tap on the off-cut first ({length}{of}): the thread for the \
                 nib unit goes {wanted} deep."
            )
        } else if off.length == Length::ZERO {
            format!(
                "Nothing is left to rehearse on: keep another piece of this material, {wanted} or \
                 longer, for drills and tap."
            )
        } else {
            format!(
                "The off-cut of {length} is too short to rehearse on: keep another piece of this \
                 material, {wanted} or longer, for drills and tap."
            )
        }
    }

    /// What would be had with a little more.
    pub fn wishes(&self, shown: Shown) -> Vec<String> {
        let mut found = Vec::new();
        let (asked, spares) = (self.request.spares as usize, self.spares().count());
        if spares < asked {
            let what = if asked - spares == 1 { "A spare does" } else { "Some spares do" };
            let by = self.for_spares.join(", or ");
            let by = if by.is_empty() { String::new() } else { format!("; what gives it: {by}") };
            found.push(format!("{what} not fit{by}."));
        }
        if self.request.sets.is_none() {
            let what = if self.request.set().len() == 1 { "section" } else { "set" };
            let short = shown.length(self.short_of_a_set);
            found.push(format!("For one more {what} the rod is {short} too short."));
        }
        found
    }

    /// What to take care of.
    pub fn cautions(&self, shown: Shown) -> Vec<String> {
        let mut found = vec![
            "Eye and face protection. Hold the rod so that it can't turn or whip under the saw; \
             nothing of it stands out unguarded behind the spindle."
                .to_owned(),
            "Keep dust out of your lungs: extraction, a respirator. Cellulose nitrate burns \
             fiercely: know what the rod is, no sparks, clear swarf at once."
                .to_owned(),
        ];
        let reach = self.pieces.iter().map(|p| p.length() + p.kerf).fold(Length::ZERO, Length::max);
        let diameter = self.request.diameter.unwrap_or_else(|| self.request.least_diameter());
        let times = reach / diameter;
        let here = if self.request.sawn_free() {
            String::new()
        } else {
            let verdict = if times > CUTS_STAND_OUT { "support it" } else { "it does without" };
            format!(
                " Here {} stands out to part a piece, {times:.1} x Ø{}: {verdict}.",
                shown.length(reach),
                shown.length(diameter)
            )
        };
        found.push(format!(
            "Work that stands out more than {CUTS_STAND_OUT} x its diameter needs support.{here}"
        ));
        found
    }
}

#[cfg(test)]
mod tests {
    use super::super::request::tests::rod;
    use super::super::{RodRequest, plan};
    use super::*;

    const MM: Shown = Shown { inches: false };

    #[test]
    fn the_sum_is_the_rod() {
        let made = plan(&rod(&[30.0], 230.0)).unwrap();
        let sum = "pieces 186.00 + cuts 12.00 + left over 17.00 + held 15.00 = 230.00 mm";
        assert_eq!(made.sum(MM), sum);
        assert_eq!(made.gives(), "5 sections and 1 spare");
        let pair = plan(&rod(&[30.0, 20.0], 150.0)).unwrap();
        assert_eq!(pair.gives(), "2 sets of 2 sections and 1 spare (B)");
        assert_eq!(pair.design(1), "B b");
    }

    /// 31 + 2 out of a chuck: 2.5 x 13, and 3.3 x 10.
    #[test]
    fn what_stands_out_far_is_to_be_supported() {
        let made = plan(&rod(&[30.0], 230.0)).unwrap();
        assert!(made.cautions(MM)[2].ends_with("2.5 x Ø13 mm: it does without."));
        let long = plan(&rod(&[40.0], 230.0)).unwrap();
        assert!(long.cautions(MM)[2].ends_with("3.3 x Ø13 mm: support it."));
    }

    #[test]
    fn the_off_cut_is_said_to_serve_only_where_it_does() {
        let said = |request: &RodRequest| plan(request).unwrap().order(MM).join(" ");
        let serves = said(&rod(&[30.0], 230.0));
        assert!(serves.contains("on the off-cut first (32 mm, left over and held end in one)"));
        let none = RodRequest { holding: Length::ZERO, ..rod(&[30.0], 64.0) };
        assert!(said(&none).contains("Nothing is left to rehearse on"));
        let short = RodRequest { holding: Length::ZERO, ..rod(&[30.0], 75.0) };
        assert!(said(&short).contains("The off-cut of 9 mm is too short"));
    }
}
