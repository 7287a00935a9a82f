use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::group::Group;
use crate::records::{
    Day, LearnerId, Ledger, Marking, Piece, Role, RubricVersion, SittingId, Span, Whom,
};
use crate::rubric::Rubric;

/// How the text of a rubric is read; `None` where it cannot be.
pub type Read<'a> = &'a dyn Fn(&RubricVersion) -> Option<Arc<Rubric>>;

/// What is asked about a cohort.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Asked {
    /// The rubric's own id, in any version.
    pub rubric: String,
    /// Whose pieces.
    pub group: Group,
    /// How many of the latest pieces stand for a learner, at least 1.
    pub latest: usize,
    /// The days whose pieces count.
    pub span: Span,
    /// Another group to compare with; `None` for none.
    pub other: Option<Group>,
    /// Who looks: what is held back from learners is left out for them.
    pub whom: Whom,
}

/// A piece with the marking that it stands for.
#[derive(Debug, Clone)]
pub(super) struct Stood<'a> {
    pub piece: &'a Piece,
    pub marking: &'a Marking,
    pub rubric: Arc<Rubric>,
    pub day: Day,
}

/// The pieces of one learner by the rubric that is asked about, the one made last first, as
/// examiners marked them. They are looked up one by one: who takes only a few pays only for
/// those.
pub(super) fn stood<'a>(
    ledger: &'a Ledger,
    read: Read<'a>,
    asked: &'a Asked,
    learner: LearnerId,
) -> impl Iterator<Item = Stood<'a>> {
    let pieces = ledger.pieces_of(learner);
    let dated = pieces.filter_map(|piece| Some((ledger.sitting(piece.sitting)?.day, piece)));
    let mut dated: Vec<(Day, &Piece)> = dated.filter(|(day, _)| asked.span.holds(*day)).collect();
    dated.sort_by_key(|(day, piece)| Reverse((*day, piece.id)));
    dated
        .into_iter()
        .filter_map(move |(day, piece)| stands(ledger, read, asked, day, piece))
}

/// A piece made on `day` with the marking that it stands for, where that is an examiner's by
/// the rubric that is asked about.
fn stands<'a>(
    ledger: &'a Ledger,
    read: Read<'_>,
    asked: &Asked,
    day: Day,
    piece: &'a Piece,
) -> Option<Stood<'a>> {
    // What counts is sealed, so its maker's name is known by now.
    let marking = ledger.standing_for(piece.id, asked.whom).counts()?;
    let version = ledger.rubric(&marking.rubric)?;
    let is_asked = marking.role != Role::Own && version.rubric_id == asked.rubric;
    let rubric = is_asked.then(|| read(version)).flatten()?;
    Some(Stood {
        piece,
        marking,
        rubric,
        day,
    })
}

/// Whether a piece was made by somebody of the group.
fn is_of(ledger: &Ledger, group: Group, piece: &Piece) -> bool {
    let learner = piece.learner.and_then(|id| ledger.learner(id));
    learner.is_some_and(|learner| group.holds(learner))
}

/// How many pieces of the group are marked by the rubric and held back from learners.
pub fn held_pieces(ledger: &Ledger, asked: &Asked) -> usize {
    // Sittings that wait are few: their pieces are told from the others before anything else.
    let held = ledger.sittings().filter(|sitting| sitting.is_held());
    let held = held.filter(|sitting| asked.span.holds(sitting.day));
    let held: BTreeSet<SittingId> = held.map(|sitting| sitting.id).collect();
    if held.is_empty() {
        return 0;
    }
    let is_held = |piece: &&Piece| {
        let version = ledger.rubric(&piece.rubric);
        held.contains(&piece.sitting)
            && version.is_some_and(|version| version.rubric_id == asked.rubric)
            && is_of(ledger, asked.group, piece)
            && ledger.standing_for(piece.id, Whom::Learner).is_held()
    };
    ledger.pieces().filter(is_held).count()
}

/// The rubrics that pieces are made to, by their own ids, with the latest title and how many
/// pieces; that with most pieces first.
pub fn used_rubrics(ledger: &Ledger) -> Vec<(String, String, usize)> {
    let mut by_digest: BTreeMap<&str, usize> = BTreeMap::new();
    for piece in ledger.pieces() {
        *by_digest.entry(&piece.rubric).or_default() += 1;
    }
    let mut used: BTreeMap<&str, (&RubricVersion, usize)> = BTreeMap::new();
    for (digest, count) in by_digest {
        let Some(version) = ledger.rubric(digest) else {
            continue;
        };
        let kept = used.entry(&version.rubric_id).or_insert((version, 0));
        kept.1 += count;
        if kept.0.stamp < version.stamp {
            kept.0 = version;
        }
    }
    let mut used: Vec<_> = used
        .into_iter()
        .map(|(id, (version, count))| (id.to_owned(), version.title.clone(), count))
        .collect();
    used.sort_by(|one, other| (Reverse(one.2), &one.0).cmp(&(Reverse(other.2), &other.0)));
    used
}

/// The rubric as the piece of the group that was made last was marked by it; `None` where no
/// piece counts.
pub fn made_last(ledger: &Ledger, read: Read<'_>, asked: &Asked) -> Option<Arc<Rubric>> {
    let mut last: Option<Stood<'_>> = None;
    for piece in ledger.pieces() {
        let Some(sitting) = ledger.sitting(piece.sitting) else {
            continue;
        };
        let day = sitting.day;
        let is_later = last
            .as_ref()
            .is_none_or(|last| (last.day, last.piece.id) < (day, piece.id));
        // Most pieces are passed over here, before a look at their markings.
        if is_later && asked.span.holds(day) && is_of(ledger, asked.group, piece) {
            last = stands(ledger, read, asked, day, piece).or(last);
        }
    }
    last.map(|last| last.rubric)
}
