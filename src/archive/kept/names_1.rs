//! What the facts of format 1 are called now: its words, frozen as they were, with today's names.
//!
//! Nothing here follows the program's words. A line changes only with a fact's name, and no name of
//! a fact changes.

/// Words and name; `#` stands for a number, the same on both sides.
const FACTS: [(&str, &str); 78] = [
    ("name of the nib unit", "unit.name"),
    ("material", "material"),
    ("diameter at the front face", "grip.front"),
    ("diameter at the end of run # of the grip", "grip.run.#.diameter"),
    ("end of run # of the grip", "grip.run.#.to"),
    ("length of the grip", "grip.length"),
    ("radius of run # of the grip", "grip.run.#.radius"),
    ("radius of the front face's rim", "grip.fillet"),
    ("radius at the end of run # of the grip", "grip.run.#.fillet"),
    ("chamfer of the front face's rim", "grip.chamfer"),
    ("chamfer at the end of run # of the grip", "grip.run.#.chamfer"),
    ("angle of the chamfer of the front face's rim", "grip.chamfer.angle"),
    ("angle of the chamfer at the end of run # of the grip", "grip.run.#.chamfer.angle"),
    ("depth of groove # of the grip", "grip.groove.#.depth"),
    ("beginning of groove-# of the grip", "grip.groove.#.from"),
    ("end of groove-# of the grip", "grip.groove.#.to"),
    ("diameter at the bottom of groove-# of the grip", "grip.groove.#.floor"),
    ("radius of groove-# of the grip", "grip.groove.#.radius"),
    ("beginning of bead-# of the grip", "grip.bead.#.from"),
    ("end of bead-# of the grip", "grip.bead.#.to"),
    ("radius of bead-# of the grip", "grip.bead.#.radius"),
    ("start of full thread for the cap", "grip.thread.from"),
    ("end of full thread for the cap", "grip.thread.to"),
    ("pitch diameter of the thread for the cap", "grip.thread.pitch_diameter"),
    ("angle at the end of the centre drill's pilot hole", "bores.recess.seat.pilot.point"),
    ("diameter of the centre drill's pilot hole", "bores.recess.seat.pilot"),
    ("length of the centre drill's pilot hole", "bores.recess.seat.pilot_length"),
    ("start of full thread for the unit", "bores.thread.from"),
    ("depth of full thread for the unit", "bores.thread.to"),
    ("pitch diameter of the section's thread", "bores.thread.form.pitch_diameter"),
    ("length of the tenon", "tenon.length"),
    ("diameter of the tenon", "tenon.form.major"),
    ("chamfer of the tenon", "tenon.chamfer"),
    ("angle of the tenon's chamfer", "tenon.chamfer.angle"),
    ("start of full thread on the tenon", "tenon.thread.from"),
    ("end of full thread on the tenon", "tenon.thread.to"),
    ("pitch diameter of the tenon's thread", "tenon.form.pitch_diameter"),
    ("diameter of the tenon's pilot", "tenon.pilot.diameter"),
    ("length of the tenon's pilot", "tenon.pilot.length"),
    ("diameter of the relief groove", "tenon.relief.diameter"),
    ("width of the relief groove", "tenon.relief.width"),
    ("pitch diameter of the barrel's thread", "barrel.form.pitch_diameter"),
    ("diameter of the barrel's hole for the thread", "barrel.form.minor"),
    ("depth of the barrel's hole for the thread", "barrel.depth"),
    ("depth of full thread in the barrel", "barrel.full_thread_to"),
    ("diameter of the barrel's counterbore", "barrel.counterbore.diameter"),
    ("depth of the barrel's counterbore", "barrel.counterbore.depth"),
    ("diameter of the barrel's bore", "barrel.bore.diameter"),
    ("depth of the barrel's bore", "barrel.bore.depth"),
    ("diameter of the barrel at the joint", "barrel.outside"),
    ("place where the cap stops, from the front face", "cap.stops_at"),
    ("diameter of the cap's hole for the thread", "cap.thread_minor"),
    ("pitch diameter of the thread in the cap", "cap.form.pitch_diameter"),
    ("depth of full thread in the cap", "cap.full_thread_to"),
    ("diameter of the cap's counterbore", "cap.counterbore.diameter"),
    ("depth of the cap's counterbore", "cap.counterbore.depth"),
    ("diameter of the cap's bore #", "cap.bores.#.diameter"),
    ("end of the cap's bore #", "cap.bores.#.to"),
    ("depth of the cap", "cap.length"),
    ("depth of the inner cap's rim", "cap.seal.depth"),
    ("diameter of the inner cap's bore", "cap.seal.diameter"),
    ("mouth of the cap", "cap.mouth"),
    ("diameter of the unit's collar", "unit.collar.diameter"),
    ("thickness of the unit's collar", "unit.collar.thickness"),
    ("chamfer of the unit's thread", "unit.thread.chamfer"),
    ("reach of the nib", "unit.nib.reach"),
    ("width of the nib", "unit.nib.width"),
    ("diameter of the converter", "converter.diameter"),
    ("length of the converter", "converter.length"),
    ("how far the converter goes onto the nipple", "converter.onto_nipple"),
    ("diameter of the converter's mouth", "converter.mouth.diameter"),
    ("length of the converter's mouth", "converter.mouth.length"),
    ("allowance for facing", "allowance.facing"),
    ("allowance for sanding", "allowance.sanding"),
    ("diameter of the rod", "blank.diameter"),
    ("length of the rod", "blank.length"),
    ("offset of a change of holding", "offsets.holding"),
    ("wander of a long drilled hole", "offsets.long_hole"),
];

