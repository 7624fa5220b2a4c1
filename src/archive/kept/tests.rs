//! Small archives, and what can be wrong with them.

use std::io::{Cursor, Write};

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

use super::*;
use crate::design::{Kind, Library, load};
use crate::scene::verdicts;

/// A small archive of the demo, under a name.
pub(in crate::archive) fn packed(name: &str) -> File {
    let resolved = load(&Library::default(), "demo").unwrap();
    let mut section = resolved.section;
    name.clone_into(&mut section.name);
    let contents = Contents {
        written: resolved.written,
        record: Record::new(&section, &verdicts(&section).unwrap()),
        exports: vec![File::new("report.json", "{}")],
        as_made: None,
        notes: vec!["for R.".to_owned(), "paid".to_owned()],
        photos: vec![File::new("nib.jpg", [0xff, 0xd8, 0])],
    };
    let asked = AskedFor { chord: 0.05, ..AskedFor::default() };
    Kept::pack(asked, Summary::default(), contents).unwrap()
}

fn codes(bytes: &[u8]) -> Vec<&'static str> {
    Kept::open(bytes).unwrap_err().iter().map(|fault| fault.code).collect()
}

/// A ZIP file of somebody else's making, sealed as ours are.
fn sealed(entries: &[(&str, &[u8])], options: SimpleFileOptions) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, bytes) in entries {
        writer.start_file(*name, options).unwrap();
        writer.write_all(bytes).unwrap();
    }
    writer.set_comment("0".repeat(64)).unwrap();
    seal(writer.finish().unwrap().into_inner())
}

fn seal(mut bytes: Vec<u8>) -> Vec<u8> {
    let sealed = bytes.len() - 64;
    let sum = digest(&bytes[..sealed]);
    bytes[sealed..].copy_from_slice(sum.as_bytes());
    bytes
}

fn stored() -> SimpleFileOptions {
    SimpleFileOptions::default().compression_method(CompressionMethod::Stored)
}

#[test]
fn what_is_packed_is_opened() {
    let file = packed("pen");
    assert_eq!(file, packed("pen"), "the same to the byte");
    let kept = Kept::open(&file.bytes).unwrap();
    assert!(kept.is_called(&file.name) && !kept.is_called("pen-0.zip"));
    assert_eq!(kept.manifest.name, "pen");
    assert_eq!(kept.notes(), ["for R.", "paid"]);
    assert_eq!(kept.photos().collect::<Vec<_>>(), ["nib.jpg"]);
    assert_eq!(kept.exports().collect::<Vec<_>>(), [("report.json", &b"{}"[..])]);
    let library = Library::of_written(kept.written());
    let again = load(&library, kept.written().asked(Kind::Design).unwrap()).unwrap();
    assert_eq!(again.section, load(&Library::default(), "demo").unwrap().section);
    assert_eq!(kept.unpacked().len(), kept.files.len() + 1);
}

/// Every byte, one bit of it flipped; and every shorter file.
#[test]
fn no_bit_changes_unseen() {
    let bytes = packed("pen").bytes;
    for n in 0..bytes.len() {
        let mut flipped = bytes.clone();
        flipped[n] ^= 1 << (n % 8);
        assert!(Kept::open(&flipped).is_err(), "byte {n}");
    }
    for n in (0..bytes.len()).step_by(97) {
        assert!(Kept::open(&bytes[..n]).is_err(), "{n} bytes");
    }
    assert_eq!(codes(&[]), ["archive.no-seal", "archive.zip"]);
}

