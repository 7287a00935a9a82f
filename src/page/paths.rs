//! Addresses of pages and the ids in them.

use std::str::FromStr;

use leptos::prelude::*;
use leptos_router::hooks::use_params_map;

use super::keeper::Keeper;
use crate::present::CourseAsked;
use crate::present::cohort::CohortQuery;
use crate::records::{LearnerId, MarkingId, PieceId, RubricDraftId, SittingId, StudyId};

pub(crate) const BENCH: &str = "/";
pub(crate) const START: &str = "/pieces/new";
pub(crate) const LEARNERS: &str = "/learners";
pub(crate) const CLASS: &str = "/learners/class";
pub(crate) const COHORT: &str = "/cohort";
pub(crate) const SITTINGS: &str = "/sittings";
pub(crate) const AGREEMENT: &str = "/agreement";
pub(crate) const RUBRICS: &str = "/rubrics";
pub(crate) const LEDGER: &str = "/ledger";
pub(crate) const VERIFY: &str = "/verify";
pub(crate) const INSTRUMENTS: &str = "/ledger/instruments";
pub(crate) const HELP: &str = "/help";
pub(crate) const PHOTO_HELP: &str = "/help/photo-gauge";

/// The page of an instrument study.
pub(crate) fn study(id: StudyId) -> String {
    format!("/ledger/studies/{id}")
}

/// The mark sheet of a piece, or the question whose.
pub(crate) fn piece(id: PieceId) -> String {
    format!("/pieces/{id}")
}

/// The mark sheet of one marking.
pub(crate) fn marking(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/marking/{marking}")
}

/// Typing in what was written by hand on the sheet of one marking.
pub(crate) fn on_paper(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/marking/{marking}/paper")
}

/// Measuring the shoe of one marking in a photo.
pub(crate) fn photo(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/marking/{marking}/photo")
}

/// The heat log of one marking.
pub(crate) fn heats(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/marking/{marking}/heats")
}

/// The scored sheet of one marking.
pub(crate) fn sheet_of(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/sheet/{marking}")
}

/// How sure one marking is.
pub(crate) fn sure(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/sheet/{marking}/sure")
}

/// The maker's own marking beside the one that counts.
pub(crate) fn side(id: PieceId) -> String {
    format!("/pieces/{id}/side")
}

/// The form for marking a piece once more in the role of this word.
pub(crate) fn again_as(id: PieceId, role: &str) -> String {
    format!("/pieces/{id}/again?as={role}")
}

/// What examiners have sealed of a piece, side by side.
pub(crate) fn examiners(id: PieceId) -> String {
    format!("/pieces/{id}/examiners")
}

/// The page on which the examiners of a piece agree.
pub(crate) fn agree(id: PieceId) -> String {
    format!("/pieces/{id}/agree")
}

/// The form for correcting a sealed marking.
pub(crate) fn correct(piece: PieceId, marking: MarkingId) -> String {
    format!("/pieces/{piece}/correct/{marking}")
}

/// The scored sheet of a piece.
pub(crate) fn sheet(id: PieceId) -> String {
    format!("/pieces/{id}/sheet")
}

/// The page of a learner.
pub(crate) fn learner(id: LearnerId) -> String {
    format!("/learners/{id}")
}

/// The page of a learner, telling of what is asked.
pub(crate) fn learner_by(id: LearnerId, asked: &CourseAsked) -> String {
    format!("{LEARNERS}/{id}{}", asked.address())
}

/// What a learner has to practise, as a card.
pub(crate) fn learner_card(id: LearnerId) -> String {
    format!("{LEARNERS}/{id}/card")
}

/// Two pieces of a learner, laid over each other.
pub(crate) fn over(id: LearnerId) -> String {
    format!("{LEARNERS}/{id}/over")
}

/// The same, with the outline of this key laid over.
pub(crate) fn over_with(id: LearnerId, key: &str) -> String {
    format!("{LEARNERS}/{id}/over?one={key}")
}

/// The evidence of one learner.
pub(crate) fn portfolio(id: LearnerId) -> String {
    format!("{LEARNERS}/{id}/portfolio")
}

/// What a learner has to practise, to talk about.
pub(crate) fn learner_talk(id: LearnerId) -> String {
    format!("{LEARNERS}/{id}/talk")
}

/// A learner's record as a page to print, telling of what is asked.
pub(crate) fn learner_print(id: LearnerId, asked: &CourseAsked) -> String {
    format!("{LEARNERS}/{id}/print{}", asked.address())
}

