//! The page of a cohort: its choices, its matrix, and the way to its figures.

mod ask;
mod grid;

use std::collections::BTreeMap;

use super::learner::SpanForm;
use super::learners::called;
use super::makers::set_apart;
use super::scores::Rubrics;
use crate::cohort::{
    self, Asked, Group, Plan, groups, held_pieces, made_last, members, used_rubrics,
};
use crate::progress;
use crate::quantity::{Marks, counted};
use crate::records::{Day, LearnerId, Ledger, RubricVersion, Span, Whom};
use crate::rubric::Rubric;
use crate::sheet::{held_words, span_words, whole_percent};

pub use ask::{
    CohortState, cohort_base, cohort_job, cohort_pieces, cohort_start, cohort_state, file_choices,
    standings,
};
pub use grid::{Place, SortBy, order, place, step};

/// What can stand for a learner: so many of the latest pieces.
const LATEST: [usize; 4] = [1, 3, 5, 10];

/// What an address or a form asks; empty where it says nothing.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CohortQuery {
    /// The rubric's own id.
    pub rubric: String,
    /// The group in a word.
    pub group: String,
    /// How many of the latest pieces.
    pub latest: String,
    /// The first day whose pieces count.
    pub from: String,
    /// The last day whose pieces count.
    pub to: String,
    /// The group to compare with in a word.
    pub other: String,
}

/// The page of a cohort, before any piece is marked.
#[derive(Debug, Clone, PartialEq)]
pub struct CohortPage {
    /// What it is about.
    pub about: String,
    /// The criteria and steps; empty where there is no matrix.
    pub plan: Plan,
    /// The learners, by name.
    pub rows: Vec<CohortRow>,
    /// What is said of pieces that are held back; empty of none.
    pub held: String,
    /// What is said where there is no matrix; empty where there is one.
    pub empty: String,
}

/// One learner.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CohortRow {
    /// Who.
    pub id: LearnerId,
    /// Name and number.
    pub name: String,
}

/// What is known of each learner: all marks together, then each criterion.
pub type CohortCells = BTreeMap<LearnerId, Vec<CohortCell>>;

/// One median.
#[derive(Debug, Clone, PartialEq)]
pub struct CohortCell {
    /// Its rank, 4 for all marks to 0 for none; `None` where there are no marks.
    pub band: Option<u8>,
    /// The share, and behind how many pieces where they are fewer than asked for.
    pub words: String,
    /// The share, to sort by.
    pub share: Option<crate::quantity::Exact>,
}

/// What a form offers: value and name.
pub type Offered = Vec<(String, String)>;

/// What can be chosen: rubrics, groups, numbers of latest pieces, and groups to compare with.
pub fn cohort_choices(ledger: &Ledger) -> [Offered; 4] {
    let rubrics = used_rubrics(ledger).into_iter();
    let rubrics = rubrics.map(|(id, title, pieces)| {
        (
            id,
            format!("{title}, {}", counted(pieces, "piece", "pieces")),
        )
    });
    let groups = groups(ledger).into_iter();
    let groups: Offered = groups.map(|group| (group.word(), group.title())).collect();
    let none = (String::new(), "No other group".to_owned());
    let others = std::iter::once(none).chain(groups.iter().cloned());
    let others = others.collect();
    let latest = LATEST.map(|count| {
        let words = match count {
            1 => "The latest piece alone".to_owned(),
            count => format!("Median of the latest {count}"),
        };
        (count.to_string(), words)
    });
    [rubrics.collect(), groups, latest.to_vec(), others]
}

/// What `query` asks, with what is usual where it says nothing: the rubric with most pieces,
/// everybody in training; `None` before the first piece.
pub fn cohort_asked(ledger: &Ledger, query: &CohortQuery, whom: Whom) -> Option<Asked> {
    let rubrics = used_rubrics(ledger);
    let chosen = rubrics.iter().find(|(id, ..)| *id == query.rubric);
    let (rubric, ..) = chosen.or(rubrics.first())?;
    let latest = query.latest.parse::<usize>().ok();
    let group = Group::from_word(&query.group);
    let is_other = |word: &&str| !word.is_empty() && *word != group.word();
    let other = Some(query.other.as_str()).filter(is_other);
    Some(Asked {
        rubric: rubric.clone(),
        span: Span {
            from: query.from.parse().ok(),
            to: query.to.parse().ok(),
        },
        other: other.map(Group::from_word),
        group,
        latest: latest.map_or(progress::LATEST, |latest| latest.clamp(1, 50)),
        whom,
    })
}

