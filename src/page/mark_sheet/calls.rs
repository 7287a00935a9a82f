//! Close calls: what measuring leaves open, as the worker finds it out behind the typing.

use std::sync::Arc;
use std::time::Duration;

use leptos::leptos_dom::helpers::TimeoutHandle;
use leptos::prelude::*;

use super::focus;
use super::state::SheetState;
use crate::job::Outcome;
use crate::page::jobs;
use crate::page::keeper::Keeper;
use crate::page::widgets::when;
use crate::present::mark_sheet::{Call, calls, decisive_first};
use crate::present::{certainty_job, certainty_topic, done};
use crate::records::MarkingId;

/// How long nobody types before it is worked out anew.
const QUIET: Duration = Duration::from_millis(600);

/// The close calls of an open sheet. A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct Calls(Memo<Vec<Call>>);

impl Calls {
    /// Has the worker weigh the marking whenever it has changed and nobody types.
    pub(super) fn follow(keeper: Keeper, marking: MarkingId, sheet: SheetState) -> Self {
        let topic = Memo::new(move |_| {
            keeper.with_ledger(|ledger| certainty_topic(ledger, ledger.marking(marking)?))
        });
        let ask = move || {
            let asked = keeper.look_now(|ledger, _| {
                let marking = ledger.marking(marking)?;
                certainty_job(ledger, marking)
            });
            if let Some((topic, job)) = asked {
                jobs::ask(topic, job);
            }
        };
        Effect::new(move |before: Option<Option<TimeoutHandle>>| {
            if let Some(waiting) = before.flatten() {
                waiting.clear();
            }
            topic.track();
            set_timeout_with_handle(ask, QUIET).ok()
        });
        // The last result stands until the next is here; rows whose marks have changed
        // since leave it out.
        let last = Memo::new(move |before: Option<&Option<Arc<Outcome>>>| {
            let state = topic.with(|topic| topic.as_ref().and_then(jobs::state));
            let known = state.as_ref().and_then(done);
            known.or_else(|| before.cloned().flatten())
        });
        Self(Memo::new(move |_| {
            last.with(|last| {
                let Some(outcome) = last else {
                    return Vec::new();
                };
                sheet.see_parts(|parts| sheet.see_result(|result| calls(parts, result, outcome)))
            })
        }))
    }

    /// The sign of a row, where it is one.
    pub(super) fn sign(dom: String) -> AnyView {
        let Some(Self(calls)) = use_context::<Self>() else {
            return ().into_any();
        };
        let call = Memo::new(move |_| {
            calls.with(|calls| calls.iter().find(|call| call.dom == dom).cloned())
        });
        (move || {
            call.get().map(|call| {
                let kind = if call.is_decisive {
                    "decisive"
                } else {
                    "close"
                };
                view! {
                    <p class="call" data-kind=kind><b>{call.word}</b> " " {call.text}</p>
                }
                .into_any()
            })
        })
        .into_any()
    }

    /// The decisive ones on top, each with a way to its row.
    pub(super) fn decisive(self) -> AnyView {
        let Self(calls) = self;
        let decisive = Memo::new(move |_| calls.with(|calls| decisive_first(calls)));
        let some = Signal::derive(move || decisive.with(|(calls, _)| !calls.is_empty()));
        when(some, move || {
            let items = move || {
                let calls = decisive.get().0.into_iter();
                let item = |call: Call| {
                    view! {
                        <li>
                            <button
                                type="button"
                                class="button"
                                data-kind="quiet"
                                on:click=move |_| focus::next_missing(std::slice::from_ref(&call.dom))
                            >
                                {call.text}
                            </button>
                        </li>
                    }
                    .into_any()
                };
                calls.map(item).collect::<Vec<AnyView>>()
            };
            let more = move || {
                let (_, more) = decisive.get();
                (more > 0).then(|| {
                    let words = format!("{more} more are marked at their rows as decisive.");
                    view! { <p>{words}</p> }.into_any()
                })
            };
            view! {
                <section class="notice" data-kind="warn" aria-label="Decisive">
                    <p>
                        <b>"Measuring these again could change the award, or whether a section \
                            reaches its minimum:"</b>
                    </p>
                    <ul class="calls">{items}</ul>
                    {more}
                </section>
            }
            .into_any()
        })
    }
}
