//! Lays pieces along a rod.

use super::fault::{RodError, faults};
use super::piece::Piece;
use super::request::RodRequest;
use super::{NOISE, remedy};
use crate::quantity::Length;

/// What a rod gives.
#[derive(Clone, Debug, PartialEq)]
pub struct RodPlan {
    /// What was asked.
    pub request: RodRequest,
    /// The pieces from the free end.
    pub pieces: Vec<Piece>,
    /// Whole sets.
    pub sets: usize,
    /// What is left between the last cut and what is held; where no cut is made behind the last
    /// piece, what that piece is longer than it has to be.
    pub left_over: Length,
    /// How much longer the rod would have to be for one more set beside all of this.
    pub short_of_a_set: Length,
    /// What would give the spares that are missing, each planned before it is said; empty where
    /// none is missing, or nothing helps.
    pub for_spares: Vec<String>,
}

/// Plans a rod: as many whole sets as it gives, or as are asked for; then as many of the spares
/// that are asked for as fit, and of these the longest, for a long piece still serves where a
/// shorter one is spoiled. Where a set is one piece, a spare is one of the pieces that the rod
/// gives: all of them are alike, and one at least is a set.
///
/// # Errors
/// Everything that is wrong: values that no rod has, a rod too thin for a design, one too short
/// for the sets.
pub fn plan(request: &RodRequest) -> Result<RodPlan, Vec<RodError>> {
    let wrong = faults(request);
    if !wrong.is_empty() {
        return Err(wrong);
    }
    let laid = lay(request);
    let for_spares = remedy::for_spares(request, &laid);
    Ok(RodPlan { for_spares, ..laid })
}

/// The plan of a request without fault; no sets where none fits.
pub(super) fn lay(request: &RodRequest) -> RodPlan {
    let set = request.set();
    let sets = most_sets(request);
    let sets = match (set.len(), request.sets) {
        (1, None) => sets.min(1).max(sets.saturating_sub(request.spares as usize)),
        _ => sets,
    };
    let mut designs = set.repeat(sets);
    let of_sets = designs.len();
    designs.extend(spares(request, &designs));
    let mut pieces = Vec::with_capacity(designs.len());
    let mut at = Length::ZERO;
    for (n, design) in designs.iter().enumerate() {
        let to = at + request.piece(*design);
        let (set, kerf) = ((n < of_sets).then(|| n / set.len() + 1), request.kerf);
        pieces.push(Piece { number: n + 1, design: *design, set, from: at, to, kerf });
        at = to + request.kerf;
    }
    let mut left_over = request.length - request.holding - at;
    if let Some(last) = pieces.last_mut()
        && request.sawn_free()
        && left_over.as_mm() <= NOISE
    {
        // The rod ends within the cut: none is made, and the piece keeps what is over.
        left_over += last.kerf;
        last.kerf = Length::ZERO;
    }
    let one_more = request.taken(&[designs, set].concat()) - request.length;
    RodPlan {
        pieces,
        sets,
        left_over: left_over.max(Length::ZERO),
        short_of_a_set: one_more.max(Length::ZERO),
        for_spares: Vec::new(),
        request: request.clone(),
    }
}

/// How many whole sets fit, no more than are asked for.
pub(super) fn most_sets(request: &RodRequest) -> usize {
    let set = request.set();
    let apiece = request.taken(&set.repeat(2)) - request.taken(&set);
    let others = request.taken(&set) - apiece;
    let fit = (request.length - others).as_mm() + NOISE;
    let fit = (fit / apiece.as_mm()).floor().max(0.0) as usize;
    request.sets.map_or(fit, |asked| fit.min(asked as usize))
}

/// The designs of the spares behind the pieces of the sets: the most that fit, then the longest.
fn spares(request: &RodRequest, sets: &[usize]) -> Vec<usize> {
    let mut by_length: Vec<usize> = (0..request.designs.len()).collect();
    by_length.sort_by(|a, b| request.piece(*b).as_mm().total_cmp(&request.piece(*a).as_mm()));
    let Some(shortest) = by_length.last() else { return Vec::new() };
    let with = |pieces: &[usize], short: usize| {
        let all = [sets, pieces, &vec![*shortest; short]].concat();
        request.holds(&all)
    };
    let asked = request.spares as usize;
    let most = (0..=asked).rev().find(|count| with(&[], *count)).unwrap_or(0);
    let mut found = Vec::with_capacity(most);
    for n in 0..most {
        let fits = |design: &&usize| with(&[&found[..], &[**design]].concat(), most - n - 1);
        found.extend(by_length.iter().find(fits).copied());
    }
    found
}

