//! A thread with its flanks, root and ends moved; a crest or a root that this eats.

use super::form::{Made, Moves, moved_form};
use super::joint::joint;
use super::stretch::Line;
use super::{Amounts, Loss};
use crate::quantity::Length;
use crate::section::{LEAST_STEP, RunOut, Side, Surface, Thread};
use crate::solid::withdrawal_begins;

/// Moves a thread; none where nothing of it is left. Where its crest is eaten, the cylinder that it
/// is cut into goes down with it, as far as the thread reaches.
pub(super) fn moved(
    thread: &Thread,
    amounts: &Amounts,
    lines: &mut Vec<Line>,
    losses: &mut Vec<Loss>,
) -> Option<Thread> {
    let surface = match thread.side {
        Side::External => Surface::ExternalThread,
        Side::Internal => Surface::InternalThread,
    };
    let own = lines.iter().position(|line| carries(line, thread))?;
    let moves = Moves {
        crest: lines[own].amount,
        flank: amounts.at(surface, thread.form.pitch_diameter),
        root: amounts.at_root(surface),
    };
    let made = moved_form(&thread.form, moves);
    let ends = ends(thread, &moves, amounts, &made);
    // What is taken from the crest lowers the cylinder between the thread's ends.
    let lowered = (made.form.crest - made.wanted_crest).abs() / 2.0;
    if lowered > Length::ZERO {
        let until = if made.is_thread() { ends.z } else { [thread.from, thread.to] };
        lower(lines, thread, until, lowered.as_mm());
    }
    let (item, depth) = (thread.item, made.form.depth().as_mm());
    if !made.is_thread() {
        losses.push(Loss::Thread { thread: item });
        return None;
    }
    if lowered > Length::ZERO {
        losses.push(Loss::Crest { thread: item, height: lowered.as_mm(), depth });
    }
    let shallower = (made.form.root - made.wanted_root).abs() / 2.0;
    if shallower > Length::ZERO {
        losses.push(Loss::Root { thread: item, height: shallower.as_mm(), depth });
    }
    let mut new = Thread { form: made.form, ..thread.clone() };
    (new.from, new.to, new.run_outs) = (ends.z[0], ends.z[1], ends.run_outs);
    realigned(&mut new, thread);
    // A tool that stopped at a wall still does.
    let walls = walls(lines, thread);
    new.from = walls[0].map_or(new.from, |wall| new.from.max(wall));
    new.to = walls[1].map_or(new.to, |wall| new.to.min(wall));
    // The ridges stay where they are.
    new.phase = thread.phase + (thread.from - new.from);
    Some(new)
}

/// z of the moved corners at either end of a thread's cylinder where the outline turns away from the
/// thread's root behind it: a tool that went on would cut into what stands there.
fn walls(lines: &[Line], thread: &Thread) -> [Option<Length>; 2] {
    let count = lines.len();
    let outside = thread.side == Side::External;
    [false, true].map(|at_to| {
        let own = (0..count).filter(|n| carries(&lines[*n], thread));
        let z = |n: &usize| span(&lines[*n]).0.as_mm();
        let own = if at_to {
            own.max_by(|a, b| z(a).total_cmp(&z(b)))
        } else {
            own.min_by(|a, b| z(a).total_cmp(&z(b)))
        }?;
        let forward = outside == at_to;
        let next = (own + if forward { 1 } else { count - 1 }) % count;
        let far = if forward { lines[next].run.to } else { lines[next].run.from };
        let rises =
            far.diameter != thread.form.crest && (far.diameter > thread.form.crest) == outside;
        let (a, b) = if forward { (own, next) } else { (next, own) };
        let [end, start] = joint(&lines[a], &lines[b]).filter(|_| rises)?;
        Some(Length::mm(if forward { end.y } else { start.y }))
    })
}

/// Whether a thread is cut into a line, as the solid has it.
fn carries(line: &Line, thread: &Thread) -> bool {
    let run = &line.run;
    let (low, high) = span(line);
    run.from.diameter == thread.form.crest
        && run.to.diameter == thread.form.crest
        && low < high
        && low < thread.to
        && high > thread.from
}

fn span(line: &Line) -> (Length, Length) {
    (line.run.from.z.min(line.run.to.z), line.run.from.z.max(line.run.to.z))
}

/// The new ends of a thread.
struct Ends {
    z: [Length; 2],
    run_outs: [RunOut; 2],
}

fn ends(thread: &Thread, moves: &Moves, amounts: &Amounts, made: &Made) -> Ends {
    let edged = made.form.crest_flat() == Length::ZERO;
    let Thread { form, run_outs, .. } = thread;
    let mut z = [thread.from, thread.to];
    let mut outs = *run_outs;
    let depth = form.depth().as_mm();
    let new_depth = depth + moves.root - moves.crest;
    for (n, ahead) in [(0, -1.0), (1, 1.0)] {
        match run_outs[n] {
            RunOut::Wall => {
                z[n] += Length::mm(amounts.at(Surface::Face, thread.form.crest) * ahead);
            }
            RunOut::Lead(length) => {
                // The cone from the crest, where the tool stops, to the root, `length` before it.
                let slope = length.as_mm() / depth;
                let along = moves.flank * libm::hypot(1.0, slope) - moves.crest * slope;
                z[n] += Length::mm(along * ahead);
                outs[n] = RunOut::Lead(Length::mm(new_depth * slope));
            }
            // Between ridges that are edges no cylinder is left for a groove to leave.
            RunOut::Withdrawal { .. } if edged => {
                (z[n], outs[n]) = (thread.full()[n], RunOut::Wall);
            }
            RunOut::Withdrawal { turns } => {
                let longer = turns * new_depth / depth;
                let most = 1.0 / f64::from(form.starts);
                let turns = if longer < most { longer } else { turns };
                outs[n] = RunOut::Withdrawal { turns };
            }
        }
    }
    Ends { z, run_outs: outs }
}

/// Lets a drawn-out tool begin to leave where it did: a wider groove ends farther on.
fn realigned(new: &mut Thread, old: &Thread) {
    for end in [0, 1] {
        let [Some(was), Some(is)] = [old, &*new].map(|thread| withdrawal_begins(thread, end))
        else {
            continue;
        };
        let by = Length::mm(was - is);
        if end == 0 { new.from += by } else { new.to += by }
    }
}

/// Lowers the cylinder of a thread between its ends, farther than its amount goes.
fn lower(lines: &mut Vec<Line>, thread: &Thread, [from, to]: [Length; 2], by: f64) {
    // A step that is too small to be made is made of the whole cylinder.
    let steps = by >= LEAST_STEP.as_mm();
    let mut after = Vec::with_capacity(lines.len() + 2);
    for line in lines.drain(..) {
        if !carries(&line, thread) {
            after.push(line);
            continue;
        }
        let outwards = line.run.to.z > line.run.from.z;
        let (low, high) = span(&line);
        let inside = |z: Length| z - low > LEAST_STEP && high - z > LEAST_STEP;
        let mut cuts: Vec<Length> =
            [from, to].into_iter().filter(|z| steps && inside(*z)).collect();
        if !outwards {
            cuts.reverse();
        }
        let mut rest = line;
        for z in cuts {
            let mut piece = rest;
            (piece.run.to.z, rest.run.from.z) = (z, z);
            after.push(piece);
        }
        after.push(rest);
    }
    let within = |line: &Line| {
        let (low, high) = span(line);
        let middle = (low + high) / 2.0;
        from <= middle && middle <= to
    };
    for line in after.iter_mut().filter(|line| carries(line, thread) && (!steps || within(line))) {
        line.amount += by;
    }
    *lines = after;
}
