//! The maker's own marking and the examiner's, side by side.

use std::cmp::Reverse;

use crate::marking::{CriterionResult, ResultState};
use crate::quantity::{Exact, Marks};
use crate::rubric::{Entry, Kind};

use super::compared::total_words;
use super::criteria::{marks, reading};
use super::document::columns;
use super::document::{Block, Cell, CellRole, Document, Fact, Group, Table};
use super::handed::held_blocks;
use super::impression::impression_fact;
use super::scored::{Scored, heading};
use super::seal::{altered_blocks, checked};
use super::words::capital;

/// One entry of one marking.
type Found<'s, 'a> = (&'s Entry<'a>, &'s CriterionResult);

/// An entry that both have marked.
struct Pair<'s, 'a> {
    own: Found<'s, 'a>,
    other: Found<'s, 'a>,
    /// The maker's share of what could be had less the examiner's.
    off: Exact,
    agrees: bool,
}

/// The maker's own marking beside the one that counts, both of the piece of `whose`:
/// both totals, then what differs, the greatest difference first.
///
/// Entries are matched by their ids. *Marks* are compared as shares of what could be
/// had, exactly, so that a self-check of fewer marks may stand beside a full rubric.
pub fn beside(whose: &str, own: &Scored<'_>, other: &Scored<'_>) -> Document {
    let found: Vec<Found<'_, '_>> = results(own).collect();
    let of_own = |id: &str| found.iter().find(|(entry, _)| entry.id == id).copied();
    let mut pairs = Vec::new();
    let mut apart: [Vec<Vec<Cell>>; 3] = Default::default();
    let [unmarked, others, owns] = &mut apart;
    for theirs in results(other) {
        let Some(mine) = of_own(&theirs.0.id) else {
            others.push(row(None, Some((other, theirs)), "only the examiner’s"));
            continue;
        };
        match pair((own, mine), (other, theirs)) {
            Some(pair) => pairs.push(pair),
            None => unmarked.push(row(
                Some((own, mine)),
                Some((other, theirs)),
                "not compared",
            )),
        }
    }
    for mine in &found {
        if other.entries.iter().all(|entry| entry.id != mine.0.id) {
            owns.push(row(Some((own, *mine)), None, "only the maker’s"));
        }
    }
    let summary = summary(&pairs);
    // The sort keeps the order of the rubric among equals.
    pairs.sort_by_key(|pair| Reverse(pair.off.size()));
    let rows = pairs.iter().map(|pair| {
        row(
            Some((own, pair.own)),
            Some((other, pair.other)),
            &difference(pair),
        )
    });
    let compared = Group {
        heading: String::new(),
        rows: rows.collect(),
    };
    let headings = [
        "Not marked by both",
        "Only in the examiner’s marking",
        "Only in the maker’s own marking",
    ];
    let rest = headings.into_iter().zip(apart);
    let rest = rest.map(|(heading, rows)| Group {
        heading: heading.to_owned(),
        rows,
    });
    let groups = std::iter::once(compared).chain(rest);
    let table = Table {
        caption: "Marks by criterion, the greatest difference first".to_owned(),
        columns: columns(&[
            ("Criterion", CellRole::Text),
            ("Maker", CellRole::Text),
            ("Maker’s marks", CellRole::Number),
            ("Examiner", CellRole::Text),
            ("Examiner’s marks", CellRole::Number),
            ("Difference", CellRole::Text),
        ]),
        groups: groups.filter(|group| !group.rows.is_empty()).collect(),
        foot: Vec::new(),
    };
    let mut blocks = altered_blocks(&checked(own), "The maker’s own marking");
    blocks.extend(altered_blocks(&checked(other), "The examiner’s marking"));
    blocks.extend(held_blocks(other));
    blocks.push(Block::Facts(facts(whose, own, other)));
    blocks.extend(summary.into_iter().map(Block::Paragraph));
    blocks.push(heading("Criteria"));
    blocks.push(Block::Table(table));
    Document {
        title: other.rubric.title.clone(),
        about: "The maker’s own marking and the examiner’s, side by side".to_owned(),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

fn results<'s, 'a>(scored: &'s Scored<'a>) -> impl Iterator<Item = Found<'s, 'a>> {
    scored.entries.iter().zip(&scored.outcome.criteria)
}

fn facts(whose: &str, own: &Scored<'_>, other: &Scored<'_>) -> Vec<Fact> {
    let sitting = other.parts.sitting;
    let ticket = other.parts.piece.ticket.clone();
    let same = own.parts.rubric.digest == other.parts.rubric.digest;
    let by = |scored: &Scored<'_>| {
        let rubric = scored.parts.rubric;
        (!same).then(|| format!("{}, version {}", rubric.rubric_id, rubric.version))
    };
    let said = [
        ("Maker", Some(whose.to_owned())),
        ("Ticket", ticket.filter(|ticket| !whose.ends_with(ticket))),
        ("Examiner", Some(other.examiner().to_owned())),
        ("Sitting", Some(capital(sitting.kind.word()))),
        (
            "Date",
            Some(format!("{} {}", sitting.day.weekday(), sitting.day)),
        ),
        ("Maker’s own marking", Some(total_words(&own.outcome))),
        ("Examiner’s marking", Some(total_words(&other.outcome))),
        ("Maker’s first impression", impression_fact(own)),
        ("Examiner’s first impression", impression_fact(other)),
        ("The maker marked by", by(own)),
        ("The examiner marked by", by(other)),
    ];
    let said = said.into_iter();
    said.filter_map(|(label, value)| {
        Some(Fact {
            label: label.into(),
            value: value?,
        })
    })
    .collect()
}

/// Both of one entry, where both have marks for it.
fn pair<'s, 'a>(
    (own, mine): (&Scored<'_>, Found<'s, 'a>),
    (other, theirs): (&Scored<'_>, Found<'s, 'a>),
) -> Option<Pair<'s, 'a>> {
    let off = share(mine.1)?.minus(share(theirs.1)?)?;
    let levels = level_of(own, mine.0).zip(level_of(other, theirs.0));
    let is_near = levels
        .is_some_and(|((one, of), (two, count))| of == count && usize::abs_diff(one, two) <= 1);
    Some(Pair {
        own: mine,
        other: theirs,
        off,
        agrees: off.is_zero() || is_near,
    })
}

/// Marks as a share of what could be had; of nothing where nothing could be had, so
/// that what is deducted still counts.
fn share(result: &CriterionResult) -> Option<Exact> {
    if result.state == ResultState::NotApplicable {
        return None;
    }
    result.share().or(result.marks.map(|marks| marks.0))
}

/// Which level or number of the scale was given, and of how many.
pub(super) fn level_of(scored: &Scored<'_>, entry: &Entry<'_>) -> Option<(usize, usize)> {
    let Kind::Judged(judged) = &entry.criterion.kind else {
        return None;
    };
    judged.place_of(scored.parts.marking.facts.levels.get(&entry.id)?)
}

/// The difference in words.
fn difference(pair: &Pair<'_, '_>) -> String {
    let (own, other) = (pair.own.1, pair.other.1);
    let way = |more: &'static str, less: &'static str| {
        if pair.off.is_negative() { less } else { more }
    };
    if own.out_of == other.out_of {
        if pair.off.is_zero() {
            return "the same".to_owned();
        }
        let [mine, theirs] = [own, other].map(|result| result.marks.unwrap_or(Marks::ZERO));
        let off = mine
            .minus(theirs)
            .map_or(Marks::ZERO, |off| Marks(off.0.size()));
        return format!("{off} {} than the examiner", way("more", "less"));
    }
    let said = |result: &CriterionResult| {
        let given = result.marks.unwrap_or(Marks::ZERO);
        format!("{given} of {}", result.out_of)
    };
    let kind = if pair.off.is_zero() {
        "the same share"
    } else {
        way("a larger share", "a smaller share")
    };
    format!("{kind}, {} against {}", said(own), said(other))
}

/// A row, named as the examiner's rubric names it.
fn row(
    own: Option<(&Scored<'_>, Found<'_, '_>)>,
    other: Option<(&Scored<'_>, Found<'_, '_>)>,
    difference: &str,
) -> Vec<Cell> {
    let name = other.or(own).map(|(_, (entry, _))| entry.name());
    let cells = [own, other].into_iter().flat_map(|side| match side {
        Some((scored, (entry, result))) => {
            [Cell::text(reading(scored, entry, result)), marks(result)]
        }
        None => [Cell::text("–"), Cell::new(CellRole::Number, "–")],
    });
    let name = std::iter::once(Cell::text(name.unwrap_or_default()));
    let last = std::iter::once(Cell::text(difference));
    name.chain(cells).chain(last).collect()
}

/// What it comes to, sentence by sentence.
fn summary(pairs: &[Pair<'_, '_>]) -> Vec<String> {
    let named = |is: fn(&Pair<'_, '_>) -> bool| -> Vec<String> {
        let those = pairs.iter().filter(|pair| is(pair));
        those.map(|pair| pair.other.0.name()).collect()
    };
    let agreed = pairs.iter().filter(|pair| pair.agrees).count();
    let kinder = named(|pair| !pair.agrees && !pair.off.is_negative());
    let harder = named(|pair| !pair.agrees && pair.off.is_negative());
    let both = match pairs.len() {
        0 => return vec!["There is no criterion that both have marked.".to_owned()],
        1 => "1 criterion has marks from both".to_owned(),
        count => format!("{count} criteria have marks from both"),
    };
    let agree = format!(
        "{both}. In {agreed} maker and examiner agree: the same marks, or one level or step apart."
    );
    let sided = |word: &str, names: Vec<String>| {
        (!names.is_empty()).then(|| {
            format!(
                "The maker was {word} than the examiner in {}: {}.",
                names.len(),
                names.join(", ")
            )
        })
    };
    [
        Some(agree),
        sided("kinder", kinder),
        sided("harder", harder),
    ]
    .into_iter()
    .flatten()
    .collect()
}
