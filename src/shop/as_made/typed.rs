//! What was cut, as it is typed: `bores.clearance.depth=4.3`.

use crate::design::{GREATEST, MadeSize};
use crate::diagnostic::{Diagnostic, Place, SourceId, Sources};
use crate::quantity::{Length, LengthError, parse_length};

/// Reads lines of a key and a length each, puts them among the sources, and notes what is wrong
/// with them. A size whose value is wrong is there all the same, so that its key is looked at.
pub fn typed(lines: &[String], sources: &mut Sources) -> (Vec<MadeSize>, Vec<Diagnostic>) {
    let mut wrong = Vec::new();
    let text = lines.join("\n");
    let source = sources.add("the command line", text);
    let mut start = 0;
    let mut sizes = Vec::new();
    for line in lines {
        sizes.extend(size(line, (source, start), &mut wrong));
        start += line.len() + 1;
    }
    (sizes, wrong)
}

fn size(
    line: &str,
    (source, start): (SourceId, usize),
    wrong: &mut Vec<Diagnostic>,
) -> Option<MadeSize> {
    let at = |from: usize, to: usize| Place::new(source, start + from..start + to);
    let Some((key, said)) = line.split_once('=').filter(|(key, _)| !key.trim().is_empty()) else {
        let message = format!("`{line}` is no key with a length");
        let form = Diagnostic::error("made.form", message).at(at(0, line.len()));
        wrong.push(form.hint("a key, an equals sign and a length: bores.clearance.depth=4.3"));
        return None;
    };
    let value_at = at(key.len() + 1, line.len());
    let value = value(key.trim(), said, value_at, wrong).unwrap_or(Length::mm(1.0));
    Some(MadeSize { key: key.trim().to_owned(), value, at: Some(at(0, key.len())) })
}

/// A length above zero, and no longer than a pen; none where it is not, which is noted.
fn value(key: &str, said: &str, at: Place, wrong: &mut Vec<Diagnostic>) -> Option<Length> {
    let (code, message, hint) = match parse_length(said) {
        Ok(length) if length <= Length::ZERO => (
            "made.negative",
            format!("`{key}` can't be {length}"),
            "a length above 0, such as 4.3".to_owned(),
        ),
        Ok(length) if length > GREATEST => (
            "made.huge",
            format!("`{key}` of {length} is longer than any part of a pen"),
            format!("lengths are in mm, {} at most; 0.5 in is half an inch", GREATEST.as_mm()),
        ),
        Ok(length) => return Some(length),
        Err(error) => {
            let endless = matches!(error, LengthError::NotFinite(_));
            let code = if endless { "made.not-finite" } else { "made.length" };
            (code, format!("`{key}`: {error}"), error.hint())
        }
    };
    wrong.push(Diagnostic::error(code, message).at(at).hint(hint));
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(lines: &[&str]) -> (Vec<MadeSize>, Vec<&'static str>) {
        let lines: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        let (sizes, wrong) = typed(&lines, &mut Sources::default());
        (sizes, wrong.iter().map(|d| d.code).collect())
    }

    #[test]
    fn lengths_are_read_as_everywhere() {
        let (sizes, wrong) = read(&["a.b=4.3", "c = 4.3 mm", "d=0.17 in", "e=5/16 in"]);
        assert!(wrong.is_empty(), "{wrong:?}");
        let values: Vec<_> = sizes.iter().map(|size| size.value).collect();
        let four = Length::mm(4.3);
        assert_eq!(values, [four, four, Length::inch(0.17), Length::mm(7.9375)]);
        assert_eq!(sizes[1].key, "c");
    }

    #[test]
    fn every_mistake_is_said_at_once() {
        let lines = ["a", "=3", "b=", "c=x", "d=-1", "e=0", "f=nan", "g=inf", "h=301", "i=4,3"];
        let (_, wrong) = read(&lines);
        let expected = [
            "made.form",
            "made.form",
            "made.length",
            "made.length",
            "made.negative",
            "made.negative",
            "made.not-finite",
            "made.not-finite",
            "made.huge",
            "made.length",
        ];
        assert_eq!(wrong, expected);
    }
}
