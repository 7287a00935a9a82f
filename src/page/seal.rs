use leptos::prelude::*;

use crate::records::MarkingId;

/// Asks before a marking is sealed.
#[component]
pub(crate) fn SealDialog(marking: MarkingId, open: RwSignal<bool>) -> impl IntoView {
    let _ = (marking, open);
}