/// `asked` as an address and a form have it.
pub fn cohort_query(asked: &Asked) -> CohortQuery {
    CohortQuery {
        rubric: asked.rubric.clone(),
        group: asked.group.word(),
        latest: asked.latest.to_string(),
        from: asked.span.from.map(Day::iso).unwrap_or_default(),
        to: asked.span.to.map(Day::iso).unwrap_or_default(),
        other: asked.other.map(Group::word).unwrap_or_default(),
    }
}

/// What is wrong with the first day of `query`, and with the last.
pub fn days_faults(query: &CohortQuery) -> (Option<String>, Option<String>) {
    let form = SpanForm {
        from: query.from.clone(),
        to: query.to.clone(),
    };
    form.read().err().unwrap_or_default()
}

/// The page of the cohort that is asked about.
pub fn cohort_page(ledger: &Ledger, rubrics: &Rubrics, asked: Option<&Asked>) -> CohortPage {
    let Some(asked) = asked else {
        return CohortPage {
            about: String::new(),
            plan: Plan::default(),
            rows: Vec::new(),
            held: String::new(),
            empty: NO_PIECES.to_owned(),
        };
    };
    let rubric = made_last(ledger, &|version| rubrics.get(version), asked);
    let rows = members(ledger, asked.group).into_iter();
    let rows = rows.map(|learner| CohortRow {
        id: learner.id,
        name: called(learner),
    });
    let rows: Vec<CohortRow> = rows.collect();
    CohortPage {
        about: about(rows.len(), rubric.as_deref(), asked),
        plan: rubric.as_deref().map(Plan::of).unwrap_or_default(),
        held: held_words(held_pieces(ledger, asked)),
        empty: empty_words(rows.is_empty(), rubric.is_none()).to_owned(),
        rows,
    }
}

/// What a learner's latest pieces come to by `plan`: all marks together, then each
/// criterion. They are marked for it, so a page asks for those in view first.
pub fn cohort_cells(
    ledger: &Ledger,
    rubrics: &Rubrics,
    asked: &Asked,
    plan: &Plan,
    learner: LearnerId,
) -> Vec<CohortCell> {
    let read = |version: &RubricVersion| rubrics.get(version);
    let row = cohort::row(ledger, &read, asked, &plan.columns, learner);
    let cells = [row.total].into_iter().chain(row.cells);
    cells.map(|cell| shown(cell, asked.latest)).collect()
}

const NO_PIECES: &str = "No piece was made yet. Once an examiner has sealed the marking of one, \
    its learner stands here.";

fn empty_words(is_nobody: bool, is_nothing: bool) -> &'static str {
    if is_nobody {
        "Nobody is in this group. Choose another one, or write on learners’ pages when their \
         training began."
    } else if is_nothing {
        "Nothing of this group is marked and sealed by an examiner with this rubric yet, or it \
         is held back. Choose another rubric or group."
    } else {
        ""
    }
}

fn about(learners: usize, rubric: Option<&Rubric>, asked: &Asked) -> String {
    let learners = counted(learners, "learner", "learners");
    let Some(rubric) = rubric else {
        return learners;
    };
    let group = asked.group.title().to_lowercase();
    let parts = [
        learners,
        set_apart(&rubric.title),
        group,
        span_words(asked.span),
    ];
    let said: Vec<String> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    said.join(", ")
}

fn shown(cell: Option<cohort::Cell>, latest: usize) -> CohortCell {
    let words = |cell: cohort::Cell| {
        let share = whole_percent(cell.share);
        if cell.pieces < latest {
            format!("{share} ({})", cell.pieces)
        } else {
            share
        }
    };
    CohortCell {
        band: cell.map(|cell| Marks(cell.share).rank(Marks::whole(1))),
        words: cell.map_or_else(|| "–".to_owned(), words),
        share: cell.map(|cell| cell.share),
    }
}
