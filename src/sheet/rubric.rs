//! A rubric as people read it: the piece, how it is made and measured, every criterion
//! with its tolerance, levels and faults, and when it is passed.

use crate::marking::{Facts, mark_in};
use crate::quantity::{Duration, Unit};
use crate::rubric::{
    AfterTheLimit, Award, DecisionRule, Instrument, OnTheLimit, Rubric, Section, Settle, Threshold,
    TimeRule, Uncertainty,
};

use super::document::{Block, Cell, CellRole, Document, Fact, Group, Item, Table, columns};
use super::expression::percent_words;
use super::impression::asked_words;
use super::rubric_criterion::one_criterion;
use super::scored::heading;
use super::specification::{piece_drawings, piece_facts};
use super::tolerance::Asked;
use super::words::{join, marks_words, shape_words};

/// The rubric with lengths in `unit`.
pub fn rubric_document(rubric: &Rubric, unit: Unit) -> Document {
    let mut blocks = Vec::new();
    if !rubric.about.is_empty() {
        blocks.push(Block::Paragraph(rubric.about.clone()));
    }
    blocks.push(Block::Facts(head_facts(rubric)));
    blocks.push(heading("The piece asked for"));
    blocks.push(Block::Facts(piece_facts(rubric, unit)));
    blocks.extend(piece_drawings(rubric, unit));
    blocks.extend(making(rubric));
    blocks.extend(instruments(rubric, unit));
    blocks.extend(criteria(rubric, unit));
    blocks.push(heading("When it is passed"));
    blocks.push(Block::Items(award(rubric)));
    blocks.extend(outcomes(rubric));
    if !rubric.cautions.is_empty() {
        blocks.push(heading("Cautions"));
        let cautions = rubric.cautions.iter().map(Item::plain);
        blocks.push(Block::Items(cautions.collect()));
    }
    Document {
        title: rubric.title.clone(),
        about: format!("Rubric {}, version {}", rubric.id, rubric.version),
        language: "en-GB".into(),
        most_pages: None,
        blocks,
    }
}

fn head_facts(rubric: &Rubric) -> Vec<Fact> {
    let out_of = rubric.out_of().map_or_else(String::new, marks_words);
    let count = rubric.sections.iter().map(|section| section.criteria.len());
    let count = count.sum::<usize>().to_string();
    let qualification = rubric.qualification.as_ref();
    let qualification = qualification.map_or_else(String::new, |unit| {
        join([unit.code.as_str(), unit.title.as_str()], ", ")
    });
    let shown = [
        ("In all", out_of),
        ("To pass", threshold_words(rubric.award.pass)),
        ("Criteria", count),
        ("Examiners", rubric.examiners.to_string()),
        ("Where they differ", differ_words(rubric)),
        ("First impression", asked_words(rubric)),
        ("Qualification", qualification),
        ("Source", rubric.source.clone()),
    ];
    let shown = shown.into_iter().filter(|(_, value)| !value.is_empty());
    shown
        .map(|(label, value)| Fact {
            label: label.into(),
            value,
        })
        .collect()
}

/// How examiners come to one marking; empty where one marks alone.
fn differ_words(rubric: &Rubric) -> String {
    if rubric.examiners < 2 {
        return String::new();
    }
    let moderation = &rubric.moderation;
    let settle = match moderation.settle {
        Settle::Discussion => "they settle it",
        Settle::Mean => "the mean counts",
        Settle::Lower => "the lowest counts",
    };
    let beyond = moderation.discuss_beyond.map(threshold_words);
    let beyond = beyond.map(|limit| format!("with a reason where it is more than {limit}"));
    let third = moderation
        .third_examiner
        .then_some("a third examiner marks where the awards differ");
    join(
        [
            settle,
            beyond.as_deref().unwrap_or_default(),
            third.unwrap_or_default(),
        ],
        "; ",
    )
}

