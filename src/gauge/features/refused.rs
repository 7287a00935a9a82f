use thiserror::Error;

/// Why a shoe cannot be measured from its outlines, and what would do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refused {
    /// Too few corners for the outline of a shoe.
    #[error("{what} has {has} points, and it takes {needs}; trace it more closely")]
    TooFew {
        /// Which outline.
        what: &'static str,
        /// Points that differ from the one before.
        has: usize,
        /// How many it takes.
        needs: usize,
    },
    /// A coordinate that is not finite.
    #[error("{0} has a place that is not a number; mark it again")]
    NotANumber(&'static str),
    /// An outline that encloses nothing.
    #[error("{0} encloses no area; trace all of it")]
    NoArea(&'static str),
    /// Outlines that cross or touch themselves or each other.
    #[error("outlines cross or touch near x {x:.1}, y {y:.1} mm; trace them again there")]
    Cross {
        /// Where, in mm of the input.
        x: f64,
        /// Where, in mm of the input.
        y: f64,
    },
    /// Something that should lie on the shoe, and does not.
    #[error("{0} does not lie within the shoe; mark it again")]
    Outside(&'static str),
    /// Both ends look alike.
    #[error(
        "both ends of the shoe are about as wide, so that the outline does not tell where the toe is; mark the toe"
    )]
    NoToe,
    /// The outline is most alike to its mirror image across the way to the toe.
    #[error(
        "the outline does not look like that of a shoe whose toe lies there; check the toe and the outline"
    )]
    AcrossToe,
    /// The outlines lack a part that a measure needs.
    #[error("{0} cannot be told from the outlines; check that they are those of a whole shoe")]
    Missing(&'static str),
}
