use leptos::prelude::*;
use leptos_router::hooks::use_navigate;
use wasm_bindgen_futures::spawn_local;

use super::device_key::DeviceKey;
use super::keeper::Keeper;
use super::notices::{Notice, Weight};
use super::widgets::{Dialog, TileChoice, Tiles};
use super::{clock, paths};
use crate::command::Command;
use crate::present::{
    SEALED_INCOMPLETE, SEALING_DOES, SealView, digest_to_sign, ended_choices, own_sheet,
    seal_commands, seal_view, sentence, unsigned_words, with_signature,
};
use crate::records::MarkingId;

/// Asks before a marking is sealed: what it comes to, what is missing, what sealing
/// does, how the piece ended. Once sealed, the page goes on to the sheet.
#[component]
pub(crate) fn SealDialog(
    /// The draft.
    marking: MarkingId,
    /// Whether the question is asked.
    open: RwSignal<bool>,
) -> impl IntoView {
    view! {
        <Dialog labelled_by="seal-heading" open>
            <Asked marking open />
        </Dialog>
    }
}

#[component]
fn Asked(marking: MarkingId, open: RwSignal<bool>) -> impl IntoView {
    let keeper = Keeper::here();
    // As it stands when the question is asked, and as another tab may change it.
    let shown =
        Memo::new(move |_| keeper.look(|ledger, rubrics| seal_view(ledger, rubrics, marking)));
    let ended = RwSignal::new(shown.with_untracked(|shown| {
        shown
            .as_ref()
            .map_or_else(String::new, |shown| shown.ended.clone())
    }));
    let refused = RwSignal::new(None::<String>);
    let navigate = use_navigate();
    let is_busy = RwSignal::new(false);
    let confirm = move |_| {
        if is_busy.get_untracked() {
            return;
        }
        is_busy.set(true);
        let (ended, navigate) = (ended.get_untracked(), navigate.clone());
        // The key of the device is fetched and used in the background.
        spawn_local(async move {
            let sealed = seal(keeper, marking, &ended).await;
            // Whoever has closed the dialog meanwhile stays where they are.
            is_busy.try_set(false);
            match sealed {
                Ok(address) if open.try_get_untracked() == Some(true) => {
                    open.set(false);
                    navigate(&address, Default::default());
                }
                Ok(_) => {}
                Err(why) => drop(refused.try_set(Some(why))),
            }
        });
    };
    let asks_ended = shown.with_untracked(|shown| {
        let shown = shown.as_ref();
        shown.is_none_or(|shown| shown.asks_ended)
    });
    let does = SEALING_DOES.map(|text| view! { <p>{text}</p> });
    let choices =
        ended_choices().map(|choice| TileChoice::new(choice.value, choice.name(), choice.note));
    view! {
        <div class="stack">
            <h2 id="seal-heading">"Seal this marking?"</h2>
            {move || shown.with(|shown| shown.clone().map(told))}
            {asks_ended.then(|| view! {
                <Tiles name="ended" legend="How the piece ended" choices=choices.to_vec() value=ended />
            })}
            {does.into_iter().collect_view()}
            {move || refused.get().map(|why| view! { <p class="error" role="alert">{why}</p> })}
            <div class="actions">
                <button type="button" class="button" data-kind="primary" on:click=confirm>
                    "Seal the marking"
                </button>
                <button type="button" class="button" autofocus on:click=move |_| open.set(false)>
                    "Go on marking"
                </button>
            </div>
        </div>
    }
}

/// What the marking comes to, and what stands against sealing it now.
fn told(shown: SealView) -> impl IntoView {
    let ended =
        (!shown.asks_ended).then(|| view! { <p>"The piece ended: " <b>{shown.ended}</b></p> });
    let open = (!shown.open_words.is_empty()).then(|| view! { <p>{shown.open_words}</p> });
    let is_incomplete = !shown.missing.is_empty();
    let missing = list(shown.missing_words, shown.missing, "warn");
    let problems = list("Typed and not used".to_owned(), shown.problems, "warn");
    let doubts = "Repeats that disagree; the mean counts".to_owned();
    let doubts = list(doubts, shown.doubts, "warn");
    let stops = list("Stopped by".to_owned(), shown.stops, "stop");
    view! {
        <p>
            <span class="marks" data-size="total"><b>{shown.marks}</b> " " {shown.out_of}</span>
            <br />
            {shown.pass} ": " <b>{shown.award}</b>
        </p>
        {stops}
        {missing}
        {is_incomplete.then(|| view! { <p>{SEALED_INCOMPLETE}</p> })}
        {problems}
        {doubts}
        {ended}
        <p>"Sealed by " <b><bdi>{shown.examiner}</bdi></b></p>
        {open}
    }
}

fn list(text: String, items: Vec<String>, kind: &'static str) -> Option<impl IntoView> {
    (!items.is_empty()).then(|| {
        let items = items
            .into_iter()
            .map(|item| view! { <li dir="auto">{item}</li> })
            .collect_view();
        view! {
            <div class="notice" data-kind=kind>
                <p><b>{text} ":"</b></p>
                <ul>{items}</ul>
            </div>
        }
    })
}

/// Seals the marking, signed where this browser has a key; gives the address of its sheet.
///
/// *Errors:* in words, for people; the marking is then a draft still.
async fn seal(keeper: Keeper, marking: MarkingId, ended: &str) -> Result<String, String> {
    let seed = clock::random().ok_or(
        "This browser gives no random numbers, and without them names in the seal could be \
         guessed. Seal it in another browser.",
    )?;
    let ledger = keeper.ledger_now();
    let piece = ledger.marking(marking).map(|marking| marking.piece);
    let commands = seal_commands(&ledger, marking, ended, seed, clock::now());
    let Some(piece) = piece.filter(|_| !commands.is_empty()) else {
        return Err("Say first how the piece ended.".to_owned());
    };
    let commands = match signed(keeper, marking, &commands).await {
        Ok(signed) => signed.unwrap_or(commands),
        Err(why) => {
            say_unsigned(keeper, &why);
            commands
        }
    };
    for command in commands {
        keeper
            .perform(command)
            .map_err(|error| sentence(&error.to_string()))?;
    }
    let own = own_sheet(&keeper.ledger_now(), marking);
    Ok(own.map_or_else(|| paths::sheet(piece), |own| paths::sheet_of(piece, own)))
}

/// `commands` with the signature of this browser's key; `None` where it has none.
///
/// *Errors:* in words, for people, where it has one and could not sign.
async fn signed(
    keeper: Keeper,
    marking: MarkingId,
    commands: &[Command],
) -> Result<Option<Vec<Command>>, String> {
    let Some(key) = DeviceKey::kept().await? else {
        return Ok(None);
    };
    let Some(digest) = digest_to_sign(&keeper.ledger_now(), commands, marking) else {
        return Ok(None);
    };
    let signed = key.sign(digest).await?;
    Ok(Some(with_signature(commands.to_vec(), &signed)))
}

fn say_unsigned(keeper: Keeper, why: &str) {
    keeper.notices().show(Notice {
        key: "unsigned",
        weight: Weight::Warn,
        text: unsigned_words(why),
        remedy: None,
        closes: true,
    });
}
