//! Designs and racks for these tests, written as people write them.

use std::fs;

use sectionwright::design::{Asked, Library, Resolved, load_asked};

/// A design over the demo, with a rack of its own in a file beside it.
pub fn with_rack(design: &str, rack: &str) -> Resolved {
    let home = tempfile::tempdir().unwrap();
    let design = format!("format = 1\nlike = \"demo\"\n{design}\n");
    fs::write(home.path().join("pen.toml"), design).unwrap();
    fs::write(home.path().join("rack.toml"), format!("format = 1\nname = \"mine\"\n{rack}\n"))
        .unwrap();
    let path = |name: &str| home.path().join(name).display().to_string();
    let asked = Asked { limits: &[], rack: Some(&path("rack.toml")) };
    load_asked(&Library::default(), &path("pen.toml"), asked).unwrap_or_else(|e| panic!("{e:?}"))
}

/// A design over the demo with the rack that ships, and units of its own by name.
pub fn written(files: &[(&str, &str)]) -> Option<Resolved> {
    let home = tempfile::tempdir().unwrap();
    for (name, text) in files {
        fs::write(home.path().join(name), text).unwrap();
    }
    let path = home.path().join(files[0].0).display().to_string();
    load_asked(&Library::default(), &path, Asked::default()).ok()
}

/// Drills of these sizes, 118 degrees.
pub fn drills(sizes: &[&str]) -> String {
    let drill = |size: &&str| format!("[[drill]]\nsize = {size}\npoint = 118\n");
    sizes.iter().map(drill).collect::<Vec<_>>().concat()
}
