//! A printer: its file's numbers held against what printers do, and against each other.

use crate::design::printer_file::{CompensationFile, PrinterFile};
use crate::design::reader::Placed;
use crate::design::value::{Size, Sourced};
use crate::diagnostic::{Diagnostic, Place, Severity};
use crate::quantity::Length;
use crate::section::{Compensation, Limit, Printer, Process};

/// Least and greatest width of a pixel (common practice, no source): outside it, a width in
/// micrometres or the number of pixels would pass for one.
const PIXEL: [Length; 2] = [Length::mm(0.005), Length::mm(0.3)];

/// Least and greatest bore of a nozzle (common practice, no source): outside it, the filament's
/// own 1.75 would pass for one.
const NOZZLE: [Length; 2] = [Length::mm(0.1), Length::mm(1.2)];

/// Highest layer of resin: light cures no deeper in one go (common practice, no source). A layer
/// of filament is no higher than its nozzle is wide: it would not be pressed down.
const RESIN_LAYER: Length = Length::mm(0.3);

/// The most that a first layer spreads, to a side: more is a plate set too near (common practice,
/// no source), and a chamfer against it would take half the part's foot.
const MOST_SPREAD: Length = Length::mm(1.0);

/// The most that prints may differ by: more, and no fit that a pen has can be tried on a print.
const MOST_SCATTER: Length = Length::mm(0.5);

/// The thickest wall that a printer may ask for: more, and no section could be printed at all, and
/// a slip of the decimal point would pass.
const MOST_WALL: Length = Length::mm(5.0);

/// The widest that the narrowest groove may be: as for the wall.
const MOST_FEATURE: Length = Length::mm(2.0);

/// The printer; none where something is wrong, here or in what was noted before.
///
/// Values that could not be read (they have no place) are left out of the comparisons, so that all
/// that is wrong is said at once.
pub(in crate::design) fn resolve(file: &PrinterFile, log: &mut Vec<Diagnostic>) -> Option<Printer> {
    let across = file.process.place().and_then(|process| across(file, process, log));
    layer(file, across.as_ref(), log);
    let most = [
        ("printer.spread", &file.spread, MOST_SPREAD, "spread = 0.15"),
        ("printer.scatter", &file.scatter, MOST_SCATTER, "scatter = 0.03"),
    ];
    for (code, written, most, works) in most {
        let value = written.value.0;
        if let Some(at) = written.place().filter(|_| value > most) {
            let message = format!("{value} is more than any printer's {most}");
            log.push(Diagnostic::error(code, message).at(at).hint(works));
        }
    }
    let (wall, feature) = (&file.least_wall, &file.least_feature);
    no_finer(wall, across.as_ref(), MOST_WALL, "printer.least-wall", log);
    no_finer(feature, across.as_ref(), MOST_FEATURE, "printer.least-feature", log);
    let wrong = log.iter().any(|diagnostic| diagnostic.severity == Severity::Error);
    if wrong {
        return None;
    }
    let name = &file.name.value;
    Some(Printer {
        name: name.clone(),
        process: file.process.value,
        across: across?.value.0,
        layer: file.layer.value.0,
        hole: compensation(&file.hole),
        boss: compensation(&file.boss),
        internal_flank: file.thread.internal.value.0,
        external_flank: file.thread.external.value.0,
        face: file.face.value.0,
        spread: file.spread.value.0,
        scatter: file.scatter.value.0,
        least_wall: limit(&file.least_wall, name),
        least_feature: limit(&file.least_feature, name),
        build: file.build.value.0,
    })
}

/// Notes a layer that is higher than the process makes them.
fn layer(file: &PrinterFile, across: Option<&Placed<Size>>, log: &mut Vec<Diagnostic>) {
    let layer = file.layer.value.0;
    let (highest, works) = match (file.process.value, across) {
        (Process::Filament, Some(nozzle)) => (nozzle.value.0, nozzle.value.0 / 2.0),
        (Process::Filament, None) => (NOZZLE[1], Length::mm(0.2)),
        (Process::Resin, _) => (RESIN_LAYER, Length::mm(0.05)),
    };
    let read = file.process.place().and(file.layer.place());
    if let Some(at) = read.filter(|_| layer > highest) {
        let message = format!("a layer of {layer} can't be printed: {highest} at most");
        let hint = format!("such as layer = {}", works.as_mm());
        log.push(Diagnostic::error("printer.layer", message).at(at).hint(hint));
    }
}

/// The width of what it draws with; none where it is the other process's, or out of all bounds,
/// which is noted. The process stands at a place.
fn across(
    file: &PrinterFile,
    process_at: Place,
    log: &mut Vec<Diagnostic>,
) -> Option<Placed<Size>> {
    let process = file.process.value;
    let (own, other, [least, most], key, wrong) = match process {
        Process::Resin => (&file.pixel, &file.nozzle, PIXEL, "pixel", "nozzle"),
        Process::Filament => (&file.nozzle, &file.pixel, NOZZLE, "nozzle", "pixel"),
    };
    let works = if process == Process::Resin { "pixel = 0.05" } else { "nozzle = 0.4" };
    if let Some(other) = other {
        let code = if wrong == "nozzle" { "printer.no-nozzle" } else { "printer.no-pixel" };
        let hint = if own.is_some() {
            format!("take `{wrong}` out")
        } else {
            format!("in its place {works}, or the other process")
        };
        log.push(
            Diagnostic::error(code, format!("a {process} printer has no {wrong}"))
                .at(other.at())
                .also(process_at, "its process")
                .hint(hint),
        );
    }
    let own = own.as_ref()?;
    if !(least..=most).contains(&own.value.0) {
        let code = if key == "pixel" { "printer.pixel" } else { "printer.nozzle" };
        let message = format!("a {key} of {} is none", own.value.0);
        let hint = format!("mm, {} to {}, such as {works}", least.as_mm(), most.as_mm());
        log.push(Diagnostic::error(code, message).at(own.at()).hint(hint));
        return None;
    }
    Some(own.clone())
}

/// Notes a least wall or feature that is finer than what the printer draws with, or beyond all use.
fn no_finer(
    written: &Placed<Sourced<Size>>,
    across: Option<&Placed<Size>>,
    most: Length,
    code: &'static str,
    log: &mut Vec<Diagnostic>,
) {
    let value = written.value.value.value.0;
    let Some(at) = written.value.value.place() else { return };
    if let Some(across) = across.filter(|across| value < across.value.0) {
        let own = across.value.0;
        log.push(
            Diagnostic::error(code, format!("{value} is finer than the printer's own {own}"))
                .at(at)
                .also(across.at(), "what it draws with")
                .hint(format!("{} or more", own.as_mm())),
        );
    } else if value > most {
        let message = format!("with no less than {value} nothing of a pen could be printed");
        let hint = format!("{} at most", most.as_mm());
        log.push(Diagnostic::error(code, message).at(at).hint(hint));
    }
}

fn compensation(file: &CompensationFile) -> Compensation {
    Compensation { constant: file.constant.value.0, share: file.share.value.0 }
}

fn limit(written: &Placed<Sourced<Size>>, printer: &str) -> Limit<Length> {
    let Sourced { value, source } = &written.value;
    let said = source.as_ref().map_or("no source given", |source| &source.value);
    Limit { value: value.value.0, source: format!("{printer}: {said}") }
}
