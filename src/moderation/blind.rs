//! Which markings may tell whether examiners agree.

use std::collections::{BTreeMap, BTreeSet};

use crate::marking::{self, mark_in};
use crate::quantity::Exact;
use crate::records::{Day, ExaminerId, Ledger, Marking, Piece, Span};
use crate::rubric::Rubric;

/// A version of a rubric by which pieces were marked by two examiners or more.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offer {
    /// Its digest.
    pub digest: String,
    /// The rubric's own id.
    pub rubric_id: String,
    /// Its title.
    pub title: String,
    /// The version as it names itself.
    pub version: String,
    /// How many pieces two examiners or more marked.
    pub pieces: usize,
    /// The latest day on which such a piece was made.
    pub latest: Day,
}

/// What one examiner gave to a piece.
#[derive(Debug, Clone)]
pub struct By<'a> {
    /// Who.
    pub examiner: ExaminerId,
    /// The marking.
    pub marking: &'a Marking,
    /// What its facts come to, whoever else has marked.
    pub outcome: marking::Marking,
}

/// A piece with all that was given to it apart.
#[derive(Debug, Clone)]
pub struct Seen<'a> {
    /// Which.
    pub piece: &'a Piece,
    /// When it was made.
    pub day: Day,
    /// By the id of the examiner.
    pub by: Vec<By<'a>>,
}

/// The blind first markings of one version of a rubric.
#[derive(Debug, Clone)]
pub struct Gathered<'a> {
    /// The rubric.
    pub rubric: &'a Rubric,
    /// Who marked a piece that somebody else marked too, by id.
    pub examiners: Vec<ExaminerId>,
    /// Pieces that two examiners or more marked, oldest first.
    pub twice: Vec<Seen<'a>>,
    /// Pieces that one examiner marked alone, oldest first.
    pub once: Vec<Seen<'a>>,
}

/// The blind first markings of a piece, by the id of the examiner.
///
/// Each examiner has one: the first that they sealed as an examiner of their own, before
/// any correction of it. None while a blind marking of the piece is open, as what is sealed
/// may not be seen then.
pub fn blind_firsts<'a>(ledger: &'a Ledger, piece: &Piece) -> Vec<&'a Marking> {
    if ledger.standing(piece.id).is_unseen() {
        return Vec::new();
    }
    let mut firsts: BTreeMap<ExaminerId, &Marking> = BTreeMap::new();
    for marking in ledger.markings_of(piece.id) {
        let by_rubric = marking.rubric == piece.rubric;
        if !marking.role.is_examiners() || marking.replaces.is_some() || !by_rubric {
            continue;
        }
        let Some(sealed) = sealed_at(marking) else {
            continue;
        };
        let first = firsts.entry(marking.examiner).or_insert(marking);
        if Some(sealed) < sealed_at(first) {
            *first = marking;
        }
    }
    firsts.into_values().collect()
}

fn sealed_at(marking: &Marking) -> Option<(i64, crate::records::MarkingId)> {
    let seal = marking.seal.as_ref()?;
    Some((seal.at.utc_ms(), marking.id))
}

/// The versions of rubrics that several examiners marked pieces by: those of the rubric
/// with most such pieces first, its latest version before older ones.
///
/// *Cost:* looks at each marking once and marks nothing.
pub fn offers(ledger: &Ledger) -> Vec<Offer> {
    let mut found: BTreeMap<&str, (usize, Day)> = BTreeMap::new();
    for piece in ledger.pieces() {
        let Some(sitting) = ledger.sitting(piece.sitting) else {
            continue;
        };
        if blind_firsts(ledger, piece).len() > 1 {
            let (count, latest) = found.entry(&piece.rubric).or_insert((0, sitting.day));
            *count += 1;
            *latest = (*latest).max(sitting.day);
        }
    }
    let offer = |(digest, (pieces, latest)): (&str, (usize, Day))| {
        let version = ledger.rubric(digest)?;
        Some(Offer {
            digest: digest.to_owned(),
            rubric_id: version.rubric_id.clone(),
            title: version.title.clone(),
            version: version.version.clone(),
            pieces,
            latest,
        })
    };
    let mut offers: Vec<Offer> = found.into_iter().filter_map(offer).collect();
    let mut of_rubric: BTreeMap<String, usize> = BTreeMap::new();
    for offer in &offers {
        *of_rubric.entry(offer.rubric_id.clone()).or_default() += offer.pieces;
    }
    let all = |offer: &Offer| of_rubric.get(&offer.rubric_id).copied().unwrap_or(0);
    offers.sort_by(|a, b| {
        let rubrics = all(b).cmp(&all(a)).then(a.rubric_id.cmp(&b.rubric_id));
        rubrics
            .then(b.latest.cmp(&a.latest))
            .then(a.digest.cmp(&b.digest))
    });
    offers
}

