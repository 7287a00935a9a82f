//! Criterion by criterion, most trouble first.

use super::how;
use super::naming::Naming;
use super::pairs::{self, Unit};
use super::words::{about, between, lacking, with_interval};
use crate::figures::Lacking;
use crate::moderation::{
    CriterionAgreement, CriterionFigures, JudgedFigures, LEAST, ReadingFigures, TENTATIVE,
};
use crate::quantity::{counted, print_figure};
use crate::sheet::document::{Block, Cell, figure, number, plain_table, text};
use crate::sheet::scored::heading;

const ORDER: &str = "The criterion on which two examiners of one piece lie most marks apart comes \
    first: so much it costs a candidate to have the one and not the other. Marks are those of the \
    criterion with its weight, before a section is scaled or capped.";
const HOW: &str = "of measured criteria s is the standard deviation of examiners’ values about \
    the mean of a piece (reproducibility, ISO 5725-2), its interval by chi-squared; two readings \
    of one piece differ by at most 2.8 s in 19 of 20 cases (ISO 5725-6). Repeats are those of one \
    examiner at one place (repeatability). Of judged criteria alpha is Krippendorff’s for levels \
    in an order, 1 less the disagreement seen over that by chance (Krippendorff 2018, chapter \
    12), its interval by drawing pieces anew 1000 times; from 0.80 on it is called reliable \
    there, from 0.667 on good for tentative conclusions. Kappa is Cohen’s, levels further apart \
    counting more (linear weights, Cicchetti and Allison 1971), and is given where just two \
    examiners judged.";
/// Measured criteria of which pairs are drawn.
const DRAWN: usize = 2;

pub(super) fn blocks(criteria: &[CriterionAgreement], naming: &Naming) -> Vec<Block> {
    let rows = criteria.iter().map(row);
    let table = plain_table(
        "Criteria, most trouble first".to_owned(),
        vec![
            text("Criterion"),
            number("Pieces"),
            number("Marks apart"),
            text("Same marks"),
            text("Figures"),
            text("What it says"),
        ],
        rows.collect(),
    );
    let mut blocks = vec![
        heading("Criteria, by trouble"),
        Block::Paragraph(ORDER.to_owned()),
        Block::Table(table),
        how(HOW),
    ];
    let measured = criteria.iter().filter_map(|one| match &one.figures {
        CriterionFigures::Measured(readings) if !readings.pairs.is_empty() => Some((one, readings)),
        _ => None,
    });
    let troubled = measured.filter(|(one, _)| one.apart.is_some_and(|apart| !apart.is_zero()));
    for (one, readings) in troubled.take(DRAWN) {
        blocks.push(Block::Heading {
            level: 3,
            text: format!("{}: the readings of two examiners", one.name),
        });
        let unit = Unit {
            name: unit_name(readings),
            places: 2,
        };
        let first = readings.pairs.get(..1).unwrap_or_default();
        blocks.extend(pairs::blocks(first, &one.name, &unit, naming));
    }
    blocks
}

fn unit_name(readings: &ReadingFigures) -> &'static str {
    match readings.dimension.usual_unit().symbol() {
        "" => "in number",
        symbol => symbol,
    }
}

fn row(one: &CriterionAgreement) -> Vec<Cell> {
    let (figures, says) = match &one.figures {
        CriterionFigures::Measured(readings) => measured_words(readings),
        CriterionFigures::Judged(judged) => judged_words(judged),
        CriterionFigures::Counted => (
            String::new(),
            "Counted or noted: the marks alone are compared.".to_owned(),
        ),
    };
    let apart = one.apart.map_or_else(String::new, |apart| {
        format!("{} of {}", about(apart), one.out_of)
    });
    let same = format!("{} of {} pairs", one.same, one.pairs);
    vec![
        Cell::text(one.name.clone()),
        figure(one.pieces.to_string()),
        figure(apart),
        Cell::text(if one.pairs > 0 { same } else { String::new() }),
        Cell::text(figures),
        Cell::text(says),
    ]
}

fn measured_words(readings: &ReadingFigures) -> (String, String) {
    let unit = unit_name(readings);
    let within = match &readings.between {
        Ok(within) => within,
        Err(why) => return (String::new(), no_readings(readings, why)),
    };
    let mut figures = format!(
        "s {} {unit} ({})",
        print_figure(within.deviation, 2),
        between(within.interval, 2)
    );
    if let Ok(repeats) = &readings.repeats {
        let said = print_figure(repeats.deviation, 2);
        figures.push_str(&format!("; repeats of one examiner {said} {unit}"));
    }
    let limit = format!(
        "Two examiners read within {} {unit} of each other in 19 of 20 cases",
        print_figure(within.limit, 2)
    );
    let says = match readings.width {
        Some(width) if within.limit > width => format!(
            "{limit}; that is more than the best band is wide ({} {unit}), so who measures can \
             decide the marks.",
            print_figure(width, 2)
        ),
        Some(width) => format!(
            "{limit}; the best band is {} {unit} wide.",
            print_figure(width, 2)
        ),
        None => format!("{limit}."),
    };
    (figures, says)
}

/// Why readings are not compared.
fn no_readings(readings: &ReadingFigures, why: &Lacking) -> String {
    match why {
        Lacking::TooFew { .. } => format!(
            "Nothing is claimed: of {} two examiners have a value each, of at least {LEAST}. \
             What a feeler or a gauge tells is not compared, and neither is what was not made.",
            counted(readings.pieces, "piece", "pieces")
        ),
        why => lacking(why),
    }
}

fn judged_words(judged: &JudgedFigures) -> (String, String) {
    let alpha = match &judged.alpha {
        Ok(alpha) => *alpha,
        Err(why) => return (String::new(), lacking(why)),
    };
    let mut figures = format!("alpha {}", with_interval(alpha, &judged.interval, 2));
    if let Some(kappa) = &judged.kappa {
        let said = with_interval(kappa.value, &Ok(kappa.interval), 2);
        figures.push_str(&format!("; kappa {said}"));
    }
    let says = match alpha {
        alpha if alpha >= 0.8 => "Examiners give the same levels: reliable.",
        alpha if alpha >= TENTATIVE => {
            "Examiners mostly give the same levels: good for tentative \
            conclusions."
        }
        alpha if alpha > 0.0 => "Examiners read the levels differently: look at the descriptors.",
        _ => "Levels agree no better than by chance: look at the descriptors.",
    };
    let doubt = judged
        .interval
        .as_ref()
        .is_ok_and(|interval| alpha >= TENTATIVE && interval.low < TENTATIVE);
    let doubt = if doubt {
        " By its interval the pieces are too few to be sure of that."
    } else {
        ""
    };
    (figures, format!("{says}{doubt}"))
}
