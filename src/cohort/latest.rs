use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::group::{Group, members};
use crate::records::{
    Day, LearnerId, Ledger, Marking, Piece, Role, RubricVersion, Sitting, Span, Whom,
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
    dated.into_iter().filter_map(move |(day, piece)| {
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
    })
}

/// How many pieces of the group are marked by the rubric and held back from learners.
pub fn held_pieces(ledger: &Ledger, asked: &Asked) -> usize {
    // Sittings that wait are few: the others are passed over without a look at markings.
    if !ledger.sittings().any(Sitting::is_held) {
        return 0;
    }
    let is_held = |piece: &&Piece| {
        let sitting = ledger.sitting(piece.sitting);
        let version = ledger.rubric(&piece.rubric);
        version.is_some_and(|version| version.rubric_id == asked.rubric)
            && sitting.is_some_and(|sitting| asked.span.holds(sitting.day))
            && ledger.is_held(piece.id, Whom::Learner)
            && ledger.standing_for(piece.id, Whom::Learner).is_held()
    };
    let members = members(ledger, asked.group);
    let pieces = members
        .iter()
        .flat_map(|learner| ledger.pieces_of(learner.id));
    pieces.filter(is_held).count()
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
    let members = members(ledger, asked.group);
    let last = members
        .iter()
        .filter_map(|learner| stood(ledger, read, asked, learner.id).next());
    let last = last.max_by_key(|stood| (stood.day, stood.piece.id))?;
    Some(last.rubric)
}