impl<'a> Gathered<'a> {
    /// Those of the pieces that were made to the rubric text with this `digest`, in sittings
    /// of these days. `rubric` is that text, read.
    pub fn of(ledger: &'a Ledger, rubric: &'a Rubric, digest: &str, span: Span) -> Self {
        let mut seen: Vec<Seen<'_>> = ledger
            .pieces()
            .filter(|piece| piece.rubric == digest)
            .filter_map(|piece| seen(ledger, rubric, piece, span))
            .collect();
        seen.sort_by_key(|seen| (seen.day, seen.piece.id));
        let (twice, once): (Vec<_>, Vec<_>) = seen.into_iter().partition(|seen| seen.by.len() > 1);
        let examiners = twice.iter().flat_map(|seen| &seen.by).map(|by| by.examiner);
        let examiners: BTreeSet<ExaminerId> = examiners.collect();
        Self {
            rubric,
            examiners: examiners.into_iter().collect(),
            twice,
            once,
        }
    }

    /// Pieces by examiners: a row to each piece marked twice or more, a column to each
    /// examiner, and nothing where an examiner gave none of it.
    pub fn rows(&self, give: impl Fn(&By<'_>) -> Option<f64>) -> Vec<Vec<Option<f64>>> {
        let cell = |seen: &Seen<'_>, examiner: &ExaminerId| seen.by(*examiner).and_then(&give);
        let row = |seen| self.examiners.iter().map(|one| cell(seen, one)).collect();
        self.twice.iter().map(row).collect()
    }

    /// The rows of [`Gathered::rows`] in which two cells or more are filled.
    pub fn filled_rows(&self, give: impl Fn(&By<'_>) -> Option<f64>) -> Vec<Vec<Option<f64>>> {
        let mut rows = self.rows(give);
        rows.retain(|row| row.iter().flatten().count() > 1);
        rows
    }
}

impl<'a> Seen<'a> {
    /// What this examiner gave.
    pub fn by(&self, examiner: ExaminerId) -> Option<&By<'a>> {
        self.by.iter().find(|by| by.examiner == examiner)
    }

    /// How far apart two examiners were on the mean over all pairs of them, by what `give`
    /// says of each; nothing where fewer than two have any.
    pub fn mean_apart(&self, give: impl Fn(&By<'_>) -> Option<Exact>) -> Option<Exact> {
        let given: Vec<Exact> = self.by.iter().filter_map(give).collect();
        let apart = pairs(&given).map(|(one, other)| one.minus(*other).map(Exact::size));
        let apart: Vec<Exact> = apart.collect::<Option<_>>()?;
        Exact::mean(&apart)
    }

    /// The mean of the totals given, in shares of what could be had; nothing where no
    /// marking is whole.
    pub fn mean_share(&self) -> Option<Exact> {
        let shares: Vec<Exact> = self.by.iter().filter_map(By::share).collect();
        Exact::mean(&shares)
    }
}

impl By<'_> {
    /// The total in per cent of what could be had; nothing of a marking that is not whole.
    pub fn percent(&self) -> Option<Exact> {
        let whole = Some(&self.outcome).filter(|outcome| outcome.complete);
        whole.map(|outcome| outcome.percent)
    }

    /// The same as a share.
    pub fn share(&self) -> Option<Exact> {
        self.percent()?.over(Exact::HUNDRED)
    }
}

/// Every pair of two, each once.
pub(super) fn pairs<T>(all: &[T]) -> impl Iterator<Item = (&T, &T)> {
    let rest = |at: usize| all.iter().skip(at + 1);
    all.iter()
        .enumerate()
        .flat_map(move |(at, one)| rest(at).map(move |other| (one, other)))
}

fn seen<'a>(ledger: &'a Ledger, rubric: &Rubric, piece: &'a Piece, span: Span) -> Option<Seen<'a>> {
    let day = ledger.sitting(piece.sitting)?.day;
    let firsts = Some(blind_firsts(ledger, piece)).filter(|_| span.holds(day))?;
    let by = firsts.into_iter().map(|marking| By {
        examiner: marking.examiner,
        marking,
        outcome: mark_in(rubric, &marking.facts, marking.unit),
    });
    let by: Vec<By<'_>> = by.collect();
    (!by.is_empty()).then_some(Seen { piece, day, by })
}
