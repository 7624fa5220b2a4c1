//! Who drew a drawing, and when.

use super::Making;
use crate::design::design_file::DrawingFile;
use crate::design::reader::Placed;
use crate::design::resolved::Credits;
use crate::diagnostic::Diagnostic;

/// Most letters of a name: more do not fit the title block's field.
const MOST: usize = 40;

/// The credits, as far as they are given.
pub(in crate::design) fn resolve(file: &DrawingFile, making: &mut Making) -> Credits {
    let mut checked = |written: &Option<Placed<String>>, fault: fn(&str) -> Option<Fault>| {
        let written = written.as_ref()?;
        if let Some(Fault { code, message, works }) = fault(&written.value) {
            let mut error = Diagnostic::error(code, message).hint(works);
            error.at = written.place();
            making.log.push(error);
        }
        Some(written.value.clone())
    };
    Credits { drawn_by: checked(&file.drawn_by, name_fault), date: checked(&file.date, date_fault) }
}

struct Fault {
    code: &'static str,
    message: String,
    works: &'static str,
}

/// Why a title block can't show a name.
fn name_fault(name: &str) -> Option<Fault> {
    let shown = !name.trim().is_empty() && !name.contains(char::is_control);
    (!shown || name.chars().count() > MOST).then(|| Fault {
        code: "drawing.drawn-by",
        message: format!("a title block takes a name of 1 to {MOST} letters"),
        works: "drawn_by = \"R. Turner\"",
    })
}

/// Why something is no day.
fn date_fault(date: &str) -> Option<Fault> {
    (!is_day(date)).then(|| Fault {
        code: "drawing.date",
        message: format!("{date:?} is no day as ISO 8601 writes it: year, month, day"),
        works: "date = \"2026-03-14\"",
    })
}

/// Whether something is a day as ISO 8601 writes it: 2026-03-14.
pub fn is_day(date: &str) -> bool {
    let fields: Vec<&str> = date.split('-').collect();
    let number = |field: &str, digits: usize| {
        let plain = field.len() == digits && field.bytes().all(|b| b.is_ascii_digit());
        plain.then(|| field.parse::<u32>().ok()).flatten()
    };
    match fields[..] {
        [year, month, day] => {
            let (year, month, day) = (number(year, 4), number(month, 2), number(day, 2));
            year.zip(month)
                .zip(day)
                .is_some_and(|((year, month), day)| (1..=days(year, month)).contains(&day))
        }
        _ => false,
    }
}

/// The days of a month; none of what is no month.
fn days(year: u32, month: u32) -> u32 {
    let leap = (year.is_multiple_of(4) && !year.is_multiple_of(100)) || year.is_multiple_of(400);
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the Gregorian calendar; ISO 8601 writes years with four digits, months and days
    /// with two.
    #[test]
    fn days_are_those_of_the_calendar() {
        for day in ["2026-03-14", "2024-02-29", "2000-02-29", "1999-12-31"] {
            assert!(date_fault(day).is_none(), "{day}");
        }
        for none in
            ["2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "26-03-14", "14.3.2026", ""]
        {
            assert!(date_fault(none).is_some(), "{none}");
        }
    }

    #[test]
    fn names_fit_their_field() {
        assert!(name_fault("Ä. Dreher").is_none());
        for bad in ["", "  ", "a\nb", &"x".repeat(41)] {
            assert!(name_fault(bad).is_some(), "{bad:?}");
        }
    }
}
