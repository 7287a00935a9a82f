//! The piece that was asked for, as facts.

use crate::chart::{PlanSizes, SectionPlan, Side, section, sized_plan};
use crate::piece::{Foot, MadeShoe, PieceSpecification, Section};
use crate::quantity::{Length, Unit};
use crate::rubric::{Rubric, Shoe};

use super::document::{Block, Fact};
use super::words::join;

/// Kind of shoe, foot, stock, size and what else is asked for.
pub(super) fn piece_facts(rubric: &Rubric, sheet: Unit) -> Vec<Fact> {
    let piece = &rubric.piece;
    let say = Say(sheet);
    let mut facts = vec![Fact {
        label: "Kind of shoe".into(),
        value: kind(piece),
    }];
    let shoes = shoes(rubric);
    if !shoes.is_empty() {
        facts.push(Fact {
            label: "Foot".into(),
            value: shoes,
        });
    }
    facts.push(Fact {
        label: "Stock".into(),
        value: stock(piece, say),
    });
    let finished = &piece.finished;
    facts.push(Fact {
        label: "Finished size".into(),
        value: format!(
            "{} wide, {} long, {} thick",
            say.length(finished.width),
            say.length(finished.length),
            say.length(finished.thickness)
        ),
    });
    if let Some(nails) = &piece.nails {
        facts.push(Fact {
            label: "Nail holes".into(),
            value: format!(
                "{} outside, {} inside, {} apart, {} from the edge",
                nails.outer,
                nails.inner,
                say.length(nails.spacing),
                say.length(nails.inset)
            ),
        });
    }
    let clips = piece.clips.iter().map(|clip| clip.place.word());
    let clips = clips.collect::<Vec<_>>().join(", ");
    if !clips.is_empty() {
        facts.push(Fact {
            label: "Clips".into(),
            value: clips,
        });
    }
    facts
}

/// Each shoe from both sides with its sizes, and a section through its branch; nothing where the sizes
/// give no shoe.
pub(super) fn piece_drawings(rubric: &Rubric, sheet: Unit) -> Option<Block> {
    let piece = &rubric.piece;
    let say = Say(sheet);
    let heels = piece.heels.as_ref().map(|heels| heels.gap);
    let gap = heels.or(piece.bar.as_ref().map(|bar| bar.gap))?;
    let words = PlanSizes {
        width: say.length(piece.finished.width),
        length: say.length(piece.finished.length),
        gap: say.length(gap),
        bar: piece
            .bar
            .as_ref()
            .map_or_else(String::new, |bar| say.length(bar.width)),
    };
    let mut drawings = Vec::new();
    let mut feet = Vec::new();
    for foot in rubric.shoes.iter().map(Shoe::drawn_foot) {
        if !feet.contains(&foot) {
            feet.push(foot);
            let shoe = MadeShoe::of(piece, foot).ok()?;
            drawings.extend([Side::Ground, Side::Foot].map(|side| {
                let title = format!("{}, {}, toe up", foot.word(), side.word());
                sized_plan(&shoe, side, gap.to_mm(), &words, &title)
            }));
        }
    }
    let fuller = piece.fuller.as_ref();
    drawings.push(section(&SectionPlan {
        web: piece.web.quarter.to_mm(),
        thickness: piece.finished.thickness.to_mm(),
        is_concave: piece.stock.section == Section::Concave,
        fuller: fuller.map(|fuller| [fuller.inset, fuller.width, fuller.depth].map(Length::to_mm)),
        web_words: say.length(piece.web.quarter),
        thickness_words: say.length(piece.finished.thickness),
        depth_words: fuller.map_or_else(String::new, |fuller| {
            format!("{} deep", say.length(fuller.depth))
        }),
        title: "Section of the branch, ground side up".to_owned(),
    }));
    Some(Block::Drawings(drawings))
}

/// Lengths in the sheet's unit.
#[derive(Clone, Copy)]
struct Say(Unit);

impl Say {
    fn length(self, length: Length) -> String {
        let quantity = length.quantity();
        quantity.print_limit(self.0)
    }
}

fn kind(piece: &PieceSpecification) -> String {
    let fuller = piece.fuller.as_ref().map_or("plain".to_owned(), |fuller| {
        format!("{} fullered", fuller.extent.word())
    });
    let toe = format!("{} toe", piece.toe.shape.word());
    join([piece.kind.word(), &fuller, &toe], ", ")
}

fn shoes(rubric: &Rubric) -> String {
    match rubric.shoes.as_slice() {
        [shoe] => shoe.foot.map(Foot::word).unwrap_or_default().to_owned(),
        shoes => {
            let labels = shoes.iter().map(crate::rubric::Shoe::label);
            labels.collect::<Vec<_>>().join("; ")
        }
    }
}

fn stock(piece: &PieceSpecification, say: Say) -> String {
    let stock = &piece.stock;
    let section = match stock.section {
        Section::Flat => "flat",
        Section::Concave => "concave",
    };
    let size = format!(
        "{section} {} by {}",
        say.length(stock.width),
        say.length(stock.thickness)
    );
    let length = stock
        .length
        .map(|length| format!("cut to {}", say.length(length)));
    join(
        [size, length.unwrap_or_default(), stock.material.clone()],
        ", ",
    )
}
