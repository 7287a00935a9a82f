//! Whose descriptors to write anew.

use super::how;
use super::words::with_interval;
use crate::moderation::{Descriptors, to_rewrite};
use crate::quantity::print_figure;
use crate::sheet::document::{Block, Cell, Item, figure, number, plain_table, text};
use crate::sheet::scored::heading;

const HOW: &str = "a criterion is named where alpha is below 0.667, the least from which \
    Krippendorff draws tentative conclusions, and below the middle of all judged criteria here, \
    and where examiners were apart twice at least. The last two are our own rule, without a \
    source.";

pub(super) fn blocks(all: &[Descriptors]) -> Vec<Block> {
    let mut blocks = vec![heading("Descriptors to write anew")];
    let named = to_rewrite(all);
    if named.is_empty() {
        let text = "No judged criterion falls behind the others so far that its descriptors \
                    should be written anew for that.";
        blocks.push(Block::Paragraph(text.to_owned()));
    } else {
        blocks.push(Block::Items(named.into_iter().map(item).collect()));
    }
    if all.iter().any(|one| one.pairs > 0) {
        blocks.push(Block::Table(table(all)));
    }
    blocks.push(how(HOW));
    blocks
}

fn item(one: &Descriptors) -> Item {
    let alpha = one.alpha.as_ref().copied().unwrap_or_default();
    let mut lines = vec![format!(
        "Alpha {}: examiners gave different levels in {} of {} pairs.",
        with_interval(alpha, &one.interval, 2),
        one.apart,
        one.pairs
    )];
    lines.extend(
        mixed(one).map(|mixed| format!("Most often {mixed}. Say what tells these two apart.")),
    );
    Item {
        lead: one.name.clone(),
        lines,
    }
}

/// `“good” and “fair” for the same piece: 5 times`.
fn mixed(one: &Descriptors) -> Option<String> {
    let mixed = one.mixed.as_ref()?;
    let times = match mixed.times {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        times => format!("{times} times"),
    };
    Some(format!(
        "“{}” and “{}” for the same piece: {times}",
        mixed.better, mixed.worse
    ))
}

fn table(all: &[Descriptors]) -> crate::sheet::document::Table {
    let rows = all.iter().map(|one| {
        let alpha = one.alpha.as_ref().map(|alpha| print_figure(*alpha, 2));
        vec![
            Cell::text(one.name.clone()),
            figure(alpha.unwrap_or_else(|_| "–".to_owned())),
            figure(format!("{} of {}", one.apart, one.pairs)),
            Cell::text(mixed(one).unwrap_or_else(|| "always the same level".to_owned())),
        ]
    });
    plain_table(
        "Judged criteria: alpha, pairs of examiners with different levels, and the two levels \
         most often given to the same piece"
            .to_owned(),
        vec![
            text("Criterion"),
            number("Alpha"),
            number("Apart"),
            text("Most often"),
        ],
        rows.collect(),
    )
}
