use evenshod::output::pdf::{Paper, checked_pdf_of_many};
use evenshod::output::text;
use evenshod::plan::{Choice, Inputs, Method, plan};
use evenshod::quantity::Unit;
use evenshod::rubric::{Rubric, read_rubric, shipped};
use evenshod::sheet::{BenchCard, Document, bench_card};

fn rubric(id: &str) -> Rubric {
    let found = shipped().iter().find(|one| one.id == id).unwrap();
    read_rubric(found.text).rubric.unwrap()
}

fn card(rubric: &Rubric, choice: Choice, unit: Unit) -> Document {
    let foot = rubric.shoes[0].drawn_foot();
    let inputs = Inputs {
        unit,
        choice,
        ..Inputs::usual(&rubric.piece, foot)
    };
    let plan = plan(&rubric.piece, &inputs);
    bench_card(&BenchCard {
        rubric,
        plan: &plan,
        unit,
    })
}

fn said(id: &str, choice: Choice) -> String {
    text(&card(&rubric(id), choice, Unit::Inch64))
}

#[track_caller]
fn has(text: &str, part: &str) {
    assert!(text.contains(part), "{part} is not in:\n{text}");
}

#[test]
fn it_says_what_to_cut_where_to_mark_and_in_which_heats() {
    let text = said("straight-bar-shoe", Choice::Usual);
    has(&text, "Cut: 15 in, as the piece says");
    has(
        &text,
        "Stock: flat 3/4 in by 3/8 in, cut to 15 in, mild steel",
    );
    has(&text, "Mass: bar 543 g, finished shoe about 471 g");
    has(&text, "the left end becomes the inner branch");
    has(&text, "Mark: heel, inner");
    has(&text, "From the left end: 1 3/4 in");
    has(&text, "From the middle: 5 3/4 in left");
    has(&text, "9 heats");
    has(&text, "What: Weld, brush, flux again, at welding heat");
    has(&text, "5 to 6");
    has(&text, "Time allowed is 1 h;");
    has(&text, "Black heat burns");
    has(&text, "Practice piece");
    has(&text, "Stand clear of the first blow on the weld");
}

#[test]
fn a_method_is_named_with_what_it_warns_of() {
    let text = said("straight-bar-shoe", Choice::Method(Method::Handbook));
    has(&text, "10 3/8 in by handbook sum");
    has(&text, "- The rule is for the hoof");
    has(
        &text,
        "- The bar weighs 375 g and the shoe by its sizes 471 g",
    );
    has(&text, "correspondingly longer bar");
    let text = said("hind-shoe", Choice::Method(Method::Tape));
    has(
        &text,
        "Cut: this was told on fullered straight bar shoes only",
    );
}

#[test]
fn an_open_hind_has_no_heel_mark() {
    let text = said("hind-shoe", Choice::Usual);
    has(&text, "Cut: 11 1/2 in, as the piece says");
    has(&text, "Mark: fuller ends, outer");
    assert!(!text.contains("Mark: heel"), "{text}");
}

#[test]
fn it_fits_two_sides_of_a_card() {
    for id in ["straight-bar-shoe", "hind-shoe"] {
        for unit in [Unit::Inch64, Unit::Millimetre] {
            let card = card(&rubric(id), Choice::Usual, unit);
            for paper in [Paper::A5, Paper::HalfLetter] {
                let file = checked_pdf_of_many([&card], paper, &card.title, "en-GB").unwrap();
                assert!(file.pages <= 2, "{id} on {paper:?}: {}", file.pages);
                assert!(file.missing.is_empty(), "{:?}", file.missing);
            }
        }
    }
}
