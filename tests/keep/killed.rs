//! `keep`, `make` and `new`, killed at any moment: the old state or the new one, whole.

use std::process::{Child, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use super::flips::Dice;
use super::*;

/// Moments of each of the two, so that every run of the tests takes some; `SECTIONWRIGHT_KILLS=150`
/// is the whole trial of 300.
const MOMENTS: usize = 40;

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
fn measured(home: &Path, arguments: &[String]) -> Duration {
    let start = Instant::now();
    assert!(finished(home, arguments));
    start.elapsed()
}

/// Whether the program wrote what it was asked for.
fn finished(home: &Path, arguments: &[String]) -> bool {
    let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
    status(&run(home, &words)) < 2
}

/// What is killed, again and again.
struct Victim<'a> {
    home: &'a Path,
    /// How long a whole run takes.
    whole: Duration,
    /// What is there while it writes.
    hidden: PathBuf,
    dice: Dice,
}

impl Victim<'_> {
    /// Starts the program and kills it: at a random moment of the whole run, or, every third time,
    /// up to some milliseconds after it began to write; gives whether it was killed before it ended.
    fn killed(&mut self, arguments: &[String], n: usize) -> bool {
        let writing = n.is_multiple_of(3);
        if writing && self.hidden.exists() {
            // What an earlier kill left would hide when this run begins to write.
            let _ = fs::remove_file(&self.hidden).or_else(|_| fs::remove_dir_all(&self.hidden));
        }
        let words: Vec<&str> = arguments.iter().map(String::as_str).collect();
        let mut program = program(self.home, &words);
        let mut child = program.stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap();
        let start = Instant::now();
        if writing {
            let waits = |child: &mut Child| child.try_wait().unwrap().is_none();
            while !self.hidden.exists() && start.elapsed() < self.whole * 9 && waits(&mut child) {
                sleep(Duration::from_micros(100));
            }
            sleep(Duration::from_micros(self.dice.below(6000) as u64));
        } else {
            sleep(self.whole * u32::try_from(self.dice.below(1100)).unwrap() / 1000);
        }
        // SIGKILL, on Unix.
        let _ = child.kill();
        child.wait().unwrap().code().is_none()
    }
}

#[test]
fn keep_killed_at_any_moment_leaves_whole_archives() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let designs = designs(home);
    let shelf = home.join("shelf");
    let typed = |design: &str, note: &str| {
        let words = ["keep", design, "--quiet", "--only", "report", "--shelf", "shelf"];
        let more = ["--photo", "large.jpg", "--note", note];
        words.into_iter().chain(more).map(str::to_owned).collect::<Vec<_>>()
    };
    let first = typed(&designs[0], "first");
    let whole = measured(home, &first);
    let old = set(&shelf);
    let hidden = shelf.join(".keeping.sectionwright");
    let mut victim = Victim { home, whole, hidden, dice: Dice(11) };
    let (mut cut_short, mut new) = (0, 0);
    for n in 0..moments() {
        let note = format!("run {n}");
        let arguments = typed(&designs[n % 2], &note);
        cut_short += usize::from(victim.killed(&arguments, n));
        let now = set(&shelf);
        for (name, bytes) in &now {
            if old.get(name) == Some(bytes) || name.starts_with('.') {
                continue;
            }
            let kept = Kept::open(bytes).unwrap();
            assert!(kept.is_called(name), "{name}");
            assert_eq!(kept.notes(), std::slice::from_ref(&note));
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
    assert!(finished(home, &first));
    assert_eq!(set(&shelf), old);
}

/// Killed at any moment, `new` leaves none of its files, or its unit alone, or both; each of them is
/// whole, and the next run makes what is missing.
#[test]
fn new_killed_at_any_moment_can_be_run_again() {
    let home = tempfile::tempdir().unwrap();
    let typed = ["new", "Pen 7", "--quiet"].map(str::to_owned);
    let whole = measured(home.path(), &typed);
    let both = set(home.path());
    let named = |suffix: &str| format!("Pen 7{suffix}.toml");
    assert_eq!(both.keys().cloned().collect::<Vec<_>>(), [named("-unit"), named("")]);
    let [mut cut_short, mut ended] = [0, 0];
    for n in 0..moments() {
        let home = tempfile::tempdir().unwrap();
        let home = home.path();
        let hidden = home.join(".keeping.sectionwright");
        let mut victim = Victim { home, whole, hidden, dice: Dice(17 + n as u64) };
        cut_short += usize::from(victim.killed(&typed, n));
        let left = set(home);
        let files = left.iter().filter(|(name, _)| !name.starts_with('.'));
        assert!(files.clone().all(|(name, bytes)| both.get(name) == Some(bytes)), "run {n}");
        if left.contains_key(&named("")) {
            assert!(left.contains_key(&named("-unit")), "run {n}: a design without its unit");
            ended += 1;
        } else {
            assert!(finished(home, &typed), "run {n}: what is left is refused: {:?}", left.keys());
            assert_eq!(set(home), both);
        }
    }
    println!("new: {cut_short} of {} cut short, {ended} with both files", moments());
    assert!(cut_short > moments() / 3, "most are killed while they run: {cut_short}");
}

/// A unit of another text is somebody's: then nothing is written.
#[test]
fn new_leaves_what_is_there() {
    let home = tempfile::tempdir().unwrap();
    for taken in ["Pen 7.toml", "Pen 7-unit.toml"] {
        let path = home.path().join(taken);
        fs::write(&path, "mine").unwrap();
        let before = set(home.path());
        assert_eq!(status(&run(home.path(), &["new", "Pen 7"])), 2);
        assert_eq!(set(home.path()), before);
        fs::remove_file(path).unwrap();
    }
}

#[test]
fn make_killed_at_any_moment_leaves_a_whole_set() {
    let home = tempfile::tempdir().unwrap();
    let home = home.path();
    let designs = designs(home);
    let folder = home.join("out/R1");
    let typed = |n: usize| {
        let words = ["make", &designs[n % 2], "--quiet", "--only", "report,dxf"];
        words.map(str::to_owned).to_vec()
    };
    let sets = [0, 1].map(|n| {
        assert!(finished(home, &typed(n)));
        set(&folder)
    });
    assert_ne!(sets[0], sets[1]);
    let whole = measured(home, &typed(1));
    let hidden = home.join("out/.R1.sectionwright");
    let mut victim = Victim { home, whole, hidden, dice: Dice(13) };
    let (mut cut_short, mut new) = (0, 0);
    for n in 0..moments() {
        let before = set(&folder);
        cut_short += usize::from(victim.killed(&typed(n), n));
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
    assert!(finished(home, &typed(0)));
    assert_eq!(set(&folder), sets[0]);
    assert_eq!(names(&home.join("out")), ["R1"]);
}
