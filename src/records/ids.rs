use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};
use uuid::{Builder, Uuid};

use super::stamp::{Device, Stamp};

macro_rules! id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        ///
        /// *Compare:* as made, because a UUID of version 7 starts with its
        /// millisecond. *Serde and print:* the usual hyphenated text.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(Uuid);

        impl $name {
            /// Sorts before every id.
            pub const LEAST: Self = Self(Uuid::nil());
            /// Sorts after every id.
            pub const MOST: Self = Self(Uuid::max());

            /// The id made at `ms` milliseconds since 1970 UTC with these random
            /// bytes; the first twelve bits of them sort within the millisecond.
            pub fn from_parts(ms: u64, random: [u8; 10]) -> Self {
                Self(Builder::from_unix_timestamp_millis(ms, &random).into_uuid())
            }

            /// The `ordinal`-th id of a command with this stamp: always the same
            /// for the same stamp.
            pub fn made_by(stamp: &Stamp, ordinal: u8) -> Self {
                Self::from_parts(stamp.time, stamp.id_bytes(ordinal))
            }

            /// Whether a command of `device` made this as its `ordinal`-th id.
            ///
            /// Told by the id alone, which outlasts every edit: it holds time and
            /// counter of its stamp, and the rest is a digest of the whole stamp.
            /// An id whose stamp's counter passed 4,095 is not known again.
            pub fn was_made_by(self, device: &Device, ordinal: u8) -> bool {
                let [a, b, c, d, e, f, high, low, ..] = *self.0.as_bytes();
                let stamp = Stamp {
                    time: u64::from_be_bytes([0, 0, a, b, c, d, e, f]),
                    // The upper four bits are the version of the UUID.
                    counter: u32::from_be_bytes([0, 0, high & 0x0f, low]),
                    device: device.clone(),
                };
                self == Self::made_by(&stamp, ordinal)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                self.0.fmt(f)
            }
        }

        impl FromStr for $name {
            type Err = uuid::Error;

            fn from_str(text: &str) -> Result<Self, Self::Err> {
                text.parse().map(Self)
            }
        }
    };
}

id! {
    /// Names a learner.
    LearnerId
}
id! {
    /// Names an examiner.
    ExaminerId
}
id! {
    /// Names a sitting.
    SittingId
}
id! {
    /// Names a piece.
    PieceId
}
id! {
    /// Names a marking.
    MarkingId
}
id! {
    /// Names a milestone.
    MilestoneId
}
id! {
    /// Names a rubric in work.
    RubricDraftId
}
id! {
    /// Names an instrument study.
    StudyId
}
