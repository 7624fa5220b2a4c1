//! What tells that a file is still the one that was read, without reading it.

use std::fs;
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

use serde::{Deserialize, Serialize};

/// A file's size, times and place on its disk.
#[derive(Clone, Debug, Deserialize, PartialEq, Serialize)]
pub struct Stamp {
    bytes: u64,
    /// Nanoseconds since 1970 at which its content was changed last.
    modified: u128,
    /// The same of anything about it, which nobody can set back; where a system has that.
    changed: u128,
    /// Disk and place on it, where a system tells.
    place: [u64; 2],
}

/// Nanoseconds within which a system may give two changes one time: two seconds on the coarsest
/// disks in use (FAT, from memory). Less, and a change right after a file was read could go unseen.
const COARSEST: u128 = 2_000_000_000;

impl Stamp {
    /// A file's stamp; none where there is no such file.
    pub fn of(path: &Path) -> Option<Self> {
        let data = fs::metadata(path).ok()?;
        let modified = data.modified().ok()?.duration_since(UNIX_EPOCH);
        let modified = modified.unwrap_or(Duration::ZERO).as_nanos();
        #[cfg(unix)]
        let (changed, place) = {
            use std::os::unix::fs::MetadataExt;
            let whole = u128::try_from(data.ctime()).unwrap_or_default() * 1_000_000_000;
            let rest = u128::try_from(data.ctime_nsec()).unwrap_or_default();
            (whole + rest, [data.dev(), data.ino()])
        };
        #[cfg(not(unix))]
        let (changed, place) = (modified, [0, 0]);
        Some(Self { bytes: data.len(), modified, changed, place })
    }

    /// Whether the file could not have changed any more without another stamp when a later file
    /// was written.
    pub fn is_settled_before(&self, later: &Self) -> bool {
        self.modified.max(self.changed) + COARSEST <= later.modified
    }
}
