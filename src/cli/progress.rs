//! Progress of work that takes over a second, on a terminal.

use std::thread;
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use crate::job::Watch;

/// Work shorter than this shows nothing: a line that flashes up is only noise.
const PATIENCE: Duration = Duration::from_secs(1);

/// How often the line moves, so that one sees that the work goes on.
const TICK: Duration = Duration::from_millis(120);

/// A line that names what is being done; it clears itself away.
pub(super) struct Progress(ProgressBar);

impl Progress {
    /// A line that appears once the work takes long; never where the output is no terminal, or
    /// quiet was asked for.
    pub fn start(quiet: bool) -> Self {
        let bar = ProgressBar::with_draw_target(None, ProgressDrawTarget::hidden());
        bar.set_style(ProgressStyle::default_spinner());
        if !quiet {
            let shown = bar.clone();
            thread::spawn(move || {
                thread::sleep(PATIENCE);
                if !shown.is_finished() {
                    shown.set_draw_target(ProgressDrawTarget::stderr());
                    shown.enable_steady_tick(TICK);
                }
            });
        }
        Self(bar)
    }
}

impl Watch for Progress {
    fn step(&self, doing: &'static str) {
        self.0.set_message(doing);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}
