//! Ids that a rubric in work has, and those that are free.

use crate::rubric::edit::{Outline, Path};

/// `stem-3` where the list has two and no other is called so.
pub(super) fn free_id(outline: &Outline, list: &Path, stem: &str) -> String {
    let count = outline.count(list);
    let taken: Vec<_> = (0..count)
        .filter_map(|index| outline.text(&list.at(index).key("id")))
        .collect();
    first_free(stem, count + 1, &taken)
}

/// Ids of criteria are unique in the whole rubric.
pub(super) fn free_criterion(outline: &Outline) -> String {
    let ids = all_criteria(outline).into_iter().map(|at| at.key("id"));
    let taken: Vec<String> = ids.filter_map(|id| outline.text(&id)).collect();
    first_free("criterion", taken.len() + 1, &taken)
}

/// Id of the first criterion that is judged by eye.
pub(super) fn first_judged(outline: &Outline) -> Option<String> {
    let judged = all_criteria(outline).into_iter();
    let mut judged = judged.filter(|at| outline.text(&at.key("kind")).as_deref() == Some("judged"));
    outline.text(&judged.next()?.key("id"))
}

/// Where each criterion stands, section by section.
fn all_criteria(outline: &Outline) -> Vec<Path> {
    let sections = Path::root().key("sections");
    let lists = (0..outline.count(&sections)).map(|at| sections.at(at).key("criteria"));
    let items = lists.flat_map(|list| {
        let count = outline.count(&list);
        (0..count).map(move |at| list.at(at))
    });
    items.collect()
}

fn first_free(stem: &str, from: usize, taken: &[String]) -> String {
    let mut ids = (from..).map(|number| format!("{stem}-{number}"));
    ids.find(|id| !taken.contains(id)).unwrap_or_default()
}
