//! A face, cut by the fan: the pieces that lie in one column each.

use super::boundary::{Corner, Step};

/// Joins the steps of one column into the pieces of the face there, each a closed polygon.
///
/// A step that ends inside the column is followed by the step that begins there. One that ends
/// on the column's right side has the face above it: the piece goes up that side to the next step
/// that begins on it; on the left side it goes down.
pub(super) fn pieces(steps: &[Step], out: &mut Vec<Vec<Corner>>) {
    let mut used = vec![false; steps.len()];
    for first in 0..steps.len() {
        if used[first] {
            continue;
        }
        let mut piece: Vec<Corner> = Vec::with_capacity(4);
        let mut here = first;
        while !used[here] {
            used[here] = true;
            push(&mut piece, steps[here].from);
            push(&mut piece, steps[here].to);
            let Some(next) = follower(steps, &used, first, &steps[here]) else { break };
            here = next;
        }
        if piece.len() > 1 && piece[0].index == piece[piece.len() - 1].index {
            piece.pop();
        }
        if piece.len() > 2 {
            out.push(piece);
        }
    }
}

fn push(piece: &mut Vec<Corner>, corner: Corner) {
    if piece.last().is_none_or(|last| last.index != corner.index) {
        piece.push(corner);
    }
}

/// The step that follows another round its piece; `first` may be come back to.
///
/// Where the boundary touches a side and turns back from a face that goes on beyond it, the face
/// has two pieces in the column: the follower is not the step that turns back, but the next one
/// along the side.
fn follower(steps: &[Step], used: &[bool], first: usize, step: &Step) -> Option<usize> {
    let end = step.to;
    let touches = |n: &usize| step.turns_back_at_side(&steps[*n]);
    let open = |n: &usize| (!used[*n] || *n == first) && !touches(n);
    let joined = (0..steps.len()).filter(open).find(|n| steps[*n].from.index == end.index);
    if joined.is_some() {
        return joined;
    }
    let rises = end.x >= 1.0;
    let distance = |n: usize| {
        let v = steps[n].from.v - end.v;
        if rises { v } else { -v }
    };
    (0..steps.len())
        .filter(open)
        .filter(|n| steps[*n].from.x == end.x && distance(*n) >= 0.0)
        .min_by(|a, b| distance(*a).total_cmp(&distance(*b)))
}
