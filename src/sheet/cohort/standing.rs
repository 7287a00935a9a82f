use super::{PersonShown, pieces};
use crate::cohort::{Alike, Cohort, Stand, Standing, stand};
use crate::figures::trend::LEAST_PIECES;
use crate::quantity::print_signed;
use crate::sheet::capital;
use crate::sheet::document::{Block, Cell, Group, Table, figure, number, text};
use crate::sheet::learner::roughly;
use crate::sheet::scored::heading;

/// How standing is decided.
pub(in crate::sheet) const HOW: &str = "Pieces are kept apart by what they were made for, timed and \
    untimed, and only those by the version of the rubric that the latest was marked by count. \
    What stands are the pieces made last of which five were made alike; with fewer, too few. \
    Ready: the next such piece passes with a probability of at least 80 %, by a straight line \
    through the logits of the marks (Student’s t; Draper and Smith, Applied Regression \
    Analysis, 1998); where all lie on one line and reach the pass mark, ready too. Stalled: \
    not ready, and no rise can be told over the latest 8 or fewer: the 80 % interval of the \
    median slope between pairs of pieces holds no rise (Sen, J. Am. Stat. Assoc. 63, 1968, \
    1379). On the way: the others. The limits of 80 % and of 8 pieces are a rule of our own, \
    without a source. Minimums of sections and stops are not in it.";

/// How each learner stands, in the order of the cohort.
pub(super) fn people(cohort: &Cohort) -> Vec<PersonShown> {
    let people = cohort.people.iter().map(|person| {
        let stand = stand(&person.pieces);
        PersonShown {
            id: person.id,
            standing: stand.standing,
            pieces: stand.pieces,
            reason: reason(&stand),
        }
    });
    people.collect()
}

/// Why a learner stands so, in a sentence or two.
pub(in crate::sheet) fn reason(stand: &Stand) -> String {
    let Some(alike) = &stand.alike else {
        return match stand.pieces {
            0 => "No piece of theirs was marked as a whole by an examiner yet.".to_owned(),
            count if count < LEAST_PIECES => format!(
                "{} so far. Nothing is said before there are {LEAST_PIECES} made alike.",
                pieces(count)
            ),
            count => format!(
                "{}, but no {LEAST_PIECES} of them were made alike: for one purpose, timed or \
                 untimed, by the latest version of the rubric.",
                pieces(count)
            ),
        };
    };
    let chance = chance(alike);
    let rise = rise(alike);
    match stand.standing {
        Standing::Ready => chance,
        _ => format!("{rise} {chance}"),
    }
}

fn kind(alike: &Alike) -> String {
    let timed = if alike.is_timed { "timed" } else { "untimed" };
    format!("{timed} {}", alike.sitting.word())
}

fn chance(alike: &Alike) -> String {
    match &alike.next {
        Ok(next) => format!(
            "The next {} piece, made as these {} were, passes with a probability of {}.",
            kind(alike),
            pieces(alike.pieces),
            roughly(next.passes)
        ),
        Err(_) if alike.all_reach => format!(
            "The marks of the {} {} pieces lie on one line, and the latest {} all reach the pass \
             mark.",
            alike.pieces,
            kind(alike),
            alike.window
        ),
        Err(_) => format!(
            "The marks of the {} {} pieces lie on one line exactly, so nothing is said of the \
             next one.",
            alike.pieces,
            kind(alike)
        ),
    }
}

fn rise(alike: &Alike) -> String {
    let over = format!("Over the latest {} {} pieces", alike.window, kind(alike));
    let Ok(rise) = &alike.rise else {
        return format!("{over} nothing can be told of a rise.");
    };
    let percent = |share: f64| print_signed(share * 100.0, 1);
    let (low, high) = (percent(rise.interval.low), percent(rise.interval.high));
    if rise.interval.low > 0.0 {
        format!("{over} marks rise: between {low} and {high} per cent of the marks a piece.")
    } else {
        format!(
            "{over} no rise can be told: it lies between {low} and {high} per cent of the marks \
             a piece."
        )
    }
}

/// Who is ready, has stalled, has too few pieces, is on the way, each with the reason.
pub(super) fn blocks(cohort: &Cohort, people: &[PersonShown]) -> Vec<Block> {
    if people.is_empty() {
        return Vec::new();
    }
    let groups = Standing::ALL.iter().filter_map(|standing| {
        let named = cohort.people.iter().zip(people);
        let those = named.filter(|(_, shown)| shown.standing == *standing);
        let rows: Vec<Vec<Cell>> = those
            .map(|(person, shown)| {
                vec![
                    Cell::text(person.name.clone()),
                    figure(shown.pieces.to_string()),
                    Cell::text(shown.reason.clone()),
                ]
            })
            .collect();
        (!rows.is_empty()).then(|| Group {
            heading: format!("{}: {}", capital(standing.word()), rows.len()),
            rows,
        })
    });
    vec![
        heading("How each learner stands"),
        Block::Table(Table {
            caption: "Standing of each learner, with the reason".to_owned(),
            columns: vec![text("Learner"), number("Pieces"), text("Why")],
            groups: groups.collect(),
            foot: Vec::new(),
        }),
    ]
}
