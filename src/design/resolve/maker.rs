//! What the maker can hold, from the maker's file.

use super::criteria::spread_of;
use crate::design::maker_file::MakerFile;
use crate::design::reader::Placed;
use crate::design::value::{Distance, Sourced};
use crate::section::{Limit, Maker};

/// The maker, each value with where it comes from.
pub(super) fn resolve(file: &MakerFile) -> Maker {
    let name = &file.name.value;
    let said = |source: &Option<Placed<String>>| {
        let said = source.as_ref().map_or("no source given", |source| &source.value);
        format!("{name}: {said}")
    };
    let length = |written: &Placed<Sourced<Distance>>| {
        let Sourced { value, source } = &written.value;
        Limit { value: value.value.0, source: said(source) }
    };
    let Sourced { value: drilled, source } = &file.drilled.value;
    Maker {
        name: name.clone(),
        turned: length(&file.turned),
        faced: length(&file.faced),
        bored: length(&file.bored),
        drilled: Limit { value: spread_of(drilled.value), source: said(source) },
        depth: length(&file.depth),
        mark: length(&file.mark),
        holding: length(&file.holding),
        long_hole: length(&file.long_hole),
    }
}
