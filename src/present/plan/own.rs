//! The own record of a learner: what the ledger has of earlier pieces, their cut lengths and sizes.

use std::collections::BTreeSet;

use super::fields::{PLAN_LEARNER, PLAN_WITHOUT};
use super::typed::PlanTyped;
use crate::plan::PastPiece;
use crate::present::dates::long_day;
use crate::present::learners::{called, learner_choices};
use crate::present::makers::name_known;
use crate::present::scores::Rubrics;
use crate::present::start::sentence;
use crate::progress::{NoCutPiece, cut_piece};
use crate::quantity::{Length, Unit, counted};
use crate::records::{LearnerId, Ledger, Marking, Piece, Whom};
use crate::rubric::Rubric;

/// What the ledger has of a learner's earlier pieces.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct OwnRecord {
    /// Pieces of the same kind and stock, oldest first.
    pub rows: Vec<OwnRow>,
    /// How many of them count, and what of the rest; empty where no learner is chosen.
    pub says: Vec<String>,
}

/// One earlier piece.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OwnRow {
    /// What tells it from the others.
    pub key: String,
    /// When it was made.
    pub name: String,
    /// What was cut, and what came of it.
    pub about: String,
    /// Whether it counts.
    pub counts: bool,
    past: PastPiece,
}

impl OwnRecord {
    /// The pieces that count.
    pub(super) fn counting(&self) -> impl Iterator<Item = PastPiece> {
        let rows = self.rows.iter().filter(|row| row.counts);
        rows.map(|row| row.past)
    }
}

/// Whose pieces may count: id and name, nobody first.
pub fn plan_learners(ledger: &Ledger, typed: &PlanTyped) -> Vec<(String, String)> {
    let nobody = (String::new(), "Nobody’s from the ledger".to_owned());
    let choices = learner_choices(ledger, text(typed, PLAN_LEARNER)).into_iter();
    let choices = choices.map(|choice| (choice.id.to_string(), choice.name));
    std::iter::once(nobody).chain(choices).collect()
}

/// What is typed once the piece of this key counts, or does not.
#[must_use]
pub fn with_piece(mut typed: PlanTyped, key: &str, counts: bool) -> PlanTyped {
    let mut without = left_out(&typed);
    if counts {
        without.remove(key);
    } else {
        without.insert(key.to_owned());
    }
    let words: Vec<String> = without.into_iter().collect();
    typed.0.insert(PLAN_WITHOUT.to_owned(), words.join(" "));
    typed
}

/// The pieces of the chosen learner whose cut length and sizes are known.
///
/// *Which markings:* of a piece the one that it stands for, or else another that may be seen; one
/// that is not sealed too, but none of a piece that somebody marks unseen by others, nor what is
/// held back from its learner.
pub fn own_record(
    ledger: &Ledger,
    rubrics: &Rubrics,
    rubric: &Rubric,
    typed: &PlanTyped,
) -> OwnRecord {
    let id = text(typed, PLAN_LEARNER).parse::<LearnerId>().ok();
    let learner = id.and_then(|id| ledger.learner(id));
    let Some(learner) = learner.filter(|learner| learner.erased.is_none()) else {
        return OwnRecord::default();
    };
    let without = left_out(typed);
    let mut found = Found::default();
    let pieces = ledger.pieces_of(learner.id);
    let mut pieces: Vec<&Piece> = pieces.filter(|piece| name_known(ledger, piece)).collect();
    let day = |piece: &Piece| Some(ledger.sitting(piece.sitting)?.day);
    pieces.sort_by_key(|piece| (day(piece), piece.id));
    for piece in pieces {
        let name = day(piece).map_or_else(|| "A day that is not known".to_owned(), long_day);
        match past_of(ledger, rubrics, piece, rubric.unit) {
            None => found.without_cut += 1,
            Some(Err(why)) => found.unusable.push(sentence(&format!("{name}: {why}"))),
            Some(Ok((past, _))) if !past.is_like(&rubric.piece) => found.unlike += 1,
            Some(Ok((past, is_sealed))) => {
                let key = piece.id.to_string();
                found.rows.push(OwnRow {
                    counts: !without.contains(&key),
                    about: about(&past, is_sealed, rubric.unit),
                    key,
                    name,
                    past,
                });
            }
        }
    }
    OwnRecord {
        says: found.says(&called(learner)),
        rows: found.rows,
    }
}

