//! Two tabs on one store, in every interleaving that proptest finds.

use std::collections::BTreeMap;

use evenshod::command::{Command, CommandError, Edit};
use evenshod::marking::ReadingFact;
use evenshod::marking::heat_log::{Run, Tap, What};
use evenshod::records::{Ledger, MarkingId, Stamp};
use evenshod::store::{Batch, Desk, MemoryStore, Store, StoreError};
use proptest::prelude::*;

use super::now;
use crate::records::sample::now as moment;
use crate::records::sample::{NOW_MS, comment, device, level, named, seal, start, with_draft};

/// A tab: its desk, its own clock, and the batch that it has sent.
struct Tab {
    desk: Desk,
    number: u8,
    last: Stamp,
    sent: Option<Batch>,
    refused: Vec<(Command, CommandError)>,
}

impl Tab {
    fn open(store: &MemoryStore, number: u8) -> Self {
        Self {
            desk: Desk::new(now(store.load()).unwrap().ledger),
            number,
            last: Stamp::first(0, device(number)),
            sent: None,
            refused: Vec::new(),
        }
    }

    fn perform(&mut self, command: Command) -> Result<evenshod::command::Made, CommandError> {
        let seen = self.desk.ledger().latest().cloned();
        let last = seen.max(Some(self.last.clone())).unwrap();
        // Both clocks stand still, the hardest case for stamps.
        self.last = Stamp::next(&last, NOW_MS, device(self.number));
        self.desk.perform(command, self.last.clone())
    }

    /// Sends a batch, or hears how the one that was sent went.
    fn step(&mut self, store: &MemoryStore) {
        let Some(batch) = self.sent.take() else {
            self.sent = self.desk.take_batch();
            return;
        };
        match now(store.commit(&batch)) {
            Ok(()) => self.desk.batch_saved(),
            Err(error) => {
                self.desk.batch_failed(&error);
                if matches!(error, StoreError::Changed { .. } | StoreError::TimedOut) {
                    let fresh = now(store.load()).unwrap().ledger;
                    self.refused.extend(self.desk.rebase(fresh).unwrap());
                }
            }
        }
    }

    fn settle(&mut self, store: &MemoryStore) {
        for _ in 0..100 {
            if self.desk.is_saved() {
                return;
            }
            self.step(store);
        }
        panic!("tab {} never finishes saving", self.number);
    }
}

