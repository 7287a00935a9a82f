use super::again::further_roles;
use super::dates::{when, when_clock};
use super::makers::{maker_name, name_known, occasion, rubric_title, set_apart};
use super::scores::{Rubrics, Score};
use crate::marking::Facts;
use crate::records::{
    Ended, Lack, Ledger, Marking, MarkingId, Moment, Piece, PieceId, Role, Stamp, Whom,
};
use crate::sheet::capital;

/// One piece in a list.
#[derive(Debug, Clone, PartialEq)]
pub struct PieceRow {
    /// Which.
    pub piece: PieceId,
    /// Whether its marking is sealed: its sheet is shown, else the mark sheet.
    pub sealed: bool,
    /// The draft that the row is of, where the piece has several.
    pub draft: Option<MarkingId>,
    /// What the row is called.
    pub title: String,
    /// What piece it is, and on which day.
    pub about: String,
    /// How it stands.
    pub now: String,
    /// Marks, and how many they are of; `None` where there are none to show.
    pub marks: Option<(String, String)>,
    /// What its examiners have to do before it has a result.
    pub next: Option<NextStep>,
    /// Where the row leads.
    pub leads: Leads,
}

/// Where a row leads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leads {
    /// To its piece, as it stands.
    Piece,
    /// To its maker's own sheet: what examiners gave is held back.
    Own(MarkingId),
    /// Nowhere, for the same reason.
    Nowhere,
}

/// What the examiners of a piece have to do next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NextStep {
    /// One more marks it, in the role of this word.
    Mark(&'static str),
    /// They agree.
    Agree,
}

impl NextStep {
    fn of(ledger: &Ledger, piece: PieceId, lack: Lack) -> Option<Self> {
        match lack {
            Lack::Agreement { .. } | Lack::Replaced => Some(Self::Agree),
            Lack::Examiners { .. } | Lack::Third => {
                let roles = further_roles(ledger, piece);
                let role = roles.into_iter().find(|role| role.is_examiners())?;
                Some(Self::Mark(role.word()))
            }
        }
    }

    /// What the way there is called.
    pub fn words(self) -> &'static str {
        match self {
            Self::Mark("second") => "Mark as second examiner",
            Self::Mark("third") => "Mark as third examiner",
            Self::Mark(_) => "Mark as examiner",
            Self::Agree => "Agree on one marking",
        }
    }
}

/// What a row is called by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Called {
    /// Whose the piece is.
    ByMaker,
    /// What it is made to, as on its maker's own page.
    ByRubric,
}

/// Name and description of a row, the latter with `more` at its end.
fn head(ledger: &Ledger, piece: &Piece, called: Called, more: Option<String>) -> (String, String) {
    let title = rubric_title(ledger, piece).to_owned();
    let occasion = Some(occasion(ledger, piece)).filter(|text| !text.is_empty());
    let (name, first) = match called {
        Called::ByMaker => (maker_name(ledger, piece), Some(title)),
        Called::ByRubric => (title, None),
    };
    let parts: Vec<_> = [first, occasion, more].into_iter().flatten().collect();
    (name, parts.join(", "))
}

/// The row of a draft, with the marks so far that `whom` may see.
pub(super) fn draft_row(
    ledger: &Ledger,
    rubrics: &Rubrics,
    (piece, marking): (&Piece, &Marking),
    called: Called,
    now: Moment,
    whom: Whom,
) -> PieceRow {
    let on_bench = (called == Called::ByRubric).then(|| "on the bench".to_owned());
    let (title, about) = head(ledger, piece, called, on_bench);
    let entries = typed(marking);
    let score = rubrics.score(ledger, marking);
    // An own marking is not named by its maker, whom a ticket may hide.
    let examiner = match marking.role {
        Role::Own => Some("own marking".to_owned()),
        Role::Agreed => Some("agreed marking".to_owned()),
        _ => ledger
            .examiner(marking.examiner)
            .map(|examiner| format!("by {}", set_apart(&examiner.name))),
    };
    let standing = ledger.standing(piece.id);
    let parts = [
        ended_words(ledger, piece),
        Some(far_words(entries, score.as_ref())),
        Some(format!(
            "saved {}",
            when_clock(last_written(&marking.stamp, now), now)
        )),
        examiner,
        (!standing.unseen().is_empty()).then(|| "another is sealed and unseen".to_owned()),
    ];
    PieceRow {
        piece: piece.id,
        sealed: false,
        draft: (standing.drafts().len() > 1).then_some(marking.id),
        title,
        about,
        now: parts.into_iter().flatten().collect::<Vec<_>>().join(", "),
        marks: score
            .filter(|_| entries > 0 && !standing.is_apart() && ledger.is_released(marking, whom))
            .map(|score| (score.marks, format!("{} so far", score.marked_out_of))),
        next: None,
        leads: Leads::Piece,
    }
}

/// The row of a sealed marking.
pub(super) fn sealed_row(
    ledger: &Ledger,
    piece: &Piece,
    score: Option<Score>,
    called: Called,
    now: Moment,
) -> PieceRow {
    let day = ledger
        .sitting(piece.sitting)
        .map(|sitting| when(sitting.day, now.day()));
    let (title, about) = head(ledger, piece, called, day);
    PieceRow {
        piece: piece.id,
        sealed: true,
        draft: None,
        title,
        about,
        now: score
            .as_ref()
            .map_or_else(|| "sealed".to_owned(), |score| score.award.clone()),
        next: score
            .as_ref()
            .and_then(|score| NextStep::of(ledger, piece.id, score.lack?)),
        marks: score.map(|score| (score.marks, score.out_of)),
        leads: Leads::Piece,
    }
}

