use std::cell::{Cell, OnceCell, RefCell};
use std::rc::Rc;

use leptos::prelude::*;

use super::clock;
use super::late::Late;
use super::notices::{Notice, Notices, Remedy, Weight};
use super::open_store::{Opened, PageStore};
use super::tabs::{self, Tabs};
use super::{preferences, writer};
use crate::command::{Command, CommandError, Made};
use crate::present::rubrics::own_offers;
use crate::present::{Offer, Rubrics, Saving, Scorer, interrupted, offers, sentence};
use crate::records::{Device, Ledger, MarkingId, PictureBytes, Stamp};
use crate::store::{Desk, Store as _, StoreError, Unreadable};

/// The ledger of this tab and the one way to change it.
///
/// A copy is a handle: all copies are one keeper, made at the root and never
/// disposed, so it may be captured anywhere, in tasks too. Commands show at once;
/// a writer stores them in the background, one batch at a time.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Keeper {
    desk: RwSignal<Desk>,
    saving: RwSignal<Saving>,
    notices: Notices,
    late: Late,
    unreadable: RwSignal<Vec<Unreadable>>,
    parts: StoredValue<Rc<Parts>, LocalStorage>,
}

/// What the browser lets no other thread have.
#[derive(Debug)]
pub(super) struct Parts {
    pub(super) store: PageStore,
    pub(super) tabs: Tabs,
    /// Another tab has stored something that is not loaded here.
    pub(super) is_stale: Cell<bool>,
    /// The browser or a newer version has taken the store away.
    pub(super) has_ended: Cell<bool>,
    pub(super) is_writing: Cell<bool>,
    device: Device,
    latest: RefCell<Option<Stamp>>,
    rubrics: Rubrics,
    offers: OnceCell<Vec<Offer>>,
    told_of_tab: Cell<u64>,
}

/// Changes of another tab that follow each other within this time are told once.
const RUN_MS: u64 = 60_000;

/// Keys of the notice that names the draft which was open when the page went away,
/// on other pages and on its own.
const INTERRUPTED: &str = "interrupted";
const INTERRUPTED_HERE: &str = "interrupted-here";

impl Keeper {
    /// The keeper of this page.
    pub(crate) fn here() -> Self {
        expect_context()
    }

    /// A keeper of what was opened; call it once, at the root.
    pub(super) fn new(opened: Opened) -> Self {
        let only_here = opened.trouble.is_some();
        let slot: Rc<Cell<Option<Self>>> = Rc::default();
        let tabs = {
            let slot = Rc::clone(&slot);
            Tabs::open(move || slot.get().map_or((), Self::hear_tab))
        };
        let keeper = Self {
            desk: RwSignal::new(Desk::new(opened.loaded.ledger)),
            saving: RwSignal::new(if only_here {
                Saving::OnlyHere
            } else {
                Saving::Untouched
            }),
            notices: Notices::new(),
            late: Late::new(),
            unreadable: RwSignal::new(Vec::new()),
            parts: StoredValue::new_local(Rc::new(Parts {
                store: opened.store,
                tabs,
                is_stale: Cell::new(false),
                has_ended: Cell::new(false),
                is_writing: Cell::new(false),
                device: preferences::device(),
                latest: RefCell::default(),
                rubrics: Rubrics::waiting(),
                offers: OnceCell::new(),
                told_of_tab: Cell::new(0),
            })),
        };
        slot.set(Some(keeper));
        if let Some(trouble) = &opened.trouble {
            writer::say_only_here(keeper, trouble);
        }
        writer::say_unreadable(keeper, opened.loaded.unreadable);
        opened
            .listener
            .set(move |event| writer::hear_store(keeper, event));
        tabs::on_hide(move || keeper.save());
        tabs::ask_before_close(move || keeper.would_lose());
        keeper.name_interrupted();
        keeper
    }

    /// The ledger with every command in it, stored or not; whoever calls this in a
    /// view or memo hears of changes.
    pub(crate) fn with_ledger<T>(self, see: impl FnOnce(&Ledger) -> T) -> T {
        self.desk.with(|desk| see(desk.ledger()))
    }

