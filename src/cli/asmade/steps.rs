//! A step that is left to be done.

use crate::export::lathe_sheet::{Line, Row};

/// A step in a few lines: what is done, what is set, how it is verified.
pub(super) fn said(row: &Row) -> String {
    let words = |lines: &[Line]| {
        lines.iter().map(|line| line.words().to_owned()).collect::<Vec<_>>().join("; ")
    };
    let mut text = format!("  {:>2}  {}\n", row.number, row.title);
    for (head, lines) in [("set", &row.set), ("check", &row.check)] {
        if !lines.is_empty() {
            text += &format!("      {head}: {}\n", words(lines));
        }
    }
    text
}
