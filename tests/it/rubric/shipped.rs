use std::collections::BTreeSet;
use std::mem::discriminant;

use evenshod::piece::{Foot, MadeShoe, Place};
use evenshod::quantity::{Length, Marks};
use evenshod::rubric::{Criterion, Effect, Kind, Rubric, Shipped, Shoe, read_rubric, shipped};

fn rubrics() -> Vec<(&'static str, Rubric)> {
    let read = |file: &Shipped| {
        let checked = read_rubric(file.text);
        let found: Vec<_> = checked
            .diagnostics
            .iter()
            .map(ToString::to_string)
            .collect();
        assert!(found.is_empty(), "{}:\n{}", file.file, found.join("\n"));
        (file.file, checked.rubric.unwrap())
    };
    shipped().iter().map(read).collect()
}

fn criteria(rubric: &Rubric) -> impl Iterator<Item = &Criterion> {
    rubric.sections.iter().flat_map(|section| &section.criteria)
}

/// The short one that learners mark themselves by; it is no exam.
const SELF_CHECK: &str = "apprentice-self-check.toml";

#[test]
fn they_read_without_errors_or_warnings_and_give_100_marks() {
    for (file, rubric) in rubrics() {
        let marks = if file == SELF_CHECK { 40 } else { 100 };
        assert_eq!(rubric.out_of(), Some(Marks::whole(marks)), "{file}");
    }
}

#[test]
fn each_is_called_as_its_file() {
    for (file, rubric) in rubrics() {
        assert_eq!(format!("{}.toml", rubric.id), file);
    }
}

/// What a learner marks and an examiner marks on the same shoe can stand side by side.
#[test]
fn the_self_check_asks_what_the_examiner_asks() {
    let rubrics = rubrics();
    let of = |file: &str| {
        let found = rubrics.iter().find(|(name, _)| *name == file).unwrap();
        let ids = criteria(&found.1).map(|criterion| criterion.id.as_str());
        ids.collect::<BTreeSet<_>>()
    };
    let (own, examiner) = (of(SELF_CHECK), of("open-heeled-front-shoe.toml"));
    assert!(own.is_subset(&examiner), "{own:?}");
}

/// A whole piece can be marked without scrolling for ever, and nothing is left out.
#[test]
fn they_have_as_many_criteria_as_an_examiner_can_hold() {
    for (file, rubric) in rubrics() {
        let count = criteria(&rubric).count();
        let range = if file == SELF_CHECK { 8..=10 } else { 16..=28 };
        assert!(range.contains(&count), "{file}: {count}");
    }
}

#[test]
fn every_criterion_says_its_step_its_outcome_and_what_to_practise() {
    for (file, rubric) in rubrics() {
        for criterion in criteria(&rubric) {
            let place = format!("{file}, {}", criterion.id);
            assert!(criterion.step.is_some(), "{place}: step");
            assert!(!criterion.outcomes.is_empty(), "{place}: outcomes");
            assert!(!criterion.faults.is_empty(), "{place}: faults");
            for fault in &criterion.faults {
                let said = [&fault.cause, &fault.remedy];
                assert!(
                    said.iter().all(|text| !text.is_empty()),
                    "{place}, {}",
                    fault.id
                );
                assert!(fault.step.is_some(), "{place}, {}: step", fault.id);
            }
        }
    }
}

/// The reader has defaults for these; a rubric to learn from writes them out.
#[test]
fn every_criterion_writes_when_and_from_where_it_is_seen() {
    for file in shipped() {
        for block in file.text.split("[[sections.criteria]]").skip(1) {
            let id = block.lines().nth(1).unwrap();
            for key in ["\nstep = ", "\nseen_from = ", "\nwhen = "] {
                assert!(block.contains(key), "{}, {id}: {key}", file.file);
            }
        }
    }
}

#[test]
fn every_measured_criterion_names_its_instrument_and_its_source() {
    for (file, rubric) in rubrics() {
        for criterion in criteria(&rubric).filter(|criterion| criterion.scale().is_some()) {
            let place = format!("{file}, {}", criterion.id);
            let instrument = match &criterion.kind {
                Kind::Toleranced(kind) => &kind.instrument,
                Kind::Paired(kind) => &kind.instrument,
                Kind::Spread(kind) => &kind.instrument,
                _ => &None,
            };
            assert!(criterion.source.is_some(), "{place}: source");
            let counted = criterion.id == "nail-count";
            assert!(instrument.is_some() || counted, "{place}: instrument");
        }
        for instrument in &rubric.instruments {
            assert_eq!(instrument.source, "common practice, no source", "{file}");
            assert!(
                instrument.repeatability.is_some(),
                "{file}, {}",
                instrument.id
            );
        }
    }
}

#[test]
fn all_six_kinds_occur_in_each() {
    for (file, rubric) in rubrics() {
        let kinds: BTreeSet<String> = criteria(&rubric)
            .map(|criterion| format!("{:?}", discriminant(&criterion.kind)))
            .collect();
        // A learner alone counts no heats.
        let all = if file == SELF_CHECK { 5 } else { 6 };
        assert_eq!(kinds.len(), all, "{file}");
    }
}

