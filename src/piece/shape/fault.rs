use thiserror::Error;

/// Why no shoe can be drawn from a specification, and what would do. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShapeFault {
    /// A size that is nothing or less.
    #[error("{what} is {mm:.1} mm; a shoe needs one above zero")]
    NoSize {
        /// Which size.
        what: &'static str,
        /// As asked for.
        mm: f64,
    },
    /// The branches would overlap.
    #[error(
        "a web of {web:.1} mm on both sides leaves no room in a width of {width:.1} mm; make the \
         web narrower or the shoe wider"
    )]
    WebTooWide {
        /// Width of the web at the quarters.
        web: f64,
        /// Finished width.
        width: f64,
    },
    /// The toe arc does not fit between the branches.
    #[error(
        "a toe radius of {radius:.1} mm does not fit a half width of {half:.1} mm; use {least:.1} \
         to {most:.1} mm"
    )]
    ToeRadius {
        /// As asked for.
        radius: f64,
        /// Half the finished width, of the narrower branch.
        half: f64,
        /// Least that fits.
        least: f64,
        /// Most that fits.
        most: f64,
    },
    /// The greatest width would lie behind the heels.
    #[error(
        "with this toe the greatest width lies {at:.1} mm behind the toe, and the shoe is \
         {length:.1} mm long; make it longer or the toe radius smaller"
    )]
    TooShort {
        /// Toe to the greatest width.
        at: f64,
        /// Finished length.
        length: f64,
    },
    /// No curve from the greatest width gives this distance between the heels.
    #[error(
        "heels {gap:.1} mm apart do not fit this width and web; use about {least:.1} to {most:.1} mm"
    )]
    Gap {
        /// As asked for.
        gap: f64,
        /// Least that fits.
        least: f64,
        /// Most that fits.
        most: f64,
    },
    /// The bar fills the opening.
    #[error(
        "a bar {width:.1} mm wide is wider than the heels are apart ({gap:.1} mm); make the bar \
         narrower or the heels wider"
    )]
    BarTooWide {
        /// Width of the bar.
        width: f64,
        /// Distance between the heels.
        gap: f64,
    },
    /// An egg bar without the length behind the heels, or with too much of it.
    #[error("an egg bar {behind:.1} mm behind the heels does not fit a length of {length:.1} mm")]
    Behind {
        /// As asked for.
        behind: f64,
        /// Finished length.
        length: f64,
    },
    /// The frog plate does not fit into the opening.
    #[error(
        "a frog plate of {long:.1} by {wide:.1} mm does not fit an opening of {room_long:.1} by \
         {room_wide:.1} mm"
    )]
    Plate {
        /// Length of the plate.
        long: f64,
        /// Width of the plate.
        wide: f64,
        /// Inner toe to the bar.
        room_long: f64,
        /// Between the heels.
        room_wide: f64,
    },
    /// The fuller does not lie within the web.
    #[error(
        "a fuller {width:.1} mm wide, {inset:.1} mm from the edge, does not lie within a web of \
         {web:.1} mm"
    )]
    FullerOutside {
        /// Width of the groove.
        width: f64,
        /// Edge to its middle.
        inset: f64,
        /// Narrowest web that it crosses.
        web: f64,
    },
    /// Fuller or holes reach past the heel.
    #[error("{what} reaches {at:.1} mm along a branch that is {branch:.1} mm long")]
    PastTheHeel {
        /// What does.
        what: &'static str,
        /// Along the outer edge from the middle of the toe.
        at: f64,
        /// Length of the branch there.
        branch: f64,
    },
    /// A hole beside the groove that it should lie in.
    #[error(
        "nail hole {number} lies {at:.1} mm along the branch and {inset:.1} mm from the edge, \
         outside the fuller ({start:.1} to {end:.1} mm, {from:.1} to {to:.1} mm from the edge)"
    )]
    HoleOutsideFuller {
        /// Counted from the toe.
        number: u32,
        /// Along the outer edge from the middle of the toe.
        at: f64,
        /// From the edge.
        inset: f64,
        /// Start of the fuller.
        start: f64,
        /// End of the fuller.
        end: f64,
        /// Outer wall of the groove.
        from: f64,
        /// Inner wall of the groove.
        to: f64,
    },
    /// A hole that is not in the steel.
    #[error("nail holes {inset:.1} mm from the edge do not lie within a web of {web:.1} mm")]
    HoleOutsideWeb {
        /// From the edge.
        inset: f64,
        /// Narrowest web that they cross.
        web: f64,
    },
    /// A clip wider than the part that it is drawn from.
    #[error("a clip {width:.1} mm wide has no room at the {place}")]
    Clip {
        /// Width of the clip.
        width: f64,
        /// Where it should stand.
        place: &'static str,
    },
    /// A kind of shoe without the measures of its heels or bar.
    #[error("a shoe of this kind needs {needed}")]
    Lacks {
        /// The block that is missing.
        needed: &'static str,
    },
}
