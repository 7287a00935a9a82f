//! The markings of two or three examiners, side by side.

use std::cmp::Reverse;

use crate::chart::Drawing;
use crate::conformity::{Uncertain, en_score};
use crate::marking::CriterionResult;
use crate::quantity::Marks;
use crate::rubric::Entry;

use super::award::marks_ruler;
use super::beside::level_of;
use super::compared::total_words;
use super::criteria::{marks, reading};
use super::document::columns;
use super::document::{Block, Cell, CellRole, Document, Fact, Group, Table, Weight};
use super::drift::{InOrder, drift_blocks};
use super::handed::held_blocks;
use super::impression::impression_fact;
use super::scale::drawn_scale;
use super::scored::{Scored, heading, notice};
use super::words::{capital, marks_words};

/// One entry as all examiners have it.
#[derive(Debug)]
pub struct Between<'s, 'a> {
    /// The entry.
    pub entry: &'s Entry<'a>,
    /// What each came to, in the order of the markings.
    pub results: Vec<&'s CriterionResult>,
    /// Marks that hang on it: from the least given to the most, or all that can be had
    /// where one gave none.
    pub at_stake: Marks,
    /// The greatest En of two of them, either way, where it is measured and that can be
    /// worked out.
    pub en: Option<f64>,
    /// The difference in words.
    pub words: String,
}

impl Between<'_, '_> {
    /// Whether the readings differ more than measuring explains.
    pub fn asks_again(&self) -> bool {
        self.en.is_some_and(|en| en > 1.0)
    }
}

/// Every entry that all of `scored` have, most marks at stake first; equal ones in the
/// order of the rubric. All are marked by one rubric.
pub fn between<'s, 'a>(scored: &'s [Scored<'a>]) -> Vec<Between<'s, 'a>> {
    let Some(first) = scored.first() else {
        return Vec::new();
    };
    let entries = first.entries.iter().enumerate();
    let mut all: Vec<Between<'_, '_>> = entries
        .map(|(at, entry)| {
            let results = scored.iter().filter_map(|one| one.outcome.criteria.get(at));
            let results: Vec<&CriterionResult> = results.collect();
            let en = greatest_en(scored, entry);
            Between {
                entry,
                at_stake: at_stake(&results),
                words: difference(scored, entry, &results, en),
                results,
                en: en.ok().flatten(),
            }
        })
        .collect();
    all.sort_by_key(|one| Reverse(one.at_stake));
    all
}

