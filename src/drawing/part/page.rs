//! A whole drawing on its sheet: the views at the best scale, frame, title block, notes, table.

use super::format::{Format, NoRoom};
use super::pen::Pen;
use super::scheme::{Contours, sizes};
use super::subject::Subject;
use super::views::{Details, Views};
use crate::drawing::Sheet;
use crate::drawing::sheet_frame::{self, Area, PaperSize, Scale, Table, TitleBlock, table};
use crate::drawing::{Drawing, Point};

/// A part at a scale is best no shorter than this on paper, in mm. Shorter, and smaller letters at
/// a larger scale are read better.
const LONG_ENOUGH: f64 = 90.0;

/// White between the table and the views, on paper.
const UNDER_TABLE: f64 = 4.0;

/// The views laid out.
struct Laid {
    drawing: Drawing,
    scale: Scale,
    /// Of everything that is drawn, in the part's millimetres.
    extents: [Point; 2],
}

/// Draws a part on a sheet.
///
/// # Errors
/// [`NoRoom`] where it does not fit on the sheet that is asked for, at the scale that is asked for.
pub fn page(subject: &Subject, format: &Format) -> Result<Sheet, NoRoom> {
    let contours = Contours::of(subject.part);
    let sizes = sizes(subject.part, &contours, subject.datums());
    let views = Views::new(subject, &contours, &sizes, format.units);
    let (first, larger) = format.papers();
    let on = |size: PaperSize| on(subject, &views, format, size);
    on(first).or_else(|refused| larger.iter().find_map(|size| on(*size).ok()).ok_or(refused))
}

fn on(subject: &Subject, views: &Views, format: &Format, size: PaperSize) -> Result<Sheet, NoRoom> {
    let no_room = |needs| NoRoom { name: subject.title.clone(), paper: size, needs };
    let space = size.drawing_space();
    // The frame shows the scale, which is known only when the room in the frame is.
    let room = |scale| {
        let mut drawing = Drawing::default();
        let area =
            sheet_frame::frame(&mut drawing, size, &title(subject, format, scale), &subject.notes);
        area.map(|area| {
            let under = headed(&mut drawing, subject, size, area);
            (drawing, under)
        })
    };
    let (_, area) = room(Scale::FULL_SIZE).map_err(|_| no_room([space.width(), space.height()]))?;
    let laid = fitting(views, format, size, area).map_err(no_room)?;
    let (paper, area) = room(laid.scale).map_err(|_| no_room([space.width(), space.height()]))?;
    // The part's zero on paper, so that what is drawn stands in the middle of the room.
    let [low, high] = laid.extents;
    let factor = laid.scale.factor();
    let middle = |low: f64, high: f64| f64::midpoint(low, high) * factor;
    let (centre, across) = (area.centre(), [middle(low.x, high.x), middle(low.y, high.y)]);
    let origin = Point::new(centre.x - across[0], centre.y - across[1]);
    let mut drawing = laid.drawing;
    drawing.entities.extend(paper.placed(factor, origin).entities);
    let sheet = size.sheet();
    let corner = |p: Point| Point::new((p.x - origin.x) / factor, (p.y - origin.y) / factor);
    Ok(Sheet {
        drawing,
        scale: factor,
        area: [corner(sheet.low), corner(sheet.high)],
        title: format!("{}: {}", subject.name, subject.title),
        description: format!(
            "Drawing of a {} on a sheet of {size} at {}: half-section with all sizes, view from the \
             front, notes and title block.",
            subject.title, laid.scale
        ),
    })
}

/// The table at the top, if there is one; what is left of the room.
fn headed(drawing: &mut Drawing, subject: &Subject, size: PaperSize, area: Area) -> Area {
    if subject.table.rows.is_empty() {
        return area;
    }
    let height = size.lettering().label;
    let factor = height / 2.5;
    let columns = subject.table.columns.iter().map(|width| width * factor).collect();
    let scaled = Table { columns, ..subject.table.clone() };
    let at = Point::new(area.low.x, area.high.y);
    let taken = table(drawing, at, height, &scaled);
    Area::new([area.low.x, area.low.y], [area.high.x, taken.low.y - UNDER_TABLE])
}

/// The views at the greatest scale at which they fit, with letters as large as may be; where they
/// fit at none, the room that they need at the least.
fn fitting(views: &Views, format: &Format, size: PaperSize, area: Area) -> Result<Laid, [f64; 2]> {
    let lettering = size.lettering();
    let asked: Vec<Scale> = format.scale.map_or_else(|| Scale::ALL.to_vec(), |scale| vec![scale]);
    let details: Vec<f64> = Scale::ALL.iter().map(|scale| scale.factor()).collect();
    let mut best: Option<Laid> = None;
    let mut needs = [0.0; 2];
    for height in [lettering.text, lettering.label] {
        for scale in &asked {
            let pen = Pen { scale: scale.factor(), height };
            let laid = Details::ALL.into_iter().find_map(|way| {
                let drawing = views.drawn(pen, &details, way);
                let extents = drawing.extents().unwrap_or([Point::new(0.0, 0.0); 2]);
                let [low, high] = extents;
                needs = [(high.x - low.x) * pen.scale, (high.y - low.y) * pen.scale];
                let fits = needs[0] <= area.width() && needs[1] <= area.height();
                fits.then_some(Laid { drawing, scale: *scale, extents })
            });
            if let Some(laid) = laid {
                if best.as_ref().is_none_or(|b| scale.factor() > b.scale.factor()) {
                    best = Some(laid);
                }
                break;
            }
        }
        let long = |laid: &Laid| views.length() * laid.scale.factor() >= LONG_ENOUGH;
        if best.as_ref().is_some_and(long) {
            break;
        }
    }
    best.ok_or(needs)
}

fn title(subject: &Subject, format: &Format, scale: Scale) -> TitleBlock {
    TitleBlock {
        title: subject.title.clone(),
        supplement: subject.supplement.clone(),
        number: subject.name.clone(),
        document: "Component drawing".to_owned(),
        material: Some(subject.material.clone()),
        tolerances: Some(subject.tolerances.clone()),
        units: format.units,
        scale: Some(scale),
        sheet: "1/1".to_owned(),
        owner: None,
        creator: format.credits.drawn_by.clone(),
        date: format.credits.date.clone(),
    }
}
