//! The form that the readings are typed into.

use crate::section::{Plate, PlatePiece};

/// What stands above every form.
const HEAD: &str = "\
# Readings of a calibration plate. Type what the caliper shows, in mm, between the brackets, such as
# [3.92, 3.94, 3.92, 3.93]. What stays empty was not measured. Behind each # stands the size in the
# file.
#
# - The plate is printed as it is: at its size, without compensation, in the material, with the
#   settings and the way of washing, curing or cooling that your parts get.
# - A piece is known by its grooves. Lower and upper are as it stood on the plate.
# - Each diameter four times: twice at right angles near its one end, twice near its other.
# - A hole from its own mouth, with the inner jaws square to the axis. Their flats read a thin hole
#   small: flats of 0.3 mm by 0.01 at 4 mm, by 0.003 at 13 mm. A pin that just enters is better.
# - A height from the foot to the top. Trim the foot's burr, and nothing else.
# - Three thin and three wide sizes of a kind are the least; all of them are better.
#
# Wear gloves and eye protection with resin that is not cured, and keep its dust and that of any
# print out of your lungs. Follow the instructions of the printer and of the material, local rules
# and licensed practice. What is worked out from these readings is no approval.
format = 1
";

/// The text of `readings.toml` for a plate: every reading, and an empty place for it.
///
/// `printer` is how the form names the printer that prints the plate: a profile's name, or a path
/// from the form's folder.
pub fn form(printer: &str, plate: &Plate) -> String {
    let mut text = HEAD.to_owned();
    text += &format!("printer = {}\n", quoted(printer));
    for piece in &plate.pieces {
        text += &format!("\n{:<22}{}\n", format!("[{}]", piece.sizes.name), marks(piece));
        for reading in piece.readings() {
            let key = format!("{} = []", reading.size);
            text += &format!("{key:<22}# {:.2}\n", reading.in_file.as_mm());
        }
    }
    text
}

/// What tells a piece from others of its kind.
fn marks(piece: &PlatePiece) -> String {
    let grooves = if piece.sizes.marks == 1 { "groove" } else { "grooves" };
    format!("# {} {grooves}", piece.sizes.marks)
}

/// A text as TOML writes it.
pub(super) fn quoted(text: &str) -> String {
    toml::Value::from(text).to_string()
}
