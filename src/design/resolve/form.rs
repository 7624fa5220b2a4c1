//! A thread's form, run-out and phase as a design changes them.

use super::Making;
use crate::design::reader::Placed;
use crate::design::thread_file::{CutFile, FormFile, RunOutFile};
use crate::diagnostic::Diagnostic;
use crate::quantity::{Angle, Length, Limits};
use crate::section::{Flank, FlankPoint, RunOut, Side, Thread, ThreadForm, ThreadLimits};

/// Which end of a thread its tool leaves: a tenon's die or tool stops at the shoulder, a tap at
/// the bottom of its hole, and the cap's thread begins where the cap comes from.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum ToolEnd {
    From,
    To,
}

/// The thread as its table has it; none where that can't be, which is noted.
///
/// A tap goes on behind where its full thread is wanted by the length of its lead: `to` moves.
pub(super) fn cut(
    mut thread: Thread,
    file: &CutFile,
    end: ToolEnd,
    making: &mut Making,
) -> Option<Thread> {
    if let Some(form) = &file.form {
        let before = thread.form.clone();
        thread.form = changed(before.clone(), thread.side, form, making)?;
        thread.limits = moved(thread.limits, &before, &thread.form)?;
    }
    if let Some(phase) = &file.phase {
        thread.phase = phase.value.0;
    }
    if let Some(run_out) = &file.run_out {
        let left = left(&thread, run_out, making)?;
        thread.run_outs[usize::from(end == ToolEnd::To)] = left;
        if thread.side == Side::Internal {
            thread.to += left.length(thread.form.lead());
        }
    }
    Some(thread)
}

/// An internal thread that was derived from an external one: where that has a flank of its own,
/// the groove that its ridge fills.
pub(super) fn mating(mut thread: Thread, external: &ThreadForm) -> Option<Thread> {
    let before = thread.form.clone();
    thread.form.half_angle = external.half_angle;
    thread.form.pitch_diameter = external.pitch_diameter;
    thread.form.root = before.root.max(external.crest);
    if external.flank != Flank::Straight {
        thread.form.flank = external.flank.mating(external.pitch);
    }
    thread.limits = moved(thread.limits, &before, &thread.form)?;
    Some(thread)
}

fn changed(
    mut form: ThreadForm,
    side: Side,
    file: &FormFile,
    making: &mut Making,
) -> Option<ThreadForm> {
    let faults = making.log.len();
    if let Some(angle) = &file.angle {
        form.half_angle = Angle::deg(angle.value.0 / 2.0);
    }
    if let Some(points) = &file.points {
        let points = &points.value.0;
        form.half_angle = angle_at_pitch_line(points);
        form.flank = Flank::Points(points.clone());
    }
    let outside = side == Side::External;
    let (crest, root) =
        if outside { (&file.major, &file.minor) } else { (&file.minor, &file.major) };
    let set = |to: &mut Length, written: &Option<Placed<_>>| {
        if let Some(written) = written {
            let crate::design::value::Size(size) = written.value;
            *to = size;
        }
    };
    set(&mut form.crest, crest);
    set(&mut form.root, root);
    set(&mut form.pitch_diameter, &file.pitch_diameter);
    flats(&mut form, side, file, making);
    set(&mut form.crest_radius, &file.crest_radius);
    set(&mut form.root_radius, &file.root_radius);
    let [crest_fits, root_fits] = form.radius_that_fits();
    let radii = [("crest", &file.crest_radius, crest_fits), ("root", &file.root_radius, root_fits)];
    for (what, written, fits) in radii {
        let Some(written) = written.as_ref().filter(|r| r.value.0 > fits * (1.0 + FITS)) else {
            continue;
        };
        let down = (fits.as_mm() * 1000.0).floor() / 1000.0;
        making.log.push(
            Diagnostic::error(
                "thread.radius",
                format!("a {what} radius of {} finds no room on the thread", written.value.0),
            )
            .at(written.at())
            .hint(if down > 0.0 {
                format!("a radius of {down} mm fits")
            } else {
                format!("there is no flat at the {what} to be rounded")
            }),
        );
    }
    (making.log.len() == faults).then_some(form)
}

/// A radius greater than the room by this share still is what fits: it is a formula's rounding.
const FITS: f64 = 1e-6;

