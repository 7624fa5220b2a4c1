//! A design and a unit to fill in.

use super::library;

/// Where the templates have the name; a text that no file would have by chance.
const NAME: &str = "@NAME@";

/// The text of a new design and of its unit, to be kept as `NAME.toml` and `NAME-unit.toml` in one
/// folder. Both resolve as they are.
pub fn template(name: &str) -> (String, String) {
    // A quote or a backslash in the name would end the text that it stands in.
    let escaped = name.replace('\\', "\\\\").replace('"', "\\\"");
    let fill = |template| library::template(template).replace(NAME, &escaped);
    (fill("design"), fill("unit"))
}
