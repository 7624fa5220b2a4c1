//! What an entry of an archive may be called, so that it can be unpacked anywhere and nowhere else.

use crate::design::file_name_fault;

/// Names in a path at most: an archive of ours has two. More, and a path could be longer than a
/// system takes.
const DEEPEST: usize = 4;

/// Why an entry can't have a name, in words; none where it can.
pub fn entry_name_fault(name: &str) -> Option<String> {
    let parts: Vec<&str> = name.split('/').collect();
    if name.starts_with('/') {
        return Some("it begins at the root of a disk".to_owned());
    }
    if name.ends_with('/') {
        return Some("it is a folder".to_owned());
    }
    if parts.contains(&"..") || parts.contains(&".") {
        return Some("it leads out of its folder".to_owned());
    }
    if parts.len() > DEEPEST {
        return Some(format!("it lies more than {DEEPEST} folders deep"));
    }
    parts.into_iter().find_map(file_name_fault).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_stays_in_its_folder() {
        for good in ["manifest.json", "exports/section.stl", "photos/Füller am Tag.jpg"] {
            assert_eq!(entry_name_fault(good), None, "{good}");
        }
        let bad = [
            "",
            "/etc/passwd",
            "..",
            "../x",
            "a/../x",
            "a/..",
            "./a",
            "a/./b",
            "a//b",
            "a/",
            "C:/x",
            "C:x",
            "a\\b",
            "..\\x",
            "\\\\host\\x",
            "a\0b",
            "a/nul",
            "a/b/c/d/e",
            "x/.hidden",
            "a ",
        ];
        for bad in bad {
            assert!(entry_name_fault(bad).is_some(), "{bad:?}");
        }
    }
}
