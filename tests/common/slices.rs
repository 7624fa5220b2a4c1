//! Volumes by slices: from a part's outline and its threads' forms alone, by none of the solid's
//! faces, as an independent route.

use std::f64::consts::TAU;

use sectionwright::section::{Flank, Part, Run, RunOut, Shape, Side, Skin, Thread, ThreadForm};
use sectionwright::standard::designation::Hand;

/// Thickness of a slice in millimetres, at most; slices end at every corner.
const SLICE: f64 = 0.012;

/// Angles in each slice.
const ANGLES: usize = 16;

/// What a drawn-out tool leaves whole before the thread's end; as the solid's own `LAND`.
const LAND: f64 = 0.01;

/// The volume by summing half-sections over z and angle.
pub fn volume(part: &Part) -> f64 {
    let grooves: Vec<Groove> = part.threads.iter().map(Groove::new).collect();
    let mut corners: Vec<f64> = part.runs.iter().map(|r| r.from.z.as_mm()).collect();
    corners.extend(part.threads.iter().flat_map(|t| [t.from.as_mm(), t.to.as_mm()]));
    corners.sort_by(f64::total_cmp);
    let (mut sum, mut turn) = (0.0, 0.0_f64);
    for pair in corners.windows(2) {
        let slices = ((pair[1] - pair[0]) / SLICE).ceil().max(1.0);
        let step = (pair[1] - pair[0]) / slices;
        for n in 0..slices as usize {
            let z = pair[0] + (n as f64 + 0.5) * step;
            // Each slice turned by the golden ratio, so that no number of starts repeats.
            turn = (turn + 0.618_033_988_749_895).fract();
            let bare = [Skin::Outside, Skin::Bore].map(|skin| outline(part, skin, z));
            let cut = [Side::External, Side::Internal].map(|side| {
                let reaches = |t: &Thread| t.from.as_mm() < z && z < t.to.as_mm();
                grooves.iter().find(|g| g.thread.side == side && reaches(g.thread))
            });
            for k in 0..ANGLES {
                let theta = (k as f64 + turn) * TAU / ANGLES as f64;
                let outer = cut[0].map_or(bare[0], |g| bare[0].min(g.radius(theta, z)));
                let inner = cut[1].map_or(bare[1], |g| bare[1].max(g.radius(theta, z)));
                sum += (outer * outer - inner * inner) / 2.0 * step;
            }
        }
    }
    sum * TAU / ANGLES as f64
}

/// The radius of one skin's bare outline at z; 0 where it has none.
fn outline(part: &Part, skin: Skin, z: f64) -> f64 {
    let at = |run: &Run| {
        let (a, b) = (run.from, run.to);
        let (za, zb) = (a.z.as_mm(), b.z.as_mm());
        if (z - za) * (z - zb) >= 0.0 {
            return None;
        }
        let straight = a.radius() + (b.radius() - a.radius()) * (z - za) / (zb - za);
        let Shape::Arc { bulge } = run.shape else { return Some(straight) };
        // The circle through both ends with this sagitta, solved for r.
        let (dz, dr) = (zb - za, b.radius() - a.radius());
        let chord = libm::hypot(dz, dr);
        let sagitta = bulge.abs() * chord / 2.0;
        let radius = (chord * chord / 4.0 + sagitta * sagitta) / (2.0 * sagitta);
        // To the right of the walk for a right turn's arc bulging left, and so on.
        let off = (radius - sagitta) * bulge.signum();
        let (cz, cr) = (
            f64::midpoint(za, zb) - dr / chord * off,
            f64::midpoint(a.radius(), b.radius()) + dz / chord * off,
        );
        let up = (radius * radius - (z - cz) * (z - cz)).sqrt();
        // A left turn on the way to greater z hangs below its centre.
        let sign = if (bulge > 0.0) == (dz > 0.0) { -1.0 } else { 1.0 };
        Some(cr + sign * up)
    };
    part.runs.iter().filter(|r| r.skin == skin).find_map(at).unwrap_or(0.0)
}

/// A thread's groove, as the radius that it leaves.
struct Groove<'a> {
    thread: &'a Thread,
    /// For a drawn-out end at `from`, and at `to`: the way over which it is drawn out, and how
    /// far it reaches from the groove's middle.
    drawn: [Option<(f64, f64)>; 2],
    /// Half widths of the ridge against depth below the crest, corners from crest to root.
    corners: Vec<[f64; 2]>,
}

impl<'a> Groove<'a> {
    fn new(thread: &'a Thread) -> Self {
        let mut groove = Self { thread, drawn: [None; 2], corners: corners(&thread.form) };
        groove.drawn = thread.run_outs.map(|run_out| match run_out {
            RunOut::Withdrawal { turns } => {
                let along = thread.form.lead().as_mm() * turns;
                Some((along, groove.reach(along) + LAND))
            }
            _ => None,
        });
        groove
    }

    fn depth(&self) -> f64 {
        self.thread.form.depth().as_mm()
    }

