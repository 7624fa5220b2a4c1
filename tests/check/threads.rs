//! Heights, gaps, play and interference of threads by independent routes: both meshes cut by
//! half-planes and overlapped as polygons, and distances between their triangles in space.

use std::f64::consts::TAU;

use sectionwright::check::Finding;
use sectionwright::quantity::{Angle, Length};
use sectionwright::scene::{examine, verdicts};
use sectionwright::section::{Facet, Item, Section, Side, Thread};

use crate::common::{basic_thread, mm};
use crate::fixtures::{as_read, r1, set_diameter};
use crate::half_planes::{Common, Screwed, Triangles};

/// Of the meshes that are cut.
const CHORD: f64 = 0.0002;

/// What a length may be off beside the chord: rounding of the mesh to single precision, and the
/// area in common that counts as touching.
const BESIDE_CHORD: f64 = 0.002;

/// The integral of r dA in one plane that counts as touching, in mm3: over one flank of R1 an
/// overlap a micron wide.
const TOUCHING: f64 = 1e-6;

/// A volume that is none, in mm3: rounding of the meshes to single precision, over R1's flanks.
const NOTHING: f64 = 1e-5;

const HALF_PLANES: u32 = 24;

const THREAD: [Facet; 4] = [Facet::Crest, Facet::Root, Facet::FlankFront, Facet::FlankBack];
const FLANKS: [Facet; 2] = [Facet::FlankFront, Facet::FlankBack];

/// A section with its unit, as the tests need it.
pub struct Scene {
    pub section: Section,
    part: Triangles,
    unit: Triangles,
    seat: f64,
    /// z of the section between which both threads are, all of it full form.
    run: [f64; 2],
}

impl Scene {
    /// Both threads end in walls, the unit's collar rests on a flat floor.
    pub fn new(section: Section) -> Self {
        let seat = section.seat().as_mm();
        let (own, other) = (&section.unit_thread, &section.unit.thread);
        let from = own.from.as_mm().max(other.from.as_mm() + seat);
        let to = own.to.as_mm().min(other.to.as_mm() + seat);
        let (part, unit) = (section.part(), section.unit.part());
        let (part, unit) = (Triangles::of(&part, CHORD), Triangles::of(&unit, CHORD));
        Self { part, unit, seat, run: [from, to], section }
    }

    fn home(&self) -> Screwed<'_> {
        let inner = (&self.unit, &self.section.unit.thread);
        let outer = (&self.part, &self.section.unit_thread);
        Screwed::home(inner, outer, self.seat, f64::midpoint(self.run[0], self.run[1]))
    }

    fn found(&self, check: &str) -> Finding {
        let examination = verdicts(&self.section).unwrap();
        examination.finding(&format!("thread.unit.{check}")).unwrap().clone()
    }

    /// The volume in common, as it is said; by slices it is the same, within what surfaces off by
    /// the chord would add or take.
    pub fn interference(&self) -> f64 {
        let examined = examine(&self.section).unwrap();
        let said = examined.finding("thread.unit.interference").unwrap();
        let Common { volume, skin } = self.home().in_common(self.run, HALF_PLANES);
        let (name, bound) = (&self.section.name, CHORD * skin + NOTHING);
        println!("{name}: {:.5} mm3, by slices {volume:.5}, bound {bound:.5}", said.measured);
        assert!((said.measured - volume).abs() < bound, "{name}");
        // What it says of its own integral is small beside it.
        assert!(said.error <= 1e-4 * said.measured, "{name}: {}", said.error);
        said.measured
    }
}

/// R1 with both threads replaced: the section's between its z, the unit's from its collar.
fn with_threads(name: &str, own: Thread, unit: Thread) -> Section {
    let mut section = r1();
    name.clone_into(&mut section.name);
    set_diameter(&mut section, Item::TapDrill, own.form.crest.as_mm());
    section.unit.steps[1].diameter.value = unit.form.crest;
    section.unit.steps[1].to.value = unit.to;
    (section.unit_thread, section.unit.thread) = (own, unit);
    section
}

fn own(designation: &str) -> Thread {
    basic_thread(Item::UnitThread, Side::Internal, designation, 4.6, 11.75)
}

/// The unit's thread, over or under on every diameter.
fn bought(designation: &str, over: f64) -> Thread {
    as_read(basic_thread(Item::UnitBody, Side::External, designation, 2.5, 10.55), over, 0.0)
}

/// A thread of the same crest and root with flanks of another angle, as wide at mid-height as the
/// groove; the unit's thinner or thicker by `over` on every diameter.
fn at_angle(half_angle: f64, over: f64) -> Section {
    let (mut internal, mut external) = (own("M8.05x0.55"), bought("M8.05x0.55", over));
    let middle = (internal.form.crest + internal.form.root) / 2.0;
    for (form, off) in [(&mut internal.form, 0.0), (&mut external.form, over)] {
        form.half_angle = Angle::deg(half_angle);
        form.pitch_diameter = middle + mm(off);
    }
    let mut section = with_threads("trapezoidal", internal, external);
    let unit = section.unit.thread.clone();
    section.unit.thread = as_read(unit, 0.0, 0.0);
    section
}

