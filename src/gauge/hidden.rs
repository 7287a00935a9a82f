use serde::{Deserialize, Serialize};

use super::features::{Both, Side};
use super::groove::Fuller;
use crate::piece::Feature;

/// A place where something stands off the face that lies up, or hangs below it, and hides its
/// edge: a clip, or calks. Left and right are those of who sees the shoe with the toe up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hidden {
    /// A clip at the middle of the toe.
    Toe,
    /// A clip at the quarter on the left.
    LeftQuarter,
    /// One on the right.
    RightQuarter,
    /// Calks or studs at both heels.
    Heels,
}

impl Hidden {
    /// All of them.
    pub const ALL: [Self; 4] = [
        Self::Toe,
        Self::LeftQuarter,
        Self::RightQuarter,
        Self::Heels,
    ];

    /// Whether it hangs below the face, so that a shoe may hang over the edge of a board for it.
    pub(super) fn is_clip(self) -> bool {
        self != Self::Heels
    }

    /// A word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Toe => "toe",
            Self::LeftQuarter => "left-quarter",
            Self::RightQuarter => "right-quarter",
            Self::Heels => "heels",
        }
    }

    /// The one with this word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|one| one.word() == word)
    }

    /// Whether the outer edge of a branch is hidden there.
    fn is_on(self, side: Side) -> bool {
        match self {
            Self::Toe | Self::Heels => true,
            Self::LeftQuarter => side == Side::Left,
            Self::RightQuarter => side == Side::Right,
        }
    }

    /// Whether what is measured of nail holes and fuller rests on the edge there: what is told
    /// along a branch, or from the outer edge.
    pub fn is_under(self, feature: Feature) -> bool {
        match feature {
            Feature::HeelHoleLeft => self != Self::Heels && self.is_on(Side::Left),
            Feature::HeelHoleRight => self != Self::Heels && self.is_on(Side::Right),
            Feature::FullerEndLeft => self.is_on(Side::Left),
            Feature::FullerEndRight => self.is_on(Side::Right),
            // A hole may be anywhere on a branch, and one that is left out leaves out all.
            Feature::HoleInset | Feature::FullerInset => self != Self::Heels,
            _ => false,
        }
    }
}

/// Fullers whose ends are told by branches of which all is seen: they are shares of their length.
pub(super) fn ends_seen(hidden: &[Hidden], fuller: Both<Option<Fuller>>) -> Both<Option<Fuller>> {
    let of = |side: Side| {
        let is_hidden = hidden.iter().any(|one| one.is_on(side));
        fuller.of(side).map(|fuller| Fuller {
            start: fuller.start.filter(|_| !is_hidden),
            end: fuller.end.filter(|_| !is_hidden),
            ..fuller
        })
    };
    Both {
        left: of(Side::Left),
        right: of(Side::Right),
    }
}
