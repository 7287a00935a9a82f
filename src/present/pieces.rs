use super::dates::{when, when_clock};
use super::makers::{about, maker_name};
use super::scores::{Rubrics, Score};
use crate::marking::Facts;
use crate::records::{Ledger, Marking, Moment, Piece, PieceId};

/// One piece in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceRow {
    /// Which.
    pub piece: PieceId,
    /// Whether its marking is sealed: its sheet is shown, else the mark sheet.
    pub sealed: bool,
    /// What the row is called.
    pub title: String,
    /// What piece it is, and on which day.
    pub about: String,
    /// How it stands.
    pub now: String,
    /// Marks, and how many they are of; `None` where there are none to show.
    pub marks: Option<(String, String)>,
}

/// The row of a draft, called by its maker.
pub(super) fn draft_row(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: &Piece,
    marking: &Marking,
    now: Moment,
) -> PieceRow {
    let score = rubrics.score(ledger, marking);
    let missing = score.as_ref().map(|score| match score.missing {
        0 => "nothing missing".to_owned(),
        missing => format!("{missing} missing"),
    });
    let examiner = ledger
        .examiner(marking.examiner)
        .map(|examiner| format!("by {}", examiner.name));
    let parts = [
        Some(typed(marking)),
        missing,
        Some(format!(
            "saved {}",
            when_clock(last_written(marking, now), now)
        )),
        examiner,
    ];
    PieceRow {
        piece: piece.id,
        sealed: false,
        title: maker_name(ledger, piece),
        about: about(ledger, piece),
        now: parts.into_iter().flatten().collect::<Vec<_>>().join(", "),
        marks: score.map(|score| (score.marks, format!("{} so far", score.marked_out_of))),
    }
}

/// The row of a sealed marking, called by its maker or, on the maker's own page,
/// by what was made.
pub(super) fn sealed_row(
    ledger: &Ledger,
    piece: &Piece,
    score: Option<Score>,
    by_maker: bool,
    now: Moment,
) -> PieceRow {
    let day = ledger
        .sitting(piece.sitting)
        .map(|sitting| when(sitting.day, now.day()));
    let about = about(ledger, piece);
    let (title, about) = if by_maker {
        (maker_name(ledger, piece), about)
    } else {
        let (title, rest) = about.split_once(", ").unwrap_or((&about, ""));
        (title.to_owned(), rest.to_owned())
    };
    let parts = [Some(about).filter(|text| !text.is_empty()), day];
    PieceRow {
        piece: piece.id,
        sealed: true,
        title,
        about: parts.into_iter().flatten().collect::<Vec<_>>().join(", "),
        now: score
            .as_ref()
            .map_or_else(|| "sealed".to_owned(), |score| score.award.clone()),
        marks: score.map(|score| (score.marks, score.out_of)),
    }
}

/// When a marking was last written, by the clocks of here and now.
pub(super) fn last_written(marking: &Marking, now: Moment) -> Moment {
    let ms = i64::try_from(marking.stamp.time).unwrap_or(i64::MAX);
    Moment::new(ms, now.offset_min())
}

/// How much was entered: `12 entries typed`.
fn typed(marking: &Marking) -> String {
    let Facts {
        readings,
        levels,
        tallies,
        faults,
        states,
        ..
    } = &marking.facts;
    let entries = readings.len() + levels.len() + tallies.len() + faults.len() + states.len();
    match entries {
        0 => "nothing typed yet".to_owned(),
        1 => "1 entry typed".to_owned(),
        entries => format!("{entries} entries typed"),
    }
}
