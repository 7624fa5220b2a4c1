//! What stays of a rod behind the last cut.

use super::DEFAULT_HOLDING;
use super::lay::RodPlan;
use crate::quantity::Length;

/// The end of the rod in one piece: what is left over, and what was held.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OffCut {
    /// Its length.
    pub length: Length,
    /// How much a rehearsal of drills and tap wants: as deep as the deepest drill goes, and what is
    /// held (common practice, no source: a thread that was not cut to its end was not rehearsed).
    pub rehearsal: Length,
}

impl OffCut {
    /// Whether a rehearsal can be done on it.
    pub fn serves(&self) -> bool {
        self.length.as_mm() + super::NOISE >= self.rehearsal.as_mm()
    }
}

impl RodPlan {
    /// What stays behind the last cut; of no length where none is made there.
    pub fn off_cut(&self) -> OffCut {
        let depths = self.request.designs.iter().map(|wanted| wanted.deepest);
        let left = self.left_over + self.request.holding;
        OffCut {
            length: if self.ends_uncut() { Length::ZERO } else { left },
            rehearsal: depths.fold(Length::ZERO, Length::max) + DEFAULT_HOLDING,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::request::tests::rod;
    use super::super::{RodRequest, plan};
    use super::*;

    /// Held 15 and left over 17; drills of 11 are rehearsed on it, 15 of it held.
    #[test]
    fn what_was_held_is_left_with_the_rest() {
        let off = plan(&rod(&[30.0], 230.0)).unwrap().off_cut();
        assert_eq!((off.length, off.serves()), (Length::mm(32.0), true));
        let free = RodRequest { holding: Length::ZERO, ..rod(&[30.0], 65.0) };
        let off = plan(&free).unwrap().off_cut();
        assert_eq!((off.length, off.serves()), (Length::ZERO, false));
    }
}
