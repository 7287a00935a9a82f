//! How sure a marking is: what measuring leaves open of marks and award.

use crate::chart::{Chances, Drawing, chances};
use crate::conformity::{AwardCertainty, Certainty, MarksChance, Method, chance_words};
use crate::quantity::Marks;
use crate::rubric::{Instrument, Shape, Uncertainty};

use super::document::columns;
use super::document::{Block, Cell, CellRole, Document, Fact, Group, Item, Table, Weight};
use super::handed::held_blocks;
use super::notes::instruments_used;
use super::scored::{Scored, heading, notice, who_and_when};
use super::sure_criteria::{calls, chances_table, remeasure_words};
use super::words::{capital, off_words};

/// What is said wherever a probability stands.
pub(super) const ONLY_MEASURING: &str = "This covers measuring only: the readings and what their \
    instruments can be off by. How the examiner judges what is seen by eye is not in it, and \
    marks and award are not changed by it.";

/// Totals less probable than this stand in the table together.
const RARE: f64 = 0.001;

/// How sure the marking in `scored` is, by the `certainty` that was worked out of the same
/// facts and rubric.
pub fn sure_document(scored: &Scored<'_>, certainty: &Certainty) -> Document {
    let about = match &scored.parts.marking.seal {
        Some(seal) => format!("How sure these marks are. Sealed {}", seal.at),
        None => "How sure these marks are. Draft, not sealed".to_owned(),
    };
    let mut blocks: Vec<Block> = held_blocks(scored).into_iter().collect();
    blocks.push(Block::Facts(who_and_when(scored)));
    blocks.push(notice(Weight::Info, ONLY_MEASURING, Vec::new()));
    blocks.extend(decisive(scored, certainty));
    blocks.push(Block::Facts(in_short(scored, certainty)));
    blocks.push(heading("The total"));
    blocks.push(Block::Drawings(vec![drawing(scored, certainty)]));
    blocks.push(Block::Table(total_table(certainty)));
    blocks.extend(sections(scored, certainty));
    blocks.extend(calls(scored, certainty));
    blocks.extend(chances_table(scored, certainty));
    blocks.push(heading("How this was worked out"));
    blocks.push(Block::Items(how(scored, certainty)));
    Document {
        title: scored.rubric.title.clone(),
        about,
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

/// The criteria by which the award or a minimum could turn, named on top.
pub(super) fn decisive(scored: &Scored<'_>, certainty: &Certainty) -> Option<Block> {
    let those = certainty.criteria.iter().filter(|one| one.is_decisive);
    let mut those: Vec<_> = those.collect();
    those.sort_by(|a, b| b.changes.total_cmp(&a.changes));
    let items: Vec<String> = those
        .into_iter()
        .map(|one| remeasure_words(&scored.name_of(&one.entry), one))
        .collect();
    let text = "Measuring these again could change the award, or whether a section reaches its \
                minimum";
    (!items.is_empty()).then(|| notice(Weight::Warn, text, items))
}

fn in_short(scored: &Scored<'_>, certainty: &Certainty) -> Vec<Fact> {
    let fact = |label: &'static str, value: String| Fact {
        label: label.into(),
        value,
    };
    let mut facts = vec![
        fact(
            "Marks given",
            format!("{} of {}", certainty.given, scored.outcome.out_of),
        ),
        fact("Expected marks", format!("{:.1}", certainty.expected)),
        fact(
            "Standard deviation",
            format!("{:.2} marks", certainty.deviation),
        ),
        fact("Pass mark", scored.outcome.pass_mark.to_string()),
    ];
    match &certainty.award {
        Some(award) => facts.extend([
            fact("Probability of a pass", pass_words(award)),
            fact("Award", award_words(award)),
        ]),
        None => facts.push(fact(
            "Award",
            "open while something has no marks".to_owned(),
        )),
    }
    facts
}

fn pass_words(award: &AwardCertainty) -> String {
    let chance = chance_words(award.pass);
    match award.standard_error {
        Some(error) => format!("{chance}, standard error {:.2} %", error * 100.0),
        None => chance,
    }
}

/// The award; where the rubric's rule decides otherwise than the best estimate, both.
fn award_words(award: &AwardCertainty) -> String {
    let decided = capital(award.decided.word());
    if award.best == award.decided {
        decided
    } else {
        format!(
            "{decided} by the rubric’s rule; {} by the best estimate",
            award.best.word()
        )
    }
}

fn drawing(scored: &Scored<'_>, certainty: &Certainty) -> Drawing {
    let pass = scored.outcome.pass_mark;
    let likeliest = certainty
        .total
        .iter()
        .max_by(|one, other| one.probability.total_cmp(&other.probability));
    let likeliest = likeliest.map(|one| {
        format!(
            "The likeliest total is {} with {}. ",
            one.marks,
            chance_words(one.probability)
        )
    });
    let reach = certainty.total.iter().filter(|one| one.marks >= pass);
    let reach: f64 = reach.map(|one| one.probability).sum();
    let description = format!(
        "{}The pass mark of {pass} is reached with {}; {} are given. The table holds the numbers.",
        likeliest.unwrap_or_default(),
        chance_words(reach),
        certainty.given,
    );
    // The rare ones would be too low to see, and push the others together.
    let drawn = certainty.total.iter().filter(|one| one.probability >= RARE);
    let point = |one: &MarksChance| (one.marks.0.to_f64(), one.probability);
    chances(&Chances {
        chances: drawn.map(point).collect(),
        given: (
            certainty.given.0.to_f64(),
            format!("given {}", certainty.given),
        ),
        pass: (pass.0.to_f64(), format!("pass {pass}")),
        title: "Probability of every total".to_owned(),
        description,
    })
}

/// Every total with its probability, the most marks first; rare ones together.
fn total_table(certainty: &Certainty) -> Table {
    let mut rows = Vec::new();
    let mut reached = 0.0;
    let mut rare = 0.0;
    for one in certainty.total.iter().rev() {
        reached += one.probability;
        if one.probability < RARE {
            rare += one.probability;
        } else {
            rows.push(total_row(one, reached.min(1.0)));
        }
    }
    let foot = [
        "Any other total".to_owned(),
        chance_words(rare),
        String::new(),
    ];
    let foot = foot.map(|text| Cell::new(CellRole::Number, text));
    Table {
        caption: "Probability of every total".to_owned(),
        columns: columns(&[
            ("Marks", CellRole::Text),
            ("Probability", CellRole::Number),
            ("That or more", CellRole::Number),
        ]),
        groups: vec![Group {
            heading: String::new(),
            rows,
        }],
        foot: if rare > 0.0 {
            foot.to_vec()
        } else {
            Vec::new()
        },
    }
}

fn total_row(one: &MarksChance, reached: f64) -> Vec<Cell> {
    let cells = [
        one.marks.to_string(),
        chance_words(one.probability),
        chance_words(reached),
    ];
    cells.map(|text| Cell::new(CellRole::Number, text)).to_vec()
}

/// How sure each section with a minimum reaches it.
fn sections(scored: &Scored<'_>, certainty: &Certainty) -> Vec<Block> {
    let name = |id: &str| {
        let mut sections = scored.rubric.sections.iter();
        let section = sections.find(|section| section.id == id);
        section.map_or_else(|| id.to_owned(), |section| section.name.clone())
    };
    let given = |id: &str| {
        let mut sections = scored.outcome.sections.iter();
        let section = sections.find(|section| section.id == id);
        section.map_or(Marks::ZERO, |section| section.marks)
    };
    let rows: Vec<Vec<Cell>> = certainty
        .sections
        .iter()
        .map(|section| {
            vec![
                Cell::text(name(&section.section)),
                Cell::new(CellRole::Number, given(&section.section).to_string()),
                Cell::new(CellRole::Number, section.minimum.to_string()),
                Cell::text(if section.is_reached { "yes" } else { "no" }),
                Cell::new(CellRole::Number, chance_words(section.probability)),
            ]
        })
        .collect();
    if rows.is_empty() {
        return Vec::new();
    }
    let table = Table {
        caption: "Sections that have a minimum".to_owned(),
        columns: columns(&[
            ("Section", CellRole::Text),
            ("Marks given", CellRole::Number),
            ("Minimum", CellRole::Number),
            ("Reached", CellRole::Text),
            ("Probability to reach it", CellRole::Number),
        ]),
        groups: vec![Group {
            heading: String::new(),
            rows,
        }],
        foot: Vec::new(),
    };
    vec![heading("Section minima"), Block::Table(table)]
}

fn how(scored: &Scored<'_>, certainty: &Certainty) -> Vec<Item> {
    let method = match certainty.method {
        Method::Exact => "The total is worked out exactly: no two criteria share an instrument \
                          part, so their probabilities are multiplied out."
            .to_owned(),
        Method::Quadrature => "Some criteria share what an instrument is off by, so the total \
                               is integrated over that shared part."
            .to_owned(),
        Method::Draws(count) => format!(
            "Criteria share what several instruments are off by, so the total is drawn {count} \
             times. The seed is fixed: the same facts give the same numbers."
        ),
    };
    let mut items = vec![
        Item::plain(method),
        Item::plain(
            "A reading is taken as normal about its best estimate, an interval as even between its \
             ends. Each mark’s probability is that of the true value lying in its band (JCGM \
             106:2012).",
        ),
    ];
    items.extend(shaped(scored));
    if !certainty.unstated.is_empty() {
        let names = certainty.unstated.iter().map(|id| scored.name_of(id));
        items.push(Item::about(
            "Taken as exact, as no instrument with figures is named for them",
            &names.collect::<Vec<_>>().join(", "),
        ));
    }
    items
}

/// How errors of the instruments used are spread, where one says so; all alike is usual.
fn shaped(scored: &Scored<'_>) -> Vec<Item> {
    let unit = scored.parts.marking.unit;
    let used = instruments_used(scored).into_iter();
    let shaped = used.filter(|one| {
        matches!(one.uncertainty, Uncertainty::HalfWidth(_, shape) if shape != Shape::Rectangular)
    });
    let said = |one: Instrument| {
        let off = off_words(one.uncertainty, unit);
        Item::about(format!("{} is counted by its shape", one.name), &off)
    };
    shaped.map(said).collect()
}
