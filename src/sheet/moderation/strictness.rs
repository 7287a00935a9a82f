//! How severe each examiner is.

use super::how;
use super::naming::Naming;
use super::words::{about, between, lacking};
use crate::chart::{IntervalRow, intervals};
use crate::moderation::{Agreement, LEAST, Strictness, StrictnessLack};
use crate::quantity::{Exact, counted, print_figure, print_signed};
use crate::sheet::document::{Block, Cell, Weight, figure, number, plain_table, text};
use crate::sheet::scored::heading;
use crate::sheet::scored::notice;

const HOW: &str = "the many-facet rating-scale model tells piece, criterion and examiner apart on \
    one scale (Andrich 1978; Linacre 1989): the log odds of a level against the one below it are \
    the piece less the criterion less the examiner less the step. The interval is 1.96 standard \
    errors to both sides; two examiners are told apart where they differ by more than 1.96 \
    standard errors of a difference. Fit is the mean square of surprises, each weighted by its variance: \
    near 1 is as others mark; above 1.5 the examiner’s levels jump about (Linacre’s rule of \
    thumb). It comes of the fit as it stands, so of few pieces it is a hint and no verdict. \
    Beside it stands the plain count: what an examiner gives more than the others to the same \
    pieces.";

/// The upshot in a sentence or two.
pub(super) fn upshot(agreement: &Agreement, naming: &Naming) -> String {
    let found = match &agreement.strictness {
        Ok(found) => found,
        Err(why) => return lack_words(why),
    };
    let (Some(most), Some(least)) = (found.examiners.first(), found.examiners.last()) else {
        return String::new();
    };
    let (severe, mild) = (
        naming.examiner(most.examiner),
        naming.examiner(least.examiner),
    );
    if most.differs_from(least) {
        format!("{severe} is the most severe and {mild} the mildest; that is more than chance.")
    } else {
        "No examiner can be told to be more severe than another from these pieces.".to_owned()
    }
}

pub(super) fn blocks(agreement: &Agreement, naming: &Naming) -> Vec<Block> {
    let mut blocks = vec![heading("Severity")];
    match &agreement.strictness {
        Ok(found) => {
            blocks.push(Block::Paragraph(upshot(agreement, naming)));
            blocks.push(Block::Drawings(vec![drawing(found, naming)]));
            blocks.push(Block::Paragraph(rests_on(found)));
        }
        Err(StrictnessLack::Apart(groups)) => {
            let named = groups.iter().map(|group| {
                let named: Vec<String> = group.iter().map(|one| naming.examiner(*one)).collect();
                named.join(", ")
            });
            let text = lack_words(&StrictnessLack::Apart(groups.clone()));
            blocks.push(notice(Weight::Warn, text, named.collect()));
        }
        Err(why) => blocks.push(Block::Paragraph(lack_words(why))),
    }
    if agreement.totals.pieces >= LEAST {
        blocks.push(table(agreement, naming));
    }
    blocks.push(how(HOW));
    blocks
}

fn rests_on(found: &Strictness) -> String {
    format!(
        "It rests on {} and on what is seen by eye: {}. Of each the rank of its marks counts \
         that the sheet shows: none, some, a third, two thirds, all. Pieces and criteria that \
         got all of them each time, or none, are left out.",
        counted(found.pieces, "piece", "pieces"),
        found.criteria.join("; ")
    )
}

fn lack_words(why: &StrictnessLack) -> String {
    match why {
        StrictnessLack::Pieces(count) => format!(
            "Nothing is claimed of how severe examiners are: {} of at least {LEAST} with levels \
             that tell them apart.",
            counted(*count, "piece", "pieces")
        ),
        StrictnessLack::Apart(_) => "These groups of examiners have no piece in common, not even \
            over others. What lies between one group and another cannot be told: one may be \
            milder, or its pieces better. Let somebody of each group mark the same pieces."
            .to_owned(),
        StrictnessLack::Lacking(why) => lacking(why),
    }
}

fn drawing(found: &Strictness, naming: &Naming) -> crate::chart::Drawing {
    let rows = found.examiners.iter().map(|one| IntervalRow {
        name: naming.examiner(one.examiner),
        value: one.place,
        interval: (one.interval.low, one.interval.high),
        words: format!(
            "{} ({})",
            print_signed(one.place, 2),
            between(one.interval, 2)
        ),
    });
    let rows: Vec<IntervalRow> = rows.collect();
    let said = rows.iter().map(|row| format!("{} {}", row.name, row.words));
    let description = format!(
        "In logits about the mean of all examiners, most severe first: {}. The numbers are in \
         the table below.",
        said.collect::<Vec<_>>().join("; ")
    );
    intervals(
        "How severe examiners are, with 95 % intervals".to_owned(),
        description,
        &rows,
        (0.0, "mean of all"),
        ("milder", "more severe"),
    )
}

fn table(agreement: &Agreement, naming: &Naming) -> Block {
    let found = agreement.strictness.as_ref().ok();
    let rows = agreement
        .against_others
        .iter()
        .map(|(examiner, (off, pieces))| {
            let own = found.and_then(|found| {
                let mut all = found.examiners.iter();
                all.find(|one| one.examiner == *examiner)
            });
            let off = off.map(|off| match off {
                off if off.is_negative() => format!("{} less", about(off.size())),
                off if off == Exact::ZERO => "the same".to_owned(),
                off => format!("{} more", about(off)),
            });
            let place = own.map(|one| {
                format!(
                    "{} ({})",
                    print_signed(one.place, 2),
                    between(one.interval, 2)
                )
            });
            let odds = own.map(|one| print_figure(one.place.exp(), 2));
            vec![
                Cell::text(naming.examiner(*examiner)),
                figure(pieces.to_string()),
                figure(off.unwrap_or_default()),
                figure(place.unwrap_or_default()),
                figure(odds.unwrap_or_default()),
                figure(
                    own.map(|one| print_figure(one.infit, 2))
                        .unwrap_or_default(),
                ),
            ]
        });
    Block::Table(plain_table(
        "Examiners: per cent of the marks given more or less than by others to the same pieces; \
         severity in logits with its 95 % interval, and by how much it divides the odds of each \
         higher level"
            .to_owned(),
        vec![
            text("Examiner"),
            number("Pieces"),
            number("Beside others"),
            number("Severity"),
            number("Divides odds by"),
            number("Fit"),
        ],
        rows.collect(),
    ))
}
