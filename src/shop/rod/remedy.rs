//! What would make a rod do: each planned before it is said.

use super::fault::RodError;
use super::lay::{RodPlan, lay};
use super::request::RodRequest;
use crate::quantity::Length;

/// The narrowest cut that is advised, in mm: that of a fine hand saw (common practice, no source).
/// Narrower ones are of wire saws, which nobody has at hand.
const FINEST_CUT: f64 = 0.4;

/// A step of what is advised, in mm. Finer, and nobody can hold it; coarser, and advice is missed.
const STEP: f64 = 0.1;

/// A rod that is too short for the sets that are asked for; `fit` of them fit.
pub(super) fn too_short(request: &RodRequest, sets: usize, fit: usize) -> RodError {
    let pieces = request.set().repeat(sets);
    let gives = |changed: &RodRequest| lay(changed).sets >= sets;
    let mut works = thrift(request, &pieces, gives);
    let taken = request.taken(&pieces);
    let length = Length::mm(((taken.as_mm() / STEP) - 1e-6).ceil() * STEP);
    if gives(&RodRequest { length, ..request.clone() }) {
        works.push(format!("a rod of {length}"));
    }
    let alone = |design: &usize| !request.holds(&[*design]);
    let all = 0..request.designs.len();
    let alone: Vec<usize> = all.filter(alone).collect();
    works.extend(several(request, &pieces));
    if fit > 0 {
        works.push(format!("--sets {fit}"));
    }
    let longest =
        request.designs.iter().max_by(|a, b| a.squared.as_mm().total_cmp(&b.squared.as_mm()));
    let longest = longest.map(|wanted| wanted.name.clone()).unwrap_or_default();
    let alone = alone.into_iter().map(|design| request.designs[design].name.clone()).collect();
    RodError::TooShort { sets, missing: up(taken - request.length), longest, alone, works }
}

/// What would give the spares that are missing from a plan.
pub(super) fn for_spares(request: &RodRequest, laid: &RodPlan) -> Vec<String> {
    let (asked, found) = (request.spares as usize, laid.spares().count());
    let lengths = |design: &usize| request.piece(*design).as_mm();
    let all = 0..request.designs.len();
    let shortest = all.min_by(|a, b| lengths(a).total_cmp(&lengths(b)));
    let Some(shortest) = shortest.filter(|_| found < asked) else { return Vec::new() };
    let mut pieces = request.set().repeat(laid.sets);
    pieces.extend(vec![shortest; asked]);
    let gives = |changed: &RodRequest, sets: usize| {
        let laid = lay(changed);
        laid.sets >= sets && laid.spares().count() >= asked
    };
    let mut works = thrift(request, &pieces, |changed| gives(changed, laid.sets));
    if laid.sets > 1 {
        let sets = laid.sets - 1;
        if gives(&RodRequest { sets: Some(sets as u32), ..request.clone() }, sets) {
            works.push(format!("--sets {sets}"));
        }
    }
    works
}

/// A narrower cut, nothing held, or both where neither is enough: what gives the goal.
fn thrift(
    request: &RodRequest,
    pieces: &[usize],
    gives: impl Fn(&RodRequest) -> bool,
) -> Vec<String> {
    let free = RodRequest { holding: Length::ZERO, ..request.clone() };
    let sawn = "--holding 0 (the pieces sawn by hand)";
    let mut works = Vec::new();
    if let Some(fine) = finer(request, pieces).filter(|fine| gives(fine)) {
        works.push(format!("--kerf {:.1}", fine.kerf.as_mm()));
    }
    if !request.sawn_free() && gives(&free) {
        works.push(sawn.to_owned());
    }
    if works.is_empty()
        && !request.sawn_free()
        && let Some(both) = finer(&free, pieces).filter(|both| gives(both))
    {
        works.push(format!("{sawn} with --kerf {:.1}", both.kerf.as_mm()));
    }
    works
}