/// Steps of the unit: `diameter of the WORDS`, `end of the WORDS`.
const STEPS: [(&str, [&str; 2]); 4] = [
    ("unit's plain part", ["unit.plain.diameter", "unit.plain.to"]),
    ("unit's thread", ["unit.thread.major", "unit.thread.to"]),
    ("unit's tail", ["unit.tail.diameter", "unit.tail.to"]),
    ("unit's nipple", ["unit.nipple.diameter", "unit.nipple.to"]),
];

/// Holes: their words, of which several of one kind had their mark behind them in brackets; the
/// mark; their table's name, and the keys of diameter, depth, start and angle there. One alone is
/// number 1.
const HOLES: [(&str, &str, &str, [&str; 4]); 9] = [
    ("collar recess", "recess", "recess", ["diameter", "depth", "from", "seat.cone"]),
    ("clearance bore", "clearance-bore", "clearance", ["diameter", "depth", "from", "point"]),
    ("tap drill's hole", "tap-drill", "tap_drill", ["diameter", "depth", "from", "point"]),
    ("through bore", "through-bore", "through", ["diameter", "depth", "from", "point"]),
    (
        "bore step from the front",
        "bore-step-front-#",
        "step.front.#",
        ["diameter", "depth", "from", "point"],
    ),
    (
        "bore step from the back",
        "bore-step-back-#",
        "step.back.#",
        ["diameter", "depth", "from", "point"],
    ),
    (
        "countersink at the front",
        "countersink-front",
        "countersink.front",
        ["mouth", "depth", "from", "angle"],
    ),
    (
        "countersink at the back",
        "countersink-back",
        "countersink.back",
        ["mouth", "depth", "from", "angle"],
    ),
    ("relief in the bore", "bore-relief-#", "relief.#", ["diameter", "to", "from", "walls"]),
];

/// What was said of a hole, in the order of its keys.
const OF_HOLES: [&str; 4] =
    ["diameter of the ", "depth of the ", "start of the ", "angle at the end of the "];

/// Threads: `WORDS: what`.
const THREADS: [(&str, &str); 6] = [
    ("tenon's thread: ", "thread.tenon."),
    ("thread for the unit: ", "thread.bores."),
    ("thread for the cap: ", "thread.grip."),
    ("unit's own thread: ", "thread.unit."),
    ("barrel's thread: ", "thread.barrel."),
    ("cap's own thread: ", "thread.cap."),
];

/// What was said of a thread.
const OF_THREADS: [(&str, &str); 23] = [
    ("designation", "designation"),
    ("hand", "hand"),
    ("starts", "starts"),
    ("half angle", "half_angle"),
    ("pitch", "pitch"),
    ("diameter of the crest", "crest"),
    ("diameter of the root", "root"),
    ("pitch diameter", "pitch_diameter"),
    ("radius of the crest", "crest_radius"),
    ("radius of the root", "root_radius"),
    ("beginning", "from"),
    ("end", "to"),
    ("phase", "phase"),
    ("least major diameter", "major.least"),
    ("greatest major diameter", "major.most"),
    ("least pitch diameter", "pitch_diameter.least"),
    ("greatest pitch diameter", "pitch_diameter.most"),
    ("least minor diameter", "minor.least"),
    ("greatest minor diameter", "minor.most"),
    ("run-out at its beginning", "run_out.from"),
    ("run-out at its end", "run_out.to"),
    ("depth of flank point #", "flank.#.depth"),
    ("width at flank point #", "flank.#.width"),
];

/// What a cap's mouth was said to be.
const MOUTHS: [(&str, &str); 2] =
    [("a thread for the grip", "thread"), ("a hole for the barrel's thread", "hole")];

/// The name of a fact that had these words; none where no fact had them.
pub fn name(words: &str) -> Option<String> {
    let plain = FACTS.iter().find_map(|(pattern, name)| filled(words, pattern, name));
    plain.or_else(|| of_step(words)).or_else(|| of_hole(words)).or_else(|| of_thread(words))
}