/// What happens next: which tab, and what it does.
#[derive(Debug, Clone)]
enum Event {
    Level(usize, &'static str, u8),
    Reading(usize, &'static str, u8),
    Comment(usize, &'static str, u8),
    Start(usize, u8),
    Step(usize),
    Fail(StoreError),
    Seal(usize),
}

/// Fields that only the first tab edits, only the second, and both.
const ENTRIES: [[&str; 2]; 2] = [["toe", "width"], ["heel", "width"]];

fn event() -> impl Strategy<Value = Event> {
    let tab = 0..2_usize;
    let field = || (0..2_usize, 0..2_usize, any::<u8>());
    let failure = prop_oneof![Just(StoreError::Full), Just(StoreError::TimedOut)];
    prop_oneof![
        4 => field().prop_map(|(tab, entry, to)| Event::Level(tab, ENTRIES[tab][entry], to)),
        4 => field().prop_map(|(tab, entry, to)| Event::Reading(tab, ENTRIES[tab][entry], to)),
        2 => field().prop_map(|(tab, entry, to)| Event::Comment(tab, ENTRIES[tab][entry], to)),
        1 => (tab.clone(), 0..3_u8).prop_map(|(tab, who)| Event::Start(tab, who)),
        8 => tab.clone().prop_map(Event::Step),
        1 => failure.prop_map(Event::Fail),
    ]
}

fn reading(marking: MarkingId, entry: &str, to: u8) -> Command {
    Command::edit(
        marking,
        Edit::SetReadings {
            entry: entry.to_owned(),
            readings: vec![ReadingFact::of(to.to_string())],
        },
    )
}

/// The last value that each tab gave to each field.
type Written = BTreeMap<(&'static str, &'static str), [Option<u8>; 2]>;

struct Ran {
    store: MemoryStore,
    tabs: [Tab; 2],
    marking: MarkingId,
    written: Written,
    begun: Vec<MarkingId>,
    sealed_by: Option<usize>,
}

fn run(events: Vec<Event>) -> Ran {
    let (ledger, made) = with_draft();
    let marking = made.marking.unwrap();
    let texts = ledger
        .records()
        .map(|record| (record.key().to_string(), record.write().unwrap()));
    let store = MemoryStore::holding(texts);
    let mut tabs = [Tab::open(&store, 1), Tab::open(&store, 2)];
    let (mut written, mut begun) = (Written::new(), Vec::new());
    let mut sealed_by = None;
    for event in events {
        let (tab, field, to, command) = match event {
            Event::Level(tab, entry, to) => (
                tab,
                ("level", entry),
                to,
                level(marking, entry, &to.to_string()),
            ),
            Event::Reading(tab, entry, to) => {
                (tab, ("reading", entry), to, reading(marking, entry, to))
            }
            Event::Comment(tab, entry, to) => {
                let command = comment(marking, Some(entry), &to.to_string());
                (tab, ("comment", entry), to, command)
            }
            Event::Start(tab, who) => {
                let made = tabs[tab].perform(start(named(&format!("Learner {who}"))));
                begun.push(made.unwrap().marking.unwrap());
                continue;
            }
            Event::Step(tab) => {
                tabs[tab].step(&store);
                continue;
            }
            Event::Fail(error) => {
                store.refuse_next(error);
                continue;
            }
            Event::Seal(tab) => {
                if tabs[tab].perform(seal(marking)).is_ok() {
                    sealed_by = Some(tab);
                }
                continue;
            }
        };
        // Refused once this tab knows that the marking is sealed.
        if tabs[tab].perform(command).is_ok() {
            written.entry(field).or_default()[tab] = Some(to);
        }
    }
    // Each writes what it still has, then looks at what the other wrote.
    for tab in &mut tabs {
        tab.settle(&store);
    }
    let stored = now(store.load()).unwrap().ledger;
    for tab in &mut tabs {
        assert_eq!(tab.desk.rebase(stored.clone()), Ok(vec![]));
    }
    Ran {
        store,
        tabs,
        marking,
        written,
        begun,
        sealed_by,
    }
}

fn value(ledger: &Ledger, marking: MarkingId, field: (&str, &str)) -> Option<String> {
    let marking = ledger.marking(marking).unwrap();
    match field.0 {
        "level" => marking.facts.levels.get(field.1).cloned(),
        "comment" => marking.comments.get(field.1).cloned(),
        _ => marking
            .facts
            .readings
            .get(field.1)
            .map(|all| all[0].text.clone()),
    }
}

proptest! {
    #[test]
    fn no_edit_of_a_field_of_ones_own_is_lost_and_both_converge(
        events in prop::collection::vec(event(), 1..60),
    ) {
        let run = run(events);
        let loaded = now(run.store.load()).unwrap();
        prop_assert!(loaded.unreadable.is_empty());
        for tab in &run.tabs {
            prop_assert_eq!(tab.desk.ledger(), &loaded.ledger);
            prop_assert!(tab.refused.is_empty(), "nothing was sealed or deleted");
        }
        for (field, last) in run.written {
            let found = value(&loaded.ledger, run.marking, field);
            let one_of: Vec<_> = last.iter().flatten().map(|to| Some(to.to_string())).collect();
            prop_assert!(one_of.contains(&found), "{field:?} is {found:?} of {one_of:?}");
        }
        for marking in run.begun {
            prop_assert!(loaded.ledger.marking(marking).is_some());
        }
    }

    #[test]
    fn once_sealed_a_marking_stands_and_every_lost_edit_is_told(
        before in prop::collection::vec(event(), 0..20),
        by in 0..2_usize,
        after in prop::collection::vec(event(), 0..40),
    ) {
        let events: Vec<_> = before.into_iter().chain([Event::Seal(by)]).chain(after).collect();
        let run = run(events);
        let ledger = now(run.store.load()).unwrap().ledger;
        let marking = ledger.marking(run.marking).unwrap();
        prop_assert_eq!(run.sealed_by, Some(by));
        let check = evenshod::records::check_seal(ledger.seal_parts(marking).unwrap()).unwrap();
        prop_assert!(check.intact);
        let told: usize = run.tabs.iter().map(|tab| tab.refused.len()).sum();
        for (field, last) in run.written {
            let found = value(&ledger, run.marking, field);
            let kept = last.iter().flatten().any(|to| Some(to.to_string()) == found);
            prop_assert!(kept || told > 0, "{field:?} was lost and nobody was told");
        }
    }
}

/// What happens next where both tabs tap: which tab, and what it does.
#[derive(Debug, Clone)]
enum Tapping {
    Tap(usize),
    Step(usize),
    Fail(StoreError),
}

fn tapping() -> impl Strategy<Value = Tapping> {
    let failure = prop_oneof![Just(StoreError::Full), Just(StoreError::TimedOut)];
    prop_oneof![
        4 => (0..2_usize).prop_map(Tapping::Tap),
        8 => (0..2_usize).prop_map(Tapping::Step),
        1 => failure.prop_map(Tapping::Fail),
    ]
}

proptest! {
    #[test]
    fn every_tap_of_both_tabs_is_kept_once_and_in_its_tabs_order(
        events in prop::collection::vec(tapping(), 0..40),
    ) {
        let (ledger, made) = with_draft();
        let marking = made.marking.unwrap();
        let texts = ledger.records().map(|record| (record.key().to_string(), record.write().unwrap()));
        let store = MemoryStore::holding(texts);
        let mut tabs = [Tab::open(&store, 1), Tab::open(&store, 2)];
        let mut tapped = [Vec::new(), Vec::new()];
        for (event, ms) in events.into_iter().zip(0..) {
            match event {
                Tapping::Tap(tab) => {
                    let page = u32::try_from(tab).unwrap();
                    let tap = Tap { at: moment(), run: Some(Run { page, ms }), what: What::NotWatched };
                    tabs[tab].perform(Command::edit(marking, Edit::Tap { tap: tap.clone() })).unwrap();
                    tapped[tab].push(tap);
                }
                Tapping::Step(tab) => tabs[tab].step(&store),
                Tapping::Fail(error) => store.refuse_next(error),
            }
        }
        for tab in &mut tabs {
            tab.settle(&store);
            prop_assert!(tab.refused.is_empty());
        }
        let stored = now(store.load()).unwrap().ledger;
        let kept = &stored.marking(marking).unwrap().facts.heat_log.taps;
        prop_assert_eq!(kept.len(), tapped[0].len() + tapped[1].len());
        for (tapped, page) in tapped.iter().zip(0..) {
            let own = kept.iter().filter(|tap| tap.run.unwrap().page == page);
            prop_assert_eq!(&own.cloned().collect::<Vec<_>>(), tapped);
        }
    }
}
