use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;

use super::file_making::FileMaking;
use super::{Dialog, TileChoice, Tiles};
use crate::job::{Binding, Form, PaperKind, PaperSize, Titled};
use crate::page::keeper::Keeper;
use crate::page::pictures::fetched;
use crate::page::slices::{Slice, breathe};
use crate::page::{clock, preferences, save_file};
use crate::present::paper_files::{
    Choice, PapersWanted, Says, binding_choices, document_wanted, kind_choices, papers_job,
    pictures_in, size_choices,
};
use crate::records::LearnerId;
use crate::sheet::Document;

/// Whole pages.
pub(crate) const PAGES: &[PaperSize] = &[PaperSize::A4, PaperSize::Letter];
/// Cards for the bench.
pub(crate) const BENCH_CARDS: &[PaperSize] = &[PaperSize::A5, PaperSize::HalfLetter];
/// Cards.
pub(crate) const CARDS: &[PaperSize] = &[PaperSize::A6, PaperSize::A5];

/// A document for each of several learners, made one after the other.
#[derive(Debug, Clone)]
pub(crate) struct Each {
    /// What the file is called, without an ending.
    pub(crate) base: String,
    /// What it is called inside.
    pub(crate) title: String,
    /// For whom.
    pub(crate) of: Vec<LearnerId>,
    /// Makes one; nothing for who has nothing to be handed.
    pub(crate) make: Callback<LearnerId, Option<Titled>>,
}

/// Where documents come from.
#[derive(Debug, Clone, Copy)]
enum Wanted {
    /// They are at hand.
    Now(Callback<(), Option<PapersWanted>>),
    /// They are made while the page lives on.
    Each(Callback<(), Each>),
}

/// A button that asks for kind and paper, and saves a document for each of several learners.
#[component]
pub(crate) fn SaveEach(each: Callback<(), Each>, sizes: &'static [PaperSize]) -> impl IntoView {
    button(Wanted::Each(each), true, sizes)
}

/// A button that asks for kind and paper, and saves documents as a file or, where they are
/// several, each as one in a ZIP.
#[component]
pub(crate) fn SavePaper(
    /// What they say, as things are when it is asked.
    wanted: Callback<(), Option<PapersWanted>>,
    /// Whether they are several.
    #[prop(optional)]
    several: bool,
    /// On which papers.
    #[prop(default = PAGES)]
    sizes: &'static [PaperSize],
) -> impl IntoView {
    button(Wanted::Now(wanted), several, sizes)
}

fn button(wanted: Wanted, several: bool, sizes: &'static [PaperSize]) -> AnyView {
    let open = RwSignal::new(false);
    let words = if several {
        "Save all as files"
    } else {
        "Save as a file"
    };
    view! {
        <button type="button" class="button" on:click=move |_| open.set(true)>{words}</button>
        <Dialog labelled_by="save-paper" open>
            <Inside wanted several sizes open />
        </Dialog>
    }
    .into_any()
}

/// The same for one document that is shown.
#[component]
pub(crate) fn SaveDocument(
    /// The document.
    document: Document,
    /// What it is, as its file is named.
    what: &'static str,
    /// On which papers.
    #[prop(default = PAGES)]
    sizes: &'static [PaperSize],
) -> impl IntoView {
    let document = StoredValue::new(document);
    let wanted = Callback::new(move |()| {
        let document = document.get_value();
        Some(document_wanted(clock::now().day(), what, document))
    });
    view! { <SavePaper wanted sizes /> }
}

#[component]
fn Inside(
    wanted: Wanted,
    several: bool,
    sizes: &'static [PaperSize],
    open: RwSignal<bool>,
) -> impl IntoView {
    let keeper = Keeper::here();
    let making = FileMaking::new();
    let kind = RwSignal::new(PaperKind::default().word().to_owned());
    let size = RwSignal::new(preferences::paper(sizes).word().to_owned());
    let binding = RwSignal::new(Binding::default().word().to_owned());
    let form = move || Form {
        kind: PaperKind::from_word(&kind.get_untracked()),
        size: PaperSize::from_word(&size.get_untracked()),
        binding: Binding::from_word(&binding.get_untracked()),
    };
    let make = move || {
        let form = form();
        preferences::set_paper(sizes, form.size);
        making.gather();
        spawn_local(async move {
            let ledger = keeper.ledger_now();
            let papers = match wanted {
                Wanted::Now(wanted) => wanted.run(()),
                Wanted::Each(each) => each_made(each.run(()), making).await,
            };
            let Some(papers) = papers else {
                if making.is_gathering() {
                    making.fail(NOTHING.to_owned());
                }
                return;
            };
            let base = papers.base.clone();
            let pictures = fetched(keeper, pictures_in(&ledger, &papers)).await;
            let job = pictures.and_then(|pictures| papers_job(&ledger, papers, pictures, form));
            // Not once it was stopped or closed.
            if making.is_gathering() {
                making.ask(base, file_kind(form, several), job);
            }
        });
    };
    let binding_tiles = several.then(|| {
        view! {
            <Tiles name="binding" legend="Several documents" choices=tiles(binding_choices()) value=binding columns=2 />
        }
    });
    let has_pages = Memo::new(move |_| kind.with(|kind| kind == PaperKind::Pdf.word()));
    view! {
        <div class="stack">
            <h2 id="save-paper">"Save as a file"</h2>
            <Tiles name="kind" legend="Kind of file" choices=tiles(kind_choices()) value=kind columns=2 />
            <Show when=move || has_pages.get()>
                <Tiles name="paper" legend="Paper" choices=tiles(size_choices(sizes)) value=size columns=2 />
            </Show>
            {binding_tiles}
            {making.view("paper", open, make)}
        </div>
    }
}

fn file_kind(form: Form, several: bool) -> save_file::Kind {
    match (form.binding, form.kind) {
        (Binding::Zip, _) if several => save_file::Kind::Zip,
        (_, PaperKind::Pdf) => save_file::Kind::Pdf,
        (_, PaperKind::Text) => save_file::Kind::Text,
    }
}

/// Makes the documents in slices, as long as somebody waits for them; `None` where there
/// is none.
async fn each_made(each: Each, making: FileMaking) -> Option<PapersWanted> {
    let mut made = Vec::new();
    let mut slice = Slice::begin();
    for id in each.of {
        made.extend(each.make.run(id));
        if slice.is_over() {
            breathe().await;
            if !making.is_gathering() {
                return None;
            }
            slice = Slice::begin();
        }
    }
    (!made.is_empty()).then_some(PapersWanted {
        base: each.base,
        title: each.title,
        says: Says::Documents(made),
    })
}

/// What is said where there is nothing to save.
const NOTHING: &str =
    "There is nothing to save yet: nothing of it is sealed, or its rubric is not here.";

/// Choices as tiles.
pub(super) fn tiles(choices: Vec<Choice>) -> Vec<TileChoice> {
    let tile = |(word, title, note)| TileChoice::new(word, title, note);
    choices.into_iter().map(tile).collect()
}
