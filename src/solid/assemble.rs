//! From a closed list of runs with their threads to the faces of a solid.

use std::sync::Arc;

use super::helix::add_thread;
use super::profile::Profile;
use super::ring::{Faces, Ring};
use super::swept::{CutLines, Cuts, Lines, Swept, line_of};
use super::trim::{Trim, trim};
use super::{Body, BuildError, CutThread};
use crate::section::{Part, Run, Side, Station, Thread};

/// Turns of one thread that are built at most: four hundred millimetres of a 0.2 mm pitch. More
/// would let a slip of the pen ask for gigabytes.
pub const MOST_TURNS: f64 = 2000.0;

/// A piece of the outline: a run that is only turned, or a thread with its two ends.
#[expect(clippy::large_enum_variant, reason = "a part has three threads at most")]
enum Piece<'a> {
    Plain(Run),
    Cut { thread: &'a Thread, low: Trim, high: Trim },
}

/// Builds the exact solid of a part: no boolean operation anywhere, every surface and every edge
/// is made directly and shared by the faces it bounds.
///
/// Expects coincident values to be equal ([`Part::snapped`]).
///
/// # Errors
/// [`BuildError`]: the part asks for something that can't be made, or (never seen) the faces do
/// not close.
pub fn build(part: &Part) -> Result<Body, BuildError> {
    let (faces, threads) = faces(part)?;
    Body::close(faces, threads)
}

/// The lines and threads of the solid that [`build`] makes, to the last bit: those of a thread from
/// the same faces, those of turned runs without any. A thread that is among `like` just so, with
/// both its ends, is taken from there. For parts that differ a little from one that was built.
///
/// # Errors
/// As [`build`], except that nobody looks whether the faces close.
pub fn lines(part: &Part, like: &Cuts) -> Result<Lines, BuildError> {
    let pieces = pieces(part)?;
    let mut cuts = Vec::new();
    for piece in &pieces {
        if let Piece::Cut { thread, low, high } = piece {
            let known = like.0.iter().find(|cut| cut.is(thread, low, high));
            cuts.push(match known {
                Some(cut) => Arc::clone(cut),
                None => Arc::new(CutLines::of(thread, low, high)?),
            });
        }
    }
    let mut swept: Vec<Swept> = cuts.iter().flat_map(|cut| &cut.swept).copied().collect();
    // Whose end a run begins at, and whose it ends at.
    let circle = |n: usize, begins: bool| match &pieces[n % pieces.len()] {
        Piece::Plain(_) => None,
        Piece::Cut { thread, .. } => {
            let cut = cuts.iter().find(|cut| cut.thread.item == thread.item)?;
            let outside = thread.side == Side::External;
            Some(cut.circles[usize::from(begins == outside)][usize::from(begins)].as_slice())
        }
    };
    for (n, piece) in pieces.iter().enumerate() {
        if let Piece::Plain(run) = piece {
            let [from, to] = [run.from, run.to].map(|s: Station| [[s.radius(), s.z.as_mm()]]);
            let before = circle(n + pieces.len() - 1, true).unwrap_or(&from);
            let after = circle(n + 1, false).unwrap_or(&to);
            swept.push(line_of(run, before, after));
        }
    }
    let threads = cuts.iter().map(|cut| cut.cut.clone()).collect();
    Ok(Lines { swept, threads, cuts: Cuts(cuts) })
}

/// The pieces of a part's outline, its threads among them, in the order of the walk.
fn pieces(part: &Part) -> Result<Vec<Piece<'_>>, BuildError> {
    check_chain(part)?;
    let mut pieces: Vec<Piece> = part.runs.iter().map(|run| Piece::Plain(*run)).collect();
    for thread in &part.threads {
        check_form(thread)?;
        pieces = cut_thread(pieces, thread)?;
    }
    Ok(pieces)
}

/// All faces of a part, and its threads.
fn faces(part: &Part) -> Result<(Faces, Vec<CutThread>), BuildError> {
    let pieces = pieces(part)?;
    let mut faces = Faces::default();
    let mut threads = Vec::new();
    let mut rings: Vec<[Option<Ring>; 2]> = vec![[None, None]; pieces.len()];
    for (piece, rings) in pieces.iter().zip(&mut rings) {
        if let Piece::Cut { thread, low, high } = piece {
            let [at_low, at_high] = add_thread(&Profile::new(thread), low, high, &mut faces)?;
            let outside = thread.side == Side::External;
            let (first, last) = if outside { (at_low, at_high) } else { (at_high, at_low) };
            *rings = [Some(first), Some(last)];
            threads.push(CutThread::new(thread, low, high));
        }
    }
    let count = pieces.len();
    for (n, piece) in pieces.iter().enumerate() {
        // The ring between two plain runs is made once, by the first of them.
        if let Piece::Plain(run) = piece {
            if rings[n][0].is_none() {
                let before = rings[(n + count - 1) % count][1].clone();
                rings[n][0] = Some(match before {
                    Some(ring) => ring,
                    None => Ring::plain([run.from.radius(), run.from.z.as_mm()])?,
                });
            }
            if rings[n][1].is_none() {
                let after = rings[(n + 1) % count][0].clone();
                rings[n][1] = Some(match after {
                    Some(ring) => ring,
                    None => Ring::plain([run.to.radius(), run.to.z.as_mm()])?,
                });
            }
        }
    }
    for (piece, rings) in pieces.iter().zip(&rings) {
        if let (Piece::Plain(run), [Some(from), Some(to)]) = (piece, rings) {
            faces.turned(run, from, to)?;
        }
    }
    Ok((faces, threads))
}

