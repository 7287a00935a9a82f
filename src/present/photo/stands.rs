use crate::gauge::{Dot, Shown};
use crate::job::{NotMeasured, Outcome, PhotoFound, State};
use crate::present::paper_files::MIXED_UP;
use crate::present::start::sentence;
use crate::present::sure::fault_words;

/// The stages of the work, in order.
pub const STAGES: [&str; 7] = [
    "Opening the photo",
    "Finding what gives the scale",
    "Finding the outline",
    "Measuring",
    "Looking for the fuller",
    "Looking for nail holes",
    "Working out how sure it is",
];

/// How the work on a photo stands.
#[derive(Debug, Clone, PartialEq)]
pub enum PhotoStands {
    /// It has not begun.
    Waiting,
    /// It is in the stage of this number.
    Working(usize),
    /// It is done.
    Measured(Box<Shown>),
    /// It cannot be measured as it is.
    Refused(Advice),
    /// There is no result; why.
    Unknown(String),
}

/// What to do about a photo that cannot be measured.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// Why, and what to do.
    pub text: String,
    /// How places that are marked by hand may help, in words.
    pub by_hand: Option<&'static str>,
    /// Where in the picture.
    pub at: Option<Dot>,
    /// Columns and rows of the picture.
    pub size: (usize, usize),
}

/// How the work stands; a share of it counts stages that are over.
pub fn photo_stands(state: Option<&State>) -> PhotoStands {
    match state {
        None | Some(State::Waiting) => PhotoStands::Waiting,
        Some(State::Working(share)) => {
            let over = STAGES.iter().enumerate().skip(1);
            let over =
                over.filter(|(stage, _)| *share > (*stage as f64 - 0.5) / STAGES.len() as f64);
            PhotoStands::Working(over.count())
        }
        Some(State::Stopped) => {
            PhotoStands::Unknown("Stopped before the photo was measured.".to_owned())
        }
        Some(State::Failed(fault)) => PhotoStands::Unknown(fault_words(
            fault,
            "The photo",
            "the mark sheet stands as it is",
        )),
        Some(State::Done(outcome)) => match outcome.as_ref() {
            Outcome::Photo(found) => match found.as_ref() {
                PhotoFound::Measured(shown) => PhotoStands::Measured(shown.clone()),
                PhotoFound::Refused(why) => PhotoStands::Refused(advice(why)),
            },
            _ => PhotoStands::Unknown(MIXED_UP.to_owned()),
        },
    }
}

fn advice(why: &NotMeasured) -> Advice {
    let by_hand = match why.word.as_str() {
        "no-sheet" | "not-that-sheet" | "side" | "corner" | "bent" | "no-card" => Some(
            "If all of the sides can be seen, you can mark the four corners of the sheet or card yourself: drag each handle onto its corner, or move it with the arrow keys. Where a corner is covered or rounded, put it where the two sides would meet.",
        ),
        "unmarked" | "near" => Some(
            "Drag each of the two handles onto a line of the ruler, or move it with the arrow keys; make the photo larger to place them finely. Once both are placed all is measured.",
        ),
        "edge" => Some(
            "If you can see the edge where the gauge cannot, press Move edge and put points on it there.",
        ),
        _ => None,
    };
    Advice {
        text: sentence(&why.message),
        by_hand,
        at: why.at,
        size: why.size,
    }
}
