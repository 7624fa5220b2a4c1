//! Work on as many threads as there are cores.

use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// What `of` makes of each item, in their order.
pub(super) fn map<T: Sync, R: Send>(items: &[T], of: impl Fn(&T) -> R + Sync) -> Vec<R> {
    let cores = thread::available_parallelism().map_or(1, NonZero::get);
    let next = AtomicUsize::new(0);
    let work = || {
        let mut done = Vec::new();
        // Whoever is free takes the next one: some take a hundred times as long as others.
        loop {
            let n = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(n) else { return done };
            done.push((n, of(item)));
        }
    };
    let mut all: Vec<(usize, R)> = thread::scope(|scope| {
        let workers: Vec<_> = (0..cores).map(|_| scope.spawn(work)).collect();
        let done = workers.into_iter().map(|worker| match worker.join() {
            Ok(done) => done,
            Err(panic) => std::panic::resume_unwind(panic),
        });
        done.flatten().collect()
    });
    all.sort_by_key(|(n, _)| *n);
    all.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_stand_in_the_order_of_the_items() {
        let items: Vec<u32> = (0..500).collect();
        let squares = map(&items, |n| n * n);
        assert!(squares.iter().zip(&items).all(|(square, n)| *square == n * n));
        assert!(map(&[] as &[u32], |n| *n).is_empty());
    }
}
