//! The invented school's examiners.

use std::sync::OnceLock;

use evenshod::job::{Agreed, Job, Outcome};
use evenshod::moderation::offers;
use evenshod::records::Record;
use evenshod::sheet::{DayAsked, Document, text_lines};
use evenshod::worker::perform;

use crate::demo::sample::demo;

/// What the worker is sent for the first version on offer.
pub fn wanted(hides_names: bool) -> Agreed {
    let offer = offers(demo()).remove(0);
    let pieces = demo().pieces_by(&offer.digest).map(|piece| piece.id);
    let records = demo().about(pieces);
    let records = records.iter().map(Record::write);
    Agreed {
        records: records.collect::<Result<_, _>>().unwrap(),
        rubric: offer.digest,
        from: None,
        to: None,
        hides_names,
        day: DayAsked {
            examiners: 4,
            pieces: 6,
            each: 2,
        },
    }
}

pub fn document(hides_names: bool) -> Document {
    let said = perform(&Job::Agreement(wanted(hides_names)), &mut |_| ()).unwrap();
    let Outcome::Agreement(document) = said else {
        panic!("{said:?}");
    };
    document
}

/// With names.
fn shown() -> &'static Document {
    static SHOWN: OnceLock<Document> = OnceLock::new();
    SHOWN.get_or_init(|| document(false))
}

#[test]
fn print_it() {
    println!("{}", evenshod::output::text(shown()));
    let _ = text_lines;
}

#[test]
fn dump() {
    use evenshod::moderation::{Gathered, Span};
    let w = wanted(false);
    let v = demo().rubric(&w.rubric).unwrap();
    let r = evenshod::rubric::read_rubric(&v.text).rubric.unwrap();
    let g = Gathered::of(demo(), &r, &w.rubric, Span::default());
    for seen in &g.twice {
        for by in &seen.by {
            let l: Vec<_> = ["toe-bend", "heel-form", "section", "clip-form", "nail-fit"]
                .iter()
                .map(|c| {
                    let e = r.entries().into_iter().find(|e| e.id == *c).unwrap();
                    let evenshod::rubric::Kind::Judged(j) = &e.criterion.kind else {
                        panic!()
                    };
                    by.marking
                        .facts
                        .levels
                        .get(*c)
                        .map(|l| 3 - j.place_of(l).unwrap().0)
                })
                .collect();
            println!(
                "{:?} {:?} {l:?}",
                seen.piece.ticket,
                g.examiners.iter().position(|e| *e == by.examiner)
            );
        }
    }
}
