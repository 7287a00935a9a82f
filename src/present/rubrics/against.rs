//! A rubric held against another, and against an old piece.

use super::super::makers::maker_name;
use super::super::offers::Offer;
use super::super::scored::sheet_marking;
use super::super::scores::Rubrics;
use super::list::{text_of, title_of};
use crate::records::{Ledger, PieceId};
use crate::rubric::edit::{Outline, Path, compare};
use crate::rubric::read_rubric;
use crate::sheet::{Document, compared, tried};

/// What changed from the rubric `other` to the rubric `key`; `None` where one of them is
/// not there or cannot be read.
pub fn compare_page(
    ledger: &Ledger,
    shipped: &[Offer],
    key: &str,
    other: &str,
) -> Option<Document> {
    let after = text_of(ledger, shipped, key)?;
    let before = text_of(ledger, shipped, other)?;
    let differences = compare(&before, &after).ok()?;
    Some(compared(&named(&before), &named(&after), &differences))
}

/// `Straight bar shoe, version 2`.
fn named(text: &str) -> String {
    let outline = Outline::of(text).ok();
    let version = outline.and_then(|outline| outline.text(&Path::root().key("version")));
    format!(
        "{}, version {}",
        title_of(text),
        version.unwrap_or_default()
    )
}

/// Why a rubric is not tried on a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoTrial {
    /// Rubric or piece are not there.
    Lost,
    /// The rubric has something to mend first.
    NotReady,
    /// The piece is marked unseen by several, and not all of it is sealed.
    Unseen,
}

/// The marking that `piece` stands for, marked by the rubric `key` as well.
pub fn try_page(
    ledger: &Ledger,
    rubrics: &Rubrics,
    shipped: &[Offer],
    key: &str,
    piece: PieceId,
) -> Result<Document, NoTrial> {
    let text = text_of(ledger, shipped, key).ok_or(NoTrial::Lost)?;
    let new = read_rubric(&text).rubric.ok_or(NoTrial::NotReady)?;
    let piece = ledger.piece(piece).ok_or(NoTrial::Lost)?;
    if ledger.standing(piece.id).is_apart() {
        return Err(NoTrial::Unseen);
    }
    let marking = sheet_marking(ledger, piece).ok_or(NoTrial::Lost)?;
    let kept = ledger.rubric(&marking.rubric).ok_or(NoTrial::Lost)?;
    let old = rubrics.get(kept).ok_or(NoTrial::Lost)?;
    let whose = maker_name(ledger, piece);
    Ok(tried(&whose, &old, &new, &marking.facts, marking.unit))
}
