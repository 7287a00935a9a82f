//! Parts of a rubric that it may go without: each is put in and taken out by a button.

use super::fields::{COUNTS_AS, IMPRESSION, MODERATION};
use super::form::{Add, FormPart};
use super::ids::first_judged;
use super::plan::{amount, field, fields, part, text};
use crate::rubric::edit::{Edit, Outline, Path, Written};

/// How several examiners agree.
pub(super) fn moderation(outline: &Outline) -> FormPart {
    let at = Path::root().key("moderation");
    let is_there = outline.has(&at);
    let found = if is_there {
        fields(&at, MODERATION)
    } else {
        Vec::new()
    };
    let on = on("Say how examiners agree", &at, || {
        vec![("settle", text("discussion"))]
    });
    FormPart {
        adds: if is_there { Vec::new() } else { vec![on] },
        changes: off(outline, &at, "Leave it to the usual rule"),
        ..part("moderation", "Where several examiners mark", found)
    }
}

/// What is asked at a first look: a scale of its own, or the criterion that it counts as.
/// What is written stays in sight, so that both together can be mended.
pub(super) fn first_impression(outline: &Outline) -> FormPart {
    let at = Path::root().key("first_impression");
    let counts = outline.has(&at.key("counts_as"));
    let own = IMPRESSION
        .iter()
        .filter(|(key, ..)| !counts || outline.has(&at.key(key)));
    let own = own.map(|spec| field(&at, spec));
    let counted = counts.then(|| field(&at, &COUNTS_AS));
    let apart = on(
        "Ask for a first impression that is not counted",
        &at,
        || vec![("least", amount("0")), ("most", amount("10"))],
    );
    let judged = first_judged(outline).map(|id| {
        on(
            "Take a criterion by eye as the first impression",
            &at,
            || vec![("counts_as", text(&id))],
        )
    });
    let is_there = outline.has(&at);
    let found = counted.into_iter().chain(own);
    let adds = std::iter::once(apart).chain(judged);
    FormPart {
        adds: adds.filter(|_| !is_there).collect(),
        changes: off(outline, &at, "Ask for no first impression"),
        ..part(
            "first-impression",
            "First impression",
            found.filter(|_| is_there).collect(),
        )
    }
}

/// What makes a table that is not there.
fn on(words: &str, at: &Path, keys: impl Fn() -> Vec<(&'static str, Written)>) -> Add {
    Add {
        words: words.to_owned(),
        edit: Edit::Begin {
            at: at.clone(),
            keys: keys(),
        },
    }
}

/// What takes a table out that is there.
fn off(outline: &Outline, at: &Path, words: &str) -> Vec<Add> {
    let out = outline.has(at).then(|| Add {
        words: words.to_owned(),
        edit: Edit::Remove { at: at.clone() },
    });
    out.into_iter().collect()
}
