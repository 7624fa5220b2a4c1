//! When the unit binds in its thread: what each kind of binding would look like in this design.

use crate::quantity::Length;
use crate::scene::{Examination, Scene};
use crate::size::SizeId;

/// The numbers of the table of bindings; those that can't be measured are left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Binding {
    /// Turns after which a unit stops whose thread was cut too small on the pitch diameter.
    pub cut_small_stops_after: Option<f64>,
    /// Room on the pitch diameter at the tightest that the limits allow.
    pub pitch_diameter_room: Option<Length>,
    /// Turns engaged when the collar is seated.
    pub turns: Option<f64>,
    /// The error of pitch, per turn, that takes all of that room over those turns.
    pub pitch_error: Option<Length>,
    /// Room over the crests, per side, at the tightest.
    pub crest_room: Option<Length>,
    /// How far the unit moves with one turn: by so much it stands proud for each turn that was
    /// tapped too few.
    pub per_turn: Length,
    /// Turns of thread behind the unit's, which it may be tapped short by.
    pub spare_turns: f64,
    /// How much farther the unit could go when its collar rests.
    pub behind_seat: Option<Length>,
    /// Room round the collar, per side.
    pub round_collar: Option<Length>,
}

/// How much too small a thread is taken to see after how many turns it stops, on the pitch diameter
/// in millimetres: enough to bind for sure; where it binds does not depend on it.
const TOO_SMALL: f64 = 0.2;

impl Binding {
    /// Of a section and what was found in it.
    pub fn of(scene: &Scene, found: &Examination) -> Self {
        let section = scene.section();
        let worst = |code: &str| {
            found.finding(code)?.judgement.as_ref().map(|judged| Length::mm(judged.worst))
        };
        let half = section.unit_thread.form.half_angle;
        // Axial play is the room on the pitch diameter times the tangent of the flank's angle.
        let room = worst("thread.unit.play").map(|play| play / libm::tan(half.as_rad()));
        let play = found.finding("thread.unit.play");
        let turns = play.and_then(|play| play.detail("engaged turns"));
        let lead = section.unit_thread.form.lead();
        let cot = 1.0 / libm::tan(half.as_rad());
        // Over n turns an error takes cot(half angle) x n x error from the pitch diameter's room.
        let pitch_error = room.zip(turns).map(|(room, turns)| room / (cot * turns));
        let end = section.unit.thread.full()[1] + section.seat();
        let spare = (section.unit_thread.full()[1] - end) / lead;
        let detail = |code: &str, name: &str| found.finding(code)?.detail(name).map(Length::mm);
        Self {
            cut_small_stops_after: cut_small(scene),
            pitch_diameter_room: room.filter(|room| *room > Length::ZERO),
            turns,
            pitch_error: pitch_error.filter(|error| *error > Length::ZERO),
            crest_room: worst("thread.unit.crests"),
            per_turn: lead,
            spare_turns: spare.max(0.0),
            behind_seat: found.finding("clear.seat").map(|seat| Length::mm(seat.measured)),
            round_collar: detail("clear.unit", "collar in collar recess"),
        }
    }
}

/// Turns after which it stops when its thread is cut too small: measured on such a section.
fn cut_small(scene: &Scene) -> Option<f64> {
    let size = SizeId::UnitThreadSize;
    let small = scene.section().with(&[(size, size.get(scene.section())? - TOO_SMALL)])?;
    let found = scene.find(&small).ok()?;
    found.iter().find(|finding| finding.code == "thread.unit.play")?.detail("stops after")
}
