//! Which sizes a drawing gives: as many as the part has degrees of freedom, each once.
//!
//! Along the axis every plane, corner and end of a thread is given from one datum face an end;
//! square to it every cylinder, and every end of a taper or arc, has a diameter. What follows from
//! these is not given: where a drill's point ends (it has an angle), where a fillet begins (it has
//! a radius, and its corner is given as if sharp), the edges of a groove in a taper.

use super::cones::{Cone, Cones};
use super::contour::{Contour, Cut, Side};
use super::level::Level;
use crate::drawing::view::chain::Chain;
use crate::drawing::{Measure, Point};
use crate::quantity::Length;
use crate::section::{self, Facet, Feature, Item, Mouth, Part, Thread};
use crate::size::{End, Place};

/// Which wall a size belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wall {
    /// Seen from outside.
    Outside,
    /// Of the bore; of a length: of a hole that comes in by the front; of anything else: seen
    /// from the front.
    FrontBore,
    /// The same from the back.
    BackBore,
}

/// What a size says.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// A distance from a datum face.
    Length,
    /// A diameter.
    Diameter,
    /// A thread, by its designation.
    Thread(Box<Thread>),
    /// A chamfer: its length along the axis, and its angle to it in degrees.
    Chamfer(f64),
    /// The radius of an arc, or of a fillet.
    Radius,
    /// The included angle of a cone.
    Cone,
}

/// A size of a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// The wall it belongs to.
    pub wall: Wall,
    /// What it says.
    pub role: Role,
    /// What is measured.
    pub measure: Measure,
    /// Where an arrow points at it: on the surface, in the upper half.
    pub tip: Point,
    /// The datum face that a length is measured from: the front one, or the one of the back end.
    pub datum: Option<End>,
    /// What it is drawn to: each surface, or end of one, that lies there.
    pub places: Vec<Place>,
}

impl Size {
    /// Whether it is drawn to a surface, or to an end of it.
    pub fn is_at(&self, feature: Feature) -> bool {
        self.places.iter().any(|place| place.feature == feature)
    }
}

/// The faces that lengths are given from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Datums {
    /// z of the front datum face.
    pub front: f64,
    /// z of the face that the back end is measured from; none where all is measured from the
    /// front.
    pub back: Option<f64>,
}

impl Datums {
    /// The datum face for a z of a wall: which one, and its z.
    pub fn of(&self, wall: Wall, z: f64) -> (End, f64) {
        match (self.back, wall) {
            (Some(back), Wall::Outside) if z > back => (End::Back, back),
            (Some(back), Wall::BackBore) if z != back => (End::Back, back),
            _ => (End::Front, self.front),
        }
    }
}

/// All contours of a part, with the wall of each.
#[derive(Clone, Debug, PartialEq)]
pub struct Contours {
    /// The outside.
    pub outside: Contour,
    /// The bore's pieces.
    pub bores: Vec<Contour>,
}

impl Contours {
    /// Of a part.
    pub fn of(part: &Part) -> Self {
        Self { outside: Contour::outside(part), bores: Contour::bores(part) }
    }

    /// The bore's pieces as one chain.
    pub fn bore(&self) -> Chain {
        Chain::joined(self.bores.iter().map(|piece| piece.chain().0))
    }

    /// x of the front face and of the back face.
    pub fn faces(&self) -> [f64; 2] {
        self.outside.chain().ends()
    }
}

/// The sizes of a part.
pub fn sizes(part: &Part, contours: &Contours, datums: Datums) -> Vec<Size> {
    let mut sizes = Sizes { datums, part, outside: &contours.outside, found: Vec::new() };
    sizes.outside(&contours.outside);
    for bore in &contours.bores {
        sizes.bore(bore, contours.faces());
    }
    sizes.found
}

/// The threads of a side that lie between two z.
fn threads(part: &Part, side: section::Side, [from, to]: [f64; 2]) -> Vec<&Thread> {
    let lies = |t: &&Thread| t.side == side && t.from.as_mm() >= from && t.to.as_mm() <= to;
    part.threads.iter().filter(lies).collect()
}

struct Sizes<'a> {
    datums: Datums,
    part: &'a Part,
    outside: &'a Contour,
    found: Vec<Size>,
}

