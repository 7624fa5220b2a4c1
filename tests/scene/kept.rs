//! What is kept of a scene is what would be measured anew.

use sectionwright::design::Resolved;
use sectionwright::scene::{Scene, Scores};
use sectionwright::size::SizeId;

use super::files::{fixtures, random_designs};

/// Every size of every fixture and of random designs, moved alone: words, numbers and places of all
/// findings are those of a scene of its own.
#[test]
fn a_changed_scene_is_one_of_its_own() {
    let mut measured = 0;
    for (name, files) in fixtures().into_iter().chain(random_designs().into_iter().take(10)) {
        let Resolved { section, .. } = files.read().unwrap();
        let scene = Scene::of(&section).unwrap();
        for (n, size) in SizeId::all(&section).into_iter().enumerate() {
            let by = [0.03, -0.05, 0.008][n % 3];
            let Some(changed) = section.with(&[(size, size.get(&section).unwrap() + by)]) else {
                continue;
            };
            let Ok(found) = scene.find(&changed) else { continue };
            let what = format!("{name}: {}", size.name());
            let own = Scene::of(&changed).unwrap();
            assert_eq!(found, own.findings(), "{what}");
            assert_eq!(scene.score(&changed).unwrap(), Scores::of(&found), "{what}");
            measured += 1;
        }
    }
    assert!(measured > 500, "{measured}");
}

/// The same however many threads there are.
#[test]
fn threads_change_nothing() {
    let of = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        let (_, files) = fixtures().pop().unwrap();
        let scene = Scene::of(&files.read().unwrap().section).unwrap();
        pool.install(|| scene.room().to_vec())
    };
    assert_eq!(of(1), of(3));
}
