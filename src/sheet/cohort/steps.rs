use super::{StepShown, lacking_words};
use crate::chart::{Bar, bars};
use crate::cohort::{Cohort, Example, WeakStep};
use crate::figures::Lacking;
use crate::sheet::document::{Block, Cell, figure, number, plain_table, text};
use crate::sheet::scored::heading;
use crate::sheet::words::percent_words;

/// How losses by step are worked out.
pub(super) const HOW: &str = "Marks of the total that were lost in criteria whose making step, \
    or that of the fault that was seen, is this one, per cent of what a piece could have; the \
    mean over each learner’s latest pieces, then over learners, so that each weighs alike. \
    Examples are the pieces that lost most there, each of another learner.";

/// The steps at which the group loses marks, the costliest first.
pub(super) fn shown(cohort: &Cohort, weak: &[WeakStep]) -> Vec<StepShown> {
    let steps = weak.iter().map(|weak| StepShown {
        name: name(cohort, weak),
        words: percent_words(weak.percent),
        examples: weak
            .examples
            .iter()
            .map(|example| (example.piece, example_words(cohort, example)))
            .collect(),
    });
    steps.collect()
}

fn name(cohort: &Cohort, weak: &WeakStep) -> String {
    let step = cohort.plan.steps.get(weak.step);
    step.map_or_else(String::new, |(_, name)| name.clone())
}

/// `Nell Ashgrove, 3 Nov 2026: 12.5 % lost`.
fn example_words(cohort: &Cohort, example: &Example) -> String {
    let person = cohort.people.iter().find(|one| one.id == example.learner);
    let piece =
        person.and_then(|person| person.pieces.iter().find(|one| one.piece == example.piece));
    let name = person.map_or("", |person| &person.name);
    let day = piece.map_or_else(String::new, |piece| format!(", {}", piece.day));
    format!("{name}{day}: {} lost", percent_words(example.percent))
}

/// The weakest steps of the group.
///
/// *Shape:* `steps` are `weak` as they are shown.
pub(super) fn blocks(
    cohort: &Cohort,
    weak: &Result<Vec<WeakStep>, Lacking>,
    steps: &[StepShown],
) -> Vec<Block> {
    if cohort.plan.steps.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![heading("Weakest making steps")];
    let weak = match weak {
        Ok(weak) if weak.is_empty() => {
            let none = "The latest pieces lost no marks that belong to a making step.";
            blocks.push(Block::Paragraph(none.to_owned()));
            return blocks;
        }
        Ok(weak) => weak,
        Err(lacking) => {
            blocks.push(Block::Paragraph(lacking_words(lacking)));
            return blocks;
        }
    };
    let rows = steps.iter().zip(weak).map(|(step, weak)| Bar {
        label: step.name.clone(),
        value: weak.percent.to_f64(),
        before: None,
        words: step.words.clone(),
    });
    let told = steps
        .iter()
        .map(|step| format!("{}: {}", step.name, step.words));
    let told = told.collect::<Vec<_>>().join("; ");
    blocks.push(Block::Drawings(vec![bars(
        "Marks lost by making step, per cent of a piece’s marks. Longer is worse".to_owned(),
        format!("{told}."),
        &rows.collect::<Vec<_>>(),
    )]));
    let rows = steps.iter().map(|step| {
        let examples = step.examples.iter().map(|(_, words)| words.as_str());
        vec![
            Cell::text(step.name.clone()),
            figure(step.words.clone()),
            Cell::text(examples.collect::<Vec<_>>().join("; ")),
        ]
    });
    blocks.push(Block::Table(plain_table(
        "Marks lost by making step, with pieces to look at".to_owned(),
        vec![
            text("Step"),
            number("Lost"),
            text("Pieces that lost most there"),
        ],
        rows.collect(),
    )));
    blocks
}
