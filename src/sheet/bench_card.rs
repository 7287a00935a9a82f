//! A card for the bench: how long to cut, where to mark, in which heats.

use crate::chart::{Drawing, MarkedBar, marked_bar};
use crate::piece::Branch;
use crate::plan::{Chosen, Layout, LayoutMark, MarkKind, Plan};
use crate::quantity::{Length, Quantity, Unit, counted};
use crate::rubric::Rubric;

use super::document::{Block, CellRole, Document, Fact, Item, Oversize, Weight, columns};
use super::document::{Cell, figure, plain_table};
use super::rubric::time_words;
use super::scored::notice;
use super::specification::piece_facts;
use super::words::capital;

/// What stands in place where steel is worked hot.
pub const ANVIL_CAUTION: &str = "Black heat burns: treat all steel as hot. Protect eyes and ears, \
    air the forge, mind the people around you. Whoever sees a danger stops the work at once.";

/// What a card says of safety; the whole of it is in the help of the program.
const CAUTIONS: [&str; 4] = [
    "Black heat burns: treat all steel as hot, and cool it before anybody takes it in hand.",
    "Protect eyes and ears. Air the forge: fire gives carbon monoxide, flux irritates, and \
     zinc-coated steel is never heated.",
    "Mind the people around you, most of all at the first blow on a weld.",
    "Practice piece: a horse is shod only as the law of the place allows. Your college’s rules and \
     your examiner go before this card.",
];

/// What a card is made for.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchCard<'a> {
    /// The rubric, with the piece.
    pub rubric: &'a Rubric,
    /// Its plan.
    pub plan: &'a Plan,
    /// The unit of its words.
    pub unit: Unit,
}

/// The card.
pub fn bench_card(card: &BenchCard<'_>) -> Document {
    let BenchCard { rubric, plan, unit } = *card;
    let mut facts = piece_facts(rubric, unit);
    facts.push(Fact {
        label: "Cut".into(),
        value: match &plan.chosen {
            Ok(chosen) => chosen_words(*chosen, unit),
            Err(fault) => fault.words(at_the_anvil(unit)),
        },
    });
    facts.extend(mass(plan).map(|value| Fact {
        label: "Mass".into(),
        value,
    }));
    let mut blocks = vec![Block::Series(facts)];
    let caveats = plan.caveats.iter();
    let caveats: Vec<String> = caveats
        .map(|one| capital(&one.words(at_the_anvil(unit))))
        .collect();
    if !caveats.is_empty() {
        blocks.push(notice(Weight::Warn, "About the length to cut", caveats));
    }
    match &plan.layout {
        Ok(layout) => blocks.extend(marks(layout, unit, Oversize::SmallerOrChecked)),
        Err(fault) => blocks.push(notice(
            Weight::Warn,
            fault.words(at_the_anvil(unit)),
            Vec::new(),
        )),
    }
    blocks.extend(heats(rubric));
    let own = rubric.cautions.iter().map(String::as_str);
    let all = CAUTIONS.into_iter().chain(own).map(str::to_owned);
    blocks.push(notice(Weight::Warn, "Before the fire", all.collect()));
    Document {
        title: "Bench card".to_owned(),
        about: rubric.title.clone(),
        language: "en-GB".into(),
        most_pages: Some(2),
        blocks,
    }
}

/// The length to cut and where it comes from: `15 5/32 in by developed length`.
pub fn chosen_words(chosen: Chosen, unit: Unit) -> String {
    let length = chosen.length.quantity().print(unit);
    let Some(method) = chosen.method else {
        let from = if chosen.is_given {
            "as the piece says"
        } else {
            "as you chose"
        };
        return format!("{length}, {from}");
    };
    format!("{length} by {}", method.word())
}

fn mass(plan: &Plan) -> Option<String> {
    let say = |mass: Quantity| mass.print_to(Unit::Gram, 0);
    let bar = plan.masses.bar.as_ref().ok()?;
    let bar = format!("bar {}", say(bar.quantity()));
    Some(match &plan.masses.shoe {
        Ok(shoe) => format!("{bar}, finished shoe about {}", say(shoe.quantity())),
        Err(_) => bar,
    })
}

