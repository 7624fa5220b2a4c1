//! The sizes of a cap that a maker can change one at a time.

use super::{Parameter, move_crest, open};
use crate::quantity::Length;
use crate::section::{Cap, CapMouth};

impl Parameter {
    /// Whether it belongs to the cap and leaves the section as it is.
    pub fn is_caps(self) -> bool {
        matches!(
            self,
            Self::CapStop
                | Self::CapHole
                | Self::CapThreadSize
                | Self::CapThreadEnd
                | Self::CapBoreDiameter(_)
                | Self::CapLength
                | Self::SealDepth
                | Self::SealDiameter
        )
    }

    /// Every one that a cap has, from its mouth to its closed end.
    pub(super) fn of_cap(cap: &Cap) -> Vec<Self> {
        let mut all = vec![Self::CapStop, Self::CapHole];
        all.extend(cap.thread().map(|_| Self::CapThreadSize));
        all.push(Self::CapThreadEnd);
        let bores = (1..).zip(&cap.bores);
        all.extend(bores.map(|(n, _)| Self::CapBoreDiameter(n)));
        all.push(Self::CapLength);
        if cap.seal.is_some() {
            all.extend([Self::SealDepth, Self::SealDiameter]);
        }
        all
    }

    /// As it is; none of a size that is no cap's, or that this cap has not.
    pub(super) fn get_of_cap(self, cap: &Cap) -> Option<f64> {
        let size = match self {
            Self::CapStop => cap.stops_at,
            Self::CapHole => cap.hole(),
            Self::CapThreadSize => cap.thread()?.form.pitch_diameter,
            Self::CapThreadEnd => cap.hole_end(),
            Self::CapBoreDiameter(n) => cap.bores.get(usize::from(n) - 1)?.diameter.value,
            Self::CapLength => cap.inner_length.value,
            Self::SealDepth => cap.seal?.depth.value,
            Self::SealDiameter => cap.seal?.diameter.value,
            _ => return None,
        };
        Some(size.as_mm())
    }

    /// Changes it, and with it what is cut by the same tool.
    pub(super) fn set_of_cap(self, cap: &mut Cap, to: Length, by: Length) -> Option<()> {
        match (self, &mut cap.mouth) {
            (Self::CapStop, _) => cap.stops_at = to,
            (Self::CapHole, CapMouth::Thread(thread)) => move_crest(thread, by)?,
            (Self::CapHole, CapMouth::Minor { diameter, .. }) => diameter.value = to,
            (Self::CapThreadSize, CapMouth::Thread(thread)) => open(thread, by)?,
            (Self::CapThreadEnd, CapMouth::Thread(thread)) => thread.to = to,
            (Self::CapThreadEnd, CapMouth::Minor { to: end, .. }) => *end = to,
            (Self::CapBoreDiameter(n), _) => {
                cap.bores.get_mut(usize::from(n) - 1)?.diameter.value = to;
            }
            (Self::CapLength, _) => {
                cap.inner_length.value = to;
                if let Some(last) = cap.bores.last_mut() {
                    last.to = to;
                }
            }
            (Self::SealDepth, _) => cap.seal.as_mut()?.depth.value = to,
            (Self::SealDiameter, _) => cap.seal.as_mut()?.diameter.value = to,
            _ => return None,
        }
        Some(())
    }
}