/// The row of a piece whose marks are held back from the learner: without them. On its
/// maker's own page it leads to nothing that is held back, and says no more.
pub(super) fn held_row(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: &Piece,
    called: Called,
    now: Moment,
) -> PieceRow {
    let row = sealed_row(ledger, piece, None, called, now);
    let held = "marked, not released yet";
    if called == Called::ByRubric {
        let own = ledger.standing(piece.id).own().map(|own| own.id);
        return PieceRow {
            now: held.to_owned(),
            leads: own.map_or(Leads::Nowhere, Leads::Own),
            ..row
        };
    }
    let marking = ledger.standing(piece.id).counts();
    let score = marking.and_then(|marking| rubrics.score(ledger, marking));
    let lack = score.and_then(|score| score.lack);
    PieceRow {
        now: match lack {
            Some(lack) => format!("{held}: {}", lack.words()),
            None => held.to_owned(),
        },
        next: lack.and_then(|lack| NextStep::of(ledger, piece.id, lack)),
        ..row
    }
}

/// The row of a piece among those of its sitting, for whoever marks; with what it comes to
/// where `shows` says so.
pub(super) fn sitting_row(
    ledger: &Ledger,
    rubrics: &Rubrics,
    piece: &Piece,
    shows: bool,
) -> PieceRow {
    let standing = ledger.standing(piece.id);
    let score = standing
        .counts()
        .and_then(|marking| rubrics.score(ledger, marking));
    let far = match (standing.counts(), standing.unseen().len()) {
        (Some(marking), _) if marking.agreement.is_some() => "agreed".to_owned(),
        (Some(_), _) => "sealed".to_owned(),
        (None, 0) if standing.drafts().is_empty() => "not marked".to_owned(),
        (None, 0) => ended_words(ledger, piece).unwrap_or_else(|| "on the bench".to_owned()),
        (None, sealed) => format!("{sealed} sealed and unseen until the others are"),
    };
    let lack = score.as_ref().and_then(|score| score.lack);
    let far = match (&score, lack) {
        (Some(score), _) if shows => score.award.clone(),
        (_, Some(lack)) => format!("{far}, {}", lack.words()),
        _ => far,
    };
    let ticket = piece.ticket.as_ref();
    let ticket = ticket.filter(|_| name_known(ledger, piece) && piece.learner.is_some());
    // Of a draft that stands with how far it is.
    let is_draft = ended_words(ledger, piece).is_some() && !standing.drafts().is_empty();
    let more = [
        ticket.map(|ticket| format!("ticket {}", set_apart(ticket))),
        ledger
            .ended(piece)
            .filter(|ended| *ended != Ended::Finished && !is_draft)
            .map(|ended| ended.word().to_owned()),
    ];
    let more: Vec<_> = more.into_iter().flatten().collect();
    let more = (!more.is_empty()).then(|| more.join(", "));
    let (title, about) = head(ledger, piece, Called::ByMaker, more);
    PieceRow {
        piece: piece.id,
        sealed: standing.counts().is_some(),
        draft: None,
        title,
        about,
        now: far,
        marks: score
            .filter(|_| shows)
            .map(|score| (score.marks, score.out_of)),
        next: lack.and_then(|lack| NextStep::of(ledger, piece.id, lack)),
        leads: Leads::Piece,
    }
}

/// How the making of a piece ended of which nothing is sealed yet: `withdrawn, not sealed`; `None`
/// while it goes on.
fn ended_words(ledger: &Ledger, piece: &Piece) -> Option<String> {
    let mut markings = ledger.markings_of(piece.id);
    let is_sealed = markings.any(|marking| marking.seal.is_some());
    let ended = ledger.ended(piece).filter(|_| !is_sealed)?;
    Some(format!("{}, not sealed", ended.word()))
}

/// The same as a sentence behind others; empty alike.
pub fn ended_sentence(ledger: &Ledger, piece: &Piece) -> String {
    let words = ended_words(ledger, piece);
    words.map_or_else(String::new, |words| format!(" {}.", capital(&words)))
}

/// When a record was last written, by the clocks of here and now.
pub(super) fn last_written(stamp: &Stamp, now: Moment) -> Moment {
    let ms = i64::try_from(stamp.time).unwrap_or(i64::MAX);
    Moment::new(ms, now.offset_min())
}

/// How far a draft is: `3 entries typed, 2 missing`.
pub(super) fn far_words(entries: usize, score: Option<&Score>) -> String {
    let missing = score.map(|score| match score.missing {
        0 => "nothing missing".to_owned(),
        missing => format!("{missing} missing"),
    });
    let typed = Some(typed_words(entries));
    let parts = [typed, missing];
    parts.into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// How many entries were touched.
pub(super) fn typed(marking: &Marking) -> usize {
    let facts = &marking.facts;
    facts.readings.len()
        + facts.levels.len()
        + facts.tallies.len()
        + facts.faults.len()
        + facts.states.len()
        + usize::from(has_impression_apart(facts))
        + usize::from(!facts.heat_log.is_empty())
        + usize::from(facts.cut.is_some())
        + marking
            .agreement
            .as_ref()
            .map_or(0, |agreement| agreement.settled.len())
}

/// A first impression that counts is the level of a criterion too, and counted there.
fn has_impression_apart(facts: &Facts) -> bool {
    let impression = facts.impression.as_ref();
    impression.is_some_and(|given| facts.levels.values().all(|level| level != given))
}

fn typed_words(entries: usize) -> String {
    match entries {
        0 => "nothing typed yet".to_owned(),
        1 => "1 entry typed".to_owned(),
        entries => format!("{entries} entries typed"),
    }
}
