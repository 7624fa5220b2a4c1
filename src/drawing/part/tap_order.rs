//! The sheet by which an odd tap is ordered: no views, a table of all that a toolmaker asks.

use super::format::{Format, NoRoom};
use super::notes::size;
use super::words::Units;
use crate::drawing::CAUTION;
use crate::drawing::Sheet;
use crate::drawing::sheet_frame::{self, PaperSize, Table, TitleBlock, table};
use crate::drawing::{Drawing, Point};
use crate::quantity::{Length, Limits};
use crate::section::{Section, TapEnd, TapOrder};
use crate::standard::designation::Hand;

/// Widths of the table's columns on A4, in mm: what is asked, and the answer.
const COLUMNS: [f64; 2] = [70.0, 170.0];

/// Draws the sheet.
///
/// # Errors
/// [`NoRoom`] where the table does not fit.
pub fn tap_order(section: &Section, format: &Format) -> Result<Sheet, NoRoom> {
    let paper = format.paper.unwrap_or(PaperSize::A4);
    let order = section.tap_order();
    let title = TitleBlock {
        title: "Order for a tap".to_owned(),
        supplement: Some(order.thread.to_string()),
        number: format!("{} tap-order", section.name),
        document: "Order".to_owned(),
        material: None,
        tolerances: None,
        units: format.units,
        scale: None,
        sheet: "1/1".to_owned(),
        owner: None,
        creator: format.credits.drawn_by.clone(),
        date: format.credits.date.clone(),
    };
    let notes = [
        "The tap's own limits are those of this sheet, not those of the thread that it cuts."
            .to_owned(),
        CAUTION.to_owned(),
    ];
    let mut drawing = Drawing::default();
    let no_room = |needs| NoRoom { name: title.title.clone(), paper, needs };
    let space = paper.drawing_space();
    let area = sheet_frame::frame(&mut drawing, paper, &title, &notes);
    let area = area.map_err(|_| no_room([space.width(), space.height()]))?;
    let height = paper.lettering().text;
    let columns = COLUMNS.map(|width| width * height / PaperSize::A4.lettering().text).to_vec();
    let rows = rows(&order, format.units);
    let heading = vec!["Asked".to_owned(), "Answer".to_owned()];
    let at = Point::new(area.low.x, area.high.y);
    let taken = table(&mut drawing, at, height, &Table { columns, heading, rows });
    if taken.low.y < area.low.y || taken.high.x > area.high.x {
        return Err(no_room([taken.width(), taken.height()]));
    }
    let sheet = paper.sheet();
    Ok(Sheet {
        drawing,
        scale: 1.0,
        area: [sheet.low, sheet.high],
        title: format!("{}: order for a tap", section.name),
        description: format!("A table of all that is asked to make a tap for {}.", order.thread),
    })
}

fn rows(order: &TapOrder, units: Units) -> Vec<Vec<String>> {
    let size = |length: Length| size(length, units);
    let between = |limits: Limits| format!("{} to {}", size(limits.min()), size(limits.max()));
    let hand = match order.hand {
        Hand::Right => "right",
        Hand::Left => "left",
    };
    let class = order.class.map_or_else(
        || "by the limits below; ISO 2857 has no class for it".to_owned(),
        |class| format!("{class} (ISO 2857), with the spring-back below"),
    );
    let end = match order.end {
        TapEnd::Blind { room } => {
            format!("blind: {} from the end of full thread to the end of the hole", size(room))
        }
        TapEnd::Through => "through".to_owned(),
    };
    let flutes = order.flutes;
    let rows = [
        ("Thread", order.thread.to_string()),
        ("Hand, starts", format!("{hand}, {}", order.starts)),
        ("Class of the tap", class),
        ("Basic pitch diameter", size(order.basic_pitch_diameter)),
        (
            "Spring-back of the material, on the diameter",
            format!("{} (in the limits below)", between(order.spring_back)),
        ),
        ("Pitch diameter of the tap", between(order.pitch_diameter)),
        ("Major diameter of the tap", format!("{} at least", size(order.least_major))),
        ("Hole that is tapped", format!("Ø{}", size(order.hole))),
        ("Blind or through", end),
        ("Lead", format!("{} pitches, {} along the axis", order.lead_pitches, size(order.lead))),
        ("Lead and full thread, along the axis", size(order.thread_length)),
        ("From the tip to the shank, at least", size(order.reach)),
        ("Length over all", size(order.length)),
        (
            "Flutes",
            format!(
                "{}, {}; bottom radius {}, core Ø{}",
                flutes.count,
                flutes.form,
                size(flutes.radius),
                size(flutes.core)
            ),
        ),
        ("Rake", format!("{}°", order.rake.as_deg())),
        (
            "Shank and square",
            format!(
                "Ø{}, square {} across flats, {} long",
                size(order.shank.diameter),
                size(order.shank.across_flats),
                size(order.shank.square_length)
            ),
        ),
        ("Material to be tapped", order.material.clone()),
        ("Quantity", order.quantity.to_string()),
    ];
    rows.map(|(asked, answer)| vec![asked.to_owned(), answer]).to_vec()
}
