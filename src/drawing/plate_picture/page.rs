//! The whole sheet, in one way to lay it out.

use super::names::Naming;
use super::paper::Paper;
use super::{Seen, pieces, plate};
use crate::drawing::CAUTION;
use crate::drawing::sheet_frame::{Area, Column, Scale};
use crate::drawing::{Drawing, Layer, Point, Polyline, wrap};

/// White inside the frame, and between plate and pieces, in mm.
const WHITE: f64 = 5.0;
/// Height of the title, in letter heights.
const TITLE: f64 = 1.8;

/// Draws a plate and its pieces; none where the paper does not hold them.
pub fn page(seen: Seen, paper: Paper, plate: Scale, side: Scale) -> Option<(Naming, Drawing)> {
    let [wide, deep] = seen.layout.size.map(|size| size * plate.factor());
    let space = paper.space().inset(WHITE);
    if wide > space.width() || deep > space.height() {
        return None;
    }
    let mut drawing = Drawing::default();
    drawing.polyline(Layer::Frame, Polyline::straight(paper.space().round()));
    let foot = care(&mut drawing, space, paper.height);
    let top = headed(&mut drawing, seen, space, paper);
    let room = Area::new([space.low.x, foot + WHITE], [space.high.x, top - WHITE / 2.0]);
    let (naming, taken) = plate::draw(&mut drawing, seen, room, (paper, plate))?;
    let rest = if paper.upright {
        Area { high: Point::new(room.high.x, taken.low.y - WHITE), ..room }
    } else {
        Area { low: Point::new(taken.high.x + WHITE, room.low.y), ..room }
    };
    pieces::draw(&mut drawing, seen, (naming, rest), (paper.height, side))?;
    Some((naming, drawing))
}

/// What is seen, at the sheet's top; gives the y below.
fn headed(drawing: &mut Drawing, seen: Seen, space: Area, paper: Paper) -> f64 {
    let Seen { title, printer, pieces, layout } = seen;
    let mut column = Column { drawing, left: space.low.x, width: space.width(), top: space.high.y };
    column.words(title, paper.height * TITLE);
    let count = match pieces.len() {
        1 => "1 piece".to_owned(),
        count => format!("{count} pieces"),
    };
    let (name, plate) = (&printer.name, plate::size(layout));
    let about = format!(
        "{count} for the printer {name}, on its plate of {plate}; scales hold on {} paper",
        paper.size
    );
    column.words(&about, paper.height);
    column.top
}

/// What to take care of, at the sheet's foot; gives the y above.
fn care(drawing: &mut Drawing, space: Area, height: f64) -> f64 {
    /// Of a last line's tails, in letter heights.
    const TAILS: f64 = 0.35;
    let mut column = Column { drawing, left: space.low.x, width: space.width(), top: 0.0 };
    let lines = wrap(CAUTION, height, space.width()).len().saturating_sub(1);
    column.top = space.low.y + height * (1.0 + TAILS + Column::PITCH * lines as f64);
    let top = column.top;
    column.words(CAUTION, height);
    top
}
