//! A thread's form with crest, flanks and root moved along their normals.
//!
//! ```text
//!        ____                  of a ridge that is 2 h wide at a depth, a flank that is moved by a
//!       /    \  ^ crest        leaves 2 (h - s), where s = a sqrt(1 + m^2 + (k / r)^2): m is the
//!      / /  \ \                flank's slope dz / dr, k the climb per radian, r the radius
//!   __/_/    \_\__  root
//!       ->| |<- s
//! ```

use std::f64::consts::TAU;

use crate::quantity::Length;
use crate::section::{Flank, FlankPoint, LEAST_STEP, ThreadForm};

/// How far the surfaces of a thread go into the material, along their normals, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Moves {
    pub crest: f64,
    pub flank: f64,
    pub root: f64,
}

/// A form that was moved.
pub(super) struct Made {
    pub form: ThreadForm,
    /// The crest's diameter if its flat had been wide enough, exactly the form's where it was.
    pub wanted_crest: Length,
    /// The same of the root.
    pub wanted_root: Length,
}

impl Made {
    /// Whether there is still a ridge beside a groove.
    pub fn is_thread(&self) -> bool {
        let form = &self.form;
        form.depth() >= LEAST_STEP && !form.flank_runs().is_empty()
    }
}

/// A corner of the flank: depth below the pitch line, half the ridge's width.
type Corner = [f64; 2];

/// Moves a form.
pub(super) fn moved_form(form: &ThreadForm, moves: Moves) -> Made {
    let sign = if form.crest > form.root { 1.0 } else { -1.0 };
    // Depths grow from crest to root, as radii do on an internal thread.
    let depth_of = |d: Length| (form.pitch_diameter - d).as_mm() / 2.0 * sign;
    let at_depth = |depth: f64| form.pitch_diameter - Length::mm(depth * 2.0 * sign);
    let quarter = form.pitch.as_mm() / 4.0;
    let old: Vec<Corner> = match &form.flank {
        Flank::Straight => {
            let slope = libm::tan(form.half_angle.as_rad());
            [form.crest, form.root].map(depth_of).map(|d| [d, quarter + slope * d]).to_vec()
        }
        Flank::Points(points) => {
            points.iter().map(|p| [p.depth.as_mm(), p.ridge.as_mm() / 2.0]).collect()
        }
    };
    let climb = form.lead().as_mm() / TAU;
    let radius = |depth: f64| at_depth(depth).as_mm() / 2.0;
    let new = shifted(&old, |a, b| {
        let slope = (b[1] - a[1]) / (b[0] - a[0]);
        let helix = climb / radius(f64::midpoint(a[0], b[0]));
        moves.flank * (1.0 + slope * slope + helix * helix).sqrt()
    });
    // Crest and root lie this much deeper, unless the flanks meet before.
    let wanted = [depth_of(form.crest) + moves.crest, depth_of(form.root) + moves.root];
    let edges = [depth_at(&new, 0.0), depth_at(&new, 2.0 * quarter)];
    // A flat narrower than the least step is an edge.
    let least = LEAST_STEP.as_mm() / 2.0;
    let narrow = [depth_at(&new, least), depth_at(&new, 2.0 * quarter - least)];
    let eaten = [wanted[0] < narrow[0], wanted[1] > narrow[1]];
    let crest = if eaten[0] { edges[0].min(wanted[1]) } else { wanted[0] };
    let root = if eaten[1] { edges[1].max(crest) } else { wanted[1] };
    let line = depth_at(&new, quarter);
    let flank = match &form.flank {
        Flank::Straight => Flank::Straight,
        Flank::Points(_) => Flank::Points(
            new.iter()
                .map(|c| FlankPoint {
                    depth: Length::mm(c[0] - line),
                    ridge: Length::mm(c[1] * 2.0),
                })
                .collect(),
        ),
    };
    // Rounded convex corners grow sharper as material goes, hollow ones rounder.
    let rounded = |radius: Length, by: f64| {
        if radius > Length::ZERO { (radius + Length::mm(by)).max(Length::ZERO) } else { radius }
    };
    let sharp = |eaten: bool, radius| if eaten { Length::ZERO } else { radius };
    let form = ThreadForm {
        flank,
        crest: at_depth(crest),
        pitch_diameter: at_depth(line),
        root: at_depth(root),
        crest_radius: sharp(eaten[0], rounded(form.crest_radius, -moves.flank)),
        root_radius: sharp(eaten[1], rounded(form.root_radius, moves.flank)),
        ..form.clone()
    };
    // Beside a crest or root that goes another way than the flank, a rounding may not fit.
    let [crest_fits, root_fits] = form.radius_that_fits();
    let form = ThreadForm {
        crest_radius: form.crest_radius.min(crest_fits),
        root_radius: form.root_radius.min(root_fits),
        ..form
    };
    let or = |eaten: bool, wanted: f64, own: Length| if eaten { at_depth(wanted) } else { own };
    let wanted_crest = or(eaten[0], wanted[0], form.crest);
    let wanted_root = or(eaten[1], wanted[1], form.root);
    Made { form, wanted_crest, wanted_root }
}

/// The flank's corners when each piece is moved by its own amount along the axis: neighbouring
/// pieces meet where their lines cross.
fn shifted(corners: &[Corner], by: impl Fn(Corner, Corner) -> f64) -> Vec<Corner> {
    let pieces: Vec<[Corner; 2]> = corners
        .windows(2)
        .map(|w| {
            let narrower = by(w[0], w[1]);
            [w[0], w[1]].map(|c| [c[0], c[1] - narrower])
        })
        .collect();
    let slope = |[a, b]: [Corner; 2]| (b[1] - a[1]) / (b[0] - a[0]);
    let mut new = Vec::with_capacity(corners.len());
    new.extend(pieces.first().map(|piece| piece[0]));
    for pair in pieces.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let bend = slope(a) - slope(b);
        let gap = b[0][1] - a[1][1];
        let corner = if bend.abs() < f64::EPSILON { 0.0 } else { gap / bend };
        let depth = a[1][0] + corner;
        new.push([depth, a[1][1] + slope(a) * corner]);
    }
    new.extend(pieces.last().map(|piece| piece[1]));
    new
}

/// The depth at which the ridge has a half width, on the first and last piece's lines beyond their
/// ends; no number where it never has.
fn depth_at(corners: &[Corner], half: f64) -> f64 {
    let crossing =
        |w: &[Corner]| w[0][0] + (half - w[0][1]) / (w[1][1] - w[0][1]) * (w[1][0] - w[0][0]);
    let last = corners.len() - 2;
    let pieces = corners.windows(2).enumerate();
    let within = pieces.clone().find(|(n, w)| {
        (w[0][1]..=w[1][1]).contains(&half) && w[1][1] > w[0][1]
            || (*n == 0 && half < w[0][1])
            || (*n == last && half > w[1][1])
    });
    within.map_or(f64::NAN, |(_, w)| crossing(w))
}
