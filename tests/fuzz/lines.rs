//! Edits of a design file that leave it one: values, keys and tables are changed for others.
//!
//! Plain bytes hardly get past the parser; these get to the rules, and past them to the solid.

use fastrand::Rng;

/// Values at the ends of what a number may be, in any key.
const NUMBERS: &[&str] = &[
    "0",
    "-0.0",
    "-1",
    "1",
    "2",
    "300",
    "300.0001",
    "299.9",
    "1e9",
    "1e-9",
    "1e-4",
    "1.1e-4",
    "1e-7",
    "5e-324",
    "1e308",
    "inf",
    "nan",
    "9999999999999999999999",
    "0x7fffffffffffffff",
    "45",
    "60",
    "90",
    "118",
    "179.9",
    "0.5",
    "0.05",
    "0.001",
    "0.02",
    "100",
    "1000000",
    "7.2123456789",
];

/// Shifts of a decimal point.
const TENS: [f64; 8] = [1e-4, 1e-3, 1e-2, 1e-1, 1.0, 1e1, 1e2, 1e3];

/// Lines that a table may have; most belong to one of them, and are put anywhere.
const LINES: &[&str] = &[
    "thread = \"M10x0.75-6g\"",
    "thread = \"M10x0.2-6g\"",
    "thread = \"M10x0.001\"",
    "thread = \"M300x0.2\"",
    "thread = \"M10xPh6P1-LH\"",
    "thread = \"M9x0.35\"",
    "thread = \"Tr10.4x3P1.5-LH\"",
    "thread = \"Tr12x2\"",
    "thread = \"M13xPh60P0.5\"",
    "thread = \"M10xPh0.75P0.75\"",
    "designation = \"M8.05x0.55\"",
    "designation = \"M8x0.2\"",
    "designation = \"M8xPh3P0.5\"",
    "designation = \"Tr8x1.5\"",
    "designation = \"M8x1e-9\"",
    "class = \"6H\"",
    "class = \"9H\"",
    "form = { crest_radius = 0.08, root_radius = 0.1 }",
    "form = { angle = 5 }",
    "form = { angle = 120 }",
    "form = { root_radius = 0.0396 }",
    "form = { crest_flat = 0.1, root_flat = 0.1 }",
    "form = { major = 11, minor = 8 }",
    "form = { points = [[0.2, 0.1], [0, 0.2]] }",
    "form = { pitch_diameter = 9.6 }",
    "run_out = { withdrawal = 0.25 }",
    "run_out = { withdrawal = 30 }",
    "run_out = { lead = 4 }",
    "run_out = { lead = 1e-6 }",
    "run_out = { lead = 100 }",
    "phase = 0.3",
    "phase = 300",
    "relief = { width = 1.4, diameter = 8.9 }",
    "relief = \"none\"",
    "pilot = { length = 1.0, diameter = 8.8 }",
    "counterbore = { diameter = 10.3, depth = 1.2 }",
    "chamfer = 0",
    "chamfer = 0.4600",
    "point = \"flat\"",
    "point = 1",
    "point = 179",
    "seat = { cone = 60 }",
    "seat = { cone = 1 }",
    "cuts_over = [0, 0.15]",
    "cuts_over = [0, 50]",
    "diameter = \"basic\"",
    "diameter = \"letter L\"",
    "diameter = \"19/64 in\"",
    "over = 0.3",
    "under = 0.1",
    "proud = 0.1",
    "beyond = 0",
    "beyond = 200",
    "depth = 250",
    "length = 280",
    "to = 11.75",
    "to = 260",
    "outside = 12.4",
    "full_thread_to = 11",
    "front = 10.4",
    "run = [{ to = 3 }, { to = 6, diameter = 14 }, { to = 21, diameter = 11.4 }]",
    "like = \"demo\"",
    "like = \"../r1.toml\"",
    "like = \"threads.toml\"",
    "unit = \"r1-unit.toml\"",
    "unit = \"demo-unit\"",
    "material = \"brass\"",
    "facing = 300",
    "holding = 300",
    "lip = 1e-9",
];

