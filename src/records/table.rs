use std::borrow::Borrow;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Records of one kind by id. A clone shares everything; the first change after
/// it copies the pointers, never the records.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct Table<K, V>(Arc<BTreeMap<K, Arc<V>>>);

impl<K, V> Clone for Table<K, V> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<K, V> Default for Table<K, V> {
    fn default() -> Self {
        Self(Arc::default())
    }
}

impl<K: Ord + Clone, V> Table<K, V> {
    /// Whether neither was changed since one was cloned from the other.
    pub(super) fn is_same(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.0, &other.0)
    }

    pub(super) fn get<Q: Ord + ?Sized>(&self, id: &Q) -> Option<&V>
    where
        K: Borrow<Q>,
    {
        self.0.get(id).map(|record| &**record)
    }

    pub(super) fn arc<Q: Ord + ?Sized>(&self, id: &Q) -> Option<Arc<V>>
    where
        K: Borrow<Q>,
    {
        self.0.get(id).cloned()
    }

    pub(super) fn arcs(&self) -> impl Iterator<Item = Arc<V>> {
        self.0.values().cloned()
    }

    pub(super) fn iter(&self) -> impl DoubleEndedIterator<Item = &V> {
        self.0.values().map(|record| &**record)
    }

    pub(super) fn put(&mut self, id: K, record: Arc<V>) {
        Arc::make_mut(&mut self.0).insert(id, record);
    }

    pub(super) fn remove<Q: Ord + ?Sized>(&mut self, id: &Q)
    where
        K: Borrow<Q>,
    {
        Arc::make_mut(&mut self.0).remove(id);
    }
}

/// Replaces `old` by `new` in a set, and leaves a shared set alone where they
/// are the same.
pub(super) fn relink<T: Ord + Clone>(links: &mut Arc<BTreeSet<T>>, old: Option<T>, new: Option<T>) {
    if old == new {
        return;
    }
    let links = Arc::make_mut(links);
    if let Some(old) = old {
        links.remove(&old);
    }
    if let Some(new) = new {
        links.insert(new);
    }
}