/// The bar as it is marked, and its marks as a table.
pub(super) fn marks(layout: &Layout, unit: Unit, otherwise: Oversize) -> Vec<Block> {
    let say = |length: Length| length.quantity().print(at_the_anvil(unit));
    let row = |(number, mark): (u8, &LayoutMark)| {
        let from_middle = Length::from_base(mark.from_middle.base().saturating_abs());
        let side = match mark.from_middle.base() {
            0 => "",
            base if base < 0 => " left",
            _ => " right",
        };
        vec![
            figure(number.to_string()),
            Cell::text(mark_words(mark)),
            figure(say(mark.from_left)),
            figure(format!("{}{side}", say(from_middle))),
        ]
    };
    let heads = [
        ("No.", CellRole::Number),
        ("Mark", CellRole::Text),
        ("From the left end", CellRole::Number),
        ("From the middle", CellRole::Number),
    ];
    let left = branch_word(layout.left);
    let mut blocks = vec![
        Block::TrueSize {
            drawing: bar_drawing(layout, unit),
            otherwise,
        },
        Block::Table(plain_table(
            format!("Marks; the left end becomes the {left} branch, ground side up and toe away"),
            columns(&heads),
            (1..).zip(&layout.marks).map(row).collect(),
        )),
    ];
    let left_out = layout.left_out.iter();
    let mut said: Vec<String> = left_out
        .map(|mark| mark.words(at_the_anvil(unit)))
        .collect();
    said.extend(
        layout
            .bumped
            .map(|thick| format!("The bumped toe gets about {} thick.", say(thick))),
    );
    if !said.is_empty() {
        blocks.push(Block::Items(
            said.into_iter()
                .map(|text| Item::plain(capital(&text)))
                .collect(),
        ));
    }
    blocks
}

/// A bar is marked by a rule of 32nds at the finest.
pub(super) fn at_the_anvil(unit: Unit) -> Unit {
    if unit.is_inch() { Unit::Inch32 } else { unit }
}

/// The bar with its marks by number, in mm.
pub fn bar_drawing(layout: &Layout, unit: Unit) -> Drawing {
    let say = |length: Length| length.quantity().print(at_the_anvil(unit));
    let places: Vec<(f64, bool)> = layout
        .marks
        .iter()
        .map(|mark| (mark.from_left.to_mm(), mark.kind == MarkKind::Middle))
        .collect();
    let told = (1_u8..)
        .zip(&layout.marks)
        .map(|(number, mark)| format!("{number} {} at {}", mark_words(mark), say(mark.from_left)));
    let told: Vec<String> = told.collect();
    marked_bar(&MarkedBar {
        length: layout.length.to_mm(),
        width: layout.width.to_mm(),
        marks: &places,
        title: &format!("Bar of {} with its marks", say(layout.length)),
        description: &format!("From the left end: {}.", told.join("; ")),
    })
}

fn mark_words(mark: &LayoutMark) -> String {
    let branch = mark.branch.map(branch_word);
    branch.map_or_else(
        || mark.kind.to_string(),
        |branch| format!("{}, {branch}", mark.kind),
    )
}

fn branch_word(branch: Branch) -> &'static str {
    match branch {
        Branch::Outer => "outer",
        Branch::Inner => "inner",
    }
}

/// Heats in their order, and the time.
fn heats(rubric: &Rubric) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !rubric.heats.is_empty() {
        let (all, _) = rubric.planned_heats();
        let mut first = 1_u32;
        let rows = rubric.heats.iter().map(|heats| {
            let last = first.saturating_add(heats.count.saturating_sub(1));
            let number = if last > first {
                format!("{first} to {last}")
            } else {
                first.to_string()
            };
            first = last.saturating_add(1);
            let weld = if heats.weld { ", at welding heat" } else { "" };
            vec![figure(number), Cell::text(format!("{}{weld}", heats.part))]
        });
        let rows = rows.collect();
        blocks.push(Block::Table(plain_table(
            counted(usize::try_from(all).unwrap_or(0), "heat", "heats"),
            columns(&[("Heat", CellRole::Number), ("What", CellRole::Text)]),
            rows,
        )));
    }
    blocks.extend(
        rubric
            .time
            .as_ref()
            .map(|time| Block::Paragraph(time_words(time))),
    );
    blocks
}