impl Sizes<'_> {
    fn outside(&mut self, contour: &Contour) {
        let whole = [f64::NEG_INFINITY, f64::INFINITY];
        let threads = threads(self.part, section::Side::External, whole);
        let mut zs = places(contour.corners().iter().map(|p| p.x));
        zs.extend(threads.iter().flat_map(|thread| full_ends(thread)));
        for z in places(zs) {
            let on = contour.corners().into_iter().filter(|p| p.x == z);
            let foot = on.reduce(|a, b| if a.y >= b.y { a } else { b });
            let crest = threads.iter().find(|t| full_ends(t).contains(&z));
            let foot = foot.or_else(|| Some(Point::new(z, crest?.form.crest.as_mm() / 2.0)));
            self.length((Wall::Outside, z), foot.map_or(0.0, |p| p.y), contour, &threads);
        }
        // The bore's mouths are its own.
        let corners = contour.corners();
        let mouths = [corners.first(), corners.last()].map(Option::<&Point>::copied);
        for level in Level::all(contour) {
            if !level.corners.iter().any(|p| mouths.contains(&Some(*p))) {
                let thread = threads.iter().find(|thread| level.carries(thread));
                self.diameter(Wall::Outside, &level, contour, thread.copied());
            }
        }
        self.corners_and_arcs(contour, |_| Wall::Outside);
    }

    fn bore(&mut self, contour: &Contour, faces: [f64; 2]) {
        let corners = contour.corners();
        // Words stand before the part for what is seen from there: up to the narrowest place.
        let narrowest = corners.iter().map(|p| p.y).fold(f64::INFINITY, f64::min);
        let last = corners.iter().rposition(|p| p.y == narrowest).unwrap_or(0);
        let from_back = corners.first().is_some_and(|p| p.y == 0.0);
        let wall = |z: f64| {
            let behind = last + 1 < corners.len() && z >= corners[last].x;
            if from_back || behind { Wall::BackBore } else { Wall::FrontBore }
        };
        let cones = Cones::of(contour, faces);
        let extent = [corners[0].x, corners[corners.len() - 1].x];
        let threads = threads(self.part, section::Side::Internal, extent);
        let mut zs: Vec<f64> =
            corners.iter().map(|p| p.x).filter(|z| !cones.zs.contains(z)).collect();
        zs.extend(threads.iter().flat_map(|thread| full_ends(thread)));
        for z in places(zs).into_iter().filter(|z| !faces.contains(z)) {
            let on = corners.iter().filter(|p| p.x == z);
            let foot = on.copied().reduce(|a, b| if a.y >= b.y { a } else { b });
            let root = threads.iter().find(|t| full_ends(t).contains(&z));
            let foot = foot.or_else(|| Some(Point::new(z, root?.form.root.as_mm() / 2.0)));
            let wall = if ends_from_back(contour, z) { Wall::BackBore } else { Wall::FrontBore };
            self.length((wall, z), foot.map_or(0.0, |p| p.y), contour, &threads);
        }
        for level in Level::all(contour).iter().filter(|level| !cones.ys.contains(&level.y)) {
            let thread = threads.iter().find(|thread| level.carries(thread));
            self.diameter(wall(level.corners[0].x), level, contour, thread.copied());
        }
        for Cone { apex, on, tip, feature } in cones.angles {
            let (measure, role) = (Measure::Angle { apex, on }, Role::Cone);
            let wall = wall(tip.x);
            let places = vec![Place::whole(feature)];
            self.found.push(Size { wall, role, measure, tip, datum: None, places });
        }
        for thread in threads {
            let at = Point::new(thread.from.as_mm(), thread.form.root.as_mm() / 2.0);
            let role = Role::Thread(Box::new(thread.clone()));
            let places = vec![Place::whole(Feature::new(thread.item, Facet::Side))];
            let measure = Measure::Diameter { at };
            self.found.push(Size { wall: wall(at.x), role, measure, tip: at, datum: None, places });
        }
        self.corners_and_arcs(contour, wall);
    }

    /// The distance of a z from its datum face, which has none itself.
    fn length(
        &mut self,
        (wall, z): (Wall, f64),
        foot: f64,
        contour: &Contour,
        threads: &[&Thread],
    ) {
        let (face, datum) = self.datums.of(wall, z);
        if datum == z {
            return;
        }
        let at_datum = self.outside.corners().into_iter().filter(|p| p.x == datum);
        let rim = at_datum.map(|p| p.y).reduce(f64::max).unwrap_or(foot);
        let (from, to) = (Point::new(datum, rim), Point::new(z, foot));
        let mut places =
            contour.places(|p| p.x == z, |side| side.is_plane() && side.line.to.x == z);
        for thread in threads {
            let ends = [End::Front, End::Back].into_iter().zip(full_ends(thread));
            let here = ends.filter(|(_, end)| *end == z);
            let side = Feature::new(thread.item, Facet::Side);
            places.extend(here.map(|(end, _)| Place::at(side, end)));
        }
        let (role, datum) = (Role::Length, Some(face));
        let measure = Measure::Length { from, to };
        self.found.push(Size { wall, role, measure, tip: to, datum, places });
    }

    fn diameter(&mut self, wall: Wall, level: &Level, contour: &Contour, thread: Option<&Thread>) {
        let (at, tip) = level.place();
        let measure = Measure::Diameter { at };
        let mut places =
            contour.places(|p| level.corners.contains(&p), |side| level.cylinders.contains(side));
        let crest = thread.map(|thread| Place::whole(Feature::new(thread.item, Facet::Crest)));
        places.extend(crest);
        let datum = None;
        let Some(thread) = thread.filter(|thread| thread.side == section::Side::External) else {
            self.found.push(Size { wall, role: Role::Diameter, measure, tip, datum, places });
            return;
        };
        // A thread whose crest is not its nominal diameter has both.
        if (thread.designation.diameter().as_mm() / 2.0 - level.y).abs() > NOMINAL {
            let places = crest.into_iter().collect();
            let tip = Point::new(f64::midpoint(tip.x, at.x), at.y);
            self.found.push(Size { wall, role: Role::Diameter, measure, tip, datum, places });
        }
        let role = Role::Thread(Box::new(thread.clone()));
        self.found.push(Size { wall, role, measure, tip, datum, places });
    }

    fn corners_and_arcs(&mut self, contour: &Contour, wall: impl Fn(f64) -> Wall) {
        for Cut { line, .. } in &contour.cuts {
            let side = contour.drawn.iter().find(|side| side.line == *line);
            let places = side.map(|side| Place::whole(side.feature)).into_iter().collect();
            let tip = line.at(0.5);
            let (role, measure) = arc(*line).map_or_else(
                || {
                    let [dx, dy] = line.direction(0.0);
                    let angle = libm::atan2(dy.abs(), dx.abs()).to_degrees();
                    let measure = Measure::Length { from: line.from, to: line.to };
                    (Role::Chamfer(angle), measure)
                },
                |measure| (Role::Radius, measure),
            );
            self.found.push(Size { wall: wall(tip.x), role, measure, tip, datum: None, places });
        }
        for Side { line, feature, .. } in &contour.sides {
            if let Some(measure) = arc(*line) {
                let tip = line.at(0.5);
                let (wall, role, places) =
                    (wall(tip.x), Role::Radius, vec![Place::whole(*feature)]);
                self.found.push(Size { wall, role, measure, tip, datum: None, places });
            }
        }
    }
}

