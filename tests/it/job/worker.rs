//! What the worker answers, without a browser.

use evenshod::conformity::weigh;
use evenshod::job::{Answer, Job, Outcome, Request, Said};
use evenshod::marking::Facts;
use evenshod::worker::take;
use proptest::prelude::*;

use crate::sheet::sample::{bar_shoe_text, read, whole_bar_shoe};

fn answers(text: &str) -> Vec<Said> {
    let mut said = Vec::new();
    take(text, &mut |one| said.push(one));
    said
}

fn asked(rubric: &str, facts: Facts) -> Vec<Said> {
    let job = Job::Certainty {
        rubric: rubric.to_owned(),
        facts: Box::new(facts),
    };
    answers(&Request { id: 5, job }.write().unwrap())
}

#[test]
fn it_says_that_it_begins_and_then_what_comes_of_it() {
    let (ledger, marking) = whole_bar_shoe();
    let facts = ledger.marking(marking).unwrap().facts.clone();
    let certainty = weigh(&read(bar_shoe_text()), &facts).unwrap();
    let about = |answer| Said::About { id: 5, answer };
    let wanted = [
        about(Answer::Progress(0.0)),
        about(Answer::Done(Outcome::Certainty(certainty))),
    ];
    let said = asked(bar_shoe_text(), facts);
    assert_eq!(said, wanted);
    for one in said {
        assert_eq!(Said::read(&one.write().unwrap()), Ok(one), "over the wire");
    }
}

#[test]
fn a_rubric_that_cannot_be_read_is_an_answer() {
    let said = asked("title = ", Facts::default());
    let Some(Said::About {
        answer: Answer::Failed(why),
        ..
    }) = said.last()
    else {
        panic!("{said:?}");
    };
    assert!(
        why.starts_with("the rubric of this marking cannot be read: "),
        "{why}"
    );
    assert!(why.contains("line"), "it says where: {why}");
}

proptest! {
    #[test]
    fn any_text_gets_an_answer(text in ".{0,200}") {
        let said = answers(&text);
        let is_refused = matches!(&said[..], [Said::About { id: 0, answer: Answer::Failed(_) }]);
        prop_assert!(is_refused);
    }
}
