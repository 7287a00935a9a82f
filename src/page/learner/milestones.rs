use leptos::ev;
use leptos::prelude::*;

use crate::command::{Command, CommandError, MilestoneDetails};
use crate::page::keeper::Keeper;
use crate::page::widgets::TextField;
use crate::page::{clock, dom};
use crate::present::{
    MilestoneErrors, MilestoneForm, MilestoneRow, MilestonesShown, WHO_READS, undo_milestone,
};
use crate::records::{LearnerId, MilestoneId};

/// Id of the button that takes the last step back.
const UNDO: &str = "milestone-undo";
/// Ids of what says what it was, in the form for a new one and for one that is there.
const TEXT: &str = "milestone-text";
const EDIT_TEXT: &str = "milestone-edit-text";

/// What was done last, and what takes it back.
type Done = RwSignal<Option<(&'static str, Option<Command>)>>;

/// What happened in a learner's training, and a form for more.
#[component]
pub(super) fn Milestones(
    id: LearnerId,
    shown: Memo<Option<MilestonesShown>>,
    is_named: Memo<bool>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let done: Done = RwSignal::new(None);
    let edited = RwSignal::new(None::<MilestoneId>);
    let rows = Memo::new(move |_| shown.with(|all| all.as_ref().map(|all| all.rows.clone())));
    let left_out = move || {
        let left_out = shown.with(|all| all.as_ref().map(|all| all.left_out.clone()))?;
        (!left_out.is_empty()).then(|| view! { <p class="hint">{left_out}</p> })
    };
    let list = move || {
        let rows = rows.get()?;
        let row = move |row: MilestoneRow| row_or_form(keeper, row, edited, done);
        (!rows.is_empty()).then(|| {
            view! { <ol class="milestones">{rows.into_iter().map(row).collect_view()}</ol> }
        })
    };
    view! {
        <section class="part" aria-labelledby="milestones">
            <h2 id="milestones">"Milestones"</h2>
            {list}
            {left_out}
            <Show when=move || is_named.get()>
                <Add keeper id done />
            </Show>
            <Said keeper done />
        </section>
    }
}

/// What was done last, with Undo where that can be taken back.
#[component]
fn Said(keeper: Keeper, done: Done) -> impl IntoView {
    let words = move || done.with(|done| done.as_ref().map_or("", |(words, _)| words));
    let can_undo = move || done.with(|done| matches!(done, Some((_, Some(_)))));
    let undo = move |_| {
        let Some((_, Some(command))) = done.get_untracked() else {
            return;
        };
        let words = match keeper.perform(command) {
            Ok(_) => "It is as it was before.",
            Err(_) => "That could not be undone: the milestone is no longer here.",
        };
        done.set(Some((words, None)));
        dom::focus_soon(TEXT);
    };
    view! {
        <div class="actions screen-only">
            <p role="status">{words}</p>
            <Show when=can_undo>
                <button type="button" class="button" id=UNDO on:click=undo>"Undo"</button>
            </Show>
        </div>
    }
}

fn row_or_form(
    keeper: Keeper,
    row: MilestoneRow,
    edited: RwSignal<Option<MilestoneId>>,
    done: Done,
) -> impl IntoView {
    let id = row.id;
    let is_edited = Memo::new(move |_| edited.get() == Some(id));
    view! {
        <li>
            {move || {
                if is_edited.get() {
                    view! { <Edit keeper id edited done /> }.into_any()
                } else {
                    told(keeper, row.clone(), edited, done)
                }
            }}
        </li>
    }
}

/// Id of the button that opens a milestone's form.
fn edit_button(id: MilestoneId) -> String {
    format!("milestone-edit-{id}")
}

fn told(
    keeper: Keeper,
    row: MilestoneRow,
    edited: RwSignal<Option<MilestoneId>>,
    done: Done,
) -> AnyView {
    let id = row.id;
    let day = row.shown.day.to_string();
    let take_back = move |_| {
        let Some(before) = details(keeper, id) else {
            return;
        };
        let after = MilestoneDetails {
            taken_back: true,
            ..before.clone()
        };
        if set(
            keeper,
            id,
            before,
            after,
            "The milestone is taken back.",
            done,
        )
        .is_ok()
        {
            dom::focus_soon(UNDO);
        }
    };
    let (edit_named, back_named) = (
        format!("Edit the milestone of {day}"),
        format!("Take back the milestone of {day}"),
    );
    view! {
        <span class="flag-number">{row.shown.number}</span>
        <p><span class="quiet">{day}</span> " " <bdi>{row.shown.text}</bdi></p>
        <div class="actions screen-only">
            <button
                type="button"
                class="button"
                data-kind="quiet"
                id=edit_button(id)
                aria-label=edit_named
                on:click=move |_| edited.set(Some(id))
            >
                "Edit"
            </button>
            <button
                type="button"
                class="button"
                data-kind="quiet"
                aria-label=back_named
                on:click=take_back
            >
                "Take back"
            </button>
        </div>
    }
    .into_any()
}

/// What a milestone says by now; nobody hears of changes.
fn details(keeper: Keeper, id: MilestoneId) -> Option<MilestoneDetails> {
    let ledger = keeper.ledger_now();
    ledger.milestone(id).map(MilestoneDetails::of)
}

/// Writes a milestone anew and remembers what takes that back.
fn set(
    keeper: Keeper,
    id: MilestoneId,
    before: MilestoneDetails,
    after: MilestoneDetails,
    words: &'static str,
    done: Done,
) -> Result<(), CommandError> {
    keeper.perform(Command::SetMilestone {
        milestone: id,
        before: Box::new(before.clone()),
        after: Box::new(after),
    })?;
    if let Some(now) = details(keeper, id) {
        done.set(Some((words, Some(undo_milestone(id, Some(&before), now)))));
    }
    Ok(())
}

#[component]
fn Edit(
    keeper: Keeper,
    id: MilestoneId,
    edited: RwSignal<Option<MilestoneId>>,
    done: Done,
) -> impl IntoView {
    let before = details(keeper, id)?;
    let close = Callback::new(move |()| {
        edited.set(None);
        dom::focus_soon_at(edit_button(id));
    });
    let opened = MilestoneForm::of(&before);
    let keep = Callback::new(move |form: MilestoneForm| {
        let after = form.read()?;
        set(
            keeper,
            id,
            before.clone(),
            after,
            "The milestone is changed.",
            done,
        )
        .map_err(|error| MilestoneErrors::refused(&error))?;
        close.run(());
        Ok(MilestoneForm::default())
    });
    dom::focus_soon(EDIT_TEXT);
    Some(view! { <Fields ids=["milestone-edit-day", EDIT_TEXT] opened keep yes="Keep" close /> })
}

#[component]
fn Add(keeper: Keeper, id: LearnerId, done: Done) -> impl IntoView {
    let today = || MilestoneForm {
        day: clock::today().iso(),
        text: String::new(),
    };
    let keep = Callback::new(move |form: MilestoneForm| {
        let MilestoneDetails { day, text, .. } = form.read()?;
        let made = keeper
            .perform(Command::AddMilestone {
                learner: id,
                day,
                text,
            })
            .map_err(|error| MilestoneErrors::refused(&error))?;
        let made = made.milestone;
        if let Some((milestone, now)) = made.and_then(|made| Some((made, details(keeper, made)?))) {
            let undo = undo_milestone(milestone, None, now);
            done.set(Some(("The milestone is added.", Some(undo))));
        }
        dom::focus_soon(TEXT);
        Ok(today())
    });
    view! {
        <div class="screen-only">
            <p class="hint">{WHO_READS}</p>
            <Fields ids=["milestone-day", TEXT] opened=today() keep yes="Add" />
        </div>
    }
}

/// What a form gives to be kept, and what stands in it then.
type Keep = Callback<MilestoneForm, Result<MilestoneForm, MilestoneErrors>>;

/// Day and text in one row, as far as there is room.
#[component]
fn Fields(
    /// Ids of the two fields.
    ids: [&'static str; 2],
    opened: MilestoneForm,
    keep: Keep,
    yes: &'static str,
    #[prop(optional)] close: Option<Callback<()>>,
) -> impl IntoView {
    let [day_id, text_id] = ids;
    let (day, text) = (RwSignal::new(opened.day), RwSignal::new(opened.text));
    let errors = RwSignal::new(MilestoneErrors::default());
    let submit = move |event: ev::SubmitEvent| {
        event.prevent_default();
        let form = MilestoneForm {
            day: day.get_untracked(),
            text: text.get_untracked(),
        };
        match keep.run(form) {
            // A form that is closed has no signals any more.
            Ok(next) => {
                errors.try_set(MilestoneErrors::default());
                day.try_set(next.day);
                text.try_set(next.text);
            }
            Err(found) => {
                dom::focus_soon(if found.day.is_some() { day_id } else { text_id });
                errors.set(found);
            }
        }
    };
    let wrong = move |see: fn(&MilestoneErrors) -> &Option<String>| {
        Signal::derive(move || errors.with(|errors| see(errors).clone()))
    };
    view! {
        <form class="milestone-form" novalidate on:submit=submit>
            <TextField
                id=day_id
                label="Day"
                kind="date"
                error=wrong(|errors| &errors.day)
                value=day
            />
            <TextField
                id=text_id
                label="What it was"
                error=wrong(|errors| &errors.text)
                value=text
            />
            <div class="actions">
                <button class="button">{yes}</button>
                {close.map(|close| view! {
                    <button
                        class="button"
                        data-kind="quiet"
                        type="button"
                        on:click=move |_| close.run(())
                    >
                        "Leave it"
                    </button>
                })}
            </div>
        </form>
    }
}
