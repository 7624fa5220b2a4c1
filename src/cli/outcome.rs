//! How a command ended.

use std::process::ExitCode;

/// How a command ended, as its exit status says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// 0: nothing breaks.
    Fine,
    /// 1: a check breaks.
    Breaks,
    /// 2: the input is wrong.
    Wrong,
    /// 3: the machine failed: disk, permission.
    Failed,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(match outcome {
            Outcome::Fine => 0,
            Outcome::Breaks => 1,
            Outcome::Wrong => 2,
            Outcome::Failed => 3,
        })
    }
}