/// The cohort that is asked about.
pub(crate) fn cohort_by(query: &CohortQuery) -> String {
    format!("{COHORT}?{}", asked(query))
}

/// The same as a page to print.
pub(crate) fn cohort_print(query: &CohortQuery) -> String {
    format!("{COHORT}/print?{}", asked(query))
}

fn asked(query: &CohortQuery) -> String {
    let CohortQuery {
        rubric,
        group,
        latest,
        from,
        to,
        other,
    } = query;
    let mut asked = format!("rubric={rubric}&group={group}&latest={latest}");
    for (name, value) in [("from", from), ("to", to), ("other", other)] {
        if !value.is_empty() {
            asked.push_str(&format!("&{name}={value}"));
        }
    }
    asked
}

/// The form for starting a piece of a learner.
pub(crate) fn start_for(id: LearnerId) -> String {
    format!("{START}?learner={id}")
}

/// A kept or shipped rubric, by its digest.
pub(crate) fn rubric(digest: &str) -> String {
    format!("{RUBRICS}/{digest}")
}

/// The sheet to fill in by hand of a rubric.
pub(crate) fn rubric_blank(digest: &str) -> String {
    format!("{RUBRICS}/{digest}/blank")
}

/// The plan of a rubric's piece.
pub(crate) fn rubric_plan(digest: &str) -> String {
    format!("{RUBRICS}/{digest}/plan")
}

/// The plan's card for the bench.
pub(crate) fn bench_card(digest: &str) -> String {
    format!("{}/card", rubric_plan(digest))
}

/// The plan's gauge to lay the shoe on.
pub(crate) fn lay_on(digest: &str) -> String {
    format!("{}/lay-on", rubric_plan(digest))
}

/// A rubric in work.
pub(crate) fn rubric_work(id: RubricDraftId) -> String {
    format!("{RUBRICS}/{id}/edit")
}

/// What changed from `other` to a rubric.
pub(crate) fn rubric_compare(rubric: &str, other: &str) -> String {
    format!("{RUBRICS}/{rubric}/compare/{other}")
}

/// An old piece marked by another rubric.
pub(crate) fn rubric_try(rubric: &str, piece: PieceId) -> String {
    format!("{RUBRICS}/{rubric}/try/{piece}")
}

/// A sitting with its pieces.
pub(crate) fn sitting(id: SittingId) -> String {
    format!("{SITTINGS}/{id}")
}

/// The form for issuing tickets.
pub(crate) const ISSUE: &str = "/sittings/issue";

/// The same, of a sitting that is here.
pub(crate) fn issue_for(id: SittingId) -> String {
    format!("{ISSUE}?sitting={id}")
}

/// The tickets of a sitting to print.
pub(crate) fn tickets(id: SittingId) -> String {
    format!("{SITTINGS}/{id}/tickets")
}

/// The board on which a sitting is watched.
pub(crate) fn board(id: SittingId) -> String {
    format!("{SITTINGS}/{id}/board")
}

/// The text that the address has under `name`.
pub(crate) fn text_in_path(name: &'static str) -> Memo<String> {
    let params = use_params_map();
    Memo::new(move |_| params.with(|params| params.get_str(name).unwrap_or_default().to_owned()))
}

/// The marking in the address: `Ok(None)` where it names none.
///
/// *Errors:* what it names is no id.
pub(crate) fn marking_in_path() -> Memo<Result<Option<MarkingId>, ()>> {
    let text = text_in_path("marking");
    Memo::new(move |_| {
        text.with(|text| {
            let is_there = !text.is_empty();
            is_there.then(|| text.parse().map_err(|_| ())).transpose()
        })
    })
}

/// The open draft that the address names, with its piece; only which one it is, whatever stands in
/// it. `None` where there is none that readings are entered in.
pub(crate) fn draft_in_path(keeper: Keeper) -> Memo<Option<(PieceId, MarkingId)>> {
    let marking = marking_in_path();
    Memo::new(move |_| {
        let id = marking.get().ok().flatten()?;
        keeper.with_ledger(|ledger| {
            let marking = ledger.marking(id)?;
            // An agreed one is settled, not measured.
            let is_open = marking.seal.is_none() && marking.agreement.is_none();
            is_open.then_some((marking.piece, id))
        })
    })
}

/// The id that the address has under `name`; `None` where it is no id.
pub(crate) fn id_in_path<T>(name: &'static str) -> Memo<Option<T>>
where
    T: FromStr + PartialEq + Send + Sync + 'static,
{
    let params = use_params_map();
    Memo::new(move |_| params.with(|params| params.get_str(name)?.parse().ok()))
}