/// R1 with its unit's thread larger or smaller on every diameter.
fn over(name: &str, by: f64) -> Section {
    with_threads(name, own("M8.05x0.55"), bought("M8.05x0.55", by))
}

/// A unit of 34 threads to the inch in 0.75, over 8 turns.
fn other_pitch(by: f64) -> Section {
    let internal = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.75", 4.6, 10.6);
    let mut external = basic_thread(Item::UnitBody, Side::External, "M8.05x0.75", 2.5, 9.4);
    external.form.pitch = mm(0.7471);
    with_threads("other pitch", internal, as_read(external, by, 0.0))
}

/// Sources: the reference part's numbers, from an independent boundary-representation kernel:
/// pushed 0.05 along the axis the interference is 3.04 mm3 where the unit's thread ends with the
/// engaged run, 3.06 where it runs on. So the slices are a ruler that can be trusted.
#[test]
fn slices_find_what_a_kernel_found() {
    let scene = Scene::new(r1());
    let pushed = |by: f64| scene.home().pushed(by).in_common(scene.run, HALF_PLANES);
    // To the front the unit's end leaves the run; to the back it goes on behind it.
    let (front, back) = (pushed(-0.05), pushed(0.05));
    println!("{front:?} {back:?}");
    // Half a unit of the last digit printed there.
    assert!((front.volume - 3.04).abs() < 0.005 + CHORD * front.skin);
    assert!((back.volume - 3.06).abs() < 0.005 + CHORD * back.skin);
    assert!((back.volume / front.volume - 7.15 / 7.10).abs() < 1e-3);
    assert!(pushed(0.0).volume < NOTHING);
}

/// R1 has play; its unit 0.08 over does not, and flanks and crests overlap.
#[test]
fn interference_of_a_unit_too_large() {
    assert_eq!(Scene::new(r1()).interference(), 0.0);
    let scene = Scene::new(over("0.08 over", 0.08));
    let said = scene.interference();
    // Flanks stand 0.04 x tan 30 in each other on either side over the bearing area, which goes
    // from the section's crest to the unit's, plus the crest's and root's flats: more than this.
    let bearing = scene.found("turns").detail("bearing area along the axis").unwrap();
    assert!(said > bearing * 2.0 * 0.04 * libm::tan(TAU / 12.0), "{said}");
}

/// A crest that stands beyond the other's root, its flanks free: a ring of the crest's flat.
#[test]
fn interference_of_a_crest_that_rubs() {
    let mut external = bought("M8.05x0.55", -0.05);
    external.form.crest = mm(8.11);
    let scene = Scene::new(with_threads("crest rubs", own("M8.05x0.55"), external));
    assert!(scene.found("play").measured > 0.0);
    let said = scene.interference();
    // By hand: the ring from 4.025 to 4.055, as wide along the axis as the ridge there, over
    // 13 turns; the ridge is P/8 wide at 4.025 - 0.025 and narrows by 2 tan 30 a millimetre.
    let width = 0.55 / 8.0 - 2.0 * libm::tan(TAU / 12.0) * 0.04;
    let ring = TAU * 4.04 * 0.03 * width * 13.0;
    assert!((said / ring - 1.0).abs() < 0.01, "{said} {ring}");
}

/// A tap that cuts 0.1 under, measured on its pitch diameter and its major.
#[test]
fn interference_in_a_thread_cut_small() {
    let mut internal = own("M8.05x0.55");
    internal.form.pitch_diameter -= mm(0.1);
    internal.form.root -= mm(0.1);
    let scene = Scene::new(with_threads("cut small", internal, bought("M8.05x0.55", -0.05)));
    scene.interference();
}

/// The overlap sits at both ends; in the middle the threads are free.
#[test]
fn interference_of_another_pitch() {
    let scene = Scene::new(other_pitch(-0.03));
    let turns = scene.found("turns").measured;
    assert!((turns - 8.0).abs() < 1e-9, "{turns}");
    scene.interference();
    let home = scene.home();
    let [low, high] = scene.run;
    let [front, middle, back] = [[low, low + 1.5], [6.85, 8.35], [high - 1.5, high]]
        .map(|run| home.in_common(run, HALF_PLANES).volume);
    println!("front {front:.5}, middle {middle:.5}, back {back:.5}");
    assert!(middle < NOTHING && front > 0.01 && (front / back - 1.0).abs() < 0.05);
    // So large that crests rub along all of it as well.
    Scene::new(other_pitch(0.06)).interference();
}

