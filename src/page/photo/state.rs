use std::collections::BTreeMap;
use std::sync::Arc;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use leptos::prelude::*;
use wasm_bindgen_futures::spawn_local;
use web_sys::File;

use crate::command::{Command, Edit, Entered};
use crate::gauge::sheet::Sheet;
use crate::gauge::{Dot, Shown};
use crate::job::Topic;
use crate::page::keeper::Keeper;
use crate::page::open_file::{bytes_of, size_of};
use crate::page::pictures::made_small;
use crate::page::{dom, jobs};
use crate::present::photo::{
    Fill, PhotoFile, PhotoForm, PhotoHead, PhotoStands, Shows, Way, WrongField, photo_job,
    photo_note, photo_stands, taking,
};
use crate::present::pictures::{PHOTO_PIXELS, kept_picture, too_heavy};
use crate::present::sentence;
use crate::records::{MarkingId, sha256_hex};
use crate::rubric::Rubric;

/// The notice of a taking that is refused.
const REFUSED: &str = "photo-refused";

/// The photo that was chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Chosen {
    /// What its file is called.
    pub(super) name: String,
    /// SHA-256 of it.
    digest: String,
    /// The file in base 64.
    file: Arc<str>,
    /// The reduced picture.
    small: Arc<[u8]>,
    /// The same as an address.
    pub(super) address: String,
}

/// A photo on its page. A copy is a handle.
#[derive(Clone, Copy)]
pub(super) struct PhotoState {
    pub(super) keeper: Keeper,
    pub(super) marking: MarkingId,
    pub(super) rubric: StoredValue<Arc<Rubric>>,
    pub(super) head: StoredValue<PhotoHead>,
    pub(super) way: RwSignal<Way>,
    pub(super) shows: RwSignal<Shows>,
    pub(super) thickness: RwSignal<String>,
    /// How far two marks on a ruler are apart.
    pub(super) length: RwSignal<String>,
    /// Dots per inch of a scan.
    pub(super) dots: RwSignal<String>,
    /// What is wrong with a field.
    pub(super) field_wrong: RwSignal<Option<WrongField>>,
    /// Whether the clips hang over the edge of a board.
    pub(super) is_over_edge: RwSignal<bool>,
    /// Whether there are calks or studs at the heels.
    pub(super) has_calks: RwSignal<bool>,
    /// Which shoe it shows, where there are several.
    pub(super) shoe: RwSignal<Option<String>>,
    pub(super) chosen: RwSignal<Option<Chosen>>,
    /// Whether a file is being opened.
    pub(super) opening: RwSignal<bool>,
    /// Why the last file could not be opened.
    pub(super) wrong: RwSignal<String>,
    /// Places that are marked by hand; nothing of those that are not yet.
    pub(super) marks: RwSignal<Vec<Option<Dot>>>,
    /// Whether places have handles.
    pub(super) moving: RwSignal<bool>,
    /// Places of the edge that were put right by hand.
    pub(super) edge_points: RwSignal<Vec<Dot>>,
    /// Whether they have handles.
    pub(super) edging: RwSignal<bool>,
    /// What was asked last.
    topic: RwSignal<Option<Topic>>,
    /// The form as it stood then.
    asked: RwSignal<Option<PhotoForm>>,
    /// How that stands.
    pub(super) stands: Memo<Option<PhotoStands>>,
    /// What came of the photo last: it stays until the next is there, so that nothing jumps while
    /// a corner is moved.
    pub(super) last: RwSignal<Option<PhotoStands>>,
    /// The measure that is pointed at.
    pub(super) pointed: RwSignal<Option<usize>>,
    /// Readings that somebody has taken or left otherwise than is offered.
    pub(super) ticks: RwSignal<BTreeMap<String, bool>>,
    /// What was said last.
    pub(super) said: RwSignal<String>,
    /// What takes the last taking back.
    undo: RwSignal<Option<(Box<Entered>, Box<Entered>)>>,
}