/// Planned heats and the time rule.
fn making(rubric: &Rubric) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !rubric.heats.is_empty() {
        let (all, weld) = rubric.planned_heats();
        let welds = match weld {
            0 => String::new(),
            1 => ", one of them a welding heat".to_owned(),
            _ => format!(", {weld} of them welding heats"),
        };
        let rows = rubric.heats.iter().map(|heats| {
            let step = heats.step.as_deref().and_then(|step| rubric.step(step));
            vec![
                Cell::text(&heats.part),
                Cell::text(step.map_or_else(String::new, |step| step.name.clone())),
                Cell::new(CellRole::Number, heats.count.to_string()),
            ]
        });
        blocks.push(heading("How it is made"));
        blocks.push(table(
            format!("{all} heats planned{welds}"),
            &[
                ("Part", CellRole::Text),
                ("Step", CellRole::Text),
                ("Heats", CellRole::Number),
            ],
            rows.collect(),
        ));
    }
    if let Some(time) = &rubric.time {
        blocks.push(Block::Paragraph(time_words(time)));
    }
    blocks
}

pub(super) fn time_words(time: &TimeRule) -> String {
    let say = |time: Duration| time.quantity().print(Unit::Minute);
    let grace = if time.grace.base() == 0 {
        String::new()
    } else {
        format!("; {} over it are not counted", say(time.grace))
    };
    let exactly = match time.on_the_limit {
        OnTheLimit::Inside => "exactly on it is in time",
        OnTheLimit::Over => "exactly on it is over",
    };
    let after = match time.after {
        AfterTheLimit::MarkAsItStands => {
            "then work stops and the piece is marked as it stands".to_owned()
        }
        AfterTheLimit::Deduct {
            each,
            marks,
            hard_stop,
        } => {
            let stop = hard_stop.map(|stop| format!("; past {} the award is stopped", say(stop)));
            format!(
                "then {marks} off for each {} started{}",
                say(each),
                stop.unwrap_or_default()
            )
        }
    };
    format!(
        "Time allowed is {}{grace}; {exactly}; {after}.",
        say(time.limit)
    )
}

fn instruments(rubric: &Rubric, unit: Unit) -> Vec<Block> {
    if rubric.instruments.is_empty() {
        return Vec::new();
    }
    let rows = rubric.instruments.iter().map(|instrument| {
        let Instrument {
            name,
            uncertainty,
            repeatability,
            source,
            ..
        } = instrument;
        let off = match uncertainty {
            Uncertainty::HalfWidth(most, shape) => {
                let most = format!("at most {}", most.print_limit(unit));
                join([most, shape_words(*shape)], ", ")
            }
            Uncertainty::Standard(u) => format!("standard uncertainty {}", u.print_limit(unit)),
        };
        let repeats = repeatability.map(|repeats| repeats.print_limit(unit));
        vec![
            Cell::text(name),
            Cell::text(off),
            Cell::text(repeats.unwrap_or_default()),
            Cell::new(CellRole::Quiet, source),
        ]
    });
    let columns = [
        ("Instrument", CellRole::Text),
        ("How far off", CellRole::Text),
        ("Repeats", CellRole::Text),
        ("Source", CellRole::Quiet),
    ];
    vec![
        heading("What it is measured with"),
        table(
            "One reading’s uncertainty, and the standard deviation of one person’s repeats"
                .to_owned(),
            &columns,
            rows.collect(),
        ),
    ]
}

fn criteria(rubric: &Rubric, unit: Unit) -> Vec<Block> {
    let entries = rubric.entries();
    let slots = rubric.slots();
    let outcome = mark_in(rubric, &Facts::default(), unit);
    let name = |id: &str| {
        let slot = slots.iter().find(|slot| slot.id == id);
        slot.map_or_else(|| id.to_owned(), |slot| slot.name.clone())
    };
    let mut blocks = Vec::new();
    for section in &rubric.sections {
        blocks.push(heading(&section_words(rubric, section)));
        for criterion in &section.criteria {
            let mut found = entries.iter().zip(&outcome.criteria);
            let found = found.find(|(entry, _)| std::ptr::eq(entry.criterion, criterion));
            if let Some((entry, result)) = found {
                let asked = Asked {
                    rubric,
                    entry,
                    sheet: unit,
                    name: &name,
                };
                blocks.extend(one_criterion(&asked, result));
            }
        }
    }
    blocks
}