/// Whether what ends at a z of the bore came in by the back face: the tool of the plane there, or
/// of the cone whose wide end it is.
fn ends_from_back(contour: &Contour, z: f64) -> bool {
    let ends = |side: &&Side| {
        let (from, to) = (side.line.from, side.line.to);
        let wide = if from.y > to.y { from } else { to };
        side.is_plane() && from.x == z || side.is_cone() && wide.x == z
    };
    let of_back = |side: &Side| {
        matches!(side.feature.item, Item::BoreStep(Mouth::Back, _) | Item::Countersink(Mouth::Back))
    };
    contour.sides.iter().filter(ends).any(of_back)
}

/// A crest this near to a thread's nominal radius is that, in millimetres: less, and rounding
/// would be drawn as a size; more, and a size would be lost.
const NOMINAL: f64 = 1e-6;

/// Where a thread is as deep as it is wanted.
fn full_ends(thread: &Thread) -> [f64; 2] {
    thread.full().map(Length::as_mm)
}

/// Places, ascending, each once.
fn places(all: impl IntoIterator<Item = f64>) -> Vec<f64> {
    let mut places: Vec<f64> = all.into_iter().collect();
    places.sort_by(f64::total_cmp);
    places.dedup();
    places
}

/// What is measured of an arc; none for a straight line.
fn arc(line: crate::drawing::Segment) -> Option<Measure> {
    let crate::solid::Meridian::Arc { centre, .. } = line.meridian() else { return None };
    Some(Measure::Radius { centre: Point::new(centre[1], centre[0]), on: line.at(0.5) })
}