impl RodPlan {
    /// The spares.
    pub fn spares(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().filter(|piece| piece.is_spare())
    }

    /// Whether the last piece ends with the rod, so that no cut is made behind it.
    pub fn ends_uncut(&self) -> bool {
        self.pieces.last().is_some_and(|piece| piece.kerf == Length::ZERO)
    }

    /// Where the left-over begins, from the free end.
    pub fn last_cut(&self) -> Length {
        self.pieces.last().map_or(Length::ZERO, |piece| piece.to + piece.kerf)
    }
}

#[cfg(test)]
mod tests {
    use super::super::request::tests::rod;
    use super::*;

    fn plan_of(request: &RodRequest) -> RodPlan {
        plan(request).unwrap()
    }

    /// Worked by hand: pieces of 31 with cuts of 2 in 230, of which 15 are held: 215 / 33 = 6.5.
    #[test]
    fn a_rod_gives_as_many_as_fit() {
        let made = plan_of(&rod(&[30.0], 230.0));
        assert_eq!((made.sets, made.pieces.len()), (5, 6), "the last one is the spare");
        let none = plan_of(&RodRequest { spares: 0, ..rod(&[30.0], 230.0) });
        assert_eq!((none.sets, none.pieces.len()), (6, 6));
        assert!((made.left_over.as_mm() - 17.0).abs() < 1e-9);
        assert!((made.short_of_a_set.as_mm() - 16.0).abs() < 1e-9);
        let second = made.pieces[1];
        assert_eq!((second.from, second.to), (Length::mm(33.0), Length::mm(64.0)));
    }

    /// A spare is no set: where sets are counted, one comes out behind them.
    #[test]
    fn spares_stand_behind_the_sets_that_are_asked_for() {
        let made = plan_of(&RodRequest { sets: Some(2), ..rod(&[30.0, 20.0], 230.0) });
        let order: Vec<_> = made.pieces.iter().map(|p| (p.design, p.set)).collect();
        let pairs = [(0, Some(1)), (1, Some(1)), (0, Some(2)), (1, Some(2)), (0, None)];
        assert_eq!(order, pairs);
    }

    /// Two short spares are more than a long one; of two, the first is long if both then fit.
    #[test]
    fn most_spares_come_before_long_ones() {
        let two = |length| RodRequest { sets: Some(1), spares: 2, ..rod(&[40.0, 20.0], length) };
        let of_spares = |length| -> Vec<usize> {
            plan_of(&two(length)).spares().map(|piece| piece.design).collect()
        };
        // A set takes 43 + 23 + 15 = 81.
        assert_eq!(of_spares(81.0 + 46.0), [1, 1]);
        assert_eq!(of_spares(81.0 + 66.0), [0, 1]);
        assert_eq!(of_spares(81.0 + 86.0), [0, 0]);
        assert_eq!(of_spares(81.0 + 43.0), [0]);
        assert_eq!(of_spares(81.0 + 22.9), Vec::<usize>::new());
    }

    #[test]
    fn a_rod_that_is_not_held_is_cut_up_to_its_end() {
        let free = |length| {
            let rod = rod(&[30.0], length);
            plan_of(&RodRequest { holding: Length::ZERO, spares: 0, ..rod })
        };
        let full = free(2.0 * 31.0 + 2.0);
        assert_eq!((full.sets, full.left_over, full.ends_uncut()), (2, Length::ZERO, true));
        let over = free(2.0 * 31.0 + 3.5);
        assert_eq!((over.sets, over.left_over, over.ends_uncut()), (2, Length::mm(1.5), true));
        let cut = free(2.0 * 31.0 + 5.0);
        assert_eq!((cut.sets, cut.left_over, cut.ends_uncut()), (2, Length::mm(1.0), false));
    }

    /// 0.1 + 0.2 is more than 0.3 in binary.
    #[test]
    fn a_full_rod_is_full_whatever_the_last_bits_say() {
        let tenths = RodRequest {
            squaring: Length::mm(0.1),
            holding: Length::mm(0.3),
            kerf: Length::mm(0.1),
            ..rod(&[0.1], 0.4 * 7.0 + 0.3)
        };
        assert_eq!(plan_of(&tenths).pieces.len(), 7);
    }
}
