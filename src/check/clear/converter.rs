//! `clear.converter*`: the converter on its way to the nipple, in the section and in the barrel.

use super::radial::{Radial, tightest};
use crate::check::bodies::{Built, Model};
use crate::check::enclosing::{ConverterBodies, bottom, off};
use crate::check::finding::{detail, finding};
use crate::check::judge::{Measure, ROUNDING, judge};
use crate::check::slide::{Gap, Slide};
use crate::check::{Bound, CheckInfo, Finding, thread};
use crate::section::{Converter, Facet, Item, Reading};

/// Radial room on the way.
static SIDE: CheckInfo = CheckInfo {
    code: "clear.converter",
    title: "Room round the converter in section and barrel",
    measures: "The least radial gap between the converter and what it passes: of the section on \
        its way in from the back, of the barrel as that closes over it.",
    limit: "The room per side that a converter needs.",
};

/// Room behind its end.
static END: CheckInfo = CheckInfo {
    code: "clear.converter-end",
    title: "Room behind the converter in the closed barrel",
    measures: "From the converter's end, on its nipple, to the bottom of the barrel's bore, the \
        shoulder closed.",
    limit: "Less than none: the barrel pushes on the converter and does not close.",
};

/// The mouth on the nipple.
static MOUTH: CheckInfo = CheckInfo {
    code: "clear.converter-mouth",
    title: "Room between the converter's mouth and the unit's tail",
    measures: "How much longer the nipple is than the converter's mouth goes onto it.",
    limit: "Less than none: the mouth meets the unit's tail before it is on.",
};

/// Its checks, in the order of their findings.
pub(super) static CHECKS: [&CheckInfo; 3] = [&SIDE, &END, &MOUTH];

/// The converter, where it stands, and what is round it.
struct Scene<'a> {
    model: &'a Model<'a>,
    converter: &'a Converter,
    bodies: &'a ConverterBodies,
}

/// Bodies of one state, and how far on the nipple the mouth is.
#[derive(Clone, Copy)]
struct State<'a> {
    converter: &'a Built,
    unit: &'a Built,
    part: &'a Built,
    barrel: &'a Built,
    onto: f64,
}

/// Room round it, behind it and before it.
pub(in crate::check) fn check(model: &Model) -> Vec<Finding> {
    let Some((bodies, converter)) = model.converter.zip(model.section.converter.as_ref()) else {
        return Vec::new();
    };
    let scene = Scene { model, converter, bodies };
    [scene.side(), scene.end(), scene.mouth()].into_iter().flatten().collect()
}