/// What the pieces of a learner come to.
#[derive(Default)]
struct Found {
    rows: Vec<OwnRow>,
    unusable: Vec<String>,
    unlike: usize,
    without_cut: usize,
}

impl Found {
    fn says(&self, learner: &str) -> Vec<String> {
        let counting = self.rows.iter().filter(|row| row.counts).count();
        let of = counted(self.rows.len(), "piece", "pieces");
        let mut says = vec![format!(
            "{counting} of {of} by {learner} of this kind and stock count."
        )];
        says.extend(self.unusable.iter().cloned());
        if self.unlike > 0 {
            let pieces = counted(self.unlike, "piece is", "pieces are");
            says.push(format!("{pieces} of another kind or stock."));
        }
        if self.without_cut > 0 {
            let pieces = counted(self.without_cut, "piece has", "pieces have");
            says.push(format!(
                "{pieces} no cut length that may be seen; it is entered in the heat log."
            ));
        }
        says
    }
}

/// What a piece was cut from, and whether its marking is sealed; why its cut cannot be used, or
/// `None` where none is noted.
fn past_of(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: &Piece,
    unit: Unit,
) -> Option<Result<(PastPiece, bool), String>> {
    let mut fault = None;
    for marking in seen(ledger, piece) {
        let rubric = ledger.rubric(&marking.rubric);
        let Some(rubric) = rubric.and_then(|rubric| rubrics.get(rubric)) else {
            continue;
        };
        let made = match cut_piece(&rubric, &marking.facts) {
            Ok(made) => {
                let past = PastPiece::of(&rubric.piece, made.cut, made.width, made.length);
                let checked = past.check().map_err(|fault| fault.words(unit));
                checked.map(|()| (past, marking.seal.is_some()))
            }
            Err(NoCutPiece::NotNoted) => continue,
            Err(why) => Err(why_not(&why)),
        };
        if made.is_ok() {
            return Some(made);
        }
        fault = fault.or(Some(made));
    }
    fault
}

/// The markings of a piece that may be seen, the one that it stands for first.
fn seen<'a>(ledger: &'a Ledger, piece: &Piece) -> Vec<&'a Marking> {
    let standing = ledger.standing_for(piece.id, Whom::Learner);
    if standing.is_apart() {
        return Vec::new();
    }
    let sealed = standing.sealed().iter().rev();
    let drafts = standing.drafts().iter().rev();
    let drafts = drafts.filter(|draft| ledger.is_released(draft, Whom::Learner));
    let first = standing.counts();
    first
        .into_iter()
        .chain(sealed.chain(drafts).copied())
        .collect()
}

fn why_not(why: &NoCutPiece) -> String {
    match why {
        NoCutPiece::NotNoted => "no cut length is noted".to_owned(),
        NoCutPiece::Unread(why) => why.clone(),
        NoCutPiece::NotMeasured {
            has_width,
            has_length,
        } => {
            let lacks = match (has_width, has_length) {
                (true, _) => "length",
                (_, true) => "width",
                _ => "width and length",
            };
            format!("its finished {lacks} was not measured as a number, so it does not count")
        }
    }
}

fn about(past: &PastPiece, is_sealed: bool, unit: Unit) -> String {
    let say = |length: Length| length.quantity().print(unit);
    let end = if is_sealed { "" } else { ", not sealed yet" };
    format!(
        "cut {}, came out {} by {}{end}",
        say(past.cut),
        say(past.width),
        say(past.length)
    )
}

fn left_out(typed: &PlanTyped) -> BTreeSet<String> {
    let words = text(typed, PLAN_WITHOUT).split_whitespace();
    words.map(str::to_owned).collect()
}

fn text<'a>(typed: &'a PlanTyped, id: &str) -> &'a str {
    typed.0.get(id).map_or("", String::as_str)
}