/// Flats set the diameters that a design does not: with the tool's own diameter (major outside,
/// root of a tap) they give the pitch diameter, and with that the other end of the flank.
fn flats(form: &mut ThreadForm, side: Side, file: &FormFile, making: &mut Making) {
    let outside = side == Side::External;
    let half = form.pitch / 2.0;
    let tangent = form.half_angle.tan();
    let ([crest, root], straight) =
        ([&file.crest_flat, &file.root_flat], form.flank == Flank::Straight);
    for (flat, what) in [(crest, "crest"), (root, "root")] {
        let Some(flat) = flat.as_ref().filter(|f| !straight || f.value.0 >= half) else { continue };
        let reason = if straight {
            format!(
                "a {what} flat of {} leaves no flank on a pitch of {}",
                flat.value.0, form.pitch
            )
        } else {
            format!("the points of the flank give the {what} its flat")
        };
        making.log.push(
            Diagnostic::error("thread.flat", reason)
                .at(flat.at())
                .hint(format!("under {half}, such as {} mm", form.pitch.as_mm() / 8.0)),
        );
        return;
    }
    // From the flank's one end to the pitch line, on the diameter.
    let way = |flat: Length| (half - flat) / tangent;
    let (own, other) = if outside { (crest, root) } else { (root, crest) };
    let towards = |flat: &Placed<crate::design::value::Size>| way(flat.value.0);
    if let Some(flat) = own {
        let from = if outside { form.crest } else { form.root };
        form.pitch_diameter = from - towards(flat);
    }
    if let Some(flat) = other {
        let reached = form.pitch_diameter - towards(flat);
        if outside { form.root = reached } else { form.crest = reached }
    }
}

/// Half the angle of the piece of a free flank that crosses the pitch line.
fn angle_at_pitch_line(points: &[FlankPoint]) -> Angle {
    let last = points.len() - 1;
    let n = points.iter().position(|p| p.depth >= Length::ZERO).unwrap_or(last).clamp(1, last);
    let (a, b) = (points[n - 1], points[n]);
    let slope = (b.ridge - a.ridge) / 2.0 / (b.depth - a.depth);
    Angle::deg(libm::atan(slope).to_degrees())
}

/// Limits, moved with the sizes that they are about.
fn moved(limits: ThreadLimits, before: &ThreadForm, after: &ThreadForm) -> Option<ThreadLimits> {
    let (crest, root) = (after.crest - before.crest, after.root - before.root);
    let pitch = after.pitch_diameter - before.pitch_diameter;
    let (major, minor) = if after.crest > after.root { (crest, root) } else { (root, crest) };
    let by = |limits: Limits, off: Length| Limits::new(limits.min() + off, limits.max() + off);
    Some(ThreadLimits {
        major: by(limits.major, major)?,
        pitch: by(limits.pitch, pitch)?,
        minor: by(limits.minor, minor)?,
    })
}

fn left(thread: &Thread, file: &RunOutFile, making: &mut Making) -> Option<RunOut> {
    let form = &thread.form;
    if let Some(lead) = &file.lead {
        let length = form.pitch * lead.value.0;
        if length + form.lead() > thread.length() {
            let room = ((thread.length() - form.lead()) / form.pitch).floor().max(0.0);
            making.log.push(
                Diagnostic::error(
                    "thread.lead",
                    format!(
                        "a lead of {} pitches leaves less than a turn of the full thread in {}",
                        lead.value.0,
                        thread.length()
                    ),
                )
                .at(lead.at())
                .hint(format!("a lead of {room} pitches leaves a turn, or make the thread longer")),
            );
            return None;
        }
        return Some(if length == Length::ZERO { RunOut::Wall } else { RunOut::Lead(length) });
    }
    let Some(turns) = &file.withdrawal else { return Some(RunOut::Wall) };
    let most = 1.0 / f64::from(form.starts);
    if turns.value.0 >= most {
        making.log.push(
            Diagnostic::error(
                "thread.withdrawal",
                format!("a tool drawn out over {} turns meets the next groove", turns.value.0),
            )
            .at(turns.at())
            .hint(format!("under {most:.3} turns, such as {:.2}", most / 2.0)),
        );
        return None;
    }
    if turns.value.0 > 0.0 && form.crest_flat() == Length::ZERO {
        making.log.push(
            Diagnostic::error(
                "thread.withdrawal",
                "a tool can't be drawn out under a crest that is rounded whole",
            )
            .at(turns.at())
            .hint("leave the crest a flat: a smaller `crest_radius`"),
        );
        return None;
    }
    let turns = turns.value.0;
    Some(if turns == 0.0 { RunOut::Wall } else { RunOut::Withdrawal { turns } })
}
