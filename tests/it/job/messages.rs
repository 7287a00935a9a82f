use evenshod::job::{Answer, Job, Request, Said};
use proptest::prelude::*;

fn request(rubric: &str) -> Request {
    let job = Job::Certainty {
        rubric: rubric.to_owned(),
        facts: Box::default(),
    };
    Request { id: 7, job }
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in ".{0,200}") {
        let _ = Request::read(&text);
        let _ = Said::read(&text);
    }

    #[test]
    fn a_request_cut_short_or_broken_is_refused(rubric in ".{0,40}", at in 0_usize..400, with in any::<char>()) {
        let whole = request(&rubric).write().unwrap();
        let end = whole.char_indices().map(|(at, _)| at).nth(at).unwrap_or(0);
        prop_assert!(Request::read(&whole[..end]).is_err());
        let broken = format!("{}{with}{}", &whole[..end], &whole[end..]);
        // A letter may go into the text of the rubric, or a space between: what is read then
        // is a request like any other.
        if let Ok(read) = Request::read(&broken) {
            prop_assert_eq!(Request::read(&read.write().unwrap()), Ok(read));
        }
    }

    #[test]
    fn a_request_comes_back_as_it_was(rubric in ".{0,80}") {
        let request = request(&rubric);
        prop_assert_eq!(Request::read(&request.write().unwrap()), Ok(request));
    }
}

#[test]
fn a_message_of_another_build_is_refused() {
    for text in [
        r#"{"id":1,"job":{"certainty":{"rubric":""}}}"#,
        r#"{"id":1,"job":{"something":{}}}"#,
        r#"{"id":-1,"job":{"certainty":{"rubric":"","facts":{}}}}"#,
        r#"{"id":1,"job":{"certainty":{"rubric":"","facts":{},"more":1}}}"#,
    ] {
        let fault = Request::read(text).unwrap_err().to_string();
        assert!(fault.contains("reload the page"), "{fault}");
    }
    assert!(Said::read("ready").is_err(), "JSON, not a bare word");
    assert_eq!(Said::read("\"ready\""), Ok(Said::Ready));
}

#[test]
fn nesting_without_end_is_refused() {
    let deep = "[".repeat(100_000);
    assert!(Request::read(&deep).is_err());
}

#[test]
fn answers_come_back_as_they_were() {
    for answer in [Answer::Progress(0.25), Answer::Failed("why".to_owned())] {
        let said = Said::About { id: 3, answer };
        assert_eq!(Said::read(&said.write().unwrap()), Ok(said));
    }
}
