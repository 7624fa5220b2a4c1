//! What saves a section, in words.

use crate::section::Section;
use crate::shop::as_made::Remedy;

/// A remedy in words.
pub fn in_words(section: &Section, remedy: &Remedy) -> String {
    match remedy {
        Remedy::Change(change) => {
            let key = change.parameter.name();
            let parameter = change.parameter;
            let [from, to] = [change.from, change.to].map(|mm| parameter.as_written(section, mm));
            format!("{parameter}: {to:.2} mm instead of {from:.2} mm ({key})")
        }
        Remedy::FaceBack { off } => format!(
            "take the front face back by {off:.2}: what was cut from it is then {off:.2} less deep, \
             and the grip {off:.2} shorter; it can still be faced, as the outside is not turned"
        ),
    }
}
