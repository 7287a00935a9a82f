use evenshod::command::{Command, Edit, IssueTickets, TicketAsked};
use evenshod::marking::Pause;
use evenshod::marking::heat_log::{Run, Tap, What};
use evenshod::output::pdf::{Paper, pdf};
use evenshod::present::board::{Board, BoardTile, board};
use evenshod::present::{Rubrics, StartForm, TicketForm, offers, ticket_document, ticket_links};
use evenshod::records::{Ledger, MarkingId, Moment, SittingKind, Unit};
use evenshod::rubric::{Kind, TallyOf, When, read_rubric};

use crate::records::sample::{after, day, now, seal, stamp};

/// `seconds` after the start, by one page's clock.
fn at(seconds: u32) -> (Moment, Option<Run>) {
    let ms = i64::from(seconds) * 1_000;
    let run = Run {
        page: 1,
        ms: u64::from(seconds) * 1_000,
    };
    (Moment::new(now().utc_ms() + ms, 60), Some(run))
}

fn issued(hidden: bool) -> Ledger {
    issued_to(&[("1", Some("Ada Smith")), ("2", None)], hidden)
}

fn issued_to(tickets: &[(&str, Option<&str>)], hidden: bool) -> Ledger {
    let mut offers = offers().into_iter();
    let offer = offers.find(|offer| offer.rubric.rubric_id == "straight-bar-shoe");
    let asked = |(ticket, learner): &(&str, Option<&str>)| TicketAsked {
        ticket: (*ticket).to_owned(),
        learner: learner.map(str::to_owned),
    };
    let issue = IssueTickets {
        tickets: tickets.iter().map(asked).collect(),
        hidden,
        rubric: offer.unwrap().rubric,
        sitting: SittingKind::Exam,
        day: day(),
        examiner: "Wm. Green".to_owned(),
        unit: Unit::Millimetre,
        at: now(),
    };
    let issue = Command::IssueTickets(Box::new(issue));
    after(&Ledger::default(), issue, &stamp(0)).0
}

fn seen(ledger: &Ledger, seconds: u32) -> Board {
    let sitting = ledger.sittings().next().unwrap().id;
    board(ledger, &Rubrics::default(), sitting, at(seconds)).unwrap()
}

fn first(ledger: &Ledger, seconds: u32) -> BoardTile {
    seen(ledger, seconds).tiles.remove(0)
}

fn tapped(ledger: &Ledger, marking: MarkingId, seconds: u32, what: What) -> Ledger {
    let (at, run) = at(seconds);
    let tap = Tap { at, run, what };
    let edit = Command::edit(marking, Edit::Tap { tap });
    let later = stamp(100 + u64::from(seconds));
    after(ledger, edit, &later).0
}

#[test]
fn tickets_stand_by_their_numbers_whoever_they_are_of() {
    let tickets = [
        ("10", None),
        ("9", Some("Zed Young")),
        ("2", None),
        ("B1", None),
    ];
    let tiles = seen(&issued_to(&tickets, false), 0).tiles;
    let names: Vec<&str> = tiles.iter().map(|tile| tile.name.as_str()).collect();
    assert_eq!(
        names,
        ["Ticket 2", "9, Zed Young", "Ticket 10", "Ticket B1"]
    );
}

#[test]
fn a_hidden_name_stays_hidden_until_it_is_sealed() {
    assert_eq!(first(&issued(true), 0).name, "Ticket 1");
    assert_eq!(first(&issued(false), 0).name, "1, Ada Smith");
    let board = seen(&issued(true), 0);
    assert_eq!((board.tiles.len(), board.not_started().count()), (2, 2));
}

