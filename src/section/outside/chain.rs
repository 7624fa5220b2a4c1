//! The grip drawn: its runs bent, its corners cut, its rings laid over, or what prevents it.

use super::plane::Vector;
use super::stroke::Stroke;
use super::{Corner, Curve, Grip, OutsideError, StepFault, arc, corner, ring};
use crate::quantity::Length;
use crate::section::{COINCIDENT, Facet, Feature, Item, LEAST_STEP, Run, Skin, Station};

/// A stroke of the grip on its way to a run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub feature: Feature,
    pub skin: Skin,
    pub stroke: Stroke,
    /// The run of the grip that it stands for, counted from 0.
    pub run: Option<usize>,
    /// Its curve is settled.
    pub bent: bool,
    /// Its curve can't be made: what depends on it is left out.
    pub spoilt: bool,
}

impl Piece {
    fn new(feature: Feature, skin: Skin, from: Station, to: Station, run: Option<usize>) -> Self {
        let stroke = Stroke::straight(Vector::of(from), Vector::of(to));
        Self { feature, skin, stroke, run, bent: false, spoilt: false }
    }

    /// Takes a bulge, or notes why it can't.
    pub(super) fn bend(&mut self, bulge: Result<f64, OutsideError>, to: &mut Vec<OutsideError>) {
        self.bent = true;
        match bulge {
            Ok(bulge) => self.stroke.bulge = bulge,
            Err(fault) => {
                self.spoilt = true;
                to.push(fault);
            }
        }
    }
}

/// The grip between the bore's mouth and the tenon.
#[derive(Clone, Debug)]
pub(in crate::section) struct GripChain {
    /// The front face from the bore's mouth to the first run, with its corner.
    pub face: Vec<Run>,
    /// From there to the foot of the shoulder.
    pub runs: Vec<Run>,
    /// What prevents it; where there is anything the runs stand in for better ones.
    pub faults: Vec<OutsideError>,
}

/// Draws a grip from the bore's mouth to the foot of the shoulder.
pub(in crate::section) fn draw(grip: &Grip, mouth: Length, foot: Length) -> GripChain {
    let mut faults = Vec::new();
    order(grip, &mut faults);
    let mut pieces = pieces(grip, mouth, foot);
    if faults.is_empty() {
        arc::bend(grip, &mut pieces, &mut faults);
        thread_ends(grip, &pieces, &mut faults);
        let cuts = corners(grip, &mut pieces, &mut faults);
        pieces = interleaved(pieces, cuts);
        rings(grip, &mut pieces, &mut faults);
    }
    let drawn = pieces.iter().filter(|piece| piece.stroke.from != piece.stroke.to);
    let runs = drawn.map(|piece| Run {
        feature: piece.feature,
        skin: piece.skin,
        from: piece.stroke.from.station(),
        to: piece.stroke.to.station(),
        shape: piece.stroke.shape(),
    });
    let (face, runs) = runs.partition(|run| run.skin == Skin::End);
    GripChain { face, runs, faults }
}

/// Runs go from the front to the back; a step has neighbours to stand between.
fn order(grip: &Grip, faults: &mut Vec<OutsideError>) {
    let mut step_before = false;
    for (run, here) in grip.runs.iter().enumerate() {
        let (from, to) = (grip.start(run), here.to);
        let is_step = (to.z - from.z).abs() <= COINCIDENT;
        let wide = (to.diameter - from.diameter).abs() >= LEAST_STEP;
        if (!is_step && to.z - from.z < LEAST_STEP) || (is_step && !wide) {
            faults.push(OutsideError::RunsOverlap { run, from: from.z, to: to.z });
        }
        let fault = match here.curve {
            _ if run == 0 => StepFault::InFrontFace,
            _ if run + 1 == grip.runs.len() => StepFault::InShoulder,
            _ if step_before => StepFault::BehindStep,
            Curve::Straight => StepFault::None,
            _ => StepFault::Curved,
        };
        if is_step && wide && fault != StepFault::None {
            faults.push(OutsideError::StepAlone { run, fault, to });
        }
        step_before = is_step;
    }
}

