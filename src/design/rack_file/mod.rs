//! A rack as people write it: what is at hand at the lathe.

mod lathe;
mod tap;
mod tool;

pub(super) use lathe::{HoldingsFile, LatheFile, QuillFile};
pub(super) use tap::RackTapFile;
pub(super) use tool::{CutFile, SeriesFile, ToolFile};

use super::reader::{Placed, Reader};
use super::value::List;

/// A rack.
#[derive(Clone, Debug)]
pub(super) struct RackFile {
    pub(super) name: Placed<String>,
    /// Other racks, whose tools and taps are put to these.
    pub(super) sets: Vec<Placed<String>>,
    pub(super) drills: Vec<ToolFile>,
    pub(super) series: Vec<SeriesFile>,
    /// Tools that are no drills.
    pub(super) others: Vec<ToolFile>,
    pub(super) taps: Vec<RackTapFile>,
    pub(super) lathe: LatheFile,
    pub(super) holdings: HoldingsFile,
}

impl RackFile {
    pub(super) fn read(reader: &mut Reader<'_>) -> Self {
        let name = reader.need("name", "name = \"bench\"");
        let sets: Option<Placed<List<String>>> = reader.maybe("sets");
        let drills = reader.tables("drill", tool::drill);
        let series = reader.tables("series", tool::series);
        let mut others = reader.tables("step_drill", tool::step_drill);
        others.extend(reader.tables("centre_drill", tool::centre_drill));
        others.extend(reader.tables("end_mill", tool::end_mill));
        others.extend(reader.tables("reamer", tool::reamer));
        others.extend(reader.tables("boring_bar", tool::boring_bar));
        Self {
            name,
            sets: sets.map(|sets| sets.value.0).unwrap_or_default(),
            drills,
            series,
            others,
            taps: reader.tables("tap", tap::tap),
            lathe: reader.table("lathe", lathe::lathe).unwrap_or_default(),
            holdings: reader.table("holdings", lathe::holdings).unwrap_or_default(),
        }
    }
}
