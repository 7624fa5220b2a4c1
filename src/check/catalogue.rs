//! What is checked: the codes, and what each of them means.

use super::{clear, floor, joint, tenon_thread, unit_thread, wall};

/// What a code stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CheckInfo {
    /// The code that its finding carries.
    pub code: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// What is measured, in one sentence.
    pub measures: &'static str,
    /// What its limit means; that there is none, where it is for information.
    pub limit: &'static str,
}

const WALL: &str = "The least wall that the material bears in this place; judged with the largest \
    holes and the deepest threads, less what holdings and a wandering drill may be off the axis.";

const INFORMATION: &str = "No limit: for information.";

/// What each zone's wall is measured from, in the order of [`wall::ZONES`].
const ZONES: [&str; 10] = [
    "The least distance from the side of the collar's recess to the outside.",
    "The least distance from the floor or cone on which the collar rests to the outside.",
    "The least distance from the clearance bore to the outside.",
    "The least distance from the root of the unit's thread, at any angle, to the outside.",
    "The least distance from the tap drill's hole and its point to the outside.",
    "The least distance from the through bore, or a step behind the thread, to the outside in \
     front of the shoulder.",
    "The least distance from any hole to the root of the cap's thread, at any angle.",
    "The least distance from any hole to the relief groove.",
    "The least distance from any hole to the root of the tenon's thread, at any angle.",
    "The least distance from any hole to the tenon's chamfer or pilot.",
];

const fn info(
    (code, title): (&'static str, &'static str),
    measures: &'static str,
    limit: &'static str,
) -> CheckInfo {
    CheckInfo { code, title, measures, limit }
}

const fn zone(n: usize) -> CheckInfo {
    info(wall::ZONES[n], ZONES[n], WALL)
}

const PERCENT: &str = "How far the crests overlap where the thread has full form, as a share of \
    5/8 H (base A); the share of drill charts (base B, 3/4 H) stands beside it.";
const PERCENT_LIMIT: &str = "Less than the low limit holds too little; more than the high one is \
    too hard to tap in this material.";
const TURNS: &str = "The turns over which both threads have full form, screwed home.";
const TURNS_LIMIT: &str = "The fewest turns that hold.";
const PLAY: &str = "How far the threads can move along the axis when screwed home, less what a \
    difference of their pitches takes over the engaged turns.";
const PLAY_LIMIT: &str = "Less than none binds.";
const CRESTS: &str = "The least radial gap between a crest and the root it runs in.";
const CRESTS_LIMIT: &str = "Less than none rubs.";

const ALL: [CheckInfo; 25] = [
    zone(0),
    zone(1),
    zone(2),
    zone(3),
    zone(4),
    zone(5),
    zone(6),
    zone(7),
    zone(8),
    zone(9),
    info(wall::LEAST, "The least distance from any hole to the outside.", INFORMATION),
    info(
        floor::FLOOR,
        "The least distance from a blind bore's end to the hole from the back, or to the back face.",
        WALL,
    ),
    info(unit_thread::NAMES.percent, PERCENT, PERCENT_LIMIT),
    info(unit_thread::NAMES.turns, TURNS, TURNS_LIMIT),
    info(unit_thread::NAMES.play, PLAY, PLAY_LIMIT),
    info(unit_thread::NAMES.crests, CRESTS, CRESTS_LIMIT),
    info(tenon_thread::NAMES.percent, PERCENT, PERCENT_LIMIT),
    info(tenon_thread::NAMES.turns, TURNS, TURNS_LIMIT),
    info(tenon_thread::NAMES.play, PLAY, PLAY_LIMIT),
    info(tenon_thread::NAMES.crests, CRESTS, CRESTS_LIMIT),
    info(
        clear::SEAT,
        "How much farther the nib unit could go when its collar rests, before anything else of it \
         touches.",
        "Less than none: something else stops it first, and the collar stands proud.",
    ),
    info(
        clear::UNIT,
        "The least radial gap between any part of the nib unit and the bores that it passes; \
         threads that engage do not count.",
        "The room per side that a part needs to pass.",
    ),
    info(
        clear::COLLAR,
        "The distance from the section's front face back to the collar's front; negative where \
         the collar stands proud.",
        INFORMATION,
    ),
    info(
        joint::SHOULDER,
        "How much farther the tenon could go when the shoulder closes on the barrel, before it \
         bottoms or its thread's run-out jams.",
        "Less than none: the shoulder stays open.",
    ),
    info(
        joint::FLUSH,
        "The section's diameter at the shoulder less the barrel's at the joint.",
        INFORMATION,
    ),
];

/// Every code there is, in the order in which findings come.
pub const fn list() -> &'static [CheckInfo] {
    &ALL
}
