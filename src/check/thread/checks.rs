//! The checks of a pair of threads: their codes and what they mean.

use crate::check::CheckInfo;
use crate::check::catalogue::INFORMATION;

/// The checks of one pair of threads.
pub(in crate::check) struct Checks {
    pub percent: CheckInfo,
    pub turns: CheckInfo,
    pub play: CheckInfo,
    pub crests: CheckInfo,
    pub interference: CheckInfo,
    pub strip: CheckInfo,
}

impl Checks {
    /// All of them, in the order of their findings.
    pub const fn list(&'static self) -> [&'static CheckInfo; 6] {
        [&self.percent, &self.turns, &self.play, &self.crests, &self.interference, &self.strip]
    }

    /// The checks of a pair, each with its code and title.
    pub const fn new(
        [percent, turns, play, crests, interference, strip]: [(&'static str, &'static str); 6],
    ) -> Self {
        const fn info(
            (code, title): (&'static str, &'static str),
            measures: &'static str,
            limit: &'static str,
        ) -> CheckInfo {
            CheckInfo { code, title, measures, limit }
        }
        Self {
            percent: info(
                percent,
                "How far the crests overlap where the thread has full form, as a share of 5/8 H \
                 (base A); the share of drill charts (base B, 3/4 H) stands beside it.",
                "Less than the low limit holds too little; more than the high one is too hard to \
                 tap in this material.",
            ),
            turns: info(
                turns,
                "The turns over which both threads have full form, screwed home.",
                "The fewest turns that hold.",
            ),
            play: info(
                play,
                "How far the threads can move along the axis when screwed home, less what a \
                 difference of their pitches takes over the engaged turns.",
                "Less than none binds.",
            ),
            crests: info(
                crests,
                "The least radial gap between a crest and the root it runs in.",
                "Less than none rubs.",
            ),
            interference: info(
                interference,
                "The volume in which both threads would be, centred on each other along the axis; \
                 none where they have play and their crests are clear.",
                INFORMATION,
            ),
            strip: info(
                strip,
                "The area that would shear if the section's thread were pulled out along the axis: \
                 the cylinder at the other thread's crest, as far as it lies in the section's \
                 ridges, at its least material.",
                INFORMATION,
            ),
        }
    }
}
