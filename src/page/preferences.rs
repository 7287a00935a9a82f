//! What this browser remembers beside the ledger: comforts that may be lost. Where
//! it remembers nothing, each has its usual value and setting it does nothing.

use gloo_storage::{LocalStorage, Storage as _};
use leptos::prelude::{document, window};
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::clock;
use crate::job::PaperSize;
use crate::present::plan::PlanTyped;
use crate::records::{Device, MarkingId};

const THEME: &str = "evenshod.theme";
const UNIT: &str = "evenshod.unit";
const EXAMINER: &str = "evenshod.examiner";
const DEVICE: &str = "evenshod.device";
const PAD: &str = "evenshod.pad";
const PAPER: &str = "evenshod.paper";
const CARD: &str = "evenshod.card";
const PLAN: &str = "evenshod.plan";
const OPEN_DRAFT: &str = "evenshod.open-draft";

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Theme {
    Device,
    Light,
    Dark,
}

impl Theme {
    pub(super) const ALL: [Self; 3] = [Self::Device, Self::Light, Self::Dark];

    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Device => "device",
            Self::Light => "light",
            Self::Dark => "dark",
        }
    }

    pub(super) fn title(self) -> &'static str {
        match self {
            Self::Device => "As the device",
            Self::Light => "Light",
            Self::Dark => "Dark",
        }
    }

    pub(super) fn from_word(word: &str) -> Self {
        let found = Self::ALL.into_iter().find(|theme| theme.word() == word);
        found.unwrap_or(Self::Device)
    }

    /// Shows the page in it.
    pub(super) fn show(self) {
        let Some(root) = document().document_element() else {
            return;
        };
        // A theme that cannot be set leaves the device's.
        let _ = match self {
            Self::Device => root.remove_attribute("data-theme"),
            Self::Light | Self::Dark => root.set_attribute("data-theme", self.word()),
        };
    }
}

pub(super) fn theme() -> Theme {
    Theme::from_word(&get::<String>(THEME).unwrap_or_default())
}

pub(super) fn set_theme(theme: Theme) {
    set(THEME, theme.word());
    theme.show();
}

/// The unit that the last piece was started with, as the form calls it.
pub(super) fn unit() -> String {
    get(UNIT).unwrap_or_default()
}

/// Of these papers the one that was last chosen, or the first.
pub(super) fn paper(of: &[PaperSize]) -> PaperSize {
    let word: String = get(paper_key(of)).unwrap_or_default();
    let last = PaperSize::from_word(&word);
    if of.contains(&last) {
        last
    } else {
        of.first().copied().unwrap_or_default()
    }
}

pub(super) fn set_paper(of: &[PaperSize], size: PaperSize) {
    set(paper_key(of), size.word());
}

/// Cards are chosen apart from whole pages.
fn paper_key(of: &[PaperSize]) -> &'static str {
    if of.contains(&PaperSize::A4) {
        PAPER
    } else {
        CARD
    }
}

/// The name of whoever marked last.
pub(super) fn examiner() -> String {
    get(EXAMINER).unwrap_or_default()
}

pub(super) fn set_last_unit(unit: &str) {
    set(UNIT, unit);
}

pub(super) fn set_last_start(unit: &str, examiner: &str) {
    set_last_unit(unit);
    set(EXAMINER, examiner.trim());
}

/// Whether the number pad is open: as it was last, at first where fingers are the
/// pointer.
pub(super) fn wants_pad() -> bool {
    get(PAD).unwrap_or_else(|| {
        let coarse = window().match_media("(pointer: coarse)");
        coarse.ok().flatten().is_some_and(|query| query.matches())
    })
}

pub(super) fn set_wants_pad(wants: bool) {
    set(PAD, wants);
}

/// This tab of this device, unlike every other tab.
pub(super) fn device() -> Device {
    let name = get(DEVICE).unwrap_or_else(|| {
        let [one, two] = clock::random().unwrap_or_default();
        let name = format!("device-{one:02x}{two:02x}");
        set(DEVICE, &name);
        name
    });
    let random = clock::random().unwrap_or_else(|| clock::now_ms().to_be_bytes());
    Device::new(&name, random)
}

/// What was typed last about the plan of a rubric's piece.
pub(super) fn plan(rubric: &str) -> Option<PlanTyped> {
    get(&plan_key(rubric))
}

pub(super) fn set_plan(rubric: &str, typed: &PlanTyped) {
    if typed.0.is_empty() {
        forget(&plan_key(rubric));
    } else {
        set(&plan_key(rubric), typed);
    }
}

fn plan_key(rubric: &str) -> String {
    format!("{PLAN}.{rubric}")
}

/// The draft that is being marked, for the page to name it after a crash.
pub(super) fn open_draft() -> Option<MarkingId> {
    get(OPEN_DRAFT)
}

pub(super) fn set_open_draft(marking: Option<MarkingId>) {
    match marking {
        Some(marking) => set(OPEN_DRAFT, marking),
        None => forget(OPEN_DRAFT),
    }
}

fn get<T: DeserializeOwned>(key: &str) -> Option<T> {
    is_allowed().then(|| LocalStorage::get(key).ok()).flatten()
}

fn set(key: &str, value: impl Serialize) {
    if is_allowed() {
        // Lost comfort is no reason to trouble anybody.
        let _ = LocalStorage::set(key, value);
    }
}

fn forget(key: &str) {
    if is_allowed() {
        LocalStorage::delete(key);
    }
}

/// Whether the browser lets this page remember. The library panics where it does
/// not, so this is asked each time before it.
fn is_allowed() -> bool {
    window()
        .local_storage()
        .is_ok_and(|storage| storage.is_some())
}