/// Every run begins where the one before it ends; the last closes on the first, or both lie on
/// the axis.
fn check_chain(part: &Part) -> Result<(), BuildError> {
    let count = part.runs.len();
    for (run, here) in part.runs.iter().enumerate() {
        let before = &part.runs[(run + count - 1) % count];
        let on_axis = |s: Station| s.radius() == 0.0;
        let closes =
            before.to == here.from || (run == 0 && on_axis(before.to) && on_axis(here.from));
        if !closes || here.from == here.to {
            return Err(BuildError::ChainBroken { run });
        }
    }
    if count < 2 { Err(BuildError::ChainBroken { run: 0 }) } else { Ok(()) }
}

fn check_form(thread: &Thread) -> Result<(), BuildError> {
    let (form, item) = (&thread.form, thread.item);
    let positive = |l: crate::quantity::Length| l.as_mm() > 0.0;
    let outwards = form.crest > form.root;
    if ![form.pitch, form.depth()].into_iter().all(positive)
        || form.flank_runs().is_empty()
        || outwards != (thread.side == Side::External)
        || form.starts == 0
    {
        return Err(BuildError::NoForm { thread: item });
    }
    let turns = thread.length().as_mm() / form.lead().as_mm();
    if turns > MOST_TURNS {
        return Err(BuildError::TooManyTurns { thread: item, turns, limit: MOST_TURNS });
    }
    Ok(())
}

/// Replaces the runs that a thread is cut into by the thread and the rests of those runs.
fn cut_thread<'a>(
    mut pieces: Vec<Piece<'a>>,
    thread: &'a Thread,
) -> Result<Vec<Piece<'a>>, BuildError> {
    let item = thread.item;
    let outside = thread.side == Side::External;
    let crest = thread.form.crest;
    let overlaps = |run: &Run| {
        let (low, high) = if outside { (run.from.z, run.to.z) } else { (run.to.z, run.from.z) };
        run.from.diameter == crest
            && run.to.diameter == crest
            && low < high
            && low < thread.to
            && high > thread.from
    };
    let found = pieces.iter().position(|p| matches!(p, Piece::Plain(run) if overlaps(run)));
    let Some(mut own) = found else { return Err(BuildError::NothingToThread { thread: item }) };
    // Let the thread's ends lie away from the ends of the list.
    let closed = matches!((&pieces[0], &pieces[pieces.len() - 1]),
        (Piece::Plain(a), Piece::Plain(b)) if a.from == b.to)
        || pieces.iter().any(|p| matches!(p, Piece::Cut { .. }));
    if closed {
        let half = pieces.len() / 2;
        let turn = (own + pieces.len() - half) % pieces.len();
        pieces.rotate_left(turn);
        own = half;
    }
    let plain = |piece: &Piece| match piece {
        Piece::Plain(run) => Some(*run),
        Piece::Cut { .. } => None,
    };
    let ahead: Vec<Run> = pieces[own..].iter().map_while(plain).collect();
    let back = pieces[..=own].iter().rev().map_while(plain);
    let behind: Vec<Run> = back.map(Run::reversed).collect();
    let sign = if outside { 1.0 } else { -1.0 };
    let profile = Profile::new(thread);
    let meets = |e| match e {
        BuildError::NothingToThread { .. } => BuildError::ThreadsMeet { thread: item },
        other => other,
    };
    let last = trim(&ahead, profile.reach(sign)).map_err(meets)?;
    let first = trim(&behind, profile.reach(-sign)).map_err(meets)?;
    let before = own + 1 - first.used;
    let after = own + last.used;
    let rest_before = first.rest.map(Run::reversed);
    let rest_after = last.rest;
    let (low, high) = if outside { (first, last) } else { (last, first) };
    check_length(thread, &low, &high)?;
    let tail = pieces.split_off(after);
    pieces.truncate(before);
    pieces.extend(rest_before.map(Piece::Plain));
    pieces.push(Piece::Cut { thread, low, high });
    pieces.extend(rest_after.map(Piece::Plain));
    pieces.extend(tail);
    Ok(pieces)
}

/// At every depth from crest to root the thread begins before it ends.
fn check_length(thread: &Thread, low: &Trim, high: &Trim) -> Result<(), BuildError> {
    let radii = low.points.iter().chain(&high.points).map(|p| p[0]);
    let mut lengths = radii.map(|r| high.z_at(r, -1.0) - low.z_at(r, 1.0));
    if lengths.any(|length| length <= 0.0) {
        return Err(BuildError::NoLength { thread: thread.item });
    }
    Ok(())
}
