//! What a design says of a thread beside its designation: its form, its run-out, its phase.

use super::reader::{Placed, Read, Reader, wrong_type};
use super::tree::{Node, Value};
use super::value::{Amount, Distance, Size};
use crate::diagnostic::Diagnostic;
use crate::quantity::Length;
use crate::section::FlankPoint;

/// An angle between flanks, in degrees, at which there still is a ridge.
#[derive(Clone, Copy, Debug)]
pub(super) struct FlankAngle(pub(super) f64);

/// The points of a free flank, in falling order of depth.
#[derive(Clone, Debug)]
pub(super) struct FlankPoints(pub(super) Vec<FlankPoint>);

/// What the basic profile of a designation is changed to.
#[derive(Clone, Debug)]
pub(super) struct FormFile {
    pub(super) angle: Option<Placed<FlankAngle>>,
    pub(super) points: Option<Placed<FlankPoints>>,
    pub(super) major: Option<Placed<Size>>,
    pub(super) pitch_diameter: Option<Placed<Size>>,
    pub(super) minor: Option<Placed<Size>>,
    pub(super) crest_flat: Option<Placed<Size>>,
    pub(super) root_flat: Option<Placed<Size>>,
    pub(super) crest_radius: Option<Placed<Size>>,
    pub(super) root_radius: Option<Placed<Size>>,
}

impl FormFile {
    /// Whether it says more than measured diameters and roundings.
    pub(super) fn is_another_flank(&self) -> bool {
        let flats = self.crest_flat.is_some() || self.root_flat.is_some();
        self.angle.is_some() || self.points.is_some() || flats
    }
}

/// How the tool leaves the thread; neither: a wall across the axis.
#[derive(Clone, Debug)]
pub(super) struct RunOutFile {
    /// Pitches of a tap's or die's lead.
    pub(super) lead: Option<Placed<Amount>>,
    /// Turns over which a single-point tool is drawn out.
    pub(super) withdrawal: Option<Placed<Amount>>,
}

/// All of it.
#[derive(Clone, Debug, Default)]
pub(super) struct CutFile {
    pub(super) form: Option<FormFile>,
    pub(super) run_out: Option<RunOutFile>,
    pub(super) phase: Option<Placed<Distance>>,
}

impl CutFile {
    /// Whether anything is said.
    pub(super) fn is_asked(&self) -> bool {
        self.form.is_some() || self.run_out.is_some() || self.phase.is_some()
    }

    /// Pitches of the tool's lead; 0 where none is given.
    pub(super) fn lead(&self) -> f64 {
        let lead = self.run_out.as_ref().and_then(|run_out| run_out.lead.as_ref());
        lead.map_or(0.0, |lead| lead.value.0)
    }
}

fn form(reader: &mut Reader<'_>) -> FormFile {
    for keys in
        [&["angle", "points"], &["crest_flat", "crest_radius"], &["root_flat", "root_radius"]]
    {
        reader.one_of(keys);
    }
    FormFile {
        angle: reader.maybe("angle"),
        points: reader.maybe("points"),
        major: reader.maybe("major"),
        pitch_diameter: reader.maybe("pitch_diameter"),
        minor: reader.maybe("minor"),
        crest_flat: reader.maybe("crest_flat"),
        root_flat: reader.maybe("root_flat"),
        crest_radius: reader.maybe("crest_radius"),
        root_radius: reader.maybe("root_radius"),
    }
}

fn run_out(reader: &mut Reader<'_>) -> RunOutFile {
    reader.one_of(&["lead", "withdrawal"]);
    RunOutFile { lead: reader.maybe("lead"), withdrawal: reader.maybe("withdrawal") }
}

/// Reads `form`, `run_out` and `phase` of a thread's table.
pub(super) fn read(reader: &mut Reader<'_>) -> CutFile {
    CutFile {
        form: reader.table("form", form),
        run_out: reader.table("run_out", run_out),
        phase: reader.maybe("phase"),
    }
}

impl Read for FlankAngle {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// Narrower, and a flank can't be cut from the side; wider, and it carries nothing.
        const ANGLES: std::ops::RangeInclusive<f64> = 5.0..=120.0;
        let Value::Number(degrees) = node.value else {
            let found = node.value.kind();
            log.push(
                wrong_type(key, "an angle in degrees", found, node.at)
                    .hint("write the angle between both flanks, such as 60"),
            );
            return None;
        };
        if ANGLES.contains(&degrees) {
            return Some(Self(degrees));
        }
        let (least, most) = (ANGLES.start(), ANGLES.end());
        log.push(
            Diagnostic::error("value.angle", format!("`{key}` can't be {degrees} degrees"))
                .at(node.at)
                .hint(format!("the angle between both flanks, {least} to {most}, such as 60")),
        );
        None
    }
}

impl Read for FlankPoints {
    fn read(node: &Node, key: &str, log: &mut Vec<Diagnostic>) -> Option<Self> {
        /// More corners than any tool is ground with.
        const MOST: usize = 12;
        let example = "such as [[-0.2, 0.15], [0, 0.4], [0.2, 0.65]]: below the pitch line, and \
                       the ridge's width there, in mm";
        let pair = |node: &Node| {
            let Value::List(pair) = &node.value else { return None };
            let number = |node: &Node| match node.value {
                Value::Number(mm) if mm.is_finite() => Some(Length::mm(mm)),
                _ => None,
            };
            match pair.as_slice() {
                [depth, ridge] => Some(FlankPoint { depth: number(depth)?, ridge: number(ridge)? }),
                _ => None,
            }
        };
        let points: Option<Vec<FlankPoint>> = match &node.value {
            Value::List(list) => list.iter().map(pair).collect(),
            _ => None,
        };
        let fault = match &points {
            None => Some("takes pairs of numbers".to_owned()),
            Some(points) if !(2..=MOST).contains(&points.len()) => {
                Some(format!("takes 2 to {MOST} points, not {}", points.len()))
            }
            Some(points) => points
                .windows(2)
                .any(|w| w[1].depth <= w[0].depth || w[1].ridge < w[0].ridge)
                .then(|| "must go deeper, and no narrower, from point to point".to_owned()),
        };
        if let Some(fault) = fault {
            let message = format!("`{key}` {fault}");
            log.push(Diagnostic::error("value.points", message).at(node.at).hint(example));
            return None;
        }
        points.map(Self)
    }
}
