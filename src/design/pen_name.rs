//! What a pen may be called: the name is also that of its folder, on any system.

/// Longest name in bytes: with an ending it stays under what every file system takes.
const LONGEST: usize = 100;

/// Why a name can't be a folder's, in words, with what would work; none where it can.
pub fn file_name_fault(name: &str) -> Option<&'static str> {
    /// Names that some systems keep for devices.
    const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "com1", "lpt1"];
    let kept = |c: char| c.is_control() || "/\\:*?\"<>|".contains(c);
    if name.is_empty() {
        Some("it is empty; \"Pen 7\" would do")
    } else if name.len() > LONGEST {
        Some("it is longer than 100 bytes")
    } else if name.contains(kept) {
        Some("it has one of / \\ : * ? \" < > | in it; letters, digits, spaces, - and _ are safe")
    } else if name.starts_with(['.', ' ']) || name.ends_with(['.', ' ']) {
        Some("it begins or ends with a dot or a space")
    } else if DEVICES.contains(&name.to_lowercase().as_str()) {
        Some("some systems keep this name for a device; \"Pen 7\" would do")
    } else {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_a_folder_in_its_own_place() {
        for good in ["demo", "Pen 7", "Füller_2-b"] {
            assert_eq!(file_name_fault(good), None, "{good}");
        }
        for bad in ["", "..", "a/b", "a\\b", "C:x", " x", "x.", "NUL", "a\nb", &"x".repeat(200)] {
            assert!(file_name_fault(bad).is_some(), "{bad}");
        }
    }
}