fn section_words(rubric: &Rubric, section: &Section) -> String {
    let totals = rubric.section_totals(section);
    let counted = totals.map(|totals| marks_words(totals.counted));
    let least = section
        .minimum
        .map(|least| format!("at least {}", threshold_words(least)));
    let held = [counted, least].into_iter().flatten();
    format!("{}: {}", section.name, join(held, ", "))
}

fn award(rubric: &Rubric) -> Vec<Item> {
    let Award {
        pass,
        decision,
        warnings_to_stop,
        grades,
    } = &rubric.award;
    let mut items = vec![Item::plain(format!("At least {}.", threshold_words(*pass)))];
    let sections = rubric.sections.iter().filter_map(|section| {
        let least = section.minimum?;
        Some(format!(
            "{}: at least {}.",
            section.name,
            threshold_words(least)
        ))
    });
    items.extend(sections.map(Item::plain));
    items.push(Item::plain(format!(
        "No stop stands; {warnings_to_stop} {} the award.",
        if *warnings_to_stop == 1 {
            "warning stops"
        } else {
            "warnings stop"
        }
    )));
    let guarded = match decision {
        DecisionRule::Simple => None,
        DecisionRule::GuardedAcceptance { risk } => Some(format!(
            "Guarded acceptance with a risk of at most {}.",
            percent_words(*risk)
        )),
        DecisionRule::GuardedRejection { risk } => Some(format!(
            "Guarded rejection with a risk of at most {}.",
            percent_words(*risk)
        )),
    };
    items.extend(guarded.map(Item::plain));
    let causes = rubric.causes.iter().map(|cause| {
        format!(
            "{}: one error, charged once, {} at most.",
            cause.name,
            marks_words(cause.most)
        )
    });
    items.extend(causes.map(Item::plain));
    let grades = grades
        .iter()
        .map(|grade| format!("Grade {} from {}.", grade.name, threshold_words(grade.from)));
    items.extend(grades.map(Item::plain));
    items
}

/// Outcomes of the qualification with the criteria that give evidence for them.
fn outcomes(rubric: &Rubric) -> Vec<Block> {
    let Some(unit) = rubric
        .qualification
        .as_ref()
        .filter(|unit| !unit.outcomes.is_empty())
    else {
        return Vec::new();
    };
    let rows = unit.outcomes.iter().map(|(code, text)| {
        let criteria = rubric.sections.iter().flat_map(|section| &section.criteria);
        let named = criteria.filter(|criterion| criterion.outcomes.contains(code));
        let named = named.map(|criterion| criterion.name.clone());
        vec![
            Cell::text(code),
            Cell::text(text),
            Cell::text(join(named, ", ")),
        ]
    });
    let columns = [
        ("Outcome", CellRole::Text),
        ("What it says", CellRole::Text),
        ("Shown by", CellRole::Text),
    ];
    vec![
        heading("Outcomes"),
        table(
            "Criteria that give evidence for each outcome".to_owned(),
            &columns,
            rows.collect(),
        ),
    ]
}

pub(super) fn table(
    caption: String,
    columns: &[(&'static str, CellRole)],
    rows: Vec<Vec<Cell>>,
) -> Block {
    Block::Table(Table {
        caption,
        columns: self::columns(columns),
        groups: vec![Group {
            heading: String::new(),
            rows,
        }],
        foot: Vec::new(),
    })
}

/// `65 marks` or `65 %`.
pub(super) fn threshold_words(threshold: Threshold) -> String {
    match threshold {
        Threshold::Marks(marks) => marks_words(marks),
        Threshold::Percent(percent) => percent_words(percent),
    }
}
