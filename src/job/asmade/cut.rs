//! A cut that is still to be done, with the numbers that are set for it.

use crate::quantity::Length;
use crate::section::{Cut, Depth, Mouth, Thread};

/// What each number is, and its millimetres; depths are from the face as it is then.
pub(super) fn numbers(cut: &Cut) -> Vec<(&'static str, f64)> {
    let of = |numbers: &[(&'static str, Length)]| {
        numbers.iter().map(|(what, length)| (*what, length.as_mm())).collect()
    };
    let places = |thread: &Thread| of(&[("from", thread.from), ("to", thread.to)]);
    match cut {
        Cut::Square { length } => of(&[("length", *length)]),
        Cut::Bore(bore) => {
            let mut all = vec![("diameter", bore.diameter)];
            match bore.depth {
                // A countersink is as wide as it says at the face.
                Depth::To(depth) if depth == Length::ZERO => {}
                Depth::To(depth) => all.push(("depth", depth)),
                Depth::Between(from, to) => all.extend([("from", from), ("to", to)]),
                Depth::Through => {}
            }
            of(&all)
        }
        Cut::Tenon(tenon) => {
            let mut all = vec![
                ("diameter", tenon.thread.form.crest),
                ("length", tenon.length),
                ("chamfer", tenon.chamfer.depth),
            ];
            if let Some(relief) = tenon.relief {
                all.extend([("relief diameter", relief.diameter), ("relief width", relief.width)]);
            }
            if let Some(pilot) = tenon.pilot {
                all.extend([("pilot diameter", pilot.diameter), ("pilot length", pilot.length)]);
            }
            of(&all)
        }
        Cut::Tap(thread) | Cut::TenonThread(thread) | Cut::CapThread(thread) => places(thread),
        Cut::Face { off } | Cut::Sand { off } => of(&[("off", *off)]),
        Cut::Outside(grip) => of(&[("front", grip.front), ("length", grip.length())]),
    }
}

/// What it is, and its numbers.
pub(super) fn said(cut: &Cut) -> String {
    let numbers = numbers(cut).into_iter().map(|(what, mm)| format!("{what} {mm:.2} mm"));
    let mut said: Vec<String> = numbers.collect();
    match cut {
        Cut::Bore(bore) if bore.depth == Depth::Through => said.push("right through".to_owned()),
        Cut::Bore(bore) if bore.mouth == Mouth::Back => said.push("from the back".to_owned()),
        Cut::Tap(thread) => said.insert(0, thread.designation.to_string()),
        Cut::TenonThread(thread) | Cut::CapThread(thread) => {
            said.insert(0, thread.designation.to_string());
            said.push("from the finished front face".to_owned());
        }
        _ => {}
    }
    format!("{}: {}", cut.stage(), said.join(", "))
}
