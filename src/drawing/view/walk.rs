//! A part's runs as two walks from the front to the back: the outside, and the bore.

use crate::section::{Part, Run, Skin};

/// The outside with both end faces, from the front mouth of the bore to its back mouth.
pub fn outside(part: &Part) -> Vec<Run> {
    // The part is walked up the outside, over the back face, down the bore, over the front face:
    // what follows the bore comes first here.
    let after = part.runs.iter().rposition(|run| run.skin == Skin::Bore).map_or(0, |n| n + 1);
    let (before, front) = part.runs.split_at(after);
    front.iter().chain(before).filter(|run| run.skin != Skin::Bore).copied().collect()
}

/// The wall of the bore: from the front mouth to the back mouth, or the hole from the front and
/// the hole from the back where they do not meet.
pub fn bores(part: &Part) -> Vec<Vec<Run>> {
    let bore = part.runs.iter().rev().filter(|run| run.skin == Skin::Bore);
    let mut runs: Vec<Run> = bore.map(|run| run.reversed()).collect();
    let gap = |runs: &[Run]| runs.windows(2).position(|pair| pair[0].to != pair[1].from);
    // Of two holes, the one from the back comes first here.
    let Some(first) = gap(&runs) else { return if runs.is_empty() { vec![] } else { vec![runs] } };
    runs.rotate_left(first + 1);
    let back = runs.split_off(runs.len() - (first + 1));
    vec![runs, back]
}