/// Front face, runs and shoulder as straight strokes; a run that carries a thread is as wide as
/// its crest, with a step where the run beside it stays wider.
fn pieces(grip: &Grip, mouth: Length, foot: Length) -> Vec<Piece> {
    let side = |n: usize| Feature::new(Item::Grip(name(n)), Facet::Side);
    let carried = grip.thread.as_ref().map(|cap| (cap.run, cap.thread.form.crest));
    let crest = |n: usize| carried.filter(|(run, _)| *run == n).map(|(_, crest)| crest);
    let mut at = Station::new(crest(0).unwrap_or(grip.front), Length::ZERO);
    let face = Feature::new(Item::FrontFace, Facet::Side);
    let centre = Station::new(mouth, Length::ZERO);
    let mut pieces = vec![Piece::new(face, Skin::End, centre, at, None)];
    for (n, run) in grip.runs.iter().enumerate() {
        let from = grip.start(n);
        let is_step = run.to.z - from.z <= COINCIDENT;
        let mut to = run.to;
        if let Some(crest) = crest(n) {
            to.diameter = crest;
            // The run before stays as it is where it does not rise to the thread.
            let start = Station::new(crest, at.z);
            if at != start {
                let floor = Feature::new(Item::Grip(name(n)), Facet::Floor);
                pieces.push(Piece::new(floor, Skin::Outside, at, start, None));
                at = start;
            }
        } else if let Some(crest) = crest(n + 1)
            && run.curve == Curve::Straight
            && (is_step || from.diameter < to.diameter)
        {
            to.diameter = crest;
        }
        let behind = n.checked_sub(1).and_then(crest).is_some();
        let narrows = run.curve == Curve::Straight && (is_step || to.diameter < from.diameter);
        if behind && !narrows && at.diameter != from.diameter {
            let start = Station::new(from.diameter, at.z);
            let floor = Feature::new(Item::Grip(name(n - 1)), Facet::Floor);
            pieces.push(Piece::new(floor, Skin::Outside, at, start, None));
            at = start;
        }
        pieces.push(Piece::new(side(n), Skin::Outside, at, to, Some(n)));
        at = to;
    }
    let shoulder = Feature::new(Item::Shoulder, Facet::Side);
    let end = Station::new(foot, at.z);
    pieces.push(Piece::new(shoulder, Skin::Outside, at, end, None));
    pieces
}

/// The number in a run's name.
fn name(run: usize) -> u8 {
    u8::try_from(run + 1).unwrap_or(u8::MAX)
}

/// The chamfer that is proposed for a thread's end: deeper than most cap threads' lead needs;
/// less would leave a sharp first turn, more would take the thread.
const USUAL_LEG: Length = Length::mm(0.4);

/// A thread's run is a cylinder, and its ends are sharp or chamfered outwards: what else would
/// stand in the tool's way.
fn thread_ends(grip: &Grip, pieces: &[Piece], faults: &mut Vec<OutsideError>) {
    let Some(cap) = &grip.thread else { return };
    let Some(own) = grip.runs.get(cap.run) else { return };
    let (before, diameter) = (grip.start(cap.run).diameter, own.to.diameter);
    let curved = own.curve != Curve::Straight;
    if curved || (before - diameter).abs() > COINCIDENT {
        let (run, z) = (cap.run, grip.start(cap.run).z);
        faults.push(OutsideError::ThreadNeedsCylinder { run, curved, diameter, before, z });
        return;
    }
    for at in [cap.run, cap.run + 1] {
        let Some(n) = joint_of(pieces, at) else { continue };
        let (before, after) = (&pieces[n].stroke, &pieces[n + 1].stroke);
        let inner = corner::turn(before, after) > 0.0;
        match corner_at(grip, at) {
            Corner::Sharp => {}
            Corner::Chamfer { .. } if !inner => {}
            _ => {
                let legs = Corner::Chamfer { before: USUAL_LEG, after: USUAL_LEG };
                let fits = |f: f64| corner::cut(before, after, corner::scaled(legs, f)).is_some();
                let leg = USUAL_LEG * corner::greatest_factor(fits);
                faults.push(OutsideError::ThreadCorner { corner: at, inner, leg });
            }
        }
    }
}

/// The corner behind so many runs: 0 is the front face's rim.
fn corner_at(grip: &Grip, corner: usize) -> Corner {
    corner.checked_sub(1).map_or(grip.rim, |run| grip.runs[run].corner)
}

/// The piece at whose end a corner lies.
fn joint_of(pieces: &[Piece], corner: usize) -> Option<usize> {
    let own = |run: usize| pieces.iter().position(|piece| piece.run == Some(run));
    corner.checked_sub(1).map_or(Some(0), own).filter(|n| n + 1 < pieces.len())
}