/// The examiners' markings of the piece of `whose` with totals, awards and, criterion by
/// criterion, what differs, most marks at stake first; then how each went on in the
/// sitting.
pub fn examiners_document(whose: &str, scored: &[Scored<'_>], in_order: &[InOrder]) -> Document {
    let Some(first) = scored.first() else {
        return Document {
            title: String::new(),
            about: String::new(),
            language: "en-GB".into(),
            most_pages: None,
            blocks: Vec::new(),
        };
    };
    let all = between(scored);
    let mut blocks: Vec<Block> = held_blocks(first).into_iter().collect();
    blocks.push(Block::Facts(facts(whose, scored)));
    blocks.push(Block::Paragraph(summary(scored, &all)));
    if let Some(lack) = first.lack {
        blocks.push(notice(Weight::Info, capital(&lack.words()), Vec::new()));
    }
    blocks.push(Block::Drawings(rulers(scored)));
    let again: Vec<&Between<'_, '_>> = all.iter().filter(|one| one.asks_again()).collect();
    if !again.is_empty() {
        let text = "Measure these again: the readings differ more than measuring explains";
        let items = again.iter().map(|one| one.entry.name());
        blocks.push(notice(Weight::Warn, text, items.collect()));
        let drawn = again.iter().flat_map(|one| scales(scored, one));
        blocks.push(Block::Drawings(drawn.collect()));
    }
    blocks.push(heading("Criteria"));
    blocks.push(Block::Table(table(scored, &all)));
    blocks.push(Block::Paragraph(EN.to_owned()));
    blocks.extend(drift_blocks(in_order));
    Document {
        title: first.rubric.title.clone(),
        about: "The examiners’ markings, side by side".to_owned(),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

const EN: &str = "En = (a − b) / √(Ua² + Ub²), with U twice the standard uncertainty of each value \
    and what both took with one instrument left out (ISO 13528). Up to 1 either way measuring \
    explains the difference; beyond that measure again before you agree.";

/// First, second, third, or what else a marking counts as, with who made it.
pub fn marker(scored: &Scored<'_>) -> String {
    format!(
        "{} ({})",
        scored.examiner(),
        scored.parts.marking.role.word()
    )
}

fn facts(whose: &str, scored: &[Scored<'_>]) -> Vec<Fact> {
    let sitting = scored.first().map(|one| one.parts.sitting);
    let occasion = sitting.map(|sitting| {
        let (kind, day) = (capital(sitting.kind.word()), sitting.day);
        format!("{kind}, {} {day}", day.weekday())
    });
    let fact = |label: String, value: String| Fact {
        label: label.into(),
        value,
    };
    let mut facts = vec![
        fact("Maker".to_owned(), whose.to_owned()),
        fact("Sitting".to_owned(), occasion.unwrap_or_default()),
    ];
    // Each by itself, whatever the piece still lacks.
    let totals = scored.iter().map(|one| {
        let total = total_words(&one.plain());
        fact(marker(one), total)
    });
    facts.extend(totals);
    let first = scored.iter().filter_map(|one| {
        let label = format!("{}, first impression", marker(one));
        Some(fact(label, impression_fact(one)?))
    });
    facts.extend(first);
    facts
}

fn summary(scored: &[Scored<'_>], all: &[Between<'_, '_>]) -> String {
    let same = all.iter().filter(|one| one.at_stake == Marks::ZERO).count();
    let totals = scored.iter().map(|one| one.outcome.marks);
    let off = match (totals.clone().max(), totals.min()) {
        (Some(most), Some(least)) => most.minus(least).unwrap_or(Marks::ZERO),
        _ => Marks::ZERO,
    };
    let mut awards: Vec<&str> = scored.iter().map(|one| one.plain().award.word()).collect();
    awards.dedup();
    let awards = match awards.as_slice() {
        [one] => format!("Each marking by itself comes to: {one}."),
        _ => format!("By themselves the markings come to: {}.", awards.join(", ")),
    };
    format!(
        "In {same} of {} criteria the marks are the same. The totals differ by {}. {awards}",
        all.len(),
        marks_words(off)
    )
}

fn rulers(scored: &[Scored<'_>]) -> Vec<Drawing> {
    let drawn = scored.iter().map(|one| {
        let ruler = marks_ruler(&one.outcome);
        Drawing {
            title: format!("{}: {}", marker(one), ruler.title),
            ..ruler
        }
    });
    drawn.collect()
}

/// The tolerance of one entry with the reading of each examiner.
fn scales(scored: &[Scored<'_>], one: &Between<'_, '_>) -> Vec<Drawing> {
    let drawn = scored.iter().zip(&one.results).filter_map(|(by, result)| {
        let name = format!("{}, {}", one.entry.name(), marker(by));
        let unit = by.parts.marking.unit;
        let most = one.entry.criterion.most_unweighted();
        drawn_scale(result.measured.as_ref()?, most, unit, &name)
    });
    drawn.collect()
}

fn table(scored: &[Scored<'_>], all: &[Between<'_, '_>]) -> Table {
    // A title is fixed, so who is who stands in the facts above.
    let heads: &[(&'static str, CellRole)] = &[
        ("Criterion", CellRole::Text),
        ("First", CellRole::Text),
        ("First, marks", CellRole::Number),
        ("Second", CellRole::Text),
        ("Second, marks", CellRole::Number),
        ("Third", CellRole::Text),
        ("Third, marks", CellRole::Number),
    ];
    let own = heads.iter().take(1 + 2 * scored.len());
    let last = ("Difference", CellRole::Text);
    let heads: Vec<(&'static str, CellRole)> = own.copied().chain([last]).collect();
    let rows = all.iter().map(|one| {
        let cells = scored.iter().zip(&one.results);
        let cells = cells
            .flat_map(|(by, result)| [Cell::text(reading(by, one.entry, result)), marks(result)]);
        let name = std::iter::once(Cell::text(one.entry.name()));
        let words = std::iter::once(Cell::text(one.words.clone()));
        name.chain(cells).chain(words).collect()
    });
    Table {
        caption: "Marks by criterion, most marks at stake first".to_owned(),
        columns: columns(&heads),
        groups: vec![Group {
            heading: String::new(),
            rows: rows.collect(),
        }],
        foot: Vec::new(),
    }
}

fn at_stake(results: &[&CriterionResult]) -> Marks {
    let most = results.iter().map(|result| result.out_of).max();
    let most = most.unwrap_or(Marks::ZERO);
    let given = results.iter().map(|result| result.marks);
    let Some(given) = given.collect::<Option<Vec<Marks>>>() else {
        let nobody = results.iter().all(|result| result.marks.is_none());
        return if nobody { Marks::ZERO } else { most };
    };
    let unlike = results.iter().any(|result| result.out_of != most);
    match (given.iter().max(), given.iter().min()) {
        _ if unlike => most,
        (Some(high), Some(low)) => high.minus(*low).unwrap_or(most),
        _ => Marks::ZERO,
    }
}

/// The greatest En of any two; the error says that no uncertainty is left to hold a
/// difference against.
fn greatest_en(scored: &[Scored<'_>], entry: &Entry<'_>) -> Result<Option<f64>, ()> {
    let values = scored.iter().filter_map(|one| one.uncertain.get(&entry.id));
    let values: Vec<&Uncertain> = values.collect();
    if values.len() < 2 {
        return Ok(None);
    }
    // An instrument without figures is not an exact one.
    if values.iter().any(|value| value.standard() <= 0.0) {
        return Err(());
    }
    let mut greatest = None;
    for (at, one) in values.iter().enumerate() {
        for other in values.iter().skip(at + 1) {
            let en = en_score(one, other).ok_or(())?.abs();
            greatest = Some(greatest.map_or(en, |known: f64| known.max(en)));
        }
    }
    Ok(greatest)
}

/// What differs, in words: marks, then levels or what En says.
fn difference(
    scored: &[Scored<'_>],
    entry: &Entry<'_>,
    results: &[&CriterionResult],
    en: Result<Option<f64>, ()>,
) -> String {
    let given: Option<Vec<Marks>> = results.iter().map(|result| result.marks).collect();
    let off = at_stake(results);
    let first = match given {
        None => "not marked by all".to_owned(),
        Some(_) if off == Marks::ZERO => "the same marks".to_owned(),
        Some(_) => format!("{} apart", marks_words(off)),
    };
    let more = match en {
        Err(()) => Some("no uncertainty is stated to hold the readings against".to_owned()),
        Ok(Some(en)) => Some(en_words(en)),
        Ok(None) => levels_words(scored, entry),
    };
    match more {
        Some(more) => format!("{first}; {more}"),
        None => first,
    }
}

fn en_words(en: f64) -> String {
    if en > 1.0 {
        format!("En {en:.2}: the readings differ more than measuring explains, measure again")
    } else {
        format!("En {en:.2}: measuring explains the difference of the readings")
    }
}

/// How many levels or steps of a scale lie between the examiners.
fn levels_words(scored: &[Scored<'_>], entry: &Entry<'_>) -> Option<String> {
    let levels = scored.iter().map(|one| level_of(one, entry));
    let levels: Vec<usize> = levels
        .map(|level| level.map(|(at, _)| at))
        .collect::<Option<_>>()?;
    let apart = levels.iter().max()?.abs_diff(*levels.iter().min()?);
    Some(match apart {
        0 => "the same level".to_owned(),
        1 => "1 level apart".to_owned(),
        count => format!("{count} levels apart"),
    })
}