    fn radius(&self, theta: f64, z: f64) -> f64 {
        let (thread, form) = (self.thread, &self.thread.form);
        let pitch = form.pitch.as_mm();
        let climb = form.lead().as_mm() / TAU;
        let rise = theta * if form.hand == Hand::Right { climb } else { -climb };
        let middle = (thread.from + thread.phase).as_mm() + rise;
        let middle = if thread.side == Side::External { middle } else { middle + pitch / 2.0 };
        // Distance from the nearest ridge's middle, 0 to P/2, and the middle of the groove there.
        let ridge = ((z - middle) / pitch).round() * pitch + middle;
        let off = z - ridge;
        let groove = ridge + pitch / 2.0 * off.signum();
        let mut depth = self.rounded(off.abs());
        for (n, (stop, ahead)) in [(thread.from, -1.0), (thread.to, 1.0)].into_iter().enumerate() {
            let before = (stop.as_mm() - z) * ahead;
            match thread.run_outs[n] {
                RunOut::Lead(lead) => depth = depth.min(self.depth() * before / lead.as_mm()),
                RunOut::Wall | RunOut::Withdrawal { .. } => {}
            }
            if let Some((along, reach)) = self.drawn[n] {
                let share = ((groove - stop.as_mm()) * ahead + reach) / along;
                depth -= self.depth() * share.max(0.0);
            }
        }
        let depth = depth.max(0.0);
        let crest = form.crest.as_mm() / 2.0;
        if thread.side == Side::External { crest - depth } else { crest + depth }
    }

    /// How far, from the groove's middle where drawing out begins, any place of a flank reaches
    /// before it is out.
    fn reach(&self, along: f64) -> f64 {
        let form = &self.thread.form;
        let half = form.pitch.as_mm() / 2.0;
        // Over the whole flank, in steps too small to miss its farthest place by a micron.
        let steps = (0..=4000).map(|n| {
            let d = form.crest + (form.root - form.crest) * (f64::from(n) / 4000.0);
            let share = f64::from(n) / 4000.0;
            half - form.ridge_at(d).as_mm() / 2.0 + along * share
        });
        steps.fold(0.0, f64::max)
    }

    /// Depth of the groove at a distance from the ridge's middle; corners rounded by balls that
    /// roll in them.
    fn rounded(&self, off: f64) -> f64 {
        let corners = &self.corners;
        let last = corners.len() - 1;
        let between = corners.windows(2).find(|w| off <= w[1][1]);
        let sharp = match between {
            _ if off <= corners[0][1] => 0.0,
            Some(w) => w[0][0] + (w[1][0] - w[0][0]) * (off - w[0][1]) / (w[1][1] - w[0][1]),
            None => self.depth(),
        };
        let form = &self.thread.form;
        let mut depth = sharp;
        for (radius, a, b, at_root) in [
            (form.crest_radius.as_mm(), corners[0], corners[1], false),
            (form.root_radius.as_mm(), corners[last], corners[last - 1], true),
        ] {
            if radius == 0.0 {
                continue;
            }
            let (down, along) = ((b[0] - a[0]).abs(), (b[1] - a[1]).abs());
            let length = libm::hypot(down, along);
            // The ball's centre lies a radius from the flat, and a radius from the flank.
            let out = if at_root { 1.0 } else { -1.0 };
            let on_line = a[1] - out * radius * along / down;
            let centre = on_line + out * radius * length / down;
            let foot = centre - out * radius * down / length;
            if off < foot.min(centre) || off > foot.max(centre) {
                continue;
            }
            let across = (radius * radius - (off - centre) * (off - centre)).max(0.0).sqrt();
            depth = a[0] + out * (across - radius);
        }
        depth
    }
}

/// The sharp flank's corners: (depth below the crest, half the ridge's width).
fn corners(form: &ThreadForm) -> Vec<[f64; 2]> {
    let (quarter, depth) = (form.pitch.as_mm() / 4.0, form.depth().as_mm());
    let down = (form.pitch_diameter - form.crest).as_mm().abs() / 2.0;
    let line: Vec<[f64; 2]> = match &form.flank {
        Flank::Straight => {
            let slope = form.half_angle.tan();
            vec![[-down, quarter - down * slope], [depth - down, quarter + (depth - down) * slope]]
        }
        Flank::Points(points) => {
            points.iter().map(|p| [p.depth.as_mm(), p.ridge.as_mm() / 2.0]).collect()
        }
    };
    // The first and the last piece go on to crest and root.
    let mut line: Vec<[f64; 2]> = line.iter().map(|p| [p[0] + down, p[1]]).collect();
    let extend =
        |a: [f64; 2], b: [f64; 2], x: f64| [x, a[1] + (b[1] - a[1]) * (x - a[0]) / (b[0] - a[0])];
    let last = line.len() - 1;
    let (first_end, last_end) =
        (extend(line[0], line[1], 0.0), extend(line[last - 1], line[last], depth));
    (line[0], line[last]) = (first_end, last_end);
    line
}
