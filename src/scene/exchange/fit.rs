//! One pen's section in another's barrel and cap.

use std::fmt;

use crate::check::{Finding, GROUPS, Group, Seen, Verdict};
use crate::scene::Scene;
use crate::section::{Cap, Section, SectionError, Thread, faults};
use crate::solid::BuildError;

/// What the checks of barrel and cap find.
#[derive(Clone, Debug, PartialEq)]
pub struct Fit {
    /// The findings that have a limit, in the order of [`crate::check::list`].
    pub findings: Vec<Finding>,
    /// Everything else that was found of the section: its walls, its unit.
    pub own: Vec<Finding>,
    /// Whether a cap was looked at: both pens have one.
    pub cap: bool,
}

/// Why a section can't be looked at in another's barrel and cap: it does not go in at all.
#[derive(Clone, Debug, PartialEq)]
pub enum Unfit {
    /// The thread of the tenon, or that for the cap, is another than the one that it meets.
    Thread {
        /// `barrel` or `cap`.
        of: &'static str,
        /// The section's, as it is written.
        section: String,
        /// The one that it meets.
        meets: String,
    },
    /// One of the two carries the cap's thread on the section, the other on the barrel.
    CapElsewhere,
    /// Together they are no pen.
    Fault(SectionError),
    /// Something can't be built.
    Solid(BuildError),
}

impl fmt::Display for Unfit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Thread { of, section, meets } => {
                write!(f, "its thread is {section}, the {of}'s is {meets}")
            }
            Self::CapElsewhere => f.write_str(
                "the cap of one screws onto the section, that of the other onto the barrel",
            ),
            Self::Fault(fault) => fault.fmt(f),
            Self::Solid(error) => error.fmt(f),
        }
    }
}

impl Fit {
    /// The worst verdict of barrel and cap.
    pub fn verdict(&self) -> Verdict {
        self.findings.iter().filter_map(Finding::verdict).max().unwrap_or(Verdict::Holds)
    }

    /// The findings of a verdict.
    pub fn of(&self, verdict: Verdict) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(move |finding| finding.verdict() == Some(verdict))
    }
}

/// Puts a section, with its unit and its converter, into another's barrel and cap, and measures.
///
/// It is judged by its own limits. A cap that screws onto the barrel stops where it stops on the
/// other: as far from the shoulder. One that screws onto the section stops where the section has
/// its own stop.
///
/// # Errors
/// [`Unfit`], where they don't go together at all.
pub fn fit(section: &Section, other: &Section) -> Result<Fit, Unfit> {
    meets("barrel", &section.tenon.thread, &other.barrel.thread)?;
    let inside = other.cap.as_ref().and_then(Cap::thread);
    match (&section.grip.thread, inside) {
        (Some(own), Some(inside)) => meets("cap", &own.thread, inside)?,
        (None, Some(_)) => return Err(Unfit::CapElsewhere),
        (Some(_), None) if other.cap.is_some() => return Err(Unfit::CapElsewhere),
        _ => {}
    }
    let together = put_into(section, other);
    let sound = faults(section).len();
    let mut wrong = faults(&together);
    if wrong.len() > sound
        && let Some(fault) = wrong.pop()
    {
        return Err(Unfit::Fault(fault));
    }
    let scene = Scene::of(&together).map_err(Unfit::Solid)?;
    let mates = [Seen::Barrel, Seen::Cap, Seen::Converter];
    let knows_mates = |group: &Group| mates.iter().any(|mate| group.sees.contains(mate));
    let mut fit = Fit { findings: Vec::new(), own: Vec::new(), cap: together.cap.is_some() };
    for (group, found) in GROUPS.iter().zip(scene.found) {
        if knows_mates(group) {
            fit.findings.extend(found.into_iter().filter(|finding| finding.judgement.is_some()));
        } else {
            fit.own.extend(found);
        }
    }
    Ok(fit)
}

/// A thread that goes into another turns as that does; whether it is of the right size, the checks
/// measure.
fn meets(of: &'static str, own: &Thread, other: &Thread) -> Result<(), Unfit> {
    let (a, b) = (&own.form, &other.form);
    let alike = a.starts == b.starts
        && a.hand == b.hand
        && own.designation.pitch() == other.designation.pitch()
        && own.designation.system() == other.designation.system();
    let words = |thread: &Thread| thread.designation.to_string();
    let apart = || Unfit::Thread { of, section: words(own), meets: words(other) };
    if alike { Ok(()) } else { Err(apart()) }
}

fn put_into(section: &Section, other: &Section) -> Section {
    let (shoulder, theirs) = (section.grip.length(), other.grip.length());
    let own_stop = section.grip.thread.as_ref().and(section.cap.as_ref()).map(|cap| cap.stops_at);
    let stop = |cap: &Cap| own_stop.unwrap_or(shoulder + (cap.stops_at - theirs));
    let cap = other.cap.as_ref().map(|cap| Cap { stops_at: stop(cap), ..cap.clone() });
    Section { barrel: other.barrel.clone(), cap, ..section.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::{Library, load};
    use crate::scene::verdicts;
    use crate::size::SizeId;

    fn section(path: &str) -> Section {
        load(&Library::default(), path).unwrap().section
    }

    /// A section in its own barrel and cap is what it is by itself.
    #[test]
    fn in_its_own_nothing_is_otherwise() {
        for path in ["demo", "tests/fixtures/capped.toml", "tests/fixtures/outside.toml"] {
            let own = section(path);
            let fit = fit(&own, &own).unwrap();
            let alone = verdicts(&own).unwrap();
            for finding in fit.findings.iter().chain(&fit.own) {
                assert_eq!(Some(finding), alone.finding(finding.code), "{path}");
            }
            assert!(fit.findings.len() > 5 && fit.own.len() > 10);
            assert_eq!(fit.cap, own.cap.is_some());
        }
    }

    #[test]
    fn another_thread_does_not_go_in() {
        let (demo, capped) = (section("demo"), section("tests/fixtures/capped.toml"));
        assert_eq!(fit(&demo, &capped).unwrap_err(), Unfit::CapElsewhere);
        assert_eq!(fit(&capped, &demo).unwrap_err(), Unfit::CapElsewhere);
        let mut coarse = demo.clone();
        coarse.barrel.thread.designation = "M10x1-6H".parse().unwrap();
        let words = fit(&demo, &coarse).unwrap_err().to_string();
        assert_eq!(words, "its thread is M10x0.75-6g, the barrel's is M10x1-6H");
    }

    /// A cap that screws onto the barrel keeps its distance from the shoulder.
    #[test]
    fn a_longer_grip_reaches_farther_into_the_cap() {
        let demo = section("demo");
        let long = SizeId::GripLength.set(&demo, 23.0).unwrap();
        let room =
            |fit: &Fit| fit.findings.iter().find(|it| it.code == "clear.nib").unwrap().measured;
        let (short, long) = (fit(&demo, &demo).unwrap(), fit(&long, &demo).unwrap());
        assert!((room(&short) - room(&long) - 1.0).abs() < 1e-9);
    }
}
