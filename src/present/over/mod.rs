//! One shoe laid over another: which there are, how far apart they lie in words, and what is
//! drawn. It marks nothing and fills nothing.

mod choice;
mod drawn;
mod kept;
mod outlined;
mod words;

pub use choice::{OverChoice, TwoPieces, over_of, photo_over, two_pieces};
pub use drawn::OverDrawn;
pub use kept::has_outlines;
pub use outlined::{Outlined, asked_outline, shown_outline};

use crate::gauge::over::lay_over;
use drawn::over_drawn;
use words::over_words;

/// A shoe laid over another one, in words and drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Over {
    /// How far apart they lie and where, a sentence each.
    pub lines: Vec<String>,
    /// What is to be known of it: sides, how vague it is.
    pub notes: Vec<String>,
    /// What is drawn.
    pub drawn: OverDrawn,
}

/// A shoe laid over another.
///
/// *Errors:* in words, why it cannot be.
pub fn over(shoe: &Outlined, under: &Outlined) -> Result<Over, String> {
    let other = shoe.is_other_foot(under);
    let turned = other.then(|| under.mirrored());
    let under = turned.as_ref().unwrap_or(under);
    let laid = lay_over(&shoe.edges, &under.edges);
    let laid = laid.map_err(|why| format!("These cannot be laid over each other: {why}."))?;
    let (lines, mut notes) = over_words(shoe, under, &laid);
    if other {
        notes.push(format!(
            "{} is for the other side of the horse, so it is drawn mirrored.",
            under.name
        ));
    }
    Ok(Over {
        lines,
        notes,
        drawn: over_drawn(under, &laid),
    })
}

/// What the lines of the drawing say, as the style sheet calls them.
pub const LEGEND: [(&str, &str); 3] = [
    ("on", "within 1 mm"),
    ("near", "within 2 mm"),
    (
        "off",
        "further off; ticks stand out or in four times as far, 12 mm at most",
    ),
];
