//! What has to be known of the other sheets.

use crate::sheet::rows::{Field, Rows};
use crate::sheet::scored::Scored;

const ROUNDED: &str = "Marks, totals and per cent are decimals. Where one has more than six \
    places it is rounded to six, halves away from zero; the number in full stands beside it \
    under Exact. Nothing else is rounded: marks are worked out exactly.";
const READINGS: &str = "Value is the reading as a number, in the unit under Unit: lengths in \
    millimetres, durations in minutes. From and To are the ends of a reading that lies between \
    two. Readings of an agreed marking are those of the markings that it is made from. A value \
    has at most six places.";
const UNCERTAINTY: &str = "Standard uncertainty is that of the one reading, in the unit of its \
    value, by the figures of its instrument (JCGM 100:2008); empty where no instrument with \
    figures is named.";
const TIMES: &str = "Under Totals, what the time rule counts is without the times when the clock \
    stood; under Readings it is as typed. Days and hours when something was done are those of the \
    clock there.";
const TEXTS: &str = "Every text stands as it was typed, and none of them is a formula. One that is \
    longer than a cell can be goes on in the sheet Long texts.";

/// Facts about the whole file.
pub(super) fn rows(title: &str, markings: &[Scored<'_>]) -> Rows {
    let drafts = markings
        .iter()
        .filter(|one| one.parts.marking.seal.is_none());
    let held = markings
        .iter()
        .filter(|one| one.parts.sitting.is_held() && !one.is_own());
    let held = match held.count() {
        0 => String::new(),
        count => format!("{count}: they are for examiners only until their sitting is released."),
    };
    let drafts = match drafts.count() {
        0 => String::new(),
        count => format!("{count}: marks may still change."),
    };
    let said = [
        ("Title", title.to_owned()),
        ("Drafts, not sealed", drafts),
        ("Held back from learners", held),
        ("Marks", ROUNDED.to_owned()),
        ("Readings", READINGS.to_owned()),
        ("Uncertainty", UNCERTAINTY.to_owned()),
        ("Times", TIMES.to_owned()),
        ("Texts", TEXTS.to_owned()),
    ];
    let said = said.into_iter().filter(|(_, text)| !text.is_empty());
    let count = ("Markings", Field::whole(markings.len()));
    let said = said.map(|(what, text)| (what, Field::Text(text)));
    Rows {
        columns: ["What", "Says"].map(str::to_owned).to_vec(),
        rows: std::iter::once(count)
            .chain(said)
            .map(|(what, field)| vec![Field::text(what), field])
            .collect(),
    }
}
