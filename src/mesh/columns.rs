//! A face, cut by the fan: the pieces that lie in one column each.

use super::boundary::{Corner, Step};

/// Sorts steps by their columns, those of one column in the order given: the columns lie close
/// together, so each has a place in a table.
pub(super) fn by_column(steps: &[Step]) -> Vec<Step> {
    let columns = || steps.iter().map(|step| step.column);
    let Some(first) = columns().min() else { return Vec::new() };
    let last = columns().max().unwrap_or(first);
    let mut places = vec![0_u32; (last - first) as usize + 2];
    columns().for_each(|column| places[(column - first) as usize + 1] += 1);
    for n in 1..places.len() {
        places[n] += places[n - 1];
    }
    let mut sorted = vec![steps[0]; steps.len()];
    for step in steps {
        let place = &mut places[(step.column - first) as usize];
        sorted[*place as usize] = *step;
        *place += 1;
    }
    sorted
}

/// Finds the pieces of a face column by column, in storage that is used again.
#[derive(Default)]
pub(super) struct Pieces {
    used: Vec<bool>,
    piece: Vec<Corner>,
}

impl Pieces {
    /// Joins the steps of one column into the pieces of the face there, each a closed polygon.
    ///
    /// A step that ends inside the column is followed by the step that begins there. One that ends
    /// on the column's right side has the face above it: the piece goes up that side to the next
    /// step that begins on it; on the left side it goes down.
    pub fn each(&mut self, steps: &[Step], mut found: impl FnMut(&[Corner])) {
        self.used.clear();
        self.used.resize(steps.len(), false);
        for first in 0..steps.len() {
            if self.used[first] {
                continue;
            }
            self.piece.clear();
            let mut here = first;
            while !self.used[here] {
                self.used[here] = true;
                push(&mut self.piece, steps[here].from);
                push(&mut self.piece, steps[here].to);
                let next = follower(steps, &self.used, first, &steps[here]);
                let Some(next) = next else { break };
                here = next;
            }
            if self.piece.len() > 1 && self.piece[0].index == self.piece[self.piece.len() - 1].index
            {
                self.piece.pop();
            }
            if self.piece.len() > 2 {
                found(&self.piece);
            }
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
