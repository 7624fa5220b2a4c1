//! Designs with their files, to be changed and read again.

use std::fs;
use std::path::PathBuf;

use sectionwright::design::{InFile, Library, Resolved, Write, load, with_numbers};
use tempfile::TempDir;

use super::random;

/// Random designs, if nobody asks for more.
const RANDOM: u64 = 40;

/// A design in a folder of its own.
pub struct Files {
    home: TempDir,
    design: String,
    unit: String,
}

impl Files {
    fn of(texts: &[(&str, &str)], unit: &str) -> Self {
        let home = tempfile::tempdir().unwrap();
        for (name, text) in texts {
            fs::write(home.path().join(name), text).unwrap();
        }
        Self { home, design: texts[0].0.to_owned(), unit: unit.to_owned() }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.home.path().join(name)
    }

    fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// The design, read; none where it is wrong.
    pub fn read(&self) -> Option<Resolved> {
        load(&Library::default(), &self.path(&self.design).display().to_string()).ok()
    }

    /// The file that the design is like, of those that are here.
    fn like(&self) -> Option<String> {
        let text = self.text(&self.design);
        let line = text.lines().find(|line| line.starts_with("like = "))?;
        line.split('"').nth(1).filter(|name| self.path(name).exists()).map(str::to_owned)
    }

    /// The design with some keys written otherwise, read; the files stay as they are. An error where
    /// a key has no place in its file.
    pub fn read_with(&self, writes: &[Write]) -> Result<Option<Resolved>, String> {
        let mut old = Vec::new();
        let like = self.like();
        let files = [
            (InFile::Design, false, Some(&self.design)),
            (InFile::Design, true, like.as_ref()),
            (InFile::Unit, false, Some(&self.unit)),
        ];
        for (file, inherited, name) in files {
            let own: Vec<(&str, f64)> = writes
                .iter()
                .filter(|write| write.file == file && write.inherited == inherited)
                .map(|write| (write.key.as_str(), write.value))
                .collect();
            if own.is_empty() {
                continue;
            }
            let name = name.ok_or("not in these files")?;
            let text = self.text(name);
            let changed = with_numbers(&text, &own).map_err(|error| error.to_string())?;
            old.push((self.path(name), text, changed));
        }
        for (path, _, changed) in &old {
            fs::write(path, changed).unwrap();
        }
        let read = self.read();
        for (path, text, _) in &old {
            fs::write(path, text).unwrap();
        }
        Ok(read)
    }
}

/// The fixtures and the demo, each with all of their files beside it.
pub fn fixtures() -> Vec<(String, Files)> {
    let names =
        ["r1", "capped", "outside", "both-ends", "reliefs", "threads", "blind", "blind-flat"];
    let mut texts = Vec::new();
    for folder in ["tests/fixtures", "profiles/designs", "profiles/units"] {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_some_and(|it| it == "toml") {
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                // By their paths, so that none is one of the built-in ones.
                let text = fs::read_to_string(&path).unwrap();
                let text = text.replace("\"demo-unit\"", "\"demo-unit.toml\"");
                texts.push((name, text.replace("like = \"demo\"", "like = \"demo.toml\"")));
            }
        }
    }
    texts.sort();
    let unit_of = |design: &str| {
        let mut name = design.to_owned();
        loop {
            let (_, text) = texts.iter().find(|(own, _)| *own == name).unwrap();
            let value = |key: &str| {
                let line = text.lines().find(|line| line.starts_with(&format!("{key} = ")))?;
                Some(line.split('"').nth(1)?.to_owned())
            };
            match value("unit") {
                Some(unit) => break unit,
                None => name = value("like").unwrap(),
            }
        }
    };
    let of = |name: &str| {
        let design = format!("{name}.toml");
        let unit = unit_of(&design);
        let mut own: Vec<(&str, &str)> = texts.iter().map(|(n, t)| (&**n, &**t)).collect();
        own.sort_by_key(|(name, _)| *name != design);
        (name.to_owned(), Files::of(&own, &unit))
    };
    names.into_iter().chain(["demo"]).map(of).collect()
}

/// Random designs over the demo, those that are sound; their unit is not a file of theirs.
pub fn random_designs() -> Vec<(String, Files)> {
    let count = std::env::var("SECTIONWRIGHT_DESIGNS").ok().and_then(|n| n.parse().ok());
    let files = |seed: u64| {
        let [design, rack] = random::texts(seed);
        let files = Files::of(&[("pen.toml", &design), ("rack.toml", &rack)], "");
        files.read().map(|_| (format!("random {seed}"), files))
    };
    (1..).filter_map(files).take(count.unwrap_or(RANDOM) as usize).collect()
}
