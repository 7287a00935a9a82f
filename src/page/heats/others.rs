use leptos::prelude::*;

use super::state::Heats;
use crate::marking::heat_log::What;
use crate::page::dom;
use crate::page::widgets::{PushButton, SelectField, TextField};
use crate::present::heat_log::stop_choices;

/// What is tapped seldom: notes, pauses, the call, the end.
pub(super) fn others(heats: Heats) -> AnyView {
    let words = RwSignal::new(String::new());
    let missing = RwSignal::new(None::<String>);
    let how = RwSignal::new(String::new());
    let is_running = Memo::new(move |_| heats.buttons().is_running);
    let is_paused = Memo::new(move |_| heats.buttons().is_paused);
    let told = move |what: fn(String) -> What, must: bool| {
        let text = words.get_untracked().trim().to_owned();
        if must && text.is_empty() {
            missing.set(Some("Write first what it is about.".to_owned()));
            dom::focus_soon("heat-words");
            return;
        }
        missing.set(None);
        if heats.tap(what(text)) {
            words.set(String::new());
        }
    };
    let button =
        |words: &'static str, enabled: Signal<bool>, pushed: Box<dyn Fn() + Send + Sync>| {
            let button = PushButton::plain(words, pushed);
            PushButton { enabled, ..button }.view()
        };
    let always = Signal::stored(true);
    let runs = Signal::derive(move || is_running.get());
    let goes = Signal::derive(move || is_running.get() && !is_paused.get());
    let stop = move || {
        let mut choices = stop_choices().into_iter();
        let chosen = choices.find(|(_, key, _)| how.with_untracked(|how| how == key));
        let Some((how, ..)) = chosen else {
            missing.set(Some("Say first how it ended.".to_owned()));
            dom::focus_soon("heat-how");
            return;
        };
        let reason = words.get_untracked().trim().to_owned();
        missing.set(None);
        if heats.tap(What::Stopped { how, reason }) {
            words.set(String::new());
        }
    };
    view! {
        <section class="part stack" aria-labelledby="heat-others">
            <h2 id="heat-others">"Notes, pauses, the end"</h2>
            <TextField
                id="heat-words"
                label="Note or reason"
                hint="No names: it stays under the seal."
                error=missing
                value=words
            />
            <div class="heat-tiles">
                {button("Note it", always, Box::new(move || told(|text| What::Note { text }, true)))}
                {button("Pause, with this reason", goes, Box::new(move || told(|reason| What::Pause { reason }, true)))}
                {button("Not watched for a while", runs, Box::new(move || { heats.tap(What::NotWatched); }))}
                {button("Examiner called", runs, Box::new(move || { heats.tap(What::Called); }))}
                {button("Finished", runs, Box::new(move || { heats.tap(What::Finished); }))}
            </div>
            <SelectField id="heat-how" label="Ended without being finished" options=how_options() value=how />
            <div class="actions">{button("Stop here", runs, Box::new(stop))}</div>
        </section>
    }
    .into_any()
}

fn how_options() -> Vec<(String, String)> {
    let none = (String::new(), "It goes on".to_owned());
    let choices = stop_choices().into_iter();
    let choices = choices.map(|(_, key, words)| (key.to_owned(), words));
    std::iter::once(none).chain(choices).collect()
}