#[test]
fn no_eye_protection_and_a_broken_shoe_stop_the_award() {
    for (file, rubric) in rubrics() {
        let stops: BTreeSet<&str> = criteria(&rubric)
            .flat_map(|criterion| &criterion.faults)
            .filter(|fault| fault.effect == Effect::Stop)
            .map(|fault| fault.id.as_str())
            .collect();
        let asked = if file == SELF_CHECK {
            BTreeSet::from(["eyes"])
        } else {
            BTreeSet::from(["broken", "eyes"])
        };
        assert_eq!(stops, asked, "{file}");
    }
}

/// Four heats to the finished bar, two of them for the weld.
#[test]
fn the_bar_is_planned_in_four_heats() {
    let rubrics = rubrics();
    let (_, bar_shoe) = rubrics
        .iter()
        .find(|(file, _)| *file == "straight-bar-shoe.toml")
        .unwrap();
    assert_eq!(bar_shoe.planned_heats(), (9, 2));
    let to_the_bar: u32 = bar_shoe.heats.iter().take(4).map(|heats| heats.count).sum();
    assert_eq!(to_the_bar, 4);
}

fn is_hind(rubric: &Rubric) -> bool {
    let feet = rubric.shoes.iter().map(Shoe::drawn_foot);
    feet.into_iter()
        .any(|foot| matches!(foot, Foot::NearHind | Foot::OffHind))
}

/// The rearmost hole of a fore lies in the front half of the shoe, of a hind in the front
/// two thirds: US Department of Agriculture, Special Report on Diseases of the Horse,
/// chapter on shoeing. A bar shoe's length counts to its heels.
fn no_hole_too_far_back(file: &str, rubric: &Rubric) {
    let piece = &rubric.piece;
    let length = piece.finished.length.base();
    let behind = piece.bar.as_ref().and_then(|bar| bar.behind);
    let length = length - behind.map_or(0, |behind| behind.base());
    for shoe in &rubric.shoes {
        let drawn = MadeShoe::of(piece, shoe.drawn_foot()).unwrap();
        let last = drawn
            .holes
            .iter()
            .map(|hole| hole.centre.y)
            .fold(0.0, f64::max);
        let share = if is_hind(rubric) { 2.0 / 3.0 } else { 0.5 };
        let most = Length::from_base(length).to_mm() * share;
        assert!(last <= most, "{file}: {last} of {most} mm");
    }
}

/// The drawing and the tolerances come from these numbers, so they must agree.
#[test]
fn the_numbers_of_each_piece_agree_with_each_other() {
    for (file, rubric) in rubrics() {
        let piece = &rubric.piece;
        let nails = piece.nails.as_ref().unwrap();
        let most = nails.outer.max(nails.inner);
        let last = nails.first.base() + i64::from(most - 1) * nails.spacing.base();
        assert!(nails.inner <= nails.outer, "{file}");
        let radius = piece.toe.radius.map(|radius| 2 * radius.base());
        if is_hind(&rubric) {
            // The toe of a hind is closer than half a circle.
            assert!(radius < Some(piece.finished.width.base()), "{file}");
        } else {
            let width = Some(piece.finished.width.base());
            assert_eq!(radius, width, "{file}: the toe is half a circle");
            // A quarter of a circle leads from the middle of the toe to the widest part.
            let to_the_widest = piece.finished.width.base() * 11 / 14;
            let place = "no hole behind the widest part";
            assert!(last < to_the_widest, "{file}: {place}");
        }
        no_hole_too_far_back(file, &rubric);
        assert_eq!(piece.finished.thickness, piece.stock.thickness, "{file}");
        if let Some(fuller) = &piece.fuller {
            assert_eq!(
                3 * fuller.depth.base(),
                2 * piece.stock.thickness.base(),
                "{file}"
            );
            assert_eq!(fuller.inset, nails.inset, "{file}");
            assert!(
                fuller.start < nails.first && last < fuller.end.base(),
                "{file}"
            );
        }
        for clip in &piece.clips {
            assert_eq!(clip.height, piece.finished.thickness, "{file}");
        }
    }
}

/// Every shoe that ships is drawn, and each place that a criterion names is a part of it.
#[test]
fn every_shoe_is_drawn_with_the_places_that_criteria_name() {
    for shipped in shipped() {
        let rubric = read_rubric(shipped.text).rubric.unwrap();
        for shoe in &rubric.shoes {
            let drawn = MadeShoe::of(&rubric.piece, shoe.drawn_foot()).unwrap();
            let places = rubric.entries().into_iter();
            let places: Vec<Place> = places.filter_map(|entry| entry.criterion.place).collect();
            assert!(
                places.len() >= criteria(&rubric).count() / 2,
                "{}",
                rubric.id
            );
            for place in places {
                assert!(drawn.has(place), "{}: {place:?}", rubric.id);
            }
        }
    }
}

/// What cannot be drawn can be marked all the same.
#[test]
fn a_shoe_that_cannot_be_is_told_as_a_warning() {
    let text = shipped()[0]
        .text
        .replacen("gap = \"2 1/4 in\"", "gap = \"5 in\"", 1);
    let checked = read_rubric(&text);
    assert!(checked.rubric.is_some());
    let said: Vec<String> = checked
        .diagnostics
        .iter()
        .map(ToString::to_string)
        .collect();
    assert_eq!(said.len(), 1, "{said:?}");
    assert!(
        said[0].contains("the shoe is not drawn: heels 127.0 mm apart do not fit"),
        "{said:?}"
    );
}
