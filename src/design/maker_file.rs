//! A maker as people write it: what can be held at the lathe, by each means.

use super::reader::{Placed, Reader};
use super::value::{CutsOver, Distance, Sourced};

/// A maker.
#[derive(Clone, Debug)]
pub(super) struct MakerFile {
    pub(super) name: Placed<String>,
    pub(super) turned: Placed<Sourced<Distance>>,
    pub(super) faced: Placed<Sourced<Distance>>,
    pub(super) bored: Placed<Sourced<Distance>>,
    pub(super) drilled: Placed<Sourced<CutsOver>>,
    pub(super) depth: Placed<Sourced<Distance>>,
    pub(super) mark: Placed<Sourced<Distance>>,
    pub(super) holding: Placed<Sourced<Distance>>,
    pub(super) long_hole: Placed<Sourced<Distance>>,
}

impl MakerFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let name = reader.need("name", "name = \"bench\"");
        let example = "[holds] with turned, faced, bored, drilled, depth and mark";
        let holds = reader.need_table("holds", example, |r| {
            let turned = r.need("turned", "turned = 0.03");
            let faced = r.need("faced", "faced = 0.05");
            let bored = r.need("bored", "bored = 0.03");
            let drilled = r.need("drilled", "drilled = { value = [0.05, 0.15] }");
            (
                turned,
                faced,
                bored,
                drilled,
                r.need("depth", "depth = 0.10"),
                r.need("mark", "mark = 0.30"),
            )
        });
        let example = "[offsets] with holding = 0.05 and long_hole = 0.10";
        let offsets = reader.need_table("offsets", example, |r| {
            (r.need("holding", "holding = 0.05"), r.need("long_hole", "long_hole = 0.10"))
        });
        let (turned, faced, bored, drilled, depth, mark) = holds.unwrap_or_default();
        let (holding, long_hole) = offsets.unwrap_or_default();
        Self { name, turned, faced, bored, drilled, depth, mark, holding, long_hole }
    }
}
