//! Files that are damaged, cut short, or never were archives.

use super::*;

/// Bytes of the demo's archive that are flipped; `SECTIONWRIGHT_FLIPS` asks for more.
const FLIPS: usize = 2000;

/// One bit of each of many bytes of the demo's whole archive: none goes unseen. (Every byte of a
/// small one: `archive::kept::tests`.)
#[test]
fn no_bit_of_the_demos_archive_changes_unseen() {
    let home = tempfile::tempdir().unwrap();
    let arguments = ["keep", "demo", "--shelf", "shelf", "--quiet", "--chord", "0.1"];
    run(home.path(), &[&arguments[..], &["--only", "stl,dxf,svg,pdf"]].concat());
    let shelf = home.path().join("shelf");
    let mut bytes = fs::read(shelf.join(&names(&shelf)[0])).unwrap();
    let flips = std::env::var("SECTIONWRIGHT_FLIPS").map_or(FLIPS, |n| n.parse().unwrap());
    let mut dice = Dice(7);
    for _ in 0..flips {
        let (at, bit) = (dice.below(bytes.len()), dice.below(8));
        bytes[at] ^= 1 << bit;
        assert!(Kept::open(&bytes).is_err(), "byte {at}, bit {bit}");
        bytes[at] ^= 1 << bit;
    }
    assert!(Kept::open(&bytes).is_ok());
}

/// The program itself, with damaged files: refused, said, nothing written.
#[test]
fn damaged_files_are_refused() {
    let home = tempfile::tempdir().unwrap();
    let good = fs::read(keep(home.path(), "demo", &[])).unwrap();
    let mut flipped = good.clone();
    flipped[good.len() / 2] ^= 4;
    let files: [(&str, &[u8], &str); 5] = [
        ("flipped.zip", &flipped, "archive.seal"),
        ("short.zip", &good[..good.len() - 1], "archive.no-seal"),
        ("half.zip", &good[..good.len() / 2], "archive.no-seal"),
        ("empty.zip", b"", "archive.no-seal"),
        ("text.zip", b"not an archive at all", "archive.zip"),
    ];
    for (name, bytes, code) in files {
        fs::write(home.path().join(name), bytes).unwrap();
        let recalled = run(home.path(), &["recall", name, "--to", "back"]);
        assert_eq!(status(&recalled), 2, "{name}");
        assert!(err(&recalled).contains(code), "{name}\n{}", err(&recalled));
        assert!(!home.path().join("back").exists(), "{name}");
    }
    for (what, code) in [("gone.zip", "archive.unreadable"), ("shelf", "archive.unreadable")] {
        let recalled = run(home.path(), &["recall", what]);
        assert_eq!(status(&recalled), 2, "{what}");
        assert!(err(&recalled).contains(code), "{}", err(&recalled));
    }
}

/// Numbers that are the same in every run: a linear congruence (Knuth, MMIX; from memory).
pub(super) struct Dice(pub u64);

impl Dice {
    pub fn below(&mut self, count: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % count
    }
}
