//! What is checked: the codes, and what each of them means.

use super::{clear, made, thread, wall};

/// What a code stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CheckInfo {
    /// The code that its finding carries.
    pub code: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// What is measured, in one sentence.
    pub measures: &'static str,
    /// What its limit means; that there is none, where it is for information.
    pub limit: &'static str,
}

/// The limit of what has none.
pub(super) const INFORMATION: &str = "No limit: for information.";

/// Every code there is, in the order in which findings come.
pub fn list() -> Vec<&'static CheckInfo> {
    let mut all = wall::list();
    all.extend(thread::list());
    all.extend(made::list());
    all.extend(clear::list());
    all
}

/// What a code stands for; none for a code that there is not.
pub fn info(code: &str) -> Option<&'static CheckInfo> {
    list().into_iter().find(|check| check.code == code)
}