#[test]
fn the_clock_counts_down_stands_in_a_pause_and_says_what_is_over() {
    let ledger = issued(true);
    let tile = first(&ledger, 0);
    assert_eq!((tile.state, tile.may_pause), ("not started", false));
    let whole = minutes(&tile.clock);
    let ledger = tapped(&ledger, tile.marking, 0, What::Start);
    let tile = first(&ledger, 61);
    assert_eq!(minutes(&tile.clock), whole - 61);
    assert_eq!((tile.state, tile.may_start), ("at the anvil", false));
    let reason = "First aid".to_owned();
    let ledger = tapped(&ledger, tile.marking, 61, What::Pause { reason });
    let tile = first(&ledger, 600);
    assert!(tile.is_paused && !tile.may_heat && !tile.may_pause);
    assert_eq!(minutes(&tile.clock), whole - 61);
    let ledger = tapped(&ledger, tile.marking, 600, What::Resume);
    let late = u32::try_from(whole).unwrap() + 600 - 61 + 190;
    let tile = first(&ledger, late);
    assert_eq!((tile.clock.as_str(), tile.is_over), ("3:10 over", true));
    let extra = Edit::SetExtraTime {
        extra_time: Some(Pause {
            duration: "5".to_owned(),
            reason: "By arrangement".to_owned(),
        }),
    };
    let (ledger, _) = after(&ledger, Command::edit(tile.marking, extra), &stamp(90_000));
    let tile = first(&ledger, late);
    assert_eq!((tile.clock.as_str(), tile.is_over), ("1:50", false));
    assert!(
        tile.clock_of.ends_with("with extra time"),
        "{}",
        tile.clock_of
    );
}

/// Seconds of `12:34`.
fn minutes(text: &str) -> i64 {
    let (minutes, seconds) = text.split_once(':').unwrap();
    60 * minutes.parse::<i64>().unwrap() + seconds.parse::<i64>().unwrap()
}

#[test]
fn heats_that_nobody_watched_are_not_counted() {
    let ledger = issued(true);
    let id = first(&ledger, 0).marking;
    assert_eq!(first(&ledger, 0).heats, "not counted");
    let ledger = tapped(&ledger, id, 0, What::Start);
    let ledger = tapped(&ledger, id, 60, What::Heat { weld: false });
    assert!(first(&ledger, 61).heats.starts_with("1 of "));
    let ledger = tapped(&ledger, id, 70, What::NotWatched);
    let tile = first(&ledger, 71);
    assert_eq!(
        (tile.heats.as_str(), tile.last_tap),
        ("at least 1", Some(2))
    );
    let ledger = tapped(&ledger, id, 90, What::Finished);
    let tile = first(&ledger, 500);
    assert_eq!(tile.state, "finished");
    assert!(!tile.may_heat && !tile.may_note && !tile.may_pause);
}

#[test]
fn faults_are_those_seen_while_it_is_made_and_the_last_is_shown() {
    let ledger = issued(true);
    let tile = first(&ledger, 0);
    let text = &ledger.rubrics().next().unwrap().text;
    let rubric = read_rubric(text).rubric.unwrap();
    let entries = rubric.entries().into_iter();
    let during = entries.filter(|entry| entry.criterion.when == When::During);
    let count: usize = during.map(|entry| entry.criterion.faults.len()).sum();
    assert!(count > 0);
    assert_eq!(tile.faults.len(), count);
    let seen = &tile.faults[0];
    let what = What::Fault {
        entry: seen.entry.clone(),
        fault: seen.fault.clone(),
    };
    let ledger = tapped(&ledger, tile.marking, 0, What::Start);
    let ledger = tapped(&ledger, tile.marking, 754, what);
    let last = format!("Fault: {}, at 12:34", seen.name);
    assert_eq!(first(&ledger, 800).last, last);
}

#[test]
fn the_last_warning_is_told_in_its_own_words() {
    let ledger = issued(true);
    let tile = first(&ledger, 0);
    let whole = u32::try_from(minutes(&tile.clock)).unwrap();
    let id = tile.marking;
    let last = |ledger: &Ledger, seconds| first(ledger, seconds).last;
    let ledger = tapped(&ledger, id, 0, What::Start);
    assert_eq!(last(&ledger, whole - 301), "");
    let clock = |seconds: u32| format!("{}:{:02}", seconds / 60, seconds % 60);
    let nearly = nearly_at(&clock(whole - 300));
    assert_eq!(last(&ledger, whole - 300), nearly);
    assert_eq!(last(&ledger, whole), nearly);
    assert_eq!(
        last(&ledger, whole + 1),
        format!("Time over, at {}", clock(whole))
    );
    // A pause before puts it off; when it came is by the clock on the wall.
    let reason = "First aid".to_owned();
    let paused = tapped(&ledger, id, 60, What::Pause { reason });
    let paused = tapped(&paused, id, 180, What::Resume);
    assert_eq!(last(&paused, whole), nearly_at(&clock(whole - 180)));
    let of = heats_allowed(&ledger);
    let heats = (0..=of).fold(ledger.clone(), |ledger, at| {
        tapped(&ledger, id, 100 + at, What::Heat { weld: false })
    });
    let words = format!("More heats than the {of} allowed, at {}", clock(100 + of));
    assert_eq!(last(&heats, 300), words);
    // Taken back, it is gone; what comes later stands in its place.
    let index = first(&heats, 300).last_tap.unwrap();
    let back = Command::edit(id, Edit::TakeBackTap { index });
    assert_eq!(last(&after(&heats, back, &stamp(9_000)).0, 300), "");
    assert_eq!(last(&heats, whole - 10), nearly);
    // Once it has ended nothing more is warned of.
    let ended = tapped(&heats, id, 301, What::Finished);
    assert_eq!(last(&ended, whole + 1), words);
}

