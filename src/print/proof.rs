//! What a print can tell of a section, and what it can't.
//!
//! The checker is run on the section as the printer makes it: sizes as designed, since the file is
//! compensated, each off by what the printer scatters; crests as low as the compensation leaves
//! them; all on one axis. What then holds or breaks whichever way the sizes come out, the print
//! shows; what is close, it can't tell from the other side.

use std::fmt;

use super::offset::{Amounts, Loss, OffsetError, offset};
use super::specimen::{SpecimenKind, too_fine};
use crate::check::{Verdict, info};
use crate::design::Fault;
use crate::quantity::{Length, Limits};
use crate::scene::{Scene, Score};
use crate::section::{Item, Offsets, Printer, Section, Side, Thread, ThreadLimits};
use crate::solid::BuildError;

/// What a print tells of a check.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tells {
    /// It shows what the design says.
    Shows,
    /// The printer scatters by more than what decides.
    TooNear,
    /// It tells nothing, and why.
    Nothing(&'static str),
}

/// What a print tells of one check.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// The check's code.
    pub code: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// The verdict on the design.
    pub design: Verdict,
    /// The verdict on the section as the printer makes it; none of what is left out of the print.
    pub printed: Option<Verdict>,
    /// What the print tells.
    pub tells: Tells,
    /// Which specimens show it.
    pub by: &'static [SpecimenKind],
}

/// Why nothing can be said of a print.
#[derive(Clone, Debug, PartialEq)]
pub enum ProofError {
    /// The compensation leaves no sound part.
    Offset(OffsetError),
    /// A body that can't be built.
    Build(BuildError),
}

/// The section as a printer makes it: every size as designed, within what the printer scatters.
///
/// # Errors
/// [`OffsetError`] where the compensation leaves no sound part.
pub fn as_printed(section: &Section, printer: &Printer) -> Result<Section, OffsetError> {
    let losses = offset(&section.part(), &Amounts::of(printer))?.losses;
    let mut printed = section.clone();
    let scatter = printer.scatter;
    let about = |size: Length| {
        Limits::new((size - scatter).max(Length::ZERO), size + scatter)
            .unwrap_or(Limits::exactly(size))
    };
    for bore in &mut printed.bores {
        bore.limits = about(bore.diameter);
    }
    lower(&mut printed, &losses);
    let spread = |thread: &mut Thread| {
        let form = &thread.form;
        let (major, minor) = match thread.side {
            Side::External => (form.crest, form.root),
            Side::Internal => (form.root, form.crest),
        };
        thread.limits = ThreadLimits {
            major: about(major),
            pitch: about(form.pitch_diameter),
            minor: about(minor),
        };
    };
    spread(&mut printed.tenon.thread);
    spread(&mut printed.unit_thread);
    if let Some(cap) = &mut printed.grip.thread {
        spread(&mut cap.thread);
    }
    // One print is one holding; nothing springs back from a tap.
    printed.criteria.offsets = Offsets { holding: Length::ZERO, long_hole: Length::ZERO };
    printed.criteria.spring_back.value = Limits::exactly(Length::ZERO);
    // Lengths come in layers; an outside has no limits of its own, and is off by half, per side.
    printed.criteria.band = (printer.layer / 2.0).max(scatter / 2.0);
    Ok(printed)
}

/// Crests that the compensation eats come out lower.
fn lower(printed: &mut Section, losses: &[Loss]) {
    for loss in losses {
        let Loss::Crest { thread, height, .. } = loss else { continue };
        let by = Length::mm(height * 2.0);
        match thread {
            Item::UnitThread => {
                printed.unit_thread.form.crest += by;
                let crest = printed.unit_thread.form.crest;
                for bore in &mut printed.bores {
                    if bore.item == Item::TapDrill {
                        *bore = bore.cutting(crest);
                    }
                }
            }
            Item::TenonThread => printed.tenon.thread.form.crest -= by,
            _ => {}
        }
    }
}

