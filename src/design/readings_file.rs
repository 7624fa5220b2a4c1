//! The form of the calibration plate, filled in.

use super::reader::{Placed, Read, Reader, wrong_type};
use super::resolved::LoadedReadings;
use super::tree::{Node, Value};
use super::value::Size;
use crate::diagnostic::{Diagnostic, Place};
use crate::quantity::Length;
use crate::section::{Measurand, PieceSizes, Plate, PlateReading, PlateValue};

/// The sizes of a piece that the form may have.
const SIZES: [&str; 3] = ["lower", "upper", "height"];

/// How far a reading may be off the size in the file: as much as a printer's constant may be. Less,
/// and a printer that is badly off could not be calibrated; more, and the reading of another piece
/// would pass for this one's.
const MOST_OFF: Length = Length::mm(1.0);

/// The readings of one size.
#[derive(Clone, Debug)]
pub(super) struct SizeFile {
    piece: &'static str,
    size: &'static str,
    /// Where its key is; none where it is left out.
    at: Option<Place>,
    values: Vec<Placed<Size>>,
}

/// The form.
#[derive(Clone, Debug)]
pub(super) struct ReadingsFile {
    /// The printer that printed the plate.
    pub(super) printer: Placed<String>,
    sizes: Vec<SizeFile>,
}

/// What was read of one size: a list, one number, or nothing yet.
#[derive(Clone, Debug, Default)]
struct Values(Vec<Placed<Size>>);

impl Read for Values {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        let empty =
            |node: &Node| matches!(&node.value, Value::Text(text) if text.trim().is_empty());
        match &node.value {
            _ if empty(node) => Some(Self::default()),
            Value::List(list) => {
                let read = |(n, node): (usize, &Node)| {
                    let size = Size::read(node, &format!("{key}.{n}"), log)?;
                    Some(Placed::new(size, node.at))
                };
                let typed = (1..).zip(list).filter(|(_, node)| !empty(node));
                Some(Self(typed.filter_map(read).collect()))
            }
            Value::Number(_) | Value::Text(_) => {
                Size::read(node, key, log).map(|size| Self(vec![Placed::new(size, node.at)]))
            }
            other => {
                let wrong = wrong_type(key, "readings in brackets", other.kind(), node.at);
                log.push(
                    wrong.hint("write [3.92, 3.94, 3.92, 3.93], or [] where nothing was read"),
                );
                None
            }
        }
    }
}

impl ReadingsFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let printer = reader.need("printer", "printer = \"resin\"");
        let mut sizes = Vec::new();
        for PieceSizes { name, .. } in PieceSizes::ALL {
            reader.table(name, |r| {
                for size in SIZES {
                    let values: Option<Placed<Values>> = r.maybe(size);
                    let at = values.as_ref().and_then(Placed::place);
                    let values = values.map(|values| values.value.0).unwrap_or_default();
                    sizes.push(SizeFile { piece: name, size, at, values });
                }
            });
        }
        Self { printer, sizes }
    }

    /// Where it asks for each size, by its key.
    pub(super) fn asked(&self) -> Vec<(String, Place)> {
        let place = |it: &SizeFile| Some((format!("{}.{}", it.piece, it.size), it.at?));
        self.sizes.iter().filter_map(place).collect()
    }

    /// The readings that were taken off a plate, with their places; what can't be one of them is
    /// noted. Without a plate (its printer is in error) the diameters, which all plates have.
    pub(super) fn taken(
        &self,
        plate: Option<&Plate>,
        log: &mut Vec<Diagnostic>,
    ) -> Vec<(PlateValue, Place)> {
        let diameters = || PieceSizes::ALL.iter().flat_map(PieceSizes::diameters).collect();
        let readings: Vec<PlateReading> = plate.map_or_else(diameters, Plate::readings);
        let mut taken = Vec::new();
        for SizeFile { piece, size, values, .. } in &self.sizes {
            let is_it = |asked: &&PlateReading| asked.piece == *piece && asked.size == *size;
            let Some(asked) = readings.iter().find(is_it) else {
                let unknown = plate.is_none() && *size == "height";
                if let Some(place) = values.first().and_then(Placed::place).filter(|_| !unknown) {
                    log.push(not_asked(piece, size, &readings, place));
                }
                continue;
            };
            if let Some(over) = values.get(asked.times) {
                let name = asked.name();
                let message = format!("`{name}` is read {} at most", times(asked.times));
                let error = Diagnostic::error("readings.too-many", message).at(over.at());
                log.push(error.hint("leave out what you trust least; do not write a mean"));
            }
            for (nth, value) in (1..).zip(values.iter().take(asked.times)) {
                let read = PlateValue { of: *asked, nth, value: value.value.0 };
                match another_ones(&read, &readings, value.at()) {
                    Some(error) => log.push(error),
                    None => taken.push((read, value.at())),
                }
            }
        }
        taken
    }
}

fn times(count: usize) -> String {
    if count == 1 { "once".to_owned() } else { format!("{count} times") }
}

/// A size that the plate does not ask for.
fn not_asked(piece: &str, size: &str, readings: &[PlateReading], place: Place) -> Diagnostic {
    let message = format!("`{piece}.{size}` is not read");
    let of_it = readings.iter().filter(|asked| asked.piece == piece);
    let keys: Vec<&str> = of_it.map(|asked| asked.size).collect();
    let hint = format!("of {piece} the plate asks for {}", keys.join(" and "));
    Diagnostic::error("readings.not-asked", message).at(place).hint(hint)
}

/// A reading that is too far off its size to be of it; the hint names the size that it is near.
fn another_ones(read: &PlateValue, readings: &[PlateReading], at: Place) -> Option<Diagnostic> {
    let off = |asked: &PlateReading| (read.value - asked.in_file).abs();
    if off(&read.of) <= MOST_OFF {
        return None;
    }
    let same = readings.iter().filter(|asked| asked.kind == read.of.kind);
    let nearest = same.min_by(|a, b| off(a).as_mm().total_cmp(&off(b).as_mm()));
    let near = nearest.filter(|asked| off(asked) <= MOST_OFF && read.of.kind != Measurand::Height);
    let in_file = read.of.in_file;
    let hint = match near {
        Some(near) => format!(
            "{} in the file is near it; this one is {}, such as [{:.2}]",
            near.name(),
            in_file,
            in_file.as_mm()
        ),
        None => format!("mm, within {MOST_OFF} of {in_file}, such as [{:.2}]", in_file.as_mm()),
    };
    let message =
        format!("`{}` can't read {}: it is {in_file} in the file", read.name(), read.value);
    Some(Diagnostic::error("readings.not-this-one", message).at(at).hint(hint))
}

impl LoadedReadings {
    /// Where a reading stands, by its name ([`PlateValue::name`]); none where it was not taken.
    pub fn place_of(&self, name: &str) -> Option<Place> {
        let n = self.taken.iter().position(|value| value.name() == name)?;
        self.places.get(n).copied()
    }

    /// Where the form asks for a size, by its key; for one that it leaves out, where it names the
    /// printer.
    pub fn asked_at(&self, key: &str) -> Place {
        self.asked.iter().find(|(name, _)| name == key).map_or(self.form, |(_, at)| *at)
    }
}
