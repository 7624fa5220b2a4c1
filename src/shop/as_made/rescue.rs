//! What can save a section that came out otherwise: one change of what is still to be cut, measured
//! again before it is advised.

use super::measured::{Measured, moved};
use super::step::{from_front, maker};
use super::to_come;
use crate::check::{Change, Verdict};
use crate::quantity::Length;
use crate::scene::{Examination, Scene};
use crate::section::{Cut, LEAST_STEP, Section, Stage};
use crate::size::SizeId;

/// Most that are offered. More, and nobody reads the last.
const MOST: usize = 3;

/// Steps per millimetre by which the front face is taken back, coarse first: 0.05 mm, and where
/// that finds nothing 0.01, which a caliper shows. Coarser costs length, finer can't be followed.
const STEPS_PER_MM: [u32; 2] = [20, 100];

/// The front face is taken back by no more than this, in millimetres: farther, and the grip is
/// another one.
const FARTHEST: u32 = 2;

/// What is to be done otherwise than drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Remedy {
    /// A size that is still to be cut.
    Change(Change),
    /// The front face is taken back once more: all that was cut from it is then less deep, and the
    /// grip shorter.
    FaceBack {
        /// By so much.
        off: Length,
    },
}

impl Remedy {
    /// How much is changed, in millimetres.
    pub fn size(&self) -> f64 {
        match self {
            Self::Change(change) => (change.to - change.from).abs(),
            Self::FaceBack { off } => off.as_mm(),
        }
    }

    /// Which of two to take first, the lower, as [`SizeId::rank`].
    fn rank(&self) -> u8 {
        match self {
            Self::Change(change) => change.parameter.rank(),
            Self::FaceBack { .. } => SizeId::GripLength.rank(),
        }
    }
}

/// A way out: no verdict is worse than as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Rescue {
    /// What is changed.
    pub remedy: Remedy,
    /// The section as it is to be then.
    pub section: Section,
    /// What was measured on it.
    pub examination: Examination,
    /// What is to be cut still, with the change.
    pub remaining: Vec<Cut>,
}

/// What saves a section as made, the smallest change first; of those within 0.05 mm of each other
/// hidden sizes before those that the hand feels.
pub(super) fn rescues(
    scene: &Scene,
    before: &Examination,
    made: &Section,
    done: &[Stage],
) -> Vec<Rescue> {
    let drawn = scene.section();
    let free: Vec<SizeId> =
        SizeId::of(made).into_iter().filter(|size| is_free(*size, drawn, made, done)).collect();
    let mut found = Vec::new();
    for change in scene.savings(made, &free) {
        let Some(section) = change.parameter.set(made, change.to) else { continue };
        // No rod grows: a section is no longer than what was squared leaves.
        if to_come::over(drawn, &section, done) < -LEAST_STEP
            && change.parameter == SizeId::GripLength
        {
            continue;
        }
        found.extend(accepted(Remedy::Change(change), section, (scene, before), done));
    }
    found.extend(face_back((scene, before), made, done));
    let steps = |rescue: &Rescue| (rescue.remedy.size() * f64::from(STEPS_PER_MM[0]) - 1e-6).ceil();
    found.sort_by(|a, b| {
        let rank = a.remedy.rank().cmp(&b.remedy.rank());
        steps(a).total_cmp(&steps(b)).then(rank)
    });
    found.truncate(MOST);
    found
}

/// Whether a size is the section's own and still to be cut. The rod's length between its faces is
/// none: it was squared before anything else.
fn is_free(size: SizeId, drawn: &Section, made: &Section, done: &[Stage]) -> bool {
    let step = maker(size, drawn).or_else(|| maker(size, made));
    size.is_sections()
        && size != SizeId::TenonLength
        && step.is_some_and(|step| !done.contains(&step))
}

/// A changed section, if it is as good as drawn.
fn accepted(
    remedy: Remedy,
    section: Section,
    (scene, before): (&Scene, &Examination),
    done: &[Stage],
) -> Option<Rescue> {
    let Measured::Verdicts(examination) = Measured::of(scene, &section) else { return None };
    if !moved(before, &examination, Verdict::gt).is_empty() {
        return None;
    }
    let mut remaining = to_come::to_come(scene.section(), &section, done);
    // Where no front was faced yet, what is too long comes off with the facing that is to come.
    if let (Remedy::FaceBack { off }, true) = (remedy, done.contains(&Stage::Faced)) {
        remaining.insert(0, Cut::Face { off });
    }
    Some(Rescue { remedy, section, examination, remaining })
}

/// The least by which the front face can be taken back so that it helps. It can be while the
/// outside is not turned, once depths were cut from it.
fn face_back(before: (&Scene, &Examination), made: &Section, done: &[Stage]) -> Option<Rescue> {
    let cut: Vec<SizeId> = SizeId::of(made)
        .into_iter()
        .filter(|size| {
            let step = maker(*size, before.0.section());
            from_front(*size, made) && step.is_some_and(|step| done.contains(&step))
        })
        .collect();
    if cut.is_empty() || done.contains(&Stage::OutsideTurned) {
        return None;
    }
    STEPS_PER_MM.into_iter().find_map(|steps_per_mm| {
        (1..=FARTHEST * steps_per_mm).find_map(|step| {
            let off = Length::mm(f64::from(step) / f64::from(steps_per_mm));
            let section = faced_back(made, &cut, off)?;
            accepted(Remedy::FaceBack { off }, section, before, done)
        })
    })
}

/// A section whose front face was taken back after some of its depths were cut from it.
pub(super) fn faced_back(made: &Section, cut: &[SizeId], off: Length) -> Option<Section> {
    let by = off.as_mm();
    let less = |section: &Section, size: &SizeId| -> Option<Section> {
        let to = size.get(section)? - by;
        if to > 0.0 { size.set(section, to) } else { None }
    };
    let shorter = less(made, &SizeId::GripLength)?;
    let section = cut.iter().try_fold(shorter, |section, size| less(&section, size))?;
    // The rod is as it was sawn.
    Some(Section { blank: made.blank, ..section })
}
