//! The sheet laid out on A4: the steps from the first page on, then the tables, two pages at most.

mod cell;
mod flow;
mod rows;
mod under;

use super::content::Content;
use crate::drawing::{Drawing, Point, Sheet};
use flow::Flow;

/// Pages at most: what fits on the front and the back of one leaf.
const MOST: usize = 2;

/// A4 upright, in mm (ISO 216).
const A4: [f64; 2] = [210.0, 297.0];

/// The largest and the least size of type, in hundredths of the full one. Larger, and a short sheet
/// looks like a poster; smaller, and nobody reads it beside a lathe.
const SIZES: std::ops::RangeInclusive<u32> = 62..=112;

/// From one size that is tried to the next, in hundredths. Coarser leaves paper empty.
const SIZE_STEP: usize = 2;

/// The sheet on its pages.
#[derive(Clone, Debug)]
pub struct Paged {
    /// The pages.
    pub pages: Vec<Sheet>,
    /// The type's share of the full size.
    pub size: f64,
    /// What stands on them: without what can be spared, where all of it takes more than two.
    pub content: Content,
}

/// The pages, at the largest type with which they are two at most; where none does, without the
/// remarks that no step depends on. A section of so many steps that even those take more, in the
/// smallest type, has as many pages as it takes.
pub fn pages(content: &Content) -> Paged {
    let paged = |content: &Content, size: f64| {
        let pages = sheets(content, laid_out(content, size));
        Paged { pages, size, content: content.clone() }
    };
    let brief = content.brief();
    for content in [content, &brief] {
        for size in SIZES.rev().step_by(SIZE_STEP) {
            let size = f64::from(size) / 100.0;
            if laid_out(content, size).len() <= MOST {
                return paged(content, size);
            }
        }
    }
    paged(&brief, f64::from(*SIZES.start()) / 100.0)
}

fn laid_out(content: &Content, size: f64) -> Vec<Drawing> {
    let mut flow = Flow::new(size);
    under::head(&mut flow, content);
    rows::draw(&mut flow, &content.blocks);
    under::tables(&mut flow, content);
    flow.finish(&content.foot)
}

fn sheets(content: &Content, drawings: Vec<Drawing>) -> Vec<Sheet> {
    let count = drawings.len();
    let sheet = |(n, drawing): (usize, Drawing)| Sheet {
        drawing,
        scale: 1.0,
        area: [Point::new(0.0, 0.0), Point::new(A4[0], A4[1])],
        title: format!("{}: sheet for the lathe", content.name),
        description: format!("Operations of {}, page {} of {count}.", content.name, n + 1),
    };
    drawings.into_iter().enumerate().map(sheet).collect()
}
