//! The picture of the walls: the cut half as a band whose shade says what the wall has over its
//! limit, the least place of each zone marked and numbered, and a table of them.
//!
//! ```text
//!      1 2     3        4   5      numbers of the zones' least places
//!      | |     |        |   |
//!    ___\|_____|________|___|_
//!   |####\::::::|::::::::|:::|\    band, front on the left: dark where the wall is under its
//!   +-----------+        |   | |   limit, light where it has much over it
//!               +--------+---+-+
//!   - - - - - - - - - - - - - - -  axis, ruler, scale, table
//! ```

mod band;
mod key;
mod mark;

use super::legend;
use super::sheet::Paper;
use crate::check::{Finding, Judgement, WallCurve};
use crate::drawing::view::chain::Chain;
use crate::drawing::view::{AXIS_BEYOND, axis, halves};
use crate::drawing::{Drawing, Shade, Sheet};
use crate::scene::Examination;
use crate::section::Section;
use band::{Level, Walls};

/// The part may be this long on paper, in mm: the width of an A3 sheet with its margins. Less, and
/// a lip of 0.4 mm is a line; more, and it fits no sheet that is printed.
const GREATEST_LENGTH: f64 = 400.0;

/// A zone's least wall, as the table and the marks have it.
#[derive(Clone, Copy)]
struct Row<'a> {
    finding: &'a Finding,
    judged: &'a Judgement,
}

/// The picture of a section's walls, from its examination and the wall along z.
///
/// The scale is the greatest of ISO 5455 (10, 5, 2, 1) with which the part fits an A3 sheet.
pub fn sheet(section: &Section, examination: &Examination, curve: &WallCurve) -> Sheet {
    let part = section.part();
    let length = section.length().as_mm();
    let paper = Paper::fitting(length, GREATEST_LENGTH);
    let (outside, bore) = (Chain::outside(&part), Chain::bore(&part));
    let mut drawing = Drawing::default();
    let band = section.criteria.band.as_mm();
    let rows = rows(examination);
    let floor = rows.iter().find(|row| row.finding.code == "wall.floor").map(Row::level);
    let walls = Walls { curve: &curve.worst, band, floor };
    band::draw(&mut drawing, [&outside, &bore], walls, paper);
    // The half that is cut; the other shows no wall.
    let both = halves(&outside, &bore, &part.threads);
    let cut = both.entities.into_iter().filter(|e| e.shape.points().iter().any(|p| p.y > 0.0));
    drawing.entities.extend(cut);
    axis(&mut drawing, &outside, paper.mm(AXIS_BEYOND));
    let top = mark::draw(&mut drawing, &rows, outside.top(), paper);
    let about = format!(
        "{}, {length:.2} long; how far the wall is over its limit, at the worst of tolerances, tools and holdings; sizes in mm",
        section.material
    );
    let base = top + paper.mm(2.0 * legend::HEIGHT * legend::LINE);
    legend::headed(&mut drawing, [&format!("{}: walls", section.name), &about], base, paper);
    let under = legend::ruler(&mut drawing, length, 0.0, paper);
    key::draw(&mut drawing, &rows, band, under, paper);
    Sheet {
        area: paper.round(&drawing),
        drawing,
        scale: paper.scale,
        title: format!("{}: walls", section.name),
        description: described(section, &rows),
    }
}

/// Every wall that has a limit, in the order of the checks.
fn rows(examination: &Examination) -> Vec<Row<'_>> {
    let walls = examination.findings.iter().filter(|f| f.code.starts_with("wall."));
    walls.filter_map(|finding| Some(Row { finding, judged: finding.judgement.as_ref()? })).collect()
}

/// The same in a sentence, for those who can't see it.
fn described(section: &Section, rows: &[Row]) -> String {
    let of = |row: &Row| {
        let Row { finding, judged } = row;
        format!("{} {:.2} at the worst, {}", finding.title, judged.worst, judged.verdict)
    };
    let walls: Vec<String> = rows.iter().map(of).collect();
    format!(
        "Half-section of a fountain pen's grip section in {}, front face on the left, shaded by how \
         far its wall is over its limit: {}.",
        section.material,
        walls.join("; ")
    )
}

impl Row<'_> {
    fn level(&self) -> Level {
        Level::of(self.judged.margin, self.judged.band)
    }
}

impl Level {
    /// Its shade: the less a wall has over its limit, the darker.
    const fn shade(self) -> Shade {
        match self {
            Self::Breaks => Shade::Darkest,
            Self::Close => Shade::Dark,
            Self::Little => Shade::Middle,
            Self::Some => Shade::Light,
            Self::Much => Shade::Lightest,
        }
    }
}