impl PhotoState {
    pub(super) fn new(
        keeper: Keeper,
        marking: MarkingId,
        rubric: Arc<Rubric>,
        head: PhotoHead,
    ) -> Self {
        let topic: RwSignal<Option<Topic>> = RwSignal::new(None);
        let shoe = head.shoes.first().map(|(id, _)| id.clone());
        let about = format!("photo {marking}");
        on_cleanup(move || {
            jobs::stop(&about);
            jobs::forget(&about);
        });
        Self {
            keeper,
            marking,
            rubric: StoredValue::new(rubric),
            head: StoredValue::new(head),
            way: RwSignal::new(Way::Sheet(Sheet::A4)),
            shows: RwSignal::new(Shows::Ground),
            thickness: RwSignal::new(String::new()),
            length: RwSignal::new(String::new()),
            dots: RwSignal::new(String::new()),
            field_wrong: RwSignal::new(None),
            is_over_edge: RwSignal::new(false),
            has_calks: RwSignal::new(false),
            shoe: RwSignal::new(shoe),
            chosen: RwSignal::new(None),
            opening: RwSignal::new(false),
            wrong: RwSignal::new(String::new()),
            marks: RwSignal::new(Vec::new()),
            moving: RwSignal::new(false),
            edge_points: RwSignal::new(Vec::new()),
            edging: RwSignal::new(false),
            topic,
            asked: RwSignal::new(None),
            stands: Memo::new(move |_| {
                let topic = topic.get()?;
                Some(photo_stands(jobs::state(&topic).as_ref()))
            }),
            last: RwSignal::new(None),
            pointed: RwSignal::new(None),
            ticks: RwSignal::new(BTreeMap::new()),
            said: RwSignal::new(String::new()),
            undo: RwSignal::new(None),
        }
    }

    /// Opens a file and measures it.
    pub(super) fn open(self, file: File) {
        self.opening.set(true);
        self.wrong.set(String::new());
        spawn_local(async move {
            let opened = opened(&file).await;
            // The page may have been left meanwhile.
            if self.opening.try_set(false).is_some() {
                return;
            }
            match opened {
                Ok(chosen) => {
                    self.last.set(None);
                    self.chosen.set(Some(chosen));
                    self.unmark();
                    self.edge_points.set(Vec::new());
                    self.ticks.set(BTreeMap::new());
                    self.pointed.set(None);
                    self.measure();
                }
                Err(why) => self.wrong.set(why),
            }
        });
    }

    /// Takes all marks away; where nothing is measured without them, their handles come.
    fn unmark(self) {
        self.marks.set(Vec::new());
        self.moving.set(self.way.get_untracked().needs_marks());
    }

    /// Whether a drawn outline is measured, no shoe.
    pub(super) fn is_drawn(self) -> bool {
        self.shows.get() == Shows::Drawing || self.way.get() == Way::Scan
    }

    /// Goes by another scale.
    pub(super) fn go_by(self, way: Way) {
        self.way.set(way);
        self.unmark();
        self.field_wrong.set(None);
        self.measure_if_changed();
    }

    /// Has the photo measured anew where the form was changed since.
    pub(super) fn measure_if_changed(self) {
        let form = self.form();
        if self
            .asked
            .with_untracked(|asked| asked.as_ref() != Some(&form))
        {
            self.measure();
        }
    }

    /// Has the photo measured as the form stands.
    pub(super) fn measure(self) {
        let Some(photo) = self.chosen.with_untracked(|chosen| {
            let chosen = chosen.as_ref()?;
            Some(chosen.file.to_string())
        }) else {
            return;
        };
        let run = self.topic.with_untracked(|topic| {
            let last = topic.as_ref().and_then(|topic| topic.version.parse().ok());
            last.map_or(0_u32, |last: u32| last.wrapping_add(1))
        });
        let form = self.form();
        let job = self
            .head
            .with_value(|head| photo_job(head, self.marking, run, &form, photo));
        match job {
            Ok((topic, job)) => {
                self.field_wrong.set(None);
                self.stop();
                self.said.set(String::new());
                self.asked.set(Some(form));
                self.topic.set(Some(topic.clone()));
                jobs::ask(topic, job);
            }
            Err(wrong) => self.field_wrong.set(Some(WrongField {
                text: sentence(&wrong.text),
                ..wrong
            })),
        }
    }