/// What a print of a section tells, check by check, in the order of [`crate::check::list`].
///
/// # Errors
/// [`ProofError`] where the compensation leaves no sound part, or a body can't be built.
pub fn proofs(section: &Section, printer: &Printer) -> Result<Vec<Proof>, ProofError> {
    let printed = as_printed(section, printer).map_err(ProofError::Offset)?;
    let smooth = too_fine(&section.part(), printer);
    let scene = Scene::of(section).map_err(ProofError::Build)?;
    let found = scene.measure(&printed).map_err(ProofError::Build)?;
    let of = |score: Score| {
        let Score { code, verdict, .. } = score;
        let printed = found.get(code).map(|score| score.verdict);
        let nothing = blind(code, &smooth);
        let printed = printed.filter(|_| !smooth_thread(code, &smooth));
        // Whichever way the printer's sizes come out, the design's verdict is what one sees.
        let same = |printed| match printed {
            Verdict::Holds => verdict != Verdict::Breaks,
            Verdict::Close => false,
            Verdict::Breaks => verdict == Verdict::Breaks,
        };
        let tells = match (nothing, printed) {
            (Some(why), _) => Tells::Nothing(why),
            (None, Some(printed)) if same(printed) => Tells::Shows,
            (None, _) => Tells::TooNear,
        };
        let title = info(code).map_or(code, |check| check.title);
        Proof { code, title, design: verdict, printed, tells, by: shown_by(code) }
    };
    Ok(scene.scores().into_iter().map(of).collect())
}

/// Whether a check is of a thread that is left out of the print.
fn smooth_thread(code: &str, smooth: &[Item]) -> bool {
    let threads = [
        ("thread.unit.", Item::UnitThread),
        ("thread.tenon.", Item::TenonThread),
        ("thread.cap.", Item::CapThread),
    ];
    threads.iter().any(|(prefix, item)| code.starts_with(prefix) && smooth.contains(item))
}

/// Why no print tells anything of a check; none where it does.
fn blind(code: &str, smooth: &[Item]) -> Option<&'static str> {
    if smooth_thread(code, smooth) {
        return Some("the thread is finer than the printer shows, and is left out");
    }
    if code.starts_with("wall.") {
        return Some("a print's material says nothing of how thin the section's may be");
    }
    if code.starts_with("made.") {
        return Some("it is the tap's or the die's, and neither is used");
    }
    if code.ends_with(".percent") {
        return Some("depth of thread is cut by a drill, and not felt");
    }
    None
}

/// The specimens that a check is tried with.
fn shown_by(code: &str) -> &'static [SpecimenKind] {
    use SpecimenKind::{CapProbe, Coupon, Ladder, Plug, Ring, Section};
    let table: [(&str, &[SpecimenKind]); 8] = [
        ("thread.unit.", &[Ladder, Coupon, Section]),
        ("thread.tenon.", &[Ring, Plug, Coupon, Section]),
        ("thread.cap.", &[CapProbe, Section]),
        ("clear.seat", &[Coupon, Section]),
        ("clear.unit", &[Coupon, Section]),
        ("clear.collar", &[Coupon, Section]),
        ("clear.cap", &[CapProbe, Section]),
        ("joint.", &[Coupon, Section]),
    ];
    let found = table.into_iter().find(|(prefix, _)| code.starts_with(prefix));
    found.map_or(&[Section], |(_, kinds)| kinds)
}

impl ProofError {
    /// A stable code.
    pub fn code(&self) -> &'static str {
        match self {
            Self::Offset(error) => error.code(),
            Self::Build(error) => error.code(),
        }
    }
}

impl fmt::Display for ProofError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Offset(error) => error.fmt(f),
            Self::Build(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for ProofError {}

impl From<ProofError> for Fault {
    fn from(error: ProofError) -> Self {
        match error {
            ProofError::Offset(cause) => cause.into(),
            ProofError::Build(cause) => cause.into(),
        }
    }
}
