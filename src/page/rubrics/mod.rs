//! Rubrics: the list, one as it is read, one in work, two compared, one tried on an old
//! piece.

mod blank;
mod compare;
mod fields;
mod forms;
mod list;
mod read;
mod state;
mod text;
mod work;

pub(super) use blank::BlankPage;
pub(super) use compare::{ComparePage, TryPage};
pub(super) use list::RubricsPage;
pub(super) use read::ReadPage;
pub(super) use work::WorkPage;

use std::collections::BTreeSet;

use leptos_router::NavigateOptions;

use super::keeper::Keeper;
use super::paths;
use crate::command::Command;
use crate::present::sentence;

/// Begins a rubric in work from `text` and goes there.
///
/// *Errors:* in words.
fn begin(
    keeper: Keeper,
    navigate: &impl Fn(&str, NavigateOptions),
    text: String,
) -> Result<(), String> {
    let made = keeper
        .perform(Command::DraftRubric { text })
        .map_err(|refused| sentence(&refused.to_string()))?;
    if let Some(draft) = made.rubric_draft {
        navigate(&paths::rubric_work(draft), NavigateOptions::default());
    }
    Ok(())
}

/// Ids of rubrics that a new one may not have.
fn taken_ids(keeper: Keeper) -> BTreeSet<String> {
    let shipped = keeper
        .offers()
        .into_iter()
        .map(|offer| offer.rubric.rubric_id);
    let ledger = keeper.ledger_now();
    let kept = ledger.rubrics().map(|version| version.rubric_id.clone());
    shipped.chain(kept).collect()
}