/// Cuts all corners, from the front to the back; gives what lies between the pieces, each behind
/// the piece of its number.
fn corners(
    grip: &Grip,
    pieces: &mut [Piece],
    faults: &mut Vec<OutsideError>,
) -> Vec<(usize, Piece)> {
    let mut cuts = Vec::new();
    let whole = pieces.to_vec();
    for n in 0..whole.len() - 1 {
        let run = whole[n + 1].run.or(whole[n].run).unwrap_or(0);
        let drawn = [n, n + 1].iter().all(|n| whole[*n].stroke.from != whole[*n].stroke.to);
        let sound = !whole[n].spoilt && !whole[n + 1].spoilt;
        if drawn && sound && corner::folds_back(&whole[n].stroke, &whole[n + 1].stroke) {
            faults.push(OutsideError::RunsFoldBack { run });
            return cuts;
        }
    }
    for at in 0..=grip.runs.len() {
        let asked = corner_at(grip, at);
        let (Some(n), false) = (joint_of(pieces, at), asked == Corner::Sharp) else { continue };
        let (before, after) = (whole[n].stroke, whole[n + 1].stroke);
        // Faces that do not face outwards are other rules' matter.
        let faces = [&before, &after].iter().all(|s| s.chord().length() > 0.0);
        let face_outwards = n > 0 || before.chord().r > 0.0;
        let closes = n + 2 < pieces.len() || after.chord().r < 0.0;
        if whole[n].spoilt || whole[n + 1].spoilt || !faces || !face_outwards || !closes {
            continue;
        }
        if corner::is_smooth(&before, &after) {
            faults.push(OutsideError::NoCorner { corner: at });
            continue;
        }
        let left = pieces[n].stroke;
        let fits_in = |left: &Stroke, factor: f64| {
            let longer = left.chord().length() > 0.0;
            let cut = longer.then(|| corner::cut(left, &after, corner::scaled(asked, factor)));
            cut.flatten()
        };
        if let Some(joint) = fits_in(&left, 1.0) {
            pieces[n].stroke = joint.before;
            pieces[n + 1].stroke = joint.after;
            cuts.push((n, piece_of(&pieces[n], at, asked, joint.cut)));
            continue;
        }
        let factor = corner::greatest_factor(|factor| fits_in(&left, factor).is_some());
        let alone = fits_in(&before, 1.0).is_some();
        faults.push(OutsideError::CornerTooLarge { corner: at, asked, factor, overlaps: alone });
    }
    cuts
}

fn piece_of(before: &Piece, at: usize, corner: Corner, stroke: Stroke) -> Piece {
    let facet = if matches!(corner, Corner::Fillet(_)) { Facet::Fillet } else { Facet::Chamfer };
    let item = at.checked_sub(1).map_or(Item::FrontFace, |run| Item::Grip(name(run)));
    let feature = Feature::new(item, facet);
    Piece { feature, skin: before.skin, stroke, run: None, bent: true, spoilt: false }
}

fn interleaved(pieces: Vec<Piece>, cuts: Vec<(usize, Piece)>) -> Vec<Piece> {
    let mut cuts = cuts.into_iter().peekable();
    let mut all = Vec::new();
    for (n, piece) in pieces.into_iter().enumerate() {
        all.push(piece);
        all.extend(cuts.next_if(|(behind, _)| *behind == n).map(|(_, cut)| cut));
    }
    all
}

/// Lays beads and grooves over what corners left of straight runs.
fn rings(grip: &Grip, pieces: &mut Vec<Piece>, faults: &mut Vec<OutsideError>) {
    let threaded = grip.thread.as_ref().map(|cap| cap.run);
    let carries = |piece: &Piece| {
        let straight = piece.stroke.bulge == 0.0 && piece.stroke.chord().z > 0.0;
        piece.run.is_some() && piece.run != threaded && straight && !piece.spoilt
    };
    for ring in &grip.rings {
        let found = (0..pieces.len()).find_map(|n| {
            let on = carries(&pieces[n]).then(|| ring::rests(ring, &pieces[n].stroke));
            on.flatten().map(|rests| (n, rests))
        });
        let Some((n, [before, behind])) = found else {
            let bases = pieces.iter().filter(|piece| carries(piece)).map(|piece| piece.stroke);
            let works = ring::place_for(ring, bases);
            faults.push(OutsideError::RingOffRun { ring: ring.item, at: ring.at, works });
            continue;
        };
        let base = pieces[n];
        match ring::strokes(ring, &base.stroke) {
            Ok(strokes) => {
                let own = |(feature, stroke)| Piece { feature, stroke, run: None, ..base };
                let mut laid = vec![Piece { stroke: before, ..base }];
                laid.extend(strokes.into_iter().map(own));
                laid.push(Piece { stroke: behind, ..base });
                // The rims are one point each, to the last digit.
                let last = laid.len() - 1;
                laid[1].stroke.from = before.to;
                laid[last - 1].stroke.to = behind.from;
                pieces.splice(n..=n, laid);
            }
            Err(fault) => faults.push(fault),
        }
    }
}
