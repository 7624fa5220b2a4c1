//! Who looks on while a job runs.

/// Is told what is being done, and may stop it.
pub trait Watch {
    /// What is being done from now on.
    fn step(&self, doing: &'static str);

    /// Whether the job is to stop. Asked before each step, the one that writes among them.
    fn is_cancelled(&self) -> bool {
        false
    }
}

/// Nobody looks on.
impl Watch for () {
    fn step(&self, _: &'static str) {}
}

/// That somebody stopped a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cancelled;

/// Begins a step.
///
/// # Errors
/// [`Cancelled`], if the job is to stop.
pub fn step(watch: &dyn Watch, doing: &'static str) -> Result<(), Cancelled> {
    if watch.is_cancelled() {
        return Err(Cancelled);
    }
    watch.step(doing);
    Ok(())
}