/// Headers of tables.
const HEADERS: &[&str] = &[
    "[grip]",
    "[[grip.run]]",
    "[tenon]",
    "[tenon.form]",
    "[tenon.run_out]",
    "[bores]",
    "[bores.recess]",
    "[bores.clearance]",
    "[bores.thread]",
    "[bores.thread.form]",
    "[bores.thread.run_out]",
    "[bores.tap_drill]",
    "[bores.through]",
    "[barrel]",
    "[barrel.form]",
    "[allowance]",
    "[offsets]",
    "[limits.walls]",
    "[limits.fit]",
    "[limits.thread_percent]",
];

/// Makes one to four edits of a text, drawn from a seed.
pub fn edit(text: &str, seed: u64) -> String {
    let mut rng = Rng::with_seed(seed);
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for _ in 0..=rng.usize(..4) {
        let at = rng.usize(..=lines.len());
        let Some(line) = lines.get(at).cloned() else {
            lines.push((*rng.choice(LINES).expect("some")).to_owned());
            continue;
        };
        match rng.u32(..16) {
            0 => drop(lines.remove(at)),
            1 => lines.insert(at, line),
            2 => lines.insert(at, (*rng.choice(LINES).expect("some")).to_owned()),
            3 => lines.insert(at, (*rng.choice(HEADERS).expect("some")).to_owned()),
            4 => {
                let other = rng.usize(..lines.len());
                lines.swap(at, other);
            }
            5 => under_header(&mut lines, &mut rng),
            6 => value_of_another(&mut lines, at, &mut rng),
            _ => lines[at] = another_number(&line, &mut rng),
        }
    }
    lines.join("\n") + "\n"
}

/// A line of the list under a header of the text, where it may well belong.
fn under_header(lines: &mut Vec<String>, rng: &mut Rng) {
    let headers: Vec<usize> = (0..lines.len()).filter(|n| lines[*n].starts_with('[')).collect();
    if let Some(header) = rng.choice(headers) {
        lines.insert(header + 1, (*rng.choice(LINES).expect("some")).to_owned());
    }
}

/// Gives a key the value of another one, so that two measures coincide.
fn value_of_another(lines: &mut [String], at: usize, rng: &mut Rng) {
    let values: Vec<String> =
        lines.iter().filter_map(|line| Some(line.split_once(" = ")?.1.to_owned())).collect();
    if let (Some((key, _)), Some(value)) = (lines[at].split_once(" = "), rng.choice(values)) {
        lines[at] = format!("{key} = {value}");
    }
}

/// Another number in place of one of a line's: an extreme one, one nearby, or a multiple.
fn another_number(line: &str, rng: &mut Rng) -> String {
    let is_part = |c: char| c.is_ascii_digit() || c == '.';
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (n, c) in line.char_indices() {
        match found.last_mut() {
            _ if !is_part(c) => {}
            Some(last) if last.1 == n => last.1 = n + 1,
            _ => found.push((n, n + 1)),
        }
    }
    let Some((from, to)) = rng.choice(found) else { return line.to_owned() };
    let value: f64 = line[from..to].parse().unwrap_or(1.0);
    let number = match rng.u32(..6) {
        0 => (*rng.choice(NUMBERS).expect("some")).to_owned(),
        1 => format!("{}", value * rng.choice(TENS).expect("some")),
        2 => format!("{}", value + 1e-7 * f64::from(rng.i32(-20..20))),
        3 => format!("{:.2}", rng.f64() * 20.0),
        4 => format!("{:.3}", value * (0.5 + rng.f64())),
        _ => format!("{:.3}", value * (0.95 + 0.1 * rng.f64())),
    };
    format!("{}{number}{}", &line[..from], &line[to..])
}
