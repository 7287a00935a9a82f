use leptos::prelude::*;

use crate::job::{Job, Topic};
use crate::page::{jobs, save_file};
use crate::present::paper_files::{FileState, file_state};

/// How far a file is, in the order in which that goes.
#[derive(Debug, Clone, PartialEq)]
enum Stage {
    /// Nothing was asked for yet.
    Choosing,
    /// What goes into it is gathered.
    Gathering,
    /// The worker has it.
    Asked(Topic),
    /// It was handed over, or why it was not; and what is drawn as boxes in it.
    Over {
        text: String,
        boxes: String,
        is_well: bool,
    },
}

/// A file that the worker makes and that is then handed to the browser; nothing of it is kept.
/// A copy is a handle.
#[derive(Debug, Clone, Copy)]
pub(super) struct FileMaking {
    stage: RwSignal<Stage>,
    /// What was asked for, whatever is chosen since: name without ending, and kind.
    file: StoredValue<Option<(String, save_file::Kind)>>,
    state: Memo<Option<FileState>>,
}

impl FileMaking {
    /// Nothing is asked for yet.
    pub(super) fn new() -> Self {
        let stage = RwSignal::new(Stage::Choosing);
        let state = Memo::new(move |_| match stage.get() {
            Stage::Asked(topic) => Some(file_state(jobs::state(&topic).as_ref())),
            _ => None,
        });
        let making = Self {
            stage,
            file: StoredValue::new(None),
            state,
        };
        Effect::new(move |_| {
            if let Some(over) = making.over() {
                making.let_go();
                stage.set(over);
            }
        });
        // Whoever closes it wants it no more.
        on_cleanup(move || making.let_go());
        making
    }

    /// Begins to gather what goes into it.
    pub(super) fn gather(self) {
        self.stage.set(Stage::Gathering);
    }

    /// Whether somebody still waits for what is gathered.
    pub(super) fn is_gathering(self) -> bool {
        self.stage.try_get_untracked() == Some(Stage::Gathering)
    }

    /// Has it made under this name, without ending, and of this kind.
    pub(super) fn ask(
        self,
        base: String,
        kind: save_file::Kind,
        job: Result<(Topic, Job), String>,
    ) {
        match job {
            Ok((topic, job)) => {
                self.file.set_value(Some((base, kind)));
                self.stage.set(Stage::Asked(topic.clone()));
                jobs::ask(topic, job);
            }
            Err(why) => self.fail(why),
        }
    }

    /// Says why there is none.
    pub(super) fn fail(self, why: String) {
        self.stage.set(failed(why));
    }

    /// How it stands, and the buttons to have it made, stopped and closed. `name` tells the
    /// parts of one kind of file from those of others.
    pub(super) fn view(
        self,
        name: &'static str,
        open: RwSignal<bool>,
        make: impl Fn() + 'static,
    ) -> AnyView {
        let is_busy = Memo::new(move |_| {
            self.stage
                .with(|stage| matches!(stage, Stage::Gathering | Stage::Asked(_)))
        });
        let close = move || {
            view! {
                <button type="button" class="button" on:click=move |_| open.set(false)>"Close"</button>
            }
        };
        view! {
            <div class="stack" role="status" id=format!("{name}-says")>
                {move || says(&self.stage.get(), self.state.get())}
            </div>
            <div class="actions">
                <button
                    type="button"
                    class="button"
                    data-kind="primary"
                    id=format!("make-{name}")
                    disabled=move || is_busy.get()
                    on:click=move |_| make()
                >
                    "Make the file"
                </button>
                <Show when=move || is_busy.get() fallback=close>
                    <button type="button" class="button" on:click=move |_| self.stop()>"Stop"</button>
                </Show>
            </div>
        }
        .into_any()
    }

    /// How it ended, once it has.
    fn over(self) -> Option<Stage> {
        match self.state.get()? {
            FileState::Busy { .. } => None,
            FileState::None(why) => Some(failed(why)),
            FileState::Ready { bytes, text, boxes } => {
                let (base, kind) = self.file.get_value()?;
                Some(match save_file::offer_bytes(&base, kind, &bytes) {
                    Ok(name) => Stage::Over {
                        text: format!("{name}: {text}"),
                        boxes,
                        is_well: true,
                    },
                    Err(why) => failed(why),
                })
            }
        }
    }

    fn stop(self) {
        match self.stage.get_untracked() {
            Stage::Asked(topic) => jobs::stop(&topic.about),
            Stage::Gathering => self.stage.set(Stage::Choosing),
            Stage::Choosing | Stage::Over { .. } => {}
        }
    }

    /// Ends what is under way, and keeps nothing of it.
    fn let_go(self) {
        if let Some(Stage::Asked(topic)) = self.stage.try_get_untracked() {
            jobs::stop(&topic.about);
            jobs::forget(&topic.about);
        }
    }
}

fn failed(text: String) -> Stage {
    Stage::Over {
        text,
        boxes: String::new(),
        is_well: false,
    }
}

fn says(stage: &Stage, state: Option<FileState>) -> Option<AnyView> {
    match (stage, state) {
        (Stage::Choosing, _) => None,
        (Stage::Gathering, _) => Some(view! { <p>"Gathering what goes into it."</p> }.into_any()),
        (Stage::Asked(_), Some(FileState::Busy { text, share })) => Some(
            view! {
                <p>{text}</p>
                <progress aria-label="How much is done" value=share max="1"></progress>
            }
            .into_any(),
        ),
        (Stage::Asked(_), _) => None,
        (
            Stage::Over {
                text,
                boxes,
                is_well,
            },
            _,
        ) => {
            let kind = (!is_well).then_some("stop");
            let boxes = (!boxes.is_empty()).then(|| {
                view! { <div class="notice" data-kind="warn"><p>{boxes.clone()}</p></div> }
            });
            Some(
                view! {
                    <div class="notice" data-kind=kind><p>{text.clone()}</p></div>
                    {boxes}
                }
                .into_any(),
            )
        }
    }
}