#[test]
fn interference_of_several_starts_and_hands() {
    for designation in ["M8.05xPh1.1P0.55", "M8.05xPh1.65P0.55-LH", "M8.05x0.55-LH"] {
        let section = with_threads(designation, own(designation), bought(designation, 0.08));
        Scene::new(section).interference();
    }
}

#[test]
fn interference_of_other_flanks() {
    Scene::new(at_angle(15.0, 0.06)).interference();
    // Roots rounded on both sides, crests sharp: the corners stand in the roundings.
    for by in [0.05, 0.0] {
        let mut section = over("rounded roots", by);
        section.unit_thread.form.root_radius = mm(0.03);
        section.unit.thread.form.root_radius = mm(0.06);
        Scene::new(section).interference();
    }
}

impl Scene {
    fn near(&self, what: &str, said: f64, found: f64) {
        let name = &self.section.name;
        println!("{name}, {what}: {said:.6}, found {found:.6}");
        assert!((said - found).abs() < CHORD + BESIDE_CHORD, "{name}, {what}: {said} {found}");
    }

    /// Height, and gaps over crests, from corners of the meshes.
    pub fn heights_agree(&self) {
        let (percent, crests) = (self.found("percent"), self.found("crests"));
        let [inner, outer] = self.part.radii(Item::UnitThread, &THREAD);
        let [core, top] = self.unit.radii(Item::UnitBody, &THREAD);
        self.near("height", percent.detail("height per side").unwrap(), top - inner);
        self.near("major", crests.detail("at the major diameter").unwrap(), outer - top);
        self.near("minor", crests.detail("at the minor diameter").unwrap(), inner - core);
    }

    /// Play, by pushing slices along the axis: free on both sides, and alike.
    pub fn play_agrees(&self) {
        let pitch = self.section.unit_thread.form.pitch.as_mm();
        let home = self.home();
        let [ahead, back] = [1.0, -1.0].map(|side| home.free(side, self.run, pitch, TOUCHING));
        self.near("play", self.found("play").measured, ahead + back);
        self.near("centred", ahead, back);
    }

    /// Gaps between flanks, and over crests and roots, from triangles in space.
    fn distances_agree(&self) {
        let (crests, play) = (self.found("crests"), self.found("play"));
        let home = self.home();
        let between = |inner: &[Facet], outer: &[Facet]| {
            home.distance((Item::UnitBody, inner), (Item::UnitThread, outer))
        };
        let flanks = play.detail("gap between flanks, centred").unwrap();
        self.near("flanks", flanks, between(&FLANKS, &FLANKS));
        let [major, minor] =
            ["at the major diameter", "at the minor diameter"].map(|d| crests.detail(d).unwrap());
        self.near("crest to root", major, between(&[Facet::Crest], &[Facet::Root]));
        self.near("root to crest", minor, between(&[Facet::Root], &[Facet::Crest]));
    }
}

fn measures_agree(section: Section) {
    let scene = Scene::new(section);
    scene.heights_agree();
    scene.play_agrees();
    scene.distances_agree();
}

#[test]
fn measures_of_r1() {
    let mut section = r1();
    // R1's own roots and crests lie 0.025 apart.
    measures_agree(section.clone());
    // A hole wider than basic: less height, more room at the root.
    set_diameter(&mut section, Item::TapDrill, 7.6);
    measures_agree(section);
}

#[test]
fn measures_of_several_starts() {
    let designation = "M8.05xPh1.65P0.55-LH";
    measures_agree(with_threads(designation, own(designation), bought(designation, -0.06)));
}

#[test]
fn measures_of_other_flanks() {
    measures_agree(at_angle(15.0, -0.06));
    measures_agree(at_angle(27.5, -0.08));
    let mut rounded = over("rounded roots", -0.08);
    rounded.unit_thread.form.root_radius = mm(0.03);
    rounded.unit.thread.form.root_radius = mm(0.06);
    measures_agree(rounded);
}

/// A thread of a coarser unit, its flanks far apart: lengths are lengths, not shares.
#[test]
fn measures_of_a_loose_unit() {
    let mut section = over("loose", -0.2);
    section.unit.thread.form.pitch_diameter -= Length::mm(0.05);
    measures_agree(section);
}

/// Pitches that differ, and flanks so loose that they are free all along: what is left of the play
/// over the engaged turns.
#[test]
fn measures_of_another_pitch() {
    measures_agree(other_pitch(-0.1));
    for pitch in [0.555, 0.545] {
        let internal = basic_thread(Item::UnitThread, Side::Internal, "M8.05x0.55", 4.6, 6.8);
        let mut external = basic_thread(Item::UnitBody, Side::External, "M8.05x0.55", 2.5, 5.6);
        external.form.pitch = mm(pitch);
        let name = format!("{pitch} in 0.55");
        measures_agree(with_threads(&name, internal, as_read(external, -0.2, 0.0)));
    }
}