    /// Stops the measuring.
    pub(super) fn stop(self) {
        if let Some(topic) = self.topic.get_untracked() {
            jobs::stop(&topic.about);
        }
    }

    fn form(self) -> PhotoForm {
        PhotoForm {
            way: self.way.get_untracked(),
            shows: self.shows.get_untracked(),
            thickness: self.thickness.get_untracked(),
            length: self.length.get_untracked(),
            dots: self.dots.get_untracked(),
            marks: self.marks_placed(),
            is_over_edge: self.is_over_edge.get_untracked(),
            has_calks: self.has_calks.get_untracked(),
            edge_points: self.edge_points.get_untracked(),
            outer_is_right: self.shoe.with_untracked(|shoe| {
                self.head
                    .with_value(|head| head.outer_is_right(shoe.as_deref()))
            }),
        }
    }

    /// The marks, once all of them are placed.
    fn marks_placed(self) -> Option<Vec<Dot>> {
        let marks: Option<Vec<Dot>> = self.marks.get_untracked().into_iter().collect();
        marks.filter(|marks| !marks.is_empty())
    }

    /// Whether a reading is to be taken.
    pub(super) fn is_ticked(self, fill: &Fill) -> bool {
        self.ticks
            .with(|ticks| ticks.get(&fill.slot).copied().unwrap_or(fill.is_taken))
    }

    /// Takes these readings, with the photo and what was moved on it, as one step.
    pub(super) fn take(self, shown: &Shown, moved: &str, fills: &[Fill]) {
        let Some(chosen) = self.chosen.get_untracked() else {
            return;
        };
        let (kept, keep) = kept_picture(chosen.small.to_vec());
        let file = PhotoFile {
            digest: chosen.digest,
            kept,
        };
        // What was measured, whatever was changed since and cannot be.
        let asked = self.asked.get_untracked();
        let form = asked.unwrap_or_else(|| self.form());
        let note = self.head.with_value(|head| photo_note(head, &form, &file));
        let note = format!("{note}{moved}");
        let before = self.entered();
        let shoe = self.shoe.get_untracked();
        let taking = taking(&note, &file, shoe.as_deref(), shown, fills);
        let [readings, photo] = taking.edits;
        let commands = [
            keep,
            Command::edit(self.marking, readings),
            Command::edit(self.marking, photo),
        ];
        for command in commands {
            if !self.keeper.perform_or_say(REFUSED, command) {
                return;
            }
        }
        self.undo.set(before.zip(self.entered()));
        self.said.set(taking.said);
        dom::focus_soon("photo-said");
    }

    /// Whether the last taking can be taken back.
    pub(super) fn can_undo(self) -> bool {
        self.undo.with(Option::is_some)
    }

    /// Takes the last taking back.
    pub(super) fn undo(self) {
        let undo = self.undo.try_update(Option::take).flatten();
        if let Some((before, after)) = undo {
            let edit = Edit::TakeBack { before, after };
            let command = Command::edit(self.marking, edit);
            if self.keeper.perform_or_say(REFUSED, command) {
                self.said.set("The readings are as they were.".to_owned());
            }
        }
    }

    fn entered(self) -> Option<Box<Entered>> {
        let id = self.marking;
        self.keeper
            .look_now(|ledger, _| Some(Box::new(Entered::of(ledger.marking(id)?))))
    }
}

/// A file that was chosen.
///
/// *Errors:* in words, for people.
async fn opened(file: &File) -> Result<Chosen, String> {
    if let Some(text) = too_heavy(size_of(file)) {
        return Err(text);
    }
    let small = made_small(file, PHOTO_PIXELS).await?;
    let bytes = bytes_of(file).await?;
    Ok(Chosen {
        name: file.name(),
        digest: sha256_hex(&bytes),
        file: STANDARD.encode(&bytes).into(),
        address: format!("data:image/jpeg;base64,{}", STANDARD.encode(&small)),
        small: small.into(),
    })
}
