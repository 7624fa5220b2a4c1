//! A workshop for inline tests.

use crate::quantity::Length;
use crate::section::{Cutting, Holdings, Lathe, Limit, Workshop};

fn limit<T>(value: T) -> Limit<T> {
    Limit { value, source: "a test".to_owned() }
}

/// A workshop without tools.
pub(super) fn bare() -> Workshop {
    Workshop {
        name: "bare".to_owned(),
        tools: Vec::new(),
        taps: Vec::new(),
        lathe: Lathe {
            speeds: vec![120.0, 300.0, 520.0, 900.0],
            quill: None,
            tailstock_drill: limit(Lathe::TAILSTOCK_DRILL),
            turning: limit(Lathe::TURNING),
        },
        holdings: Holdings {
            collets: Vec::new(),
            closes: Length::mm(0.5),
            chuck: "three-jaw chuck".to_owned(),
        },
        cutting: Cutting {
            drilling: limit(12.0),
            turning: limit(40.0),
            peck: limit(1.0),
            coolant: None,
            notes: Vec::new(),
        },
    }
}
