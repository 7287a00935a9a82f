use thiserror::Error;

use crate::piece::ShapeFault;
use crate::quantity::Length;

/// Why something of a plan cannot be worked out: what is wrong, where, and what would do.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum PlanFault {
    /// A size that no shoe or bar has.
    #[error("{what} is {given}; a plan takes {least} to {most}: change it {place}")]
    Size {
        /// Which size.
        what: &'static str,
        /// As given.
        given: Length,
        /// Least that is taken.
        least: Length,
        /// Most that is taken.
        most: Length,
        /// Where it is given.
        place: &'static str,
    },
    /// The piece's numbers give no shoe.
    #[error("the piece cannot be drawn: {}; change it in the piece", said(.0))]
    Shape(Vec<ShapeFault>),
    /// Something that was not given.
    #[error("{what} is not given; {remedy}")]
    Needs {
        /// What is missing.
        what: &'static str,
        /// What to do.
        remedy: &'static str,
    },
    /// A method that was told on other stock.
    #[error(
        "this was told on {told} only, and the piece is made of {width} by {thickness}, {section}; \
         take another method"
    )]
    Stock {
        /// What it was told on.
        told: &'static str,
        /// Width of the piece's stock.
        width: Length,
        /// Its thickness.
        thickness: Length,
        /// Its profile.
        section: &'static str,
    },
    /// A method that was told on other shoes.
    #[error("this was told on {told} only, and the piece is {is}; take another method")]
    Kind {
        /// What it was told on.
        told: &'static str,
        /// What the piece is.
        is: String,
    },
    /// Too few pieces of one's own.
    #[error(
        "{has} of your pieces are of this kind and stock, and it takes {needs}: note the cut length \
         and the finished size of {} more",
        needs.saturating_sub(*has)
    )]
    TooFew {
        /// How many there are.
        has: usize,
        /// How many it takes.
        needs: usize,
    },
    /// Numbers that cannot all be right.
    #[error("{what}; {remedy}")]
    Contradicts {
        /// What does not go together.
        what: String,
        /// What to do.
        remedy: &'static str,
    },
    /// A temperature for which there is no figure.
    #[error("{celsius:.0} °C is outside 20 to 1200 °C, where the formula holds; measure it cold")]
    Temperature {
        /// As given.
        celsius: f64,
    },
}

fn said(faults: &[ShapeFault]) -> String {
    let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
    faults.join("; ")
}
