use evenshod::job::{Answer, Fault, Job, Queue, Request, Said, State, Step, Topic};
use proptest::prelude::*;

fn topic(about: &str, version: &str) -> Topic {
    Topic {
        about: about.to_owned(),
        version: version.to_owned(),
    }
}

fn job(topic: &Topic) -> Job {
    Job::Certainty {
        rubric: format!("{} {}", topic.about, topic.version),
        facts: Box::default(),
    }
}

fn ask(queue: &mut Queue, topic: &Topic) -> Vec<Step> {
    queue.ask(topic.clone(), job(topic))
}

fn say(queue: &mut Queue, id: u64, answer: Answer) -> Vec<Step> {
    queue.hear(&Said::About { id, answer }.write().unwrap())
}

fn ready(queue: &mut Queue) -> Vec<Step> {
    queue.hear(&Said::Ready.write().unwrap())
}

fn fail() -> Answer {
    Answer::Failed("so it is".to_owned())
}

/// The request that a step posts.
fn posted(steps: &[Step]) -> Request {
    match steps {
        [Step::Post(text)] => Request::read(text).unwrap(),
        other => panic!("one text is to be posted: {other:?}"),
    }
}

#[test]
fn the_worker_starts_with_the_first_ask_and_is_kept() {
    let mut queue = Queue::default();
    let (one, other) = (topic("a", "1"), topic("b", "1"));
    assert_eq!(ask(&mut queue, &one), [Step::Start]);
    assert_eq!(ask(&mut queue, &other), [], "it is starting");
    assert_eq!(queue.state(&one), Some(&State::Waiting));
    let first = posted(&ready(&mut queue));
    assert_eq!(first.job, job(&one));
    assert_eq!(say(&mut queue, first.id, Answer::Progress(0.5)), []);
    assert_eq!(queue.state(&one), Some(&State::Working(0.5)));
    let second = posted(&say(&mut queue, first.id, fail()));
    assert_eq!(second.job, job(&other), "the worker is not started again");
    let refused = State::Failed(Fault::Refused("so it is".to_owned()));
    assert_eq!(queue.state(&one), Some(&refused));
}

#[test]
fn a_newer_ask_takes_the_place_of_one_that_has_not_begun() {
    let mut queue = Queue::default();
    let first = topic("a", "1");
    let _ = ask(&mut queue, &first);
    let begun = posted(&ready(&mut queue));
    let (old, new) = (topic("b", "1"), topic("b", "2"));
    assert_eq!(ask(&mut queue, &old), []);
    assert_eq!(ask(&mut queue, &new), []);
    assert_eq!(queue.state(&old), None);
    let next = posted(&say(&mut queue, begun.id, fail()));
    assert_eq!(next.job, job(&new));
    assert_eq!(say(&mut queue, next.id, fail()), [], "nothing else waits");
}

#[test]
fn what_has_begun_for_an_older_version_is_not_taken_for_the_newer() {
    let mut queue = Queue::default();
    let (old, new) = (topic("a", "1"), topic("a", "2"));
    let _ = ask(&mut queue, &old);
    let begun = posted(&ready(&mut queue));
    assert_eq!(ask(&mut queue, &new), []);
    let next = posted(&say(&mut queue, begun.id, fail()));
    assert_eq!(next.job, job(&new));
    assert_eq!(queue.state(&new), Some(&State::Waiting));
    assert_eq!(queue.state(&old), None);
}

#[test]
fn what_is_on_its_way_is_not_asked_for_twice_and_what_failed_may_be() {
    let mut queue = Queue::default();
    let one = topic("a", "1");
    let _ = ask(&mut queue, &one);
    let begun = posted(&ready(&mut queue));
    assert_eq!(ask(&mut queue, &one), []);
    assert_eq!(say(&mut queue, begun.id, fail()), []);
    assert_eq!(posted(&ask(&mut queue, &one)).job, job(&one));
}

#[test]
fn stopping_ends_the_worker_and_the_next_ask_starts_one() {
    let mut queue = Queue::default();
    let (one, other) = (topic("a", "1"), topic("b", "1"));
    let _ = ask(&mut queue, &one);
    let begun = posted(&ready(&mut queue));
    assert_eq!(queue.stop("a"), [Step::End]);
    assert_eq!(queue.state(&one), Some(&State::Stopped));
    assert_eq!(say(&mut queue, begun.id, fail()), [], "a late word");
    assert_eq!(queue.state(&one), Some(&State::Stopped));
    assert_eq!(ask(&mut queue, &other), [Step::Start]);
    let again = posted(&ready(&mut queue));
    assert_ne!(again.id, begun.id, "a late word cannot be mistaken");
}

