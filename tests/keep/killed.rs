//! `keep` and `make`, killed at any moment: the old state or the new one, whole.

use std::process::Stdio;
use std::thread::sleep;
use std::time::{Duration, Instant};

use super::flips::Dice;
use super::*;

/// Moments of each of the two; SECTIONWRIGHT_KILLS asks for more.
const MOMENTS: usize = 150;

fn moments() -> usize {
    std::env::var("SECTIONWRIGHT_KILLS").map_or(MOMENTS, |n| n.parse().unwrap())
}

/// Two designs of one name, and files that make the writing last a while.
fn designs(home: &Path) -> [String; 2] {
    fs::write(home.join("large.jpg"), vec![7; 3_000_000]).unwrap();
    [9.7, 9.75].map(|front| {
        let name = format!("{front}.toml");
        let text = format!(
            "format = 1\nlike = \"{}\"\nunit = \"{}\"\n[grip]\nfront = {front}\n",
            fixture("r1.toml"),
            fixture("r1-unit.toml")
        );
        fs::write(home.join(&name), text).unwrap();
        name
    })
}

/// How long a whole run takes.
fn measured(home: &Path, arguments: &[&str]) -> Duration {
    let start = Instant::now();
    assert!(status(&run(home, arguments)) < 2);
    start.elapsed()
}

/// Starts the program and kills it: at a random moment of the whole run, or, every third time, up
/// to some milliseconds after it began to write; gives whether it was killed before it ended.
fn killed(
    home: &Path,
    arguments: &[&str],
    whole: Duration,
    dice: &mut Dice,
    n: usize,
    hidden: &Path,
) -> bool {
    let mut child =
        program(home, arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
    let start = Instant::now();
    if n.is_multiple_of(3) {
        while !hidden.exists() && start.elapsed() < whole * 3 && child.try_wait().unwrap().is_none()
        {
            sleep(Duration::from_micros(100));
        }
        sleep(Duration::from_micros(dice.below(6000) as u64));
    } else {
        let share = dice.below(1100) as u32;
        sleep(whole * share / 1000);
    }
    // SIGKILL, on Unix.
    let _ = child.kill();
    child.wait().unwrap().code().is_none()
}

#[test]
fn keep_killed_at_any_moment_leaves_whole_archives() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let designs = designs(home);
    let shelf = home.join("shelf");
    let arguments = |design: &'_ str, note: &'_ str| {
        [
            "keep",
            design,
            "--quiet",
            "--only",
            "report",
            "--shelf",
            "shelf",
            "--photo",
            "large.jpg",
            "--note",
            note,
        ]
        .map(str::to_owned)
    };
    let typed = |design: &str, note: &str| arguments(design, note).to_vec();
    fn words(typed: &[String]) -> Vec<&str> {
        typed.iter().map(String::as_str).collect()
    }
    let first = typed(&designs[0], "first");
    let whole = measured(home, &words(&first));
    let old = set(&shelf);
    let mut dice = Dice(11);
    let (mut cut_short, mut new) = (0, 0);
    for n in 0..moments() {
        let note = format!("run {n}");
        let arguments = typed(&designs[n % 2], &note);
        let hidden = shelf.join(".keeping.sectionwright");
        cut_short += usize::from(killed(home, &words(&arguments), whole, &mut dice, n, &hidden));
        let now = set(&shelf);
        for (name, bytes) in &now {
            if old.get(name) == Some(bytes) || name.starts_with('.') {
                continue;
            }
            let kept = Kept::open(bytes).unwrap();
            assert!(kept.is_called(name), "{name}");
            assert_eq!(kept.notes(), [note.clone()]);
            new += 1;
            fs::remove_file(shelf.join(name)).unwrap();
        }
        assert!(old.iter().all(|(name, bytes)| now.get(name) == Some(bytes)), "the old one stays");
        let litter: Vec<&String> = now.keys().filter(|name| name.starts_with('.')).collect();
        assert!(litter.iter().all(|name| *name == ".keeping.sectionwright"), "{litter:?}");
    }
    println!("keep: {cut_short} of {} cut short, {new} new archives, all whole", moments());
    assert!(cut_short > moments() / 3, "most are killed while they run: {cut_short}");
    // The next run clears what the last one left.
    assert!(status(&run(home, &words(&first))) < 2);
    assert_eq!(set(&shelf), old);
}

#[test]
fn make_killed_at_any_moment_leaves_a_whole_set() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let designs = designs(home);
    let folder = home.join("out/R1");
    let typed = |n: usize| {
        ["make", designs[n % 2].as_str(), "--quiet", "--only", "report,dxf", "--chord", "0.1"]
    };
    let sets = [0, 1].map(|n| {
        assert!(status(&run(home, &typed(n))) < 2);
        set(&folder)
    });
    assert_ne!(sets[0], sets[1]);
    let whole = measured(home, &typed(1));
    let mut dice = Dice(13);
    let (mut cut_short, mut new) = (0, 0);
    for n in 0..moments() {
        let before = set(&folder);
        let hidden = home.join("out/.R1.sectionwright");
        cut_short += usize::from(killed(home, &typed(n), whole, &mut dice, n, &hidden));
        let now = set(&folder);
        assert!(
            now == before || now == sets[n % 2],
            "run {n}: neither the old set nor the new one"
        );
        new += usize::from(now != before);
        let beside = names(&home.join("out"));
        let known = [".R1.sectionwright", "R1"];
        assert!(beside.iter().all(|name| known.contains(&name.as_str())), "{beside:?}");
    }
    println!("make: {cut_short} of {} cut short, {new} new sets, all whole", moments());
    assert!(cut_short > moments() / 3, "most are killed while they run: {cut_short}");
    assert!(status(&run(home, &typed(0))) < 2);
    assert_eq!(set(&folder), sets[0]);
    assert_eq!(names(&home.join("out")), ["R1"]);
}
