use std::collections::BTreeSet;
use std::sync::Arc;

use super::works::{Work, works_of};
use super::{facts_about, pieces};
use crate::present::dates::long_day;
use crate::present::learners::called;
use crate::present::scores::Rubrics;
use crate::progress::{Made, evidence};
use crate::records::{LearnerId, Ledger, Marking, Moment, PieceId, Whom, in_groups};
use crate::rubric::Rubric;
use crate::sheet::{Document, Portfolio, PortfolioPiece, Scored, marker, pictured, portfolio};

/// A piece to choose for a portfolio.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PortfolioChoice {
    /// The piece.
    pub piece: PieceId,
    /// What it is: day and rubric.
    pub title: String,
    /// What it came to, and how many photos there are of it.
    pub about: String,
}

/// The pieces of a learner that a portfolio can hold, oldest first, with the learner's name;
/// `None` where there is no such learner.
pub fn portfolio_choices(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
) -> Option<(String, Vec<PortfolioChoice>)> {
    let learner = ledger.learner(id)?;
    let all = chosen(ledger, rubrics, id, None);
    let choice = |(made, marking): &(Made<'_>, &Marking)| PortfolioChoice {
        piece: made.piece,
        title: format!("{}, {}", made.day, made.rubric.title),
        about: about(made, photos(ledger, marking).len()),
    };
    Some((called(learner), all.iter().map(choice).collect()))
}

fn about(made: &Made<'_>, photos: usize) -> String {
    let (marks, out_of) = (made.outcome.marks, made.outcome.out_of);
    let award = made.outcome.award.word();
    match photos {
        0 => format!("{marks} of {out_of}, {award}, no photo"),
        1 => format!("{marks} of {out_of}, {award}, 1 photo"),
        photos => format!("{marks} of {out_of}, {award}, {photos} photos"),
    }
}

/// The portfolio of a learner with these pieces, as far as their marks are released; `None`
/// where there is no such learner.
pub fn portfolio_document(
    ledger: &Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    wanted: &BTreeSet<PieceId>,
    now: Moment,
) -> Option<Document> {
    let learner = ledger.learner(id)?;
    let (made, markings): (Vec<Made<'_>>, Vec<&Marking>) =
        chosen(ledger, rubrics, id, Some(wanted))
            .into_iter()
            .unzip();
    let others = latest_rubrics(ledger, rubrics);
    let others: Vec<&Rubric> = others.iter().map(|rubric| &**rubric).collect();
    let told = made.iter().zip(markings).filter_map(|(made, marking)| {
        let scored = Scored::in_ledger(ledger, marking, &made.rubric)?;
        let seal = marking.seal.as_ref()?;
        Some(PortfolioPiece {
            made,
            examiner: marker(&scored),
            digest: in_groups(&seal.digest)
                .into_iter()
                .take(2)
                .collect::<Vec<_>>()
                .join(" "),
            photos: pictured(photos(ledger, marking)),
        })
    });
    Some(portfolio(&Portfolio {
        name: learner.name.clone(),
        facts: facts_about(learner, now),
        day: long_day(now.day()),
        units: &evidence(&made, &others),
        pieces: told.collect(),
    }))
}

/// The released pieces of a learner with what each stands for, oldest first; those of
/// `wanted` alone, where that is given.
fn chosen<'a>(
    ledger: &'a Ledger,
    rubrics: &Rubrics,
    id: LearnerId,
    wanted: Option<&BTreeSet<PieceId>>,
) -> Vec<(Made<'a>, &'a Marking)> {
    let works = works_of(ledger, id, Whom::Learner);
    let sealed = works.sealed.into_iter().rev();
    let sealed = sealed.filter(|work| wanted.is_none_or(|wanted| wanted.contains(&work.piece.id)));
    let of = |work: Work<'a>| {
        let marking = work.marking?;
        Some((pieces::one(ledger, rubrics, work.piece, marking)?, marking))
    };
    sealed.filter_map(of).collect()
}

/// Photos of a marking; of an agreed one those of the markings that it is made from.
fn photos<'a>(ledger: &'a Ledger, marking: &'a Marking) -> Vec<&'a crate::records::Photo> {
    let sources = ledger.sources(marking).unwrap_or_default();
    let all = std::iter::once(marking).chain(sources);
    all.flat_map(|marking| &marking.photos).collect()
}

/// Of each rubric that pieces here are marked by, the latest version.
fn latest_rubrics(ledger: &Ledger, rubrics: &Rubrics) -> Vec<Arc<Rubric>> {
    let mut versions: Vec<_> = ledger.rubrics().collect();
    versions.sort_by(|one, other| other.stamp.cmp(&one.stamp));
    let mut known = BTreeSet::new();
    let latest = versions
        .into_iter()
        .filter(|version| known.insert(version.rubric_id.clone()));
    latest.filter_map(|version| rubrics.get(version)).collect()
}
