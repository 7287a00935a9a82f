use std::fmt;

use thiserror::Error;

/// Why no shoe can be drawn from a specification, and what would do. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ShapeFault {
    /// A size that is nothing or less.
    NoSize {
        /// Which size.
        what: &'static str,
        /// As asked for.
        mm: f64,
    },
    /// The branches would overlap.
    WebTooWide {
        /// Width of the web at the quarters.
        web: f64,
        /// Finished width.
        width: f64,
    },
    /// The toe arc does not fit between the branches.
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
    TooShort {
        /// Toe to the greatest width.
        at: f64,
        /// Finished length.
        length: f64,
    },
    /// No curve from the greatest width gives this distance between the heels.
    Gap {
        /// As asked for.
        gap: f64,
        /// Least that fits.
        least: f64,
        /// Most that fits.
        most: f64,
    },
    /// The bar fills the opening.
    BarTooWide {
        /// Width of the bar.
        width: f64,
        /// Distance between the heels.
        gap: f64,
    },
    /// An egg bar without the length behind the heels, or with too much of it.
    Behind {
        /// As asked for.
        behind: f64,
        /// Finished length.
        length: f64,
    },
    /// The frog plate does not fit into the opening.
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
    FullerOutside {
        /// Width of the groove.
        width: f64,
        /// Edge to its middle.
        inset: f64,
        /// Narrowest web that it crosses.
        web: f64,
    },
    /// Fuller or holes reach past the heel.
    PastTheHeel {
        /// What does.
        what: &'static str,
        /// Along the outer edge from the middle of the toe.
        at: f64,
        /// Length of the branch there.
        branch: f64,
    },
    /// A hole beside the groove that it should lie in.
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
    HoleOutsideWeb {
        /// From the edge.
        inset: f64,
        /// Narrowest web that they cross.
        web: f64,
    },
    /// A clip wider than the part that it is drawn from.
    Clip {
        /// Width of the clip.
        width: f64,
        /// Where it should stand.
        place: &'static str,
    },
    /// A kind of shoe without the measures of its heels or bar.
    Lacks {
        /// The block that is missing.
        needed: &'static str,
    },
}

impl ShapeFault {
    /// In words, each length in mm as `say` gives it.
    pub fn words(&self, say: &dyn Fn(f64) -> String) -> String {
        match self {
            Self::NoSize { what, mm } => {
                let mm = say(*mm);
                format!("{what} is {mm}; a shoe needs one above zero")
            }
            Self::WebTooWide { web, width } => {
                let web = say(*web);
                let width = say(*width);
                format!(
                    "a web of {web} on both sides leaves no room in a width of {width}; make the web narrower or the shoe wider"
                )
            }
            Self::ToeRadius {
                radius,
                half,
                least,
                most,
            } => {
                let radius = say(*radius);
                let half = say(*half);
                let least = say(*least);
                let most = say(*most);
                format!(
                    "a toe radius of {radius} does not fit a half width of {half}; use {least} to {most}"
                )
            }
            Self::TooShort { at, length } => {
                let at = say(*at);
                let length = say(*length);
                format!(
                    "with this toe the greatest width lies {at} behind the toe, and the shoe is {length} long; make it longer or the toe radius smaller"
                )
            }
            Self::Gap { gap, least, most } => {
                let gap = say(*gap);
                let least = say(*least);
                let most = say(*most);
                format!(
                    "heels {gap} apart do not fit this width and web; use about {least} to {most}"
                )
            }
            Self::BarTooWide { width, gap } => {
                let width = say(*width);
                let gap = say(*gap);
                format!(
                    "a bar {width} wide is wider than the heels are apart ({gap}); make the bar narrower or the heels wider"
                )
            }
            Self::Behind { behind, length } => {
                let behind = say(*behind);
                let length = say(*length);
                format!("an egg bar {behind} behind the heels does not fit a length of {length}")
            }
            Self::Plate {
                long,
                wide,
                room_long,
                room_wide,
            } => {
                let long = say(*long);
                let wide = say(*wide);
                let room_long = say(*room_long);
                let room_wide = say(*room_wide);
                format!(
                    "a frog plate of {long} by {wide} does not fit an opening of {room_long} by {room_wide}"
                )
            }
            Self::FullerOutside { width, inset, web } => {
                let width = say(*width);
                let inset = say(*inset);
                let web = say(*web);
                format!(
                    "a fuller {width} wide, {inset} from the edge, does not lie within a web of {web}"
                )
            }
            Self::PastTheHeel { what, at, branch } => {
                let at = say(*at);
                let branch = say(*branch);
                format!("{what} reaches {at} along a branch that is {branch} long")
            }
            Self::HoleOutsideFuller {
                number,
                at,
                inset,
                start,
                end,
                from,
                to,
            } => {
                let at = say(*at);
                let inset = say(*inset);
                let start = say(*start);
                let end = say(*end);
                let from = say(*from);
                let to = say(*to);
                format!(
                    "nail hole {number} lies {at} along the branch and {inset} from the edge, outside the fuller ({start} to {end}, {from} to {to} from the edge)"
                )
            }
            Self::HoleOutsideWeb { inset, web } => {
                let inset = say(*inset);
                let web = say(*web);
                format!("nail holes {inset} from the edge do not lie within a web of {web}")
            }
            Self::Clip { width, place } => {
                let width = say(*width);
                format!("a clip {width} wide has no room at the {place}")
            }
            Self::Lacks { needed } => format!("a shoe of this kind needs {needed}"),
        }
    }
}

impl fmt::Display for ShapeFault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.words(&|mm| format!("{mm:.1} mm")))
    }
}