    /// As [`Keeper::with_ledger`], with the rubrics that the ledger's texts read as:
    /// none until the second module is there.
    pub(crate) fn look<T>(self, see: impl FnOnce(&Ledger, &Rubrics) -> T) -> T {
        self.late.table();
        let parts = self.parts();
        self.with_ledger(|ledger| see(ledger, &parts.rubrics))
    }

    /// As [`Keeper::look`], once: nobody hears of changes.
    pub(crate) fn look_now<T>(self, see: impl FnOnce(&Ledger, &Rubrics) -> T) -> T {
        untrack(|| self.look(see))
    }

    /// The ledger as it stands, for event handlers: nobody hears of changes.
    pub(crate) fn ledger_now(self) -> Ledger {
        self.desk.with_untracked(|desk| desk.ledger().clone())
    }

    /// Carries a command out and stores it in the background. Call it from event
    /// handlers and tasks, never from a view or memo.
    ///
    /// *Errors:* [`CommandError`]; then nothing has changed.
    pub(crate) fn perform(self, command: Command) -> Result<Made, CommandError> {
        let stamp = self.next_stamp();
        let mut result = Ok(Made::default());
        // What commands do comes with the second module, as do the pages that send them.
        let Some(table) = self.late.table_now() else {
            return Err(CommandError::NotReady);
        };
        self.desk
            .update(|desk| result = (table.perform)(desk, command, stamp));
        self.save();
        result
    }

    /// As [`Keeper::perform`]; what is refused is told in a notice of this key, which goes
    /// with the next one that is not. Gives whether it was carried out.
    pub(crate) fn perform_or_say(self, key: &'static str, command: Command) -> bool {
        self.done_or_say(key, self.perform(command).map(|_| ()))
    }

    /// Says why something was refused, if it was; gives whether it was not.
    pub(crate) fn done_or_say(self, key: &'static str, done: Result<(), CommandError>) -> bool {
        match &done {
            Ok(()) => self.notices.clear(key),
            Err(error) => self.notices.show(Notice {
                key,
                weight: Weight::Stop,
                text: sentence(&error.to_string()),
                remedy: None,
                closes: true,
            }),
        }
        done.is_ok()
    }

    /// The bytes of a picture, stored or not yet; `None` where they are not on this device.
    ///
    /// *Errors:* what the store says.
    pub(crate) async fn picture(self, digest: &str) -> Result<Option<PictureBytes>, StoreError> {
        match self.desk.with_untracked(|desk| desk.picture(digest)) {
            Some(bytes) => Ok(Some(bytes)),
            None => self.parts().store.picture(digest).await,
        }
    }

    /// How far what is typed is stored.
    pub(crate) fn saving(self) -> Saving {
        self.saving.get()
    }

    /// As [`Keeper::saving`], for the writer: nobody hears of changes.
    pub(super) fn saving_now(self) -> Saving {
        self.saving.get_untracked()
    }

    /// Whether everything is stored; nobody hears of changes, but they come with
    /// [`Keeper::saving`].
    pub(crate) fn is_stored(self) -> bool {
        self.is_only_here() || self.desk.with_untracked(Desk::is_saved)
    }

    /// Stored records that cannot be read.
    pub(crate) fn unreadable(self) -> RwSignal<Vec<Unreadable>> {
        self.unreadable
    }

    /// This tab of this device.
    pub(crate) fn device(self) -> Device {
        self.parts().device.clone()
    }

    /// The messages above the page.
    pub(crate) fn notices(self) -> Notices {
        self.notices
    }

    /// The rubrics that ship, read once.
    pub(crate) fn offers(self) -> Vec<Offer> {
        self.parts().offers.get_or_init(offers).clone()
    }

    /// The rubrics that a piece can be started with: own ones, then those that ship.
    pub(crate) fn every_offer(self) -> Vec<Offer> {
        let shipped = self.offers();
        let own = self.look_now(|ledger, rubrics| own_offers(ledger, rubrics, &shipped));
        own.into_iter().chain(shipped).collect()
    }

    /// Remembers that `marking` is on the screen until the page that calls this is
    /// left, so that it can be named should the browser die.
    pub(crate) fn remember_open(self, marking: MarkingId) {
        preferences::set_open_draft(Some(marking));
        // Who was led here need not be told to come here.
        self.notices.clear(INTERRUPTED);
        on_cleanup(move || {
            preferences::set_open_draft(None);
            self.notices.clear(INTERRUPTED_HERE);
        });
    }