#[test]
fn stopping_what_waits_leaves_the_worker_at_work() {
    let mut queue = Queue::default();
    let (one, other, third) = (topic("a", "1"), topic("b", "1"), topic("c", "1"));
    for asked in [&one, &other, &third] {
        let _ = ask(&mut queue, asked);
    }
    let begun = posted(&ready(&mut queue));
    assert_eq!(queue.stop("b"), []);
    assert_eq!(queue.state(&other), Some(&State::Stopped));
    let next = posted(&say(&mut queue, begun.id, fail()));
    assert_eq!(next.job, job(&third));
}

#[test]
fn a_worker_that_cannot_start_fails_all_that_waits() {
    let mut queue = Queue::default();
    let (one, other) = (topic("a", "1"), topic("b", "1"));
    let _ = ask(&mut queue, &one);
    let _ = ask(&mut queue, &other);
    assert_eq!(queue.broke("no such file"), [Step::End]);
    let fault = Fault::NotStarted("no such file".to_owned());
    for asked in [&one, &other] {
        assert_eq!(queue.state(asked), Some(&State::Failed(fault.clone())));
    }
    assert_eq!(
        ask(&mut queue, &one),
        [Step::Start],
        "it may be tried again"
    );
}

#[test]
fn a_worker_that_breaks_off_fails_its_job_and_the_next_gets_a_new_one() {
    let mut queue = Queue::default();
    let (one, other) = (topic("a", "1"), topic("b", "1"));
    let _ = ask(&mut queue, &one);
    let _ = ask(&mut queue, &other);
    let _ = ready(&mut queue);
    assert_eq!(queue.broke("unreachable"), [Step::End, Step::Start]);
    let fault = Fault::Broken("unreachable".to_owned());
    assert_eq!(queue.state(&one), Some(&State::Failed(fault)));
    assert_eq!(posted(&ready(&mut queue)).job, job(&other));
}

#[test]
fn a_word_that_cannot_be_read_is_a_broken_worker() {
    let mut queue = Queue::default();
    let one = topic("a", "1");
    let _ = ask(&mut queue, &one);
    let _ = ready(&mut queue);
    assert_eq!(queue.hear("What?"), [Step::End]);
    let state = queue.state(&one);
    assert!(
        matches!(state, Some(State::Failed(Fault::Broken(_)))),
        "{state:?}"
    );
}

#[test]
fn old_results_are_forgotten_and_what_is_to_come_is_not() {
    let mut queue = Queue::default();
    let first = topic("first", "1");
    let _ = ask(&mut queue, &first);
    let mut begun = posted(&ready(&mut queue));
    let many: Vec<_> = (0..40).map(|at| topic(&at.to_string(), "1")).collect();
    for asked in &many {
        let _ = ask(&mut queue, asked);
    }
    assert_eq!(queue.state(&first), Some(&State::Waiting), "it is at work");
    for _ in &many {
        begun = posted(&say(&mut queue, begun.id, fail()));
    }
    let _ = say(&mut queue, begun.id, fail());
    let _ = ask(&mut queue, &topic("last", "1"));
    assert_eq!(queue.state(&first), None);
    assert!(queue.state(&many[39]).is_some());
}

/// What may happen, in any order.
#[derive(Debug, Clone)]
enum Event {
    Ask(u8, u8),
    Stop(u8),
    Ready,
    Answer(u64, bool),
    Broke,
    Babble(String),
}

fn event() -> impl Strategy<Value = Event> {
    prop_oneof![
        (0_u8..3, 0_u8..3).prop_map(|(about, version)| Event::Ask(about, version)),
        (0_u8..3).prop_map(Event::Stop),
        Just(Event::Ready),
        (0_u64..6, any::<bool>()).prop_map(|(id, ends)| Event::Answer(id, ends)),
        Just(Event::Broke),
        ".{0,12}".prop_map(Event::Babble),
    ]
}

proptest! {
    #[test]
    fn no_order_of_events_posts_to_a_worker_that_is_not_there(events in prop::collection::vec(event(), 0..40)) {
        let mut queue = Queue::default();
        let mut is_there = false;
        for event in events {
            let steps = match event {
                Event::Ask(about, version) => {
                    ask(&mut queue, &topic(&about.to_string(), &version.to_string()))
                }
                Event::Stop(about) => queue.stop(&about.to_string()),
                Event::Ready if is_there => ready(&mut queue),
                Event::Ready => Vec::new(),
                Event::Answer(id, true) => say(&mut queue, id, fail()),
                Event::Answer(id, false) => say(&mut queue, id, Answer::Progress(0.5)),
                Event::Broke => queue.broke("so it is"),
                Event::Babble(text) => queue.hear(&text),
            };
            for step in steps {
                match step {
                    Step::Start => {
                        prop_assert!(!is_there, "one worker at a time");
                        is_there = true;
                    }
                    Step::Post(_) => prop_assert!(is_there),
                    Step::End => is_there = false,
                }
            }
        }
    }
}
