//! How long it was from one tap to the next, though clocks are set and devices sleep.

use crate::quantity::Moment;

use super::taps::{Run, Tap};

/// How far the two clocks may differ over one stretch and still agree, in milliseconds: more than
/// a slow page is late with a tap, less than anybody sets a clock by. Common practice, no source.
const AGREE_MS: i64 = 2_000;

/// Two clocks that did not agree over a stretch: a device slept, or its clock was set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Jump {
    /// Which tap the stretch ends at; as many as there are taps where it ends now.
    pub tap: usize,
    /// What the page's own clock ran, in milliseconds; `None` where it was another page's.
    pub page_ms: Option<u64>,
    /// What the device's clock ran, in milliseconds; below zero where it was put back.
    pub clock_ms: i64,
    /// What counts of it, in milliseconds.
    pub counted_ms: u64,
}

/// What both clocks showed.
#[derive(Debug, Clone, Copy)]
pub(super) struct Clocks {
    at: Moment,
    run: Option<Run>,
}

impl Clocks {
    pub fn of(tap: &Tap) -> Self {
        Self::now((tap.at, tap.run))
    }

    pub fn now((at, run): (Moment, Option<Run>)) -> Self {
        Self { at, run }
    }

    /// Milliseconds from `earlier` to these, and the jump where the clocks did not agree.
    ///
    /// - Of one page's life, that page's clock counts.
    /// - Where the device's clock ran more than two seconds further than it, the device slept (a
    ///   page's clock may stand meanwhile) or its clock was put forward: the device's clock counts,
    ///   and the jump is told.
    /// - Where the device's clock ran more than two seconds less, it was put back: the page's clock
    ///   counts, and the jump is told.
    /// - Of two lives the device's clock counts; where it went back nothing does, and the jump is
    ///   told.
    pub fn since(self, earlier: Self, tap: usize) -> (u64, Option<Jump>) {
        let clock_ms = self.at.utc_ms() - earlier.at.utc_ms();
        let clock = u64::try_from(clock_ms).ok();
        let page_ms = self.page_since(earlier);
        let (counted_ms, agree) = match page_ms {
            None => (clock.unwrap_or(0), clock.is_some()),
            Some(page) => {
                let apart = clock_ms.saturating_sub_unsigned(page);
                let counts = clock.filter(|_| apart > AGREE_MS);
                (counts.unwrap_or(page), apart.abs() <= AGREE_MS)
            }
        };
        let jump = (!agree).then_some(Jump {
            tap,
            page_ms,
            clock_ms,
            counted_ms,
        });
        (counted_ms, jump)
    }

    /// What one page's clock ran; it never runs back, so a smaller number is no such clock's.
    fn page_since(self, earlier: Self) -> Option<u64> {
        let (now, then) = (self.run?, earlier.run?);
        let same = now.page == then.page;
        same.then(|| now.ms.checked_sub(then.ms)).flatten()
    }
}