    /// Tries to store what is not stored.
    pub(super) fn save_again(self) {
        self.notices.clear(writer::NOT_SAVED);
        self.save();
    }

    /// Starts the writer, unless it is at work. Whatever gives it work comes with it,
    /// in the second module.
    pub(super) fn save(self) {
        if let Some(table) = self.late.table_now() {
            (table.save)(self);
        }
    }

    /// The second module.
    pub(super) fn late(self) -> Late {
        self.late
    }

    /// From now on there are marks to show.
    pub(super) fn score_with(self, scorer: Scorer) {
        self.parts().rubrics.score_with(scorer);
    }

    /// From now on nothing can be stored.
    pub(super) fn end(self) {
        self.parts().has_ended.set(true);
    }

    /// Does `change` to the desk without telling anybody: for what leaves the
    /// ledger as it is.
    pub(super) fn at_desk<T>(self, change: impl FnOnce(&mut Desk) -> T) -> Option<T> {
        self.desk.try_update_untracked(change)
    }

    /// Does `change` to the desk and shows the ledger that comes of it.
    pub(super) fn at_desk_and_show<T>(self, change: impl FnOnce(&mut Desk) -> T) -> Option<T> {
        self.desk.try_update(change)
    }

    /// Says how far what is typed is stored.
    pub(super) fn set_saving(self, saving: Saving) {
        if self.saving.get_untracked() != saving {
            self.saving.set(saving);
        }
    }

    /// Whether the browser keeps nothing.
    pub(super) fn is_only_here(self) -> bool {
        matches!(self.parts().store, PageStore::Page(_))
    }

    pub(super) fn parts(self) -> Rc<Parts> {
        self.parts.with_value(Rc::clone)
    }

    fn next_stamp(self) -> Stamp {
        let parts = self.parts();
        let seen = self
            .desk
            .with_untracked(|desk| desk.ledger().latest().cloned());
        let latest = parts.latest.take().max(seen);
        let device = parts.device.clone();
        let stamp = match latest {
            Some(latest) => Stamp::next(&latest, clock::now_ms(), device),
            None => Stamp::first(clock::now_ms(), device),
        };
        parts.latest.replace(Some(stamp.clone()));
        stamp
    }

    fn would_lose(self) -> bool {
        let is_empty = self
            .desk
            .with_untracked(|desk| desk.ledger().latest().is_none());
        self.saving.get_untracked().is_unsafe_to_close() && !is_empty
    }

    fn hear_tab(self) {
        let parts = self.parts();
        parts.is_stale.set(true);
        let now = clock::now_ms();
        let is_new_run = now.saturating_sub(parts.told_of_tab.replace(now)) > RUN_MS;
        if is_new_run {
            self.notices.show(Notice {
                key: "other-tab",
                weight: Weight::Info,
                text: "This ledger changed in another tab; what both typed is kept.".to_owned(),
                remedy: None,
                closes: true,
            });
        }
        self.save();
    }

    /// Names the draft that was open when the page last went away.
    fn name_interrupted(self) {
        let Some(id) = preferences::open_draft() else {
            return;
        };
        let found = self
            .desk
            .with_untracked(|desk| interrupted(desk.ledger(), id, clock::now()));
        match found {
            None => preferences::set_open_draft(None),
            Some(found) => {
                let of_marking = super::paths::marking(found.piece, found.marking);
                let of_piece = super::paths::piece(found.piece);
                let is_here = window().location().pathname().is_ok_and(|path| {
                    path == of_marking || (path == of_piece && !found.is_one_of_many)
                });
                let href = if found.is_one_of_many {
                    of_marking
                } else {
                    of_piece
                };
                let text = "Go on marking".to_owned();
                self.notices.show(Notice {
                    key: if is_here {
                        INTERRUPTED_HERE
                    } else {
                        INTERRUPTED
                    },
                    weight: Weight::Info,
                    text: found.text,
                    remedy: (!is_here).then_some(Remedy::GoTo { href, text }),
                    closes: true,
                });
            }
        }
    }
}
