//! By which means a thread is opened.

use crate::check::{Advice, Change, Finding};
use crate::quantity::Length;
use crate::section::{Section, Thread};
use crate::size::SizeId;
use crate::standard::iso965::{Position, fundamental_deviation};

/// Names the means of every advised change that needs one.
pub(super) fn name(section: &Section, findings: &mut [Finding]) {
    for judgement in findings.iter_mut().filter_map(|finding| finding.judgement.as_mut()) {
        if let Some(Advice::Change(change)) = &judgement.advice {
            judgement.means = of(section, change);
        }
    }
}

/// The means of one change; none where any tool for its size will do.
fn of(section: &Section, change: &Change) -> Option<String> {
    let thread = match change.parameter {
        SizeId::UnitThreadSize => &section.unit_thread,
        SizeId::BarrelThreadSize => &section.barrel.thread,
        _ => return None,
    };
    let by = Length::mm(change.to - change.from);
    if by <= Length::ZERO {
        return Some(format!("a tap {:.2} mm smaller, or a single-point tool", by.abs().as_mm()));
    }
    Some(wider(thread, by))
}

/// A tap of the next class where that is enough (position G lies over H by its fundamental
/// deviation, ISO 965-1:1998 clause 13), else a sizing tap.
fn wider(thread: &Thread, by: Length) -> String {
    let next = fundamental_deviation(Position::InternalG, thread.form.pitch).ok();
    let sizing = format!("a sizing tap {:.2} mm over, or a single-point tool", by.as_mm());
    match next {
        Some(opens) if opens >= by => {
            format!("a tap of class 6G opens it by {:.3} mm", opens.as_mm())
        }
        Some(opens) => {
            format!("{sizing}; a tap of class 6G opens it by {:.3} mm only", opens.as_mm())
        }
        None => sizing,
    }
}