impl Scene<'_> {
    fn band(&self) -> f64 {
        self.model.section.criteria.band.as_mm()
    }

    /// As drawn; at both ends of the tolerances; with the readings at their limits.
    fn states(&self) -> [Vec<State<'_>>; 3] {
        let Model { part, unit, .. } = self.model;
        let ConverterBodies { converter, greatest, barrel } = self.bodies;
        let Reading { value, .. } = self.converter.onto_nipple;
        let (onto, off) = (value.as_mm(), off(self.converter.onto_nipple));
        let state =
            |converter, unit, part, barrel, onto| State { converter, unit, part, barrel, onto };
        let ends = [(&part.least, &barrel.least), (&part.most, &barrel.most)];
        let units = [(&unit.least, onto + off), (&unit.most, onto - off)];
        [
            vec![state(converter, &unit.drawn, &part.drawn, &barrel.drawn, onto)],
            ends.map(|(part, barrel)| state(converter, &unit.drawn, part, barrel, onto)).to_vec(),
            ends.into_iter()
                .flat_map(|(part, barrel)| {
                    units.map(|(unit, onto)| state(greatest, unit, part, barrel, onto))
                })
                .collect(),
        ]
    }

    /// z of the closed barrel at z = 0 of the section.
    fn barrel_at(&self, state: &State) -> f64 {
        thread::tenon::rest(self.model, state.part, state.barrel).advance()
    }

    /// z of the section at the converter's mouth.
    fn mouth_at(&self, state: &State) -> Option<f64> {
        let [_, end] = nipple(state.unit)?;
        let seat = thread::unit::rest(self.model, state.unit, state.part).advance();
        Some(end + seat - state.onto)
    }

    fn in_section(&self, state: &State) -> Vec<Gap> {
        let Some(mouth) = self.mouth_at(state) else { return Vec::new() };
        let (inner, outer) = (state.converter.turned(), state.part.turned());
        Slide { inner: &inner, outer: &outer, threads: None }.gaps(-mouth)
    }

    fn in_barrel(&self, state: &State) -> Vec<Gap> {
        let Some(mouth) = self.mouth_at(state) else { return Vec::new() };
        let slide = Slide { inner: state.converter, outer: state.barrel, threads: None };
        slide.gaps(mouth + self.barrel_at(state))
    }

    fn side(&self) -> Option<Finding> {
        let states = self.states();
        let [[in_section, in_barrel], worst, read] = states.map(|states| {
            let all = |of: &dyn Fn(&State) -> Vec<Gap>| states.iter().flat_map(of).collect();
            let gaps: [Vec<Gap>; 2] =
                [all(&|state| self.in_section(state)), all(&|state| self.in_barrel(state))];
            gaps
        });
        let barrel_at = self.barrel_at(&self.states()[0][0]);
        let named =
            |name: &str, gaps: &[Gap]| tightest(gaps).map(|gap| detail(name, gap.room, "mm"));
        let details = [named("in the section", &in_section), named("in the barrel", &in_barrel)];
        let details = details.into_iter().flatten().collect();
        // The narrower of both has the place, and each its own axis.
        let [section, barrel] = [&in_section, &in_barrel].map(|gaps| tightest(gaps));
        let of_barrel = match (section, barrel) {
            (Some(section), Some(barrel)) => barrel.room < section.room,
            (section, _) => section.is_none(),
        };
        let drawn = [in_section, in_barrel].concat();
        let fits = &self.model.section.criteria.fits;
        let radial = Radial {
            drawn: &drawn,
            worst: worst.concat(),
            read: read.concat(),
            limit: &fits.converter_clearance,
            band: self.band(),
        };
        radial.finding(&SIDE, details, |z| if of_barrel { z - barrel_at } else { -z })
    }

    /// Where the barrel's bore is known.
    fn end(&self) -> Option<Finding> {
        self.model.section.barrel.bore?;
        let room = |state: &State| {
            let end = self.mouth_at(state)? + self.barrel_at(state) + state.converter.end();
            Some(bottom(state.barrel) - end)
        };
        let [drawn, worst, read] =
            self.states().map(|states| states.iter().filter_map(room).reduce(f64::min));
        let measured = drawn?;
        let worst = worst?.min(measured);
        let uncertainty = (worst - read?).max(0.0);
        let measure = Measure { worst, error: ROUNDING, uncertainty, band: self.band() };
        let source = "geometry: the converter must not reach the barrel's bottom";
        let state = self.states()[0][0];
        let end = self.mouth_at(&state)? + state.converter.end();
        let note = (measured < -ROUNDING)
            .then(|| format!("the converter is {:.2} mm too long for the barrel", -measured));
        Some(Finding {
            judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
            note,
            details: vec![
                detail("the converter's mouth lies at z", self.mouth_at(&state)?, "mm"),
                detail("its end lies at z", end, "mm"),
            ],
            ..finding(&END, measured, "mm", ROUNDING)
        })
    }

    fn mouth(&self) -> Option<Finding> {
        let length = |unit: &Built| nipple(unit).map(|[from, to]| to - from);
        let onto = self.converter.onto_nipple;
        let nipple = length(&self.model.unit.drawn)?;
        let measured = nipple - onto.value.as_mm();
        let unit = &self.model.section.unit;
        let (_, last) = unit.step(Item::Nipple)?;
        let before = unit.steps.iter().rev().find(|step| step.item != Item::Nipple);
        let before = before.map_or(0.0, |step| off(step.to));
        let uncertainty = off(onto) + off(last.to) + before;
        let measure = Measure { worst: measured, error: ROUNDING, uncertainty, band: self.band() };
        let source = "geometry: the mouth must be on before it meets the tail";
        let note = (measured < -ROUNDING)
            .then(|| format!("the nipple is {:.2} mm too short for the mouth", -measured));
        Some(Finding {
            judgement: Some(judge(measure, Bound::AtLeast, 0.0, source)),
            note,
            details: vec![detail("length of the nipple", nipple, "mm")],
            ..finding(&MOUTH, measured, "mm", ROUNDING)
        })
    }
}

/// From where to where the unit's nipple goes, from the underside of the collar.
fn nipple(unit: &Built) -> Option<[f64; 2]> {
    let sides = unit
        .lines
        .iter()
        .filter(|l| l.feature.item == Item::Nipple && matches!(l.feature.facet, Facet::Side));
    sides.map(|l| [l.from[1].min(l.to[1]), l.from[1].max(l.to[1])]).next()
}