fn nearly_at(clock: &str) -> String {
    format!("Time nearly up: 5 minutes left, at {clock}")
}

/// Heats that the rubric allows.
fn heats_allowed(ledger: &Ledger) -> u32 {
    let text = &ledger.rubrics().next().unwrap().text;
    let rubric = read_rubric(text).rubric.unwrap();
    let entries = rubric.entries();
    let mut tallies = entries
        .iter()
        .filter_map(|entry| match &entry.criterion.kind {
            Kind::Tally(tally) if tally.counts == Some(TallyOf::Heats) => Some(tally.allowance),
            _ => None,
        });
    let allowed = tallies.next().unwrap().base.numerator();
    u32::try_from(allowed).unwrap()
}

#[test]
fn a_sealed_piece_leaves_the_board() {
    let ledger = issued(true);
    let id = first(&ledger, 0).marking;
    let (ledger, _) = after(&ledger, seal(id), &stamp(900));
    assert_eq!(seen(&ledger, 0).tiles.len(), 1);
}

fn form(list: &str) -> TicketForm {
    let ledger = Ledger::default();
    let start = StartForm::fresh(&ledger, &offers(), day(), "Wm. Green".to_owned(), "mm");
    TicketForm {
        list: list.to_owned(),
        ..TicketForm::fresh(&ledger, start, None)
    }
}

fn read(list: &str) -> Result<Vec<(String, Option<String>)>, String> {
    match form(list).read(&offers(), now()) {
        Ok(Command::IssueTickets(issue)) => {
            assert!(issue.hidden);
            let tickets = issue.tickets.into_iter();
            Ok(tickets.map(|one| (one.ticket, one.learner)).collect())
        }
        Ok(other) => panic!("{other:?}"),
        Err(errors) => Err(errors.list.unwrap()),
    }
}

#[test]
fn tickets_are_a_count_or_one_a_line() {
    assert_eq!(read("8").unwrap().len(), 8);
    let two = read("12 Ada  Smith\n13\n").unwrap();
    let ada = Some("Ada Smith".to_owned());
    assert_eq!(two, [("12".to_owned(), ada), ("13".to_owned(), None)]);
    for (list, says) in [
        ("", "Write how many"),
        ("0", "no count from 1 to 60"),
        ("61", "no count from 1 to 60"),
        ("1\n\n2", "Line 2 is blank"),
        ("1\nAda Smith", "Line 2: `Ada` is no ticket"),
        ("1 Ada\n1 Bea", "Line 2: ticket 1 stands twice"),
    ] {
        let error = read(list).unwrap_err();
        assert!(error.contains(says), "{list:?}: {error}");
    }
}

#[test]
fn a_sheet_of_tickets_has_names_only_where_they_are_shown_and_goes_onto_one_page() {
    for (hidden, paper) in [(true, Paper::A4), (false, Paper::Letter)] {
        let ledger = issued(hidden);
        let sitting = ledger.sittings().next().unwrap().id;
        let issue = form("3\n4\n5\n6\n7\n8").read(&offers(), now()).unwrap();
        let (ledger, _) = after(&ledger, issue, &stamp(50));
        let document = ticket_document(&ledger, sitting, "https://forge.example").unwrap();
        let said = format!("{document:?}");
        assert_eq!(said.contains("Ada Smith"), !hidden);
        assert!(said.contains("https://forge.example/pieces/"));
        let file = pdf(&document, paper).unwrap();
        assert_eq!(file.pages, 1, "{paper:?}");
        let links = ticket_links(&ledger, sitting);
        assert_eq!((links.len(), links[0].title.as_str()), (8, "Ticket 1"));
    }
}