/// A good seal makes no good archive.
#[test]
fn hostile_entries_are_refused_with_a_good_seal_too() {
    let one = |name: &str| codes(&sealed(&[(name, b"x")], stored()));
    for name in ["../x", "/x", "a/../../x", "C:\\x", "a\\b", ".hidden", "a/./b"] {
        assert_eq!(one(name), ["archive.entry-name"], "{name}");
    }
    assert_eq!(codes(&sealed(&[("a", b"x"), ("A", b"y")], stored())), ["archive.duplicate"]);
    assert_eq!(codes(&sealed(&[("a", b"x"), ("a/b", b"y")], stored())), ["archive.duplicate"]);
    assert_eq!(codes(&sealed(&[("a", b"x")], stored())), ["archive.no-manifest"]);
    let mut link = ZipWriter::new(Cursor::new(Vec::new()));
    link.add_symlink("a", "/etc/passwd", stored()).unwrap();
    link.set_comment("0".repeat(64)).unwrap();
    let link = seal(link.finish().unwrap().into_inner());
    assert_eq!(codes(&link), ["archive.entry-kind"]);
    let all = codes(&sealed(&[("../x", b"x"), ("/y", b"y"), ("ok", b"")], stored()));
    assert_eq!(all, ["archive.entry-name"; 2], "all at once");
}

/// Whoever made an archive can't steer the terminal of who reads it.
#[test]
fn texts_are_printable() {
    let kept = Kept::open(&packed("pen").bytes).unwrap();
    let mut files = kept.unpacked();
    files.retain(|file| file.name != MANIFEST && file.name != "notes/1.txt");
    files.push(File::new("notes/1.txt", "two\nlines \u{1b}[2J"));
    let summary = Summary { unit: "U \u{1b}]0;x\u{7}".to_owned(), ..Summary::default() };
    let asked = kept.manifest.asked.clone();
    let manifest = Manifest::new("pen".to_owned(), asked, summary, &kept.written(), &files);
    files.push(File::new(MANIFEST, manifest.write()));
    let opened = Kept::open(&zipped::write(files).unwrap()).unwrap();
    assert_eq!(opened.notes()[0], "two\nlines \u{fffd}[2J");
    assert_eq!(opened.manifest.summary.unit, "U \u{fffd}]0;x\u{fffd}");
    let odd = "{\"format\": 1, \"\\u001b[2J\": 1}";
    let fault = &Kept::open(&sealed(&[(MANIFEST, odd.as_bytes())], stored())).unwrap_err()[0];
    assert!(!fault.message.contains('\u{1b}'), "{fault:?}");
}

/// Manifests of other versions, and none.
#[test]
fn versions_are_told_apart() {
    let with = |manifest: &str| codes(&sealed(&[(MANIFEST, manifest.as_bytes())], stored()));
    assert_eq!(with("{\"format\": 3, \"new\": true}"), ["archive.format-newer"]);
    assert_eq!(with("{\"format\": 0}"), ["archive.format-unknown"]);
    assert_eq!(with("{\"format\": 1}"), ["archive.manifest"]);
    assert_eq!(with("{\"format\": 2}"), ["archive.manifest"]);
    assert_eq!(with("no"), ["archive.manifest"]);
    let bytes = sealed(&[(MANIFEST, b"{\"format\": 7}")], stored());
    assert!(Kept::open(&bytes).unwrap_err()[0].message.contains("format 7"));
}

/// An entry changed, gone or put in, and all of it sealed anew.
#[test]
fn entries_are_held_against_the_manifest() {
    let kept = Kept::open(&packed("pen").bytes).unwrap();
    let of = |change: fn(&mut Vec<File>)| {
        let mut files = kept.unpacked();
        change(&mut files);
        codes(&zipped::write(files).unwrap())
    };
    let is_note = |file: &File| file.name == "notes/1.txt";
    assert_eq!(of(|files| files.retain(|file| file.name != SECTION)), ["archive.entry-missing"]);
    assert_eq!(of(|files| files.push(File::new("more", "x"))), ["archive.entry-unlisted"]);
    assert_eq!(
        of(|files| files.iter_mut().for_each(|it| {
            if it.name == "notes/1.txt" {
                it.bytes[0] ^= 1;
            }
        })),
        ["archive.entry-changed"]
    );
    assert!(kept.unpacked().iter().any(is_note));
}
