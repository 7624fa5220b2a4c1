//! A step in words: one row of the sheet.
//!
//! ```text
//!   tool      | face          | set               | check             | done
//!   7.3 drill | front, 0.05   | 13.35 deep        | pin Ø7.1 reads .. | [ ] pin ____
//!   520 rpm   | to be sanded  | mark 15.54 ..     |                   |
//! ```

mod hole;
mod room;
mod thread;
mod turning;
mod unit;

use super::content::{Line, Row};
use super::numbers::Numbers;
use crate::quantity::Length;
use crate::section::Mouth;
use crate::shop::{Measured, Operation, Plan, Speed, SpeedCap, Work};

/// A large number, or what is set.
fn set(words: impl Into<String>) -> Line {
    Line::Set(words.into())
}

fn plain(words: impl Into<String>) -> Line {
    Line::Plain(words.into())
}

fn warning(words: impl Into<String>) -> Line {
    Line::Warning(words.into())
}

/// A step with what its words need.
#[derive(Clone, Copy)]
struct Step<'a> {
    operation: &'a Operation,
    plan: &'a Plan,
    numbers: Numbers,
}

/// The row of an operation.
pub fn row(number: usize, operation: &Operation, plan: &Plan, numbers: Numbers) -> Row {
    let step = Step { operation, plan, numbers };
    let mut row = match &operation.work {
        Work::Rehearse => unit::rehearse(step),
        Work::Square { length, rod } => turning::square(step, *length, *rod),
        Work::Spot { mouth, within } => hole::spot(step, *mouth, *within),
        Work::Bore(bore) => hole::bore(step, bore),
        Work::Tenon(tenon) => turning::tenon(step, tenon),
        Work::TenonThread(thread) => thread::tenon(step, thread),
        Work::Seat(bushing) => turning::seat(step, bushing),
        Work::Reverse(why) => turning::reverse(step, *why),
        Work::Face { off, leaves, from_shoulder } => {
            turning::face(step, [*off, *leaves], *from_shoulder)
        }
        Work::TryUnit(fit) => unit::first_try(step, *fit),
        Work::Tap(tapping) => thread::tap(step, tapping),
        Work::TryAgain(fit) => unit::second_try(step, *fit),
        Work::LipPlug(plug) => turning::lip_plug(step, plug),
        Work::Outside(outside) => turning::outside(step, outside),
        Work::CapThread(thread) => thread::cap(step, thread),
        Work::Sand { off } => turning::sand(step, *off),
        Work::Finish => unit::finish(),
    };
    row.number = number;
    row.check.extend(step.rooms());
    row.notes.extend(room::note(step));
    row.notes = gathered(row.notes);
    if let Some(speed) = &operation.speed {
        row.tool.extend(speed_lines(speed));
    }
    row
}

/// Warnings each for itself, and then all that is plain in one paragraph.
fn gathered(notes: Vec<Line>) -> Vec<Line> {
    let (plain, mut gathered): (Vec<Line>, Vec<Line>) =
        notes.into_iter().partition(|line| matches!(line, Line::Plain(_)));
    let words: Vec<&str> = plain.iter().map(Line::words).collect();
    if !words.is_empty() {
        gathered.push(Line::Plain(words.join(" ")));
    }
    gathered
}

/// The speed to be set; what it was taken from stands among the cautions.
fn speed_lines(speed: &Speed) -> Vec<Line> {
    let Speed { set: rpm, cutting, cap, too_fast, .. } = speed;
    let held = if matches!(cap, SpeedCap::Lathe(_)) { ", the lathe's limit" } else { "" };
    let mut lines = vec![plain(format!("{rpm:.0} rpm ({cutting:.0} m/min{held})"))];
    if *too_fast {
        lines.push(warning("this lathe goes no slower: feed gently, stop often"));
    }
    lines
}

impl Step<'_> {
    /// The face that lengths are measured from.
    fn face(self) -> Vec<Line> {
        let Measured { face, to_come } = self.operation.measured;
        match face {
            Mouth::Back => vec![plain("back face (tenon end)")],
            Mouth::Front if to_come > Length::ZERO => vec![
                plain("front face"),
                plain(format!("({} still to come off)", self.numbers.length(to_come))),
            ],
            Mouth::Front => vec![plain("front face")],
        }
    }

    fn length(self, length: Length) -> String {
        self.numbers.length(length)
    }

    fn diameter(self, diameter: Length) -> String {
        self.numbers.diameter(diameter)
    }

    /// Its sizes with their room, as far as they have to be said.
    fn rooms(self) -> Vec<Line> {
        self.operation.tight.iter().filter_map(|tight| room::line(self, tight)).collect()
    }
}
