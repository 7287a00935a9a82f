use super::kept::{Kept, earlier_outlines, kept_outlines};
use super::outlined::{Outlined, asked_outline, shown_outline};
use super::{Over, over};
use crate::gauge::Shown;
use crate::present::makers::set_apart;
use crate::present::scores::Rubrics;
use crate::records::{LearnerId, Ledger, MarkingId};
use crate::rubric::Rubric;

/// The key of what the rubric asks for among what a shoe may be laid over.
const ASKED: &str = "asked";
/// The same for the other foot, where the rubric asks for neither.
const ASKED_MIRRORED: &str = "asked-mirrored";

/// What a shoe may be laid over, and how it lies over what is chosen.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct OverChoice {
    /// Key and name of each.
    pub others: Vec<(String, String)>,
    /// How it lies over the chosen one; why not, in words. `None` where there is none.
    pub over: Option<Result<Over, String>>,
}

/// Two pieces of a learner, one laid over the other.
#[derive(Debug, Clone, PartialEq)]
pub struct TwoPieces {
    /// Whose they are.
    pub name: String,
    /// Key and name of each that may be laid over another.
    pub ones: Vec<(String, String)>,
    /// What the chosen one may be laid over.
    pub choice: OverChoice,
}

/// A shoe in the photo of a draft, laid over what is chosen: what its rubric asks for, or an
/// outline of the same learner's.
///
/// *Shape:* `shoe` is the id of the shoe where the piece has several; a key that is none of them
/// means the first.
pub fn photo_over(
    ledger: &Ledger,
    rubrics: &Rubrics,
    (marking, rubric, shoe): (MarkingId, &Rubric, Option<&str>),
    shown: Option<&Shown>,
    chosen: &str,
) -> OverChoice {
    let Some(shown) = shown else {
        return OverChoice::default();
    };
    let earlier = earlier_outlines(ledger, rubrics, marking);
    let own = shown_outline(shown, rubric, shoe);
    choice(&own, asked(rubric, shoe), &earlier, chosen)
}

/// Two outlines that markings of a learner keep; `None` for nobody that is known.
pub fn two_pieces(
    ledger: &Ledger,
    rubrics: &Rubrics,
    learner: LearnerId,
    one: &str,
    other: &str,
) -> Option<TwoPieces> {
    let name = set_apart(&ledger.learner(learner)?.name);
    let kept = kept_outlines(ledger, rubrics, learner);
    let named = |kept: &Kept| (kept.key.clone(), kept.outlined.name.clone());
    let ones = kept.iter().map(named).collect();
    let first = kept.iter().find(|kept| kept.key == one).or(kept.first());
    let choice = first.map(|first| {
        let rest: Vec<Kept> = kept
            .iter()
            .filter(|kept| kept.key != first.key)
            .cloned()
            .collect();
        let rubric = ledger.marking(first.marking);
        let rubric = rubric.and_then(|marking| rubrics.get(ledger.rubric(&marking.rubric)?));
        let asked = rubric.map(|rubric| asked(&rubric, first.shoe.as_deref()));
        choice(&first.outlined, asked.unwrap_or_default(), &rest, other)
    });
    Some(TwoPieces {
        name,
        ones,
        choice: choice.unwrap_or_default(),
    })
}

/// Where a sealed marking's sheet leads to lay its outline over others: the learner, and the key
/// of the outline. `None` where it keeps none that may be seen there.
pub fn over_of(
    ledger: &Ledger,
    rubrics: &Rubrics,
    marking: MarkingId,
) -> Option<(LearnerId, String)> {
    let piece = ledger.piece(ledger.marking(marking)?.piece)?;
    let learner = piece.learner?;
    let kept = kept_outlines(ledger, rubrics, learner);
    let own = kept.into_iter().find(|kept| kept.marking == marking)?;
    Some((learner, own.key))
}

/// What a rubric asks for, for both feet where it asks for neither.
fn asked(rubric: &Rubric, shoe: Option<&str>) -> Vec<(String, Outlined)> {
    let Some(asked) = asked_outline(rubric, shoe) else {
        return Vec::new();
    };
    if asked.foot.is_some() {
        return vec![(ASKED.to_owned(), asked)];
    }
    let named = |outlined: Outlined, foot: &str| Outlined {
        name: format!("{}, for a {foot} foot", outlined.name),
        ..outlined
    };
    let mirrored = named(asked.mirrored(), "right");
    vec![
        (ASKED.to_owned(), named(asked, "left")),
        (ASKED_MIRRORED.to_owned(), mirrored),
    ]
}

fn choice(
    own: &Outlined,
    asked: Vec<(String, Outlined)>,
    kept: &[Kept],
    chosen: &str,
) -> OverChoice {
    let kept = kept
        .iter()
        .map(|kept| (kept.key.clone(), kept.outlined.clone()));
    let all: Vec<(String, Outlined)> = asked.into_iter().chain(kept).collect();
    let under = all.iter().find(|(key, _)| key == chosen).or(all.first());
    OverChoice {
        over: under.map(|(_, under)| over(own, under)),
        others: all
            .iter()
            .map(|(key, under)| (key.clone(), under.name.clone()))
            .collect(),
    }
}
