//! Rows of the published tables in tests/fixtures/standard, and how a printed number is compared.

/// The fields of each row, header left out. Quoted fields lose their quotes.
pub fn rows(csv: &str) -> Vec<Vec<String>> {
    csv.lines().skip(1).filter(|line| !line.is_empty()).map(fields).collect()
}

fn fields(line: &str) -> Vec<String> {
    let mut fields = vec![String::new()];
    let mut quoted = false;
    for c in line.chars() {
        match c {
            '"' => quoted = !quoted,
            ',' if !quoted => fields.push(String::new()),
            _ => fields.last_mut().expect("one field at least").push(c),
        }
    }
    fields
}

pub fn number(text: &str) -> f64 {
    text.parse().unwrap_or_else(|_| panic!("`{text}` is a number"))
}

/// Whether a value, rounded to the decimals that were printed, is what was printed: it lies within
/// half a unit of the last digit. The noise of arithmetic, 1e-9, lets a tie count on both sides.
pub fn agrees(value: f64, printed: &str) -> bool {
    let decimals = printed.split_once('.').map_or(0, |(_, decimals)| decimals.len());
    let half_unit = (0..decimals).fold(0.5, |unit, _| unit / 10.0);
    (value - number(printed)).abs() <= half_unit + 1e-9
}

#[test]
fn agreement_is_half_a_unit_of_the_last_printed_digit() {
    assert!(agrees(9.512_861, "9.513") && !agrees(9.512_4, "9.513"));
    assert!(agrees(9.512_861, "9.51") && !agrees(9.516, "9.51"));
    assert!(agrees(4.0, "4") && agrees(4.5, "4") && !agrees(4.51, "4"));
    assert!(agrees(0.0005, "0.001") && agrees(0.0005, "0.000"));
}

#[test]
fn a_comma_in_quotes_is_text() {
    assert_eq!(rows("a,b,c\n1,\"x, y\",\n"), [["1", "x, y", ""]]);
}