/// The same with the widest cut at which pieces fit; none where that is too fine.
fn finer(request: &RodRequest, pieces: &[usize]) -> Option<RodRequest> {
    let uncut = RodRequest { kerf: Length::ZERO, ..request.clone() };
    let one = RodRequest { kerf: Length::mm(1.0), ..request.clone() };
    let cuts = (one.taken(pieces) - uncut.taken(pieces)).as_mm();
    let room = (request.length - uncut.taken(pieces)).as_mm();
    let steps = (room / cuts / STEP + 1e-6).floor();
    let kerf = Length::mm(steps * STEP);
    let is_finer = kerf.as_mm() >= FINEST_CUT && kerf < request.kerf;
    is_finer.then(|| RodRequest { kerf, ..request.clone() })
}

/// How many rods like this hold the pieces, the longest placed first, each into the first rod that
/// still holds it; none where a piece does not fit into any.
fn several(request: &RodRequest, pieces: &[usize]) -> Option<String> {
    let mut by_length = pieces.to_vec();
    by_length.sort_by(|a, b| request.piece(*b).as_mm().total_cmp(&request.piece(*a).as_mm()));
    let mut rods: Vec<Vec<usize>> = Vec::new();
    for design in by_length {
        let with = |rod: &[usize]| [rod, &[design]].concat();
        match rods.iter_mut().find(|rod| request.holds(&with(rod))) {
            Some(rod) => rod.push(design),
            None if request.holds(&[design]) => rods.push(vec![design]),
            None => return None,
        }
    }
    Some(format!("{} rods like this", rods.len()))
}

/// Rounded up to a hundredth: what is said to be missing is enough.
fn up(length: Length) -> Length {
    Length::mm((length.as_mm() * 100.0 - 1e-6).ceil() / 100.0)
}

#[cfg(test)]
mod tests {
    use super::super::plan;
    use super::super::request::tests::rod;
    use super::*;

    fn works(request: &RodRequest) -> Vec<String> {
        match &plan(request).unwrap_err()[..] {
            [RodError::TooShort { works, .. }] => works.clone(),
            other => panic!("{other:?}"),
        }
    }

    /// Worked by hand: 31 + 21 + 2 kerfs of 2 + 15 held are 71; sawn free, 54.
    #[test]
    fn a_short_rod_is_told_what_does() {
        let short = rod(&[30.0, 20.0], 69.2);
        let error = &plan(&short).unwrap_err()[0];
        assert_eq!(error.to_string(), "the rod is 1.8 mm too short for one set");
        // 69.2 - 67 are 2.2 for two cuts.
        let sawn = "--holding 0 (the pieces sawn by hand)";
        assert_eq!(works(&short), ["--kerf 1.1", sawn, "a rod of 71 mm", "2 rods like this"]);
        assert_eq!(works(&rod(&[30.0, 20.0], 60.0))[0], sawn);
        let both = works(&rod(&[30.0, 20.0], 53.0));
        assert_eq!(both[0], format!("{sawn} with --kerf 1.0"));
    }

    #[test]
    fn a_piece_that_is_longer_than_the_rod_is_named() {
        let short = rod(&[60.0, 20.0], 50.0);
        let error = &plan(&short).unwrap_err()[0];
        assert!(error.to_string().ends_with("it does not even give the piece of a"), "{error}");
        assert_eq!(works(&short), ["a rod of 101 mm"]);
    }

    /// 3 sets take 3 x 33 + 15 = 114.
    #[test]
    fn fewer_sets_are_offered_where_some_fit() {
        let three = RodRequest { sets: Some(3), ..rod(&[30.0], 100.0) };
        assert!(works(&three).contains(&"--sets 2".to_owned()), "{:?}", works(&three));
    }

    /// A pair takes 31 + 2 + 21 + 2: two of them and 15 are 127, a spare 23.
    #[test]
    fn a_missing_spare_is_told_what_does() {
        let made = plan(&rod(&[30.0, 20.0], 140.0)).unwrap();
        assert_eq!((made.sets, made.spares().count()), (2, 0));
        let sawn = "--holding 0 (the pieces sawn by hand)".to_owned();
        assert_eq!(made.for_spares, [sawn, "--sets 1".to_owned()]);
        assert_eq!(plan(&rod(&[30.0, 20.0], 150.0)).unwrap().for_spares, Vec::<String>::new());
    }
}
