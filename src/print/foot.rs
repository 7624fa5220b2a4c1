//! A part's foot, cut back where the first layer would spread over its edges.
//!
//! ```text
//!    |        |          |        |
//!    |________|     ->    \______/     45 degrees, as high as the first layer spreads
//! ```

use crate::quantity::Length;
use crate::section::{Facet, Feature, LEAST_STEP, Part, Run, Shape, Skin, Station};

/// A part with its foot cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Foot {
    /// The part.
    pub part: Part,
    /// How far its edges were cut back; less than asked for where the foot is narrow.
    pub cut: Length,
}

/// Chamfers both edges of the plane on which a part stands, that of its least z. An edge that is cut
/// back as far already is left as it is.
///
/// A foot on which less than `least` would stand is cut back by less, as far as leaves so much.
pub fn foot(part: &Part, spread: Length, least: Length) -> Foot {
    let [bottom, _] = part.extent();
    let as_it_is = Foot { part: part.clone(), cut: Length::ZERO };
    let stands = |run: &Run| run.from.z == bottom && run.to.z == bottom;
    let Some(plane) = part.runs.iter().position(stands) else { return as_it_is };
    let [from, to] = [part.runs[plane].from, part.runs[plane].to];
    let on_axis = [from, to].iter().any(|s| s.diameter == Length::ZERO);
    let width = (to.diameter - from.diameter).abs() / 2.0;
    let edges = if on_axis { 1.0 } else { 2.0 };
    let cut = spread.min((width - least) / edges);
    if cut < LEAST_STEP {
        return as_it_is;
    }
    let ahead = chamfered(&part.runs, plane, cut, false);
    let plane = ahead.iter().position(stands).unwrap_or(plane);
    let runs = chamfered(&ahead, plane, cut, true);
    Foot { part: Part { runs, threads: part.threads.clone() }.snapped(), cut }
}

/// The chain with a chamfer between the plane and what follows it (or, `before`, what it follows).
fn chamfered(runs: &[Run], plane: usize, cut: Length, before: bool) -> Vec<Run> {
    // Seen so that the wall follows the plane.
    let count = runs.len();
    let view: Vec<Run> =
        if before { runs.iter().rev().map(|run| run.reversed()).collect() } else { runs.to_vec() };
    let at = if before { count - 1 - plane } else { plane };
    let edge = view[at].to;
    if edge.diameter == Length::ZERO {
        return runs.to_vec();
    }
    let inwards = if view[at].from.diameter < edge.diameter { -1.0 } else { 1.0 };
    let on_plane = Station::new(edge.diameter + cut * 2.0 * inwards, edge.z);
    let top = edge.z + cut;
    // The walls that stand below the top of the chamfer go, the one that passes it is cut there.
    let mut next = (at + 1) % count;
    let mut gone = Vec::new();
    while view[next].to.z <= top && gone.len() + 2 < count {
        gone.push(next);
        next = (next + 1) % count;
    }
    let wall = view[next];
    let straight = wall.shape == Shape::Straight;
    let share = if straight { (top - wall.from.z) / (wall.to.z - wall.from.z) } else { 0.0 };
    let corner = if straight {
        Station::new(wall.from.diameter + (wall.to.diameter - wall.from.diameter) * share, top)
    } else {
        wall.from
    };
    // Cut back as far already: its corner lies within the chamfer's line.
    let reach = (corner.diameter - edge.diameter) * -inwards;
    if reach >= cut * 2.0 - LEAST_STEP || !straight {
        return runs.to_vec();
    }
    let chamfer = Run {
        feature: Feature::new(view[at].feature.item, Facet::Chamfer),
        skin: Skin::End,
        from: on_plane,
        to: corner,
        shape: Shape::Straight,
    };
    let mut new = Vec::with_capacity(count + 1);
    for (n, run) in view.iter().enumerate() {
        if n == at {
            new.push(Run { to: on_plane, ..*run });
            new.push(chamfer);
        } else if n == next {
            new.push(Run { from: corner, ..*run });
        } else if !gone.contains(&n) {
            new.push(*run);
        }
    }
    if before { new.iter().rev().map(|run| run.reversed()).collect() } else { new }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::section::{Item, Pen};

    fn mm(v: f64) -> Length {
        Length::mm(v)
    }

    /// A tube of 8 in 10, its upper edge chamfered; turned over, that edge stands.
    fn tube(chamfer: f64) -> Part {
        let name = |facet| Feature::new(Item::Ring, facet);
        let mut pen = Pen::start(Station::new(mm(8.0), mm(0.0)));
        pen.to(name(Facet::Floor), Skin::End, mm(10.0), mm(0.0));
        pen.to(name(Facet::Side), Skin::Outside, mm(10.0), mm(5.0 - chamfer));
        pen.to(name(Facet::Chamfer), Skin::Outside, mm(10.0 - 2.0 * chamfer), mm(5.0));
        pen.to(name(Facet::Floor), Skin::End, mm(8.0), mm(5.0));
        pen.to(name(Facet::Side), Skin::Bore, mm(8.0), mm(0.0));
        Part { runs: pen.finish(), threads: Vec::new() }
    }

    /// Diameters of what stands on the plate.
    fn stands(part: &Part) -> [f64; 2] {
        let [bottom, _] = part.extent();
        let plane = part.runs.iter().find(|r| r.from.z == bottom && r.to.z == bottom).unwrap();
        let mut ends = [plane.from.diameter, plane.to.diameter].map(Length::as_mm);
        ends.sort_by(f64::total_cmp);
        ends.map(|d| (d * 1e6).round() / 1e6)
    }

    /// By hand: 0.15 off each of both edges.
    #[test]
    fn both_edges_are_cut_back() {
        let foot = foot(&tube(0.0), mm(0.15), mm(0.2));
        assert_eq!((stands(&foot.part), foot.cut), ([8.3, 9.7], mm(0.15)));
        let chamfers = foot.part.runs.iter().filter(|run| run.feature.facet == Facet::Chamfer);
        assert_eq!(chamfers.count(), 2);
        assert!(foot.part.runs.windows(2).all(|w| w[0].to == w[1].from));
    }

    /// An edge that is cut back farther already stays; a foot that is too narrow is cut by less.
    #[test]
    fn no_edge_is_cut_twice_nor_cut_away() {
        let turned = tube(0.3).turned_over();
        assert_eq!(stands(&turned), [8.0, 9.4]);
        assert_eq!(stands(&foot(&turned, mm(0.15), mm(0.2)).part), [8.3, 9.4]);
        let narrow = foot(&tube(0.0), mm(0.6), mm(0.2));
        assert_eq!(stands(&narrow.part), [8.8, 9.2]);
    }
}