/// The name of what a fact was said to be, where it is one of a few; otherwise the words.
pub fn choice(name: &str, words: String) -> String {
    let known = MOUTHS.iter().find(|(said, _)| name == "cap.mouth" && *said == words);
    known.map_or(words, |(_, name)| (*name).to_owned())
}

/// The name with the number that the words have for `#`; none where they are not of the pattern.
fn filled(words: &str, pattern: &str, name: &str) -> Option<String> {
    let Some((before, behind)) = pattern.split_once('#') else {
        return (words == pattern).then(|| name.to_owned());
    };
    let number = words.strip_prefix(before)?.strip_suffix(behind)?;
    let is_number = !number.is_empty() && number.bytes().all(|byte| byte.is_ascii_digit());
    is_number.then(|| name.replace('#', number))
}

fn of_step(words: &str) -> Option<String> {
    STEPS.iter().find_map(|(step, [diameter, end])| match words.strip_suffix(step)? {
        "diameter of the " => Some((*diameter).to_owned()),
        "end of the " => Some((*end).to_owned()),
        _ => None,
    })
}

fn of_hole(words: &str) -> Option<String> {
    HOLES.iter().find_map(|(hole, mark, table, keys)| {
        let said = OF_HOLES.iter().zip(keys).find_map(|(said, key)| {
            let name = format!("bores.{table}.{key}");
            let alone = format!("{said}{hole}");
            let one = (words == alone).then(|| name.replace('#', "1"));
            one.or_else(|| filled(words, &format!("{alone} ({mark})"), &name))
        });
        let limit = |end: &str| {
            let name = format!("bores.{table}.{}.{end}", keys[0]);
            filled(words, &format!("{end} that the {mark} comes out"), &name)
        };
        said.or_else(|| limit("least")).or_else(|| limit("most"))
    })
}

fn of_thread(words: &str) -> Option<String> {
    THREADS.iter().find_map(|(thread, key)| {
        let what = words.strip_prefix(thread)?;
        let name = OF_THREADS.iter().find_map(|(said, name)| filled(what, said, name))?;
        Some(format!("{key}{name}"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::facts;
    use crate::design::{Library, load};
    use std::collections::BTreeSet;

    /// The designs of which version 0.1.0 wrote the facts that are in the list.
    const DESIGNS: [&str; 10] = [
        "demo",
        "tests/fixtures/r1.toml",
        "tests/fixtures/capped.toml",
        "tests/fixtures/outside.toml",
        "tests/fixtures/both-ends.toml",
        "tests/fixtures/reliefs.toml",
        "tests/fixtures/threads.toml",
        "tests/fixtures/blind.toml",
        "tests/fixtures/blind-flat.toml",
        "tests/fixtures/rim.toml",
    ];

    /// Source: archives of format 1 that version 0.1.0 kept of these designs; each of their facts
    /// is a fact still, by the name that its words lead to.
    #[test]
    fn every_fact_of_format_1_has_its_name() {
        let text = std::fs::read_to_string("tests/fixtures/format-1-facts.tsv").unwrap();
        let all = DESIGNS.map(|design| facts(&load(&Library::default(), design).unwrap().section));
        let names: BTreeSet<&str> = all.iter().flatten().map(|fact| fact.name.as_str()).collect();
        let lines: Vec<&str> = text.lines().filter(|line| !line.starts_with('#')).collect();
        for line in &lines {
            let (words, expected) = line.split_once('\t').unwrap();
            assert_eq!(name(words).as_deref(), Some(expected), "{words}");
            assert!(names.contains(expected), "{words}: {expected} is no fact");
        }
        for (pattern, name) in FACTS {
            let met = |line: &&str| filled(line.split('\t').next()?, pattern, name);
            assert!(lines.iter().any(|line| met(line).is_some()), "{pattern} is no fact's");
        }
    }

    #[test]
    fn other_words_have_no_name() {
        for words in ["", "end of run of the grip", "end of run two of the grip", "thickness"] {
            assert_eq!(name(words), None, "{words}");
        }
        assert_eq!(name("tenon's thread: colour"), None);
        assert_eq!(choice("cap.mouth", "a thread for the grip".to_owned()), "thread");
        assert_eq!(choice("material", "a thread for the grip".to_owned()), "a thread for the grip");
    }

    /// No two words of a table lead to one name, so that no two facts become one.
    #[test]
    fn no_two_words_have_one_name() {
        let plain = FACTS.iter().map(|(_, name)| (*name).to_owned());
        let steps = STEPS.iter().flat_map(|(_, names)| names.map(str::to_owned));
        let holes = HOLES.iter().flat_map(|(_, _, table, keys)| {
            keys.iter().map(move |key| format!("bores.{table}.{key}"))
        });
        let threads = THREADS
            .iter()
            .flat_map(|(_, key)| OF_THREADS.iter().map(move |(_, name)| format!("{key}{name}")));
        let names: Vec<String> = plain.chain(steps).chain(holes).chain(threads).collect();
        assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len());
    }
}
