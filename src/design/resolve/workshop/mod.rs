//! What is at hand, from the rack and its sets, and how the material is cut.

mod cutting;
mod lathe;
mod tap;
mod tool;

use super::Making;
use super::criteria::Origins;
use crate::design::material_file::MaterialFile;
use crate::design::racks::Racks;
use crate::section::Workshop;

/// The workshop; none where something is wrong, which is noted.
pub(in crate::design) fn resolve(
    racks: &Racks,
    material: &MaterialFile,
    written: &Origins,
    making: &mut Making,
) -> Option<Workshop> {
    let own = racks.own();
    let name = own.name.value.clone();
    let workshop = Workshop {
        tools: tool::resolve(racks.all(), &material.name.value, making),
        taps: tap::resolve(racks.all(), making),
        lathe: lathe::lathe(&own.lathe, &name),
        holdings: lathe::holdings(&own.holdings, making),
        cutting: cutting::resolve(material, written),
        name,
    };
    (!making.failed()).then_some(workshop)
}
