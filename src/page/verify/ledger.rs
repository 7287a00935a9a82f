use std::sync::Arc;

use leptos::prelude::*;

use super::marking::DigestField;
use crate::present::verify::LedgerFound;

/// What a ledger file turned out to be, with the markings that are not as they were sealed.
pub(super) fn shown(found: &Arc<LedgerFound>) -> AnyView {
    let lists = [
        ("altered", "Altered since sealing", &found.altered),
        (
            "changed",
            "Names or comments changed since sealing",
            &found.changed,
        ),
        ("unfit", "Signature does not fit", &found.unfit),
    ];
    let lists = lists.map(|(id, title, names)| {
        let items = names
            .iter()
            .map(|name| view! { <li dir="auto">{name.clone()}</li> })
            .collect_view();
        (!names.is_empty()).then(|| {
            view! {
                <section class="part" aria-labelledby=id>
                    <h2 id=id>{title}</h2>
                    <ul class="list">{items}</ul>
                </section>
            }
        })
    });
    let own = Arc::clone(found);
    view! {
        {lists.into_iter().collect_view()}
        <DigestField compare=Callback::new(move |typed: String| own.compared(&typed)) />
    }
    .into_any()
}

/// That something fits or does not.
pub(super) fn compared((fits, text): (bool, String)) -> AnyView {
    let kind = (!fits).then_some("stop");
    view! { <div class="notice" data-kind=kind><p dir="auto">{text}</p></div> }.into_any()
}
