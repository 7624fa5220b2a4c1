//! The views of a part with all its sizes, laid out on paper.

use super::clear::Taken;
use super::columns::{Columns, End};
use super::detail::Detail;
use super::flags::{Flag, Flags, datum};
use super::label::Label;
use super::pen::Pen;
use super::rows::{Edge, Rows};
use super::scheme::{Contours, Role, Size, Wall};
use super::subject::Subject;
use super::words::Units;
use super::{tap_form, view};
use crate::drawing::view::AXIS_BEYOND;
use crate::drawing::{Drawing, Layer, Point};

/// White between the half-section with its sizes and the views beside it, on paper.
const BESIDE: f64 = 14.0;
/// White between views above each other, on paper.
const BETWEEN: f64 = 6.0;

/// Where details stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Details {
    /// Above and below the view from the front.
    Stacked,
    /// To its right, one beside the other: lower, and wider.
    InARow,
}

impl Details {
    /// Both ways, the usual one first.
    pub const ALL: [Self; 2] = [Self::Stacked, Self::InARow];
}

/// What is drawn once for a part, and laid out at any scale.
pub struct Views<'a> {
    subject: &'a Subject<'a>,
    contours: &'a Contours,
    labels: Vec<Label>,
}

impl<'a> Views<'a> {
    /// Of a part whose sizes are known.
    pub fn new(
        subject: &'a Subject<'a>,
        contours: &'a Contours,
        sizes: &[Size],
        units: Units,
    ) -> Self {
        let written = sizes.iter().map(|size| Label::new(size, (subject.allowed)(size), units));
        Self { subject, contours, labels: written.collect() }
    }

    /// The part's length.
    pub fn length(&self) -> f64 {
        let [front, back] = self.contours.faces();
        back - front
    }

    /// The views at a scale, the half-section at its true place; `scales` are those that a detail
    /// may have, the greatest first.
    pub fn drawn(&self, pen: Pen, scales: &[f64], details: Details) -> Drawing {
        let (part, contours) = (self.subject.part, self.contours);
        let top = contours.outside.chain().top();
        let mut drawing = view::half_section(part, contours, pen);
        if let Some(tap) = &self.subject.tap {
            tap_form::square(&mut drawing, tap);
        }
        self.sizes(&mut drawing, top, pen);
        self.beside(&mut drawing, top, pen, (scales, details));
        drawing
    }

    fn sizes(&self, drawing: &mut Drawing, top: f64, pen: Pen) {
        let [front, end] = self.contours.faces();
        let base = top * pen.scale;
        let is_outside = |l: &Label| l.wall == Wall::Outside;
        let is_length = |l: &Label| l.role == Role::Length;
        let is_across = |l: &Label| matches!(l.role, Role::Diameter | Role::Thread(_));
        let lengths = |outside: bool| {
            self.labels.iter().filter(move |l| is_length(l) && is_outside(l) == outside)
        };
        let faces = self.subject.faces();
        let through = faces.iter().map(|(z, _)| z * pen.scale).collect();
        let above = Rows::new(pen, Edge::Above, lengths(false), Vec::new());
        let below = Rows::new(pen, Edge::Below, lengths(true), through);
        let flag = |label| Flag { label, datum: self.axis_letter(label) };
        let under = self.labels.iter().filter(|l| is_outside(l) && !is_length(l)).map(flag);
        let over = self.labels.iter();
        let over = over.filter(|l| !is_outside(l) && !is_length(l) && !is_across(l)).map(flag);
        let under = Flags::new(pen, Edge::Below, under.collect(), &below.lines());
        let over = Flags::new(pen, Edge::Above, over.collect(), &above.lines());
        let across =
            |wall: Wall| self.labels.iter().filter(move |l| is_across(l) && l.wall == wall);
        // Words of columns hang below the part: nothing else stands there.
        let [flags, rows] = [under.reach(), below.reach()];
        let left = (front * pen.scale).min(flags[0]).min(rows[0]);
        let right = (end * pen.scale).max(flags[1]).max(rows[1]);
        let columns = [
            Columns::new(pen, End::Front, left, across(Wall::FrontBore)),
            Columns::new(pen, End::Back, right, across(Wall::BackBore)),
        ];
        under.draw(drawing, base);
        over.draw(drawing, base);
        below.draw(drawing, base + under.height());
        above.draw(drawing, base + over.height());
        for columns in &columns {
            columns.draw(drawing);
        }
        let foot = -(base + under.height() + below.height());
        for (z, letter) in faces {
            let x = z * pen.scale;
            let rim = -(base + under.height());
            drawing.add(Layer::Datum, pen.line([x, rim], [x, foot]));
            datum(drawing, pen, [x, foot], [0.0, -1.0], letter);
        }
    }

    fn axis_letter(&self, label: &Label) -> Option<char> {
        let (item, letter) = self.subject.axis?;
        let is_axis = matches!(&label.role, Role::Thread(thread) if thread.item == item);
        is_axis.then_some(letter)
    }

    /// The view from the front, with the details round it.
    fn beside(&self, drawing: &mut Drawing, top: f64, pen: Pen, (scales, way): (&[f64], Details)) {
        let (part, contours) = (self.subject.part, self.contours);
        let details = Detail::needed(contours, pen, scales);
        let right = drawing.extents().map_or(0.0, |[_, high]| high.x);
        let mut taken = Taken::by(drawing);
        let letters = ('S'..).filter(|letter| *letter != 'X');
        for (detail, letter) in details.iter().zip(letters.clone()) {
            detail.mark(drawing, letter, &mut taken, pen);
        }
        let reach = top + AXIS_BEYOND / pen.scale;
        let radius = details.first().map_or(0.0, |detail| detail.radius);
        let round = if way == Details::Stacked { radius / pen.scale } else { 0.0 };
        let x = right + BESIDE / pen.scale + reach.max(round);
        view::end_view(drawing, part, contours, x, pen);
        if let Some(tap) = &self.subject.tap {
            tap_form::flutes(drawing, tap, x);
        }
        let label = 3.5 * pen.height;
        let places = match way {
            Details::Stacked => [
                [x, reach + (BETWEEN + radius + label) / pen.scale],
                [x, -(reach + (BETWEEN + radius) / pen.scale)],
            ],
            Details::InARow => [1.0, 3.0].map(|n| {
                let gaps = (BETWEEN * f64::midpoint(n, 1.0) + radius * n) / pen.scale;
                [x + reach + gaps, 0.0]
            }),
        };
        for ((detail, letter), [x, y]) in details.iter().zip(letters).zip(places) {
            detail.draw(drawing, (part, contours), letter, Point::new(x, y), pen);
        }
    }
}
