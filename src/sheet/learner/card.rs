use super::PracticeShown;
use crate::chart::Drawing;
use crate::sheet::document::{Block, Document, Item, Weight};
use crate::sheet::scored::notice;

/// What a card says of safety; the whole of it is in the help of the program.
const CAUTION: &str = "Hot steel burns, black steel too. Protect eyes and ears, mind fume and \
                       the people around you. What your examiner and the rules of your college \
                       say goes before this card.";

/// What to practise next, for the pocket: where on the shoe, the cause, what to practise, what
/// to reach. No marks are on it: it lies where others read it.
///
/// `day` in words.
pub fn practice_card(name: &str, day: &str, practice: &[PracticeShown]) -> Document {
    let mut blocks = Vec::new();
    if practice.is_empty() {
        blocks.push(notice(
            Weight::Info,
            "Nothing cost marks in the latest pieces, or none is marked yet.",
            Vec::new(),
        ));
    }
    let numbered = || (1_u8..).zip(practice);
    let drawings: Vec<Drawing> = numbered()
        .filter_map(|(number, one)| place(number, one))
        .collect();
    if !drawings.is_empty() {
        blocks.push(Block::Drawings(drawings));
    }
    if !practice.is_empty() {
        blocks.push(Block::Items(
            numbered().map(|(number, one)| item(number, one)).collect(),
        ));
    }
    blocks.push(Block::Paragraph(CAUTION.to_owned()));
    Document {
        title: "To practise next".to_owned(),
        about: format!("{name}, {day}"),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

fn place(number: u8, practice: &PracticeShown) -> Option<Drawing> {
    let drawing = practice.place.clone()?;
    Some(Drawing {
        title: format!("{number}. {}", drawing.title),
        ..drawing
    })
}

fn item(number: u8, practice: &PracticeShown) -> Item {
    let lines = [
        ("Practise", &practice.remedy),
        ("Cause", &practice.cause),
        ("Reach", &practice.aim),
    ];
    let lines = lines.into_iter().filter(|(_, text)| !text.is_empty());
    Item {
        lead: format!("{number}. {}", practice.name),
        lines: lines
            .map(|(label, text)| format!("{label}: {text}"))
            .collect(),
    }
}
