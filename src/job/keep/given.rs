//! What is given beside the design: notes, photographs, the day.

use std::fs::{self, File as Open};
use std::io::Read;
use std::path::{Path, PathBuf};

use crate::design::{file_name_fault, is_day};
use crate::diagnostic::Diagnostic;
use crate::export::File;

/// Bytes of a note at most: more is a file, which --photo takes.
const LONGEST_NOTE: usize = 64 * 1024;
/// Notes at most, and photographs: more are no archive of one pen.
const MOST: usize = 200;
/// Bytes of a photograph at most: twice what a good camera's largest has. More, and a few of them
/// fill what an archive may hold.
const LARGEST_PHOTO: u64 = 64 * 1024 * 1024;

fn fault(code: &'static str, message: String, hint: &str) -> Diagnostic {
    Diagnostic::error(code, message).hint(hint)
}

/// The notes, each a text.
pub(super) fn notes(typed: &[String], wrong: &mut Vec<Diagnostic>) -> Vec<String> {
    too_many(typed.len(), "notes", wrong);
    for note in typed {
        let stray = note.contains(|c: char| c.is_control() && c != '\n' && c != '\t');
        if note.trim().is_empty() || note.len() > LONGEST_NOTE || stray {
            let message = format!("a note is a text of 1 to {LONGEST_NOTE} bytes");
            wrong.push(fault("keep.note", message, "--note \"for R., second of a pair\""));
        }
    }
    typed.to_vec()
}

/// The photographs, each under the name of its file.
pub(super) fn photos(typed: &[PathBuf], wrong: &mut Vec<Diagnostic>) -> Vec<File> {
    too_many(typed.len(), "photographs", wrong);
    let mut files: Vec<File> = Vec::new();
    for path in typed {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        if let Some(why) = file_name_fault(name) {
            let message = format!("{} can't be kept under its name: {why}", path.display());
            wrong.push(fault("keep.photo-name", message, "--photo nib.jpg"));
            continue;
        }
        let same = |file: &&File| file.name.to_lowercase() == name.to_lowercase();
        if files.iter().find(same).is_some() {
            let message = format!("two photographs are called {name}");
            wrong.push(fault("keep.photo-twice", message, "give one of them another name"));
            continue;
        }
        match read(path) {
            Ok(bytes) => files.push(File::new(name, bytes)),
            Err(why) => {
                let message = format!("can't keep {}: {why}", path.display());
                let hint = format!("a photograph is a file of {LARGEST_PHOTO} bytes at most");
                wrong.push(fault("keep.photo", message, &hint));
            }
        }
    }
    files
}

fn too_many(count: usize, what: &str, wrong: &mut Vec<Diagnostic>) {
    if count > MOST {
        let message = format!("{count} {what} are more than the {MOST} that an archive takes");
        wrong.push(fault("keep.too-many", message, "keep them in two archives"));
    }
}

fn read(path: &Path) -> Result<Vec<u8>, String> {
    let data = fs::metadata(path).map_err(|error| error.to_string())?;
    if !data.is_file() {
        return Err("it is no file".to_owned());
    }
    let mut bytes = Vec::new();
    let open = Open::open(path).map_err(|error| error.to_string())?;
    open.take(LARGEST_PHOTO + 1).read_to_end(&mut bytes).map_err(|error| error.to_string())?;
    if bytes.len() as u64 > LARGEST_PHOTO {
        return Err(format!("it has {} bytes", data.len()));
    }
    Ok(bytes)
}

/// The day, if one is given.
pub(super) fn date(typed: Option<&str>, wrong: &mut Vec<Diagnostic>) {
    if let Some(day) = typed.filter(|day| !is_day(day)) {
        let message = format!("{day:?} is no day as ISO 8601 writes it: year, month, day");
        wrong.push(fault("keep.date", message, "--date 2031-05-01"));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source of the leap years: the Gregorian calendar, as ISO 8601 takes it.
    #[test]
    fn a_day_is_a_day() {
        let wrong = |day: &str| {
            let mut wrong = Vec::new();
            date(Some(day), &mut wrong);
            wrong.len()
        };
        assert!(["2031-05-01", "2024-02-29", "2000-02-29"].iter().all(|day| wrong(day) == 0));
        let none = ["2031-5-1", "2031-02-29", "1900-02-29", "20310501", "2031-13-01", "today", ""];
        assert!(none.iter().all(|day| wrong(day) == 1));
    }

    #[test]
    fn everything_that_is_wrong_with_photographs_is_said() {
        let home = tempfile::tempdir().unwrap();
        let path = |name: &str| home.path().join(name);
        fs::write(path("a.jpg"), [0xff, 0xd8]).unwrap();
        fs::create_dir(path("b")).unwrap();
        fs::write(path("b/A.JPG"), "x").unwrap();
        let mut wrong = Vec::new();
        let given = [path("a.jpg"), path("b/A.JPG"), path("gone.jpg"), path("b"), "..".into()];
        let files = photos(&given, &mut wrong);
        assert_eq!(files, [File::new("a.jpg", [0xff, 0xd8])]);
        let codes: Vec<_> = wrong.iter().map(|fault| fault.code).collect();
        assert_eq!(codes, ["keep.photo-twice", "keep.photo", "keep.photo", "keep.photo-name"]);
    }
}
