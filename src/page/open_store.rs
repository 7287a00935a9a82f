//! Finds out what the browser keeps, before anything relies on it.

use std::cell::RefCell;
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::set_timeout;

use super::dom;
use crate::records::PictureBytes;
use crate::store::indexed_db::{IndexedDbStore, StoreEvent};
use crate::store::{Batch, Loaded, MemoryStore, Store, StoreError};

/// Longer than any healthy browser takes.
const PATIENCE: Duration = Duration::from_secs(5);

/// Where this tab's ledger rests.
#[derive(Debug)]
pub(super) enum PageStore {
    /// In the browser's database.
    Browser(IndexedDbStore),
    /// In this page alone.
    Page(MemoryStore),
}

impl Store for PageStore {
    async fn load(&self) -> Result<Loaded, StoreError> {
        match self {
            Self::Browser(store) => store.load().await,
            Self::Page(store) => store.load().await,
        }
    }

    async fn picture(&self, digest: &str) -> Result<Option<PictureBytes>, StoreError> {
        match self {
            Self::Browser(store) => store.picture(digest).await,
            Self::Page(store) => store.picture(digest).await,
        }
    }

    async fn commit(&self, batch: &Batch) -> Result<(), StoreError> {
        match self {
            Self::Browser(store) => store.commit(batch).await,
            Self::Page(store) => store.commit(batch).await,
        }
    }
}

/// Is told what happens to the store.
type Hear = Rc<dyn Fn(StoreEvent)>;

/// Who hears what happens to the store: nobody until the page is there.
#[derive(Clone, Default)]
pub(super) struct Listener(Rc<RefCell<Option<Hear>>>);

impl Listener {
    /// From now on `hear` is told.
    pub(super) fn set(&self, hear: impl Fn(StoreEvent) + 'static) {
        self.0.replace(Some(Rc::new(hear)));
    }

    fn tell(&self, event: StoreEvent) {
        // Let go of the cell first: whoever hears may set another.
        let hear = self.0.borrow().clone();
        match hear {
            Some(hear) => hear(event),
            None => dom::say(
                "starting",
                "Another tab has an older version of Evenshod open. Close it, and this one goes on.",
            ),
        }
    }
}

/// A store with what it held at first.
pub(super) struct Opened {
    pub(super) store: PageStore,
    pub(super) loaded: Loaded,
    /// Why nothing is kept in the browser, where it is not.
    pub(super) trouble: Option<StoreError>,
    pub(super) listener: Listener,
}

/// Opens the browser's store, or one that lasts as long as the page.
pub(super) async fn open() -> Opened {
    set_timeout(
        || {
            dom::say(
                "starting",
                "Still opening the ledger on this device. If this stays, close other Evenshod tabs and reload.",
            );
        },
        PATIENCE,
    );
    let listener = Listener::default();
    let (store, loaded, trouble) = match open_browser_store(listener.clone()).await {
        Ok((store, loaded)) => (PageStore::Browser(store), loaded, None),
        Err(error) => {
            let store = PageStore::Page(MemoryStore::default());
            (store, Loaded::default(), Some(error))
        }
    };
    Opened {
        store,
        loaded,
        trouble,
        listener,
    }
}

async fn open_browser_store(listener: Listener) -> Result<(IndexedDbStore, Loaded), StoreError> {
    let store = IndexedDbStore::open(move |event| listener.tell(event)).await?;
    let loaded = store.load().await?;
    Ok((store, loaded))
}
