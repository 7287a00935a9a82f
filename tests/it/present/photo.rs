//! The photo gauge's page: what is asked, how the work stands, what is drawn, and the readings
//! that are taken.

use std::sync::Arc;

use evenshod::command::Entered;
use evenshod::conformity::measured_values;
use evenshod::gauge::features::Frame;
use evenshod::gauge::sheet::Sheet;
use evenshod::gauge::{Camera, Face, Measured, Plane, Scale, Shown, ShownHole, Stage, Traced};
use evenshod::job::{
    Fault, Job, NotMeasured, Outcome, PhotoFound, PhotoWanted, Queue, Said, State, Step,
};
use evenshod::marking::Facts;
use evenshod::present::Rubrics;
use evenshod::present::photo::{
    Fill, HoleRow, PhotoField, PhotoFile, PhotoForm, PhotoHead, PhotoStands, STAGES, Shows, WAYS,
    Way, first_sight, hole_rows, overlay, photo_head, photo_job, photo_note, photo_rows,
    photo_stands, photo_warnings, still_by_hand, taking,
};
use evenshod::records::{Ledger, MarkingId};
use evenshod::rubric::{Rubric, read_rubric, shipped};
use kurbo::{Point, Vec2};
use nalgebra::{Matrix3, Vector3};

use crate::sheet::sample::{begun_bar_shoe, edited, readings};

fn measured(feature: &str, value: f64, own: f64, shared: f64) -> Measured {
    Measured {
        feature: feature.to_owned(),
        value,
        own,
        shared,
        line: vec![(100.0, 200.0), (500.0, 200.0)],
        by_hand: false,
    }
}

fn hole(side: &str, number: usize, along: f64, to_edge: f64) -> ShownHole {
    ShownHole {
        side: side.to_owned(),
        number,
        at: (200.0, 300.0 + along),
        place: (-50.0, along),
        to_edge: Some(to_edge),
        along,
        to_next: (number == 1 && side == "left").then_some(21.5),
        unsure: 0.15,
        own: 0.12,
        by_hand: false,
    }
}

/// A ring of this radius about a place 60 mm behind the toe, a place each 4 degrees.
fn round(radius: f64) -> Vec<(f64, f64)> {
    let places = (0..90).map(|place| (4.0 * f64::from(place)).to_radians());
    let at = |angle: f64| (radius * angle.sin(), 60.0 - radius * angle.cos());
    places.map(at).collect()
}

/// Seen from straight above with 3 px to the mm, the toe at pixel (300, 100).
pub fn plane() -> Plane {
    let camera = Camera {
        rotation: Matrix3::from_diagonal(&Vector3::new(1.0, -1.0, -1.0)),
        translation: Vector3::new(0.0, 0.0, 510.0),
        focal: 1_500.0,
        centre: Point::new(300.0, 100.0),
        k1: 0.0,
    };
    let frame = Frame {
        toe: Point::ZERO,
        right: Vec2::new(1.0, 0.0),
        back: Vec2::new(0.0, -1.0),
    };
    Plane::of(&camera, 10.0, &frame)
}

/// A shoe 400 px wide, which is 133.4 mm, whose right branch stands out by 2 mm at the end.
pub fn shown() -> Shown {
    Shown {
        size: (1_600, 1_200),
        face: Face::Ground,
        sheet: vec![(50.0, 40.0), (700.0, 40.0), (700.0, 960.0), (50.0, 960.0)],
        axis: vec![(300.0, 80.0), (300.0, 700.0)],
        outer: vec![
            (100.0, 200.0),
            (300.0, 100.0),
            (500.0, 200.0),
            (300.0, 600.0),
        ],
        inner: vec![vec![(200.0, 250.0), (300.0, 180.0), (400.0, 250.0)]],
        mirrored: vec![(100.0, 200.0), (300.0, 100.0), (500.0, 200.0)],
        apart: (0..20)
            .map(|place| {
                let along = f64::from(place);
                (
                    (100.0 + 20.0 * along, 200.0),
                    if place < 10 { 0.1 } else { 2.0 },
                )
            })
            .collect(),
        measured: vec![
            measured("overall width", 133.4, 0.12, 0.09),
            measured("branch chord left", 120.0, 0.1, 0.05),
            measured("branch chord right", 119.0, 0.1, 0.05),
            measured("branch deviation max", 0.4, 0.1, 0.0),
            measured("bar back squareness", -0.52, 0.12, 0.0),
        ],
        holes: vec![
            hole("left", 1, 30.0, 8.0),
            hole("left", 2, 52.0, 8.4),
            hole("right", 1, 31.0, 8.8),
        ],
        fuller: vec![vec![(150.0, 300.0), (200.0, 150.0)]],
        traced: Traced {
            outer: round(60.0),
            inner: vec![round(40.0)],
        },
        plane: plane(),
        hidden: Vec::new(),
        unclear: Vec::new(),
        no_fuller: false,
        vague: None,
        doubtful: None,
        no_level: false,
        is_traced: false,
    }
}

/// As many as the bar shoe asks for.
fn six_holes() -> Vec<ShownHole> {
    let both = ["left", "right"].into_iter();
    both.flat_map(|side| (1..4).map(move |number| hole(side, number, 22.0 * number as f64, 8.0)))
        .collect()
}

pub fn bar_shoe() -> Rubric {
    read_rubric(shipped()[0].text).rubric.unwrap()
}

pub fn head(ledger: &Ledger, marking: MarkingId) -> PhotoHead {
    photo_head(ledger, &Rubrics::default(), marking).unwrap()
}

pub fn form(thickness: &str) -> PhotoForm {
    PhotoForm {
        way: Way::Sheet(Sheet::A4),
        shows: Shows::Ground,
        thickness: thickness.to_owned(),
        length: String::new(),
        dots: String::new(),
        marks: None,
        is_over_edge: false,
        has_calks: false,
        edge_points: Vec::new(),
        outer_is_right: None,
    }
}

fn thickness(typed: &str) -> Result<(f64, f64), PhotoField> {
    let (ledger, marking) = begun_bar_shoe();
    let job = photo_job(
        &head(&ledger, marking),
        marking,
        3,
        &form(typed),
        String::new(),
    );
    job.map(|(topic, job)| {
        assert_eq!(topic.version, "3");
        let Job::Photo(wanted) = job else {
            panic!("{job:?}")
        };
        (wanted.thickness, wanted.unsure)
    })
    .map_err(|wrong| wrong.field)
}

/// What was measured is surer than what the piece asks for; 3/8 in is 9.525 mm by definition of
/// the inch (25.4 mm, international yard and pound agreement of 1959).
#[test]
fn a_thickness_is_measured_or_as_asked_for() {
    assert_eq!(thickness("9.2"), Ok((9.2, 0.05)));
    let (mm, unsure) = thickness("3/8").unwrap();
    assert!((mm - 9.525).abs() < 1e-9 && unsure < 0.1, "{mm}");
    let (asked, unsure) = thickness(" ").unwrap();
    assert!((5.0..15.0).contains(&asked) && unsure > 0.3, "{asked}");
    for wrong in ["0", "90 mm", "thick", "8 deg"] {
        assert!(thickness(wrong).is_err(), "{wrong}");
    }
}

fn rows_of(ledger: &Ledger, marking: MarkingId) -> Vec<Fill> {
    let facts = &ledger.marking(marking).unwrap().facts;
    let rows = photo_rows(&bar_shoe(), facts, None, &shown());
    rows.into_iter().flat_map(|row| row.fills).collect()
}

#[test]
fn each_measure_says_how_sure_it_is_and_where_it_goes() {
    let (ledger, marking) = begun_bar_shoe();
    let facts = &ledger.marking(marking).unwrap().facts;
    let rows = photo_rows(&bar_shoe(), facts, None, &shown());
    let said: Vec<[&str; 4]> = rows
        .iter()
        .map(|row| {
            let slot = row.fills.first().map_or("", |fill| fill.slot.as_str());
            [
                row.name.as_str(),
                row.value.as_str(),
                row.sure.as_str(),
                slot,
            ]
        })
        .collect();
    // Twice the root of 0.12² + 0.09² is 0.30; 0.4 + 1.645 × 0.1 is 0.56.
    assert_eq!(
        said,
        [
            ["Overall width", "133.40 mm", "± 0.30 mm", "width"],
            [
                "Branch chord left",
                "120.00 mm",
                "± 0.22 mm",
                "branches-left"
            ],
            [
                "Branch chord right",
                "119.00 mm",
                "± 0.22 mm",
                "branches-right"
            ],
            ["Branch deviation max", "0.40 mm", "at most 0.56 mm", ""],
            ["Bar back squareness", "−0.52°", "± 0.24°", "bar-square"],
        ]
    );
    let blank = still_by_hand(&bar_shoe(), None, &shown());
    assert_eq!(
        blank.len(),
        10,
        "length, straightness and width of the bar, fuller and holes: {blank:?}"
    );
}

/// What a shoe has several of fills a series, or a reading of several places, each in turn; and
/// nothing while a hole is not seen.
#[test]
fn holes_fill_readings_when_all_are_seen() {
    let insets = [8.0, 8.2, 7.9, 8.1, 8.0, 8.3];
    let gaps = [28.4, 28.6, 28.1, 28.9];
    let several = |feature: &str, values: &[f64]| -> Vec<Measured> {
        let each = values
            .iter()
            .map(|value| measured(feature, *value, 0.15, 0.0));
        each.collect()
    };
    let mut seen = Shown {
        holes: six_holes(),
        measured: [
            several("hole inset", &insets),
            several("hole spacing", &gaps),
        ]
        .concat(),
        ..shown()
    };
    let rubric = bar_shoe();
    let (ledger, marking) = begun_bar_shoe();
    let facts = &ledger.marking(marking).unwrap().facts;
    let rows = photo_rows(&rubric, facts, None, &seen);
    let said: Vec<&str> = rows.iter().map(|row| row.value.as_str()).collect();
    assert_eq!(
        said,
        [
            "8.0; 8.2; 7.9; 8.1; 8.0; 8.3 mm",
            "28.4; 28.6; 28.1; 28.9 mm"
        ]
    );
    let fills: Vec<Fill> = rows.into_iter().flat_map(|row| row.fills).collect();
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let taken = edited(
        ledger,
        marking,
        taking("", &file, None, &seen, &fills).edits.into(),
    );
    let values = measured_values(&rubric, &taken.marking(marking).unwrap().facts);
    // 28.9 less 28.1; the mean of six insets is 48.5 / 6.
    let mm = |id: &str| values[id].value / 1e6;
    assert!(
        (mm("nail-spacing") - 0.8).abs() < 1e-9,
        "{}",
        mm("nail-spacing")
    );
    assert!(
        (mm("nail-inset") - 48.5 / 6.0).abs() < 1e-6,
        "{}",
        mm("nail-inset")
    );

    let of = |seen: &Shown| {
        let rows = photo_rows(&rubric, &Facts::default(), None, seen);
        rows.iter().map(|row| row.fills.len()).collect::<Vec<_>>()
    };
    assert_eq!(of(&seen), [1, 1]);
    seen.measured.pop();
    assert_eq!(of(&seen), [1, 0], "three gaps are no series of four");
    seen.holes.pop();
    assert_eq!(of(&seen), [0, 0]);
}

/// Turned over, what was left is right, and what lies further back on one side does on the other.
#[test]
fn foot_side_up_the_left_one_fills_the_right() {
    let turned = Shown {
        face: Face::Foot,
        ..shown()
    };
    let rows = photo_rows(&bar_shoe(), &Facts::default(), None, &turned);
    let filled: Vec<(&str, f64)> = rows
        .iter()
        .flat_map(|row| &row.fills)
        .map(|fill| (fill.slot.as_str(), fill.measured[0].value))
        .collect();
    assert_eq!(
        filled,
        [
            ("width", 133.4),
            ("branches-right", 120.0),
            ("branches-left", 119.0),
            ("bar-square", 0.52),
        ]
    );
    assert!(photo_warnings(&bar_shoe(), &turned).is_empty());
}

/// What stands on the sheet already is not replaced unasked.
#[test]
fn a_reading_by_hand_is_kept_unless_it_is_ticked() {
    let (ledger, marking) = begun_bar_shoe();
    let ledger = edited(ledger, marking, vec![readings("width", &["133", "134"])]);
    let fills = rows_of(&ledger, marking);
    assert_eq!(
        (fills[0].now.as_str(), fills[0].is_taken),
        ("133, 134", false)
    );
    assert!(
        fills[1..]
            .iter()
            .all(|fill| fill.is_taken && fill.now.is_empty())
    );
}

/// Readings and photo come onto the sheet with their uncertainty; the pair shares what it
/// shares, so that the difference is surer: the root of 2 × 0.1², as 0.05 - 0.05 is nothing
/// (JCGM 100:2008, 5.2.2).
#[test]
fn what_is_taken_counts_with_its_uncertainty_and_can_be_taken_back() {
    let (ledger, marking) = begun_bar_shoe();
    let before = Box::new(Entered::of(ledger.marking(marking).unwrap()));
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let note = photo_note(&head(&ledger, marking), &form("9.2 mm"), &file);
    assert!(
        note.contains("9.2 mm thick") && note.contains(&file.digest),
        "{note}"
    );
    let taking = taking(&note, &file, None, &shown(), &rows_of(&ledger, marking));
    assert!(!taking.said.contains("outline"), "{}", taking.said);
    let ledger = edited(ledger, marking, taking.edits.into());
    let taken = ledger.marking(marking).unwrap();
    assert_eq!(taken.photos[0].picture, file.kept);
    assert_eq!(taken.facts.readings["width"][0].text, "133.40 mm");
    let [outline] = taken.facts.outlines.as_slice() else {
        panic!("{:?}", taken.facts.outlines);
    };
    // The width's √(0.12² + 0.09²) = 0.15 mm.
    assert_eq!((outline.unsure, &outline.photo), (15, &file.kept));
    assert_eq!((outline.outer.len(), outline.outer[0]), (90, (0, 0)));
    assert_eq!(outline.inner[0][0], (0, 2_000));
    assert_eq!(
        outline.holes,
        [(-5_000, 3_000), (-5_000, 5_200), (-5_000, 3_100)]
    );
    let values = measured_values(&bar_shoe(), &taken.facts);
    let width = &values["width"];
    assert!(
        (width.standard() / 150_000.0 - 1.0).abs() < 1e-9,
        "{width:?} in nm"
    );
    let pair = &values["branches"];
    let wanted = 2.0_f64.sqrt() * 100_000.0;
    assert!(
        (pair.standard() / wanted - 1.0).abs() < 1e-9,
        "{pair:?} in nm"
    );
    let square = &values["bar-square"];
    assert!((square.value / -520_000.0 - 1.0).abs() < 1e-9, "{square:?}");
    // Once taken they are the photo's, so another photo may replace them.
    assert!(rows_of(&ledger, marking).iter().all(|fill| fill.is_taken));
    let after = Box::new(Entered::of(taken));
    let back = evenshod::command::Edit::TakeBack { before, after };
    let ledger = edited(ledger, marking, vec![back]);
    let marking = ledger.marking(marking).unwrap();
    assert!(
        marking.facts.is_blank() && marking.photos.is_empty(),
        "{marking:?}"
    );
}

#[test]
fn what_is_drawn_tells_where_a_branch_stands_out() {
    let drawn = overlay(&shown());
    assert_eq!(drawn.view_box, "-0.5 -0.5 1600 1200");
    let names: Vec<&str> = drawn.stretches.iter().map(|stretch| stretch.name).collect();
    assert_eq!(names, ["on", "off"]);
    // 2 mm at 3 px a mm, eight times as long, away from the middle, which lies below.
    let tick = &drawn.stretches[1].ticks;
    assert!(tick.starts_with("M300.0 200.0L300.0 152.0"), "{tick}");
    assert_eq!(drawn.measures[0].path, "M100.0 200.0L500.0 200.0");
    assert_eq!(drawn.measures[0].number, Some((1, (220.0, 200.0))));
    let inner = drawn
        .layers
        .iter()
        .filter(|layer| layer.name == "steel-edge")
        .count();
    assert_eq!(inner, 2);
}

#[test]
fn the_work_is_told_stage_by_stage() {
    let state = |share| photo_stands(Some(&State::Working(share)));
    assert_eq!(photo_stands(None), PhotoStands::Waiting);
    assert_eq!(STAGES.len(), Stage::ALL.len() + 1);
    for stage in 0..STAGES.len() {
        let share = stage as f64 / STAGES.len() as f64;
        assert_eq!(state(share), PhotoStands::Working(stage), "{share}");
    }
    let broken = photo_stands(Some(&State::Failed(Fault::Broken("memory".to_owned()))));
    assert!(matches!(broken, PhotoStands::Unknown(why) if why.contains("memory")));
    let why = NotMeasured {
        word: "corner".to_owned(),
        message: "a corner is covered; clear it".to_owned(),
        at: None,
        size: (1_600, 1_200),
    };
    let done = |found| State::Done(Arc::new(Outcome::Photo(Box::new(found))));
    match photo_stands(Some(&done(PhotoFound::Refused(why.clone())))) {
        PhotoStands::Refused(advice) => {
            assert!(
                advice.by_hand.is_some() && advice.text.starts_with("A corner"),
                "{advice:?}"
            );
        }
        other => panic!("{other:?}"),
    }
    // An edge that the gauge cannot see a person may; where there is no shoe no mark helps.
    for (word, helps) in [("edge", true), ("no-shoe", false)] {
        let refused = NotMeasured {
            word: word.to_owned(),
            ..why.clone()
        };
        match photo_stands(Some(&done(PhotoFound::Refused(refused)))) {
            PhotoStands::Refused(advice) => assert_eq!(advice.by_hand.is_some(), helps, "{word}"),
            other => panic!("{other:?}"),
        }
    }
}

/// Twice 0.15 is 0.30.
#[test]
fn nail_holes_are_listed_from_the_toe_back() {
    let rows = hole_rows(&shown());
    let first = HoleRow {
        name: "Left, 1".to_owned(),
        along: "30.0 mm".to_owned(),
        to_edge: "8.0 mm".to_owned(),
        to_next: "21.5 mm".to_owned(),
        sure: "± 0.3 mm".to_owned(),
    };
    assert_eq!(rows[0], first);
    let rest: Vec<[&str; 2]> = rows[1..]
        .iter()
        .map(|row| [row.name.as_str(), &row.to_next])
        .collect();
    assert_eq!(rest, [["Left, 2", ""], ["Right, 1", ""]]);
}

/// The outer line is 400 px wide and 500 high in 1600 by 1200: 1200 / 500 × 0.8 is 1.92.
#[test]
fn the_shoe_fills_the_frame_at_first() {
    let shown = shown();
    let sight = first_sight(&shown.outer, shown.size);
    assert!((sight.scale - 1.92).abs() < 1e-9, "{sight:?}");
    assert_eq!(sight.middle, (300.0 / 1_600.0, 350.0 / 1_200.0));
    let whole = first_sight(&[], shown.size);
    assert_eq!((whole.scale, whole.middle), (1.0, (0.5, 0.5)));
    let dot = first_sight(&[(5.0, 5.0)], shown.size);
    assert_eq!(dot.scale, 1.0, "a dot has no size");
}

/// Of a concave shoe the inner edge lies lower.
#[test]
fn a_concave_section_is_told_to_the_worker() {
    let (ledger, marking) = begun_bar_shoe();
    let flat = head(&ledger, marking);
    assert!(flat.clips.is_empty() && !flat.is_concave);
    let concave = PhotoHead {
        is_concave: true,
        ..flat
    };
    let job = photo_job(&concave, marking, 0, &form(""), String::new());
    assert!(matches!(job.unwrap().1, Job::Photo(wanted) if wanted.is_concave));
}

#[test]
fn what_is_vague_or_in_doubt_is_told() {
    let seen = Shown {
        holes: six_holes(),
        ..shown()
    };
    let said = photo_warnings(&bar_shoe(), &seen);
    assert!(said.is_empty(), "{said:?}");
    let said = photo_warnings(&bar_shoe(), &shown());
    assert!(
        said[0].contains("3 nail holes") && said[0].contains("2 are plainly seen on the left"),
        "{said:?}"
    );
    let unsure = Shown {
        holes: six_holes(),
        vague: Some(0.034),
        doubtful: Some(0.02),
        ..shown()
    };
    let said = photo_warnings(&bar_shoe(), &unsure);
    assert!(
        said[0].contains("3.4 %") && said[1].contains("2.0 %"),
        "{said:?}"
    );
    let traced = Shown {
        holes: six_holes(),
        no_level: true,
        is_traced: true,
        ..shown()
    };
    let said = photo_warnings(&bar_shoe(), &traced);
    assert!(
        said[0].contains("5 degrees") && said[1].contains("pencil"),
        "{said:?}"
    );
}

fn wanted(form: &PhotoForm) -> Result<PhotoWanted, PhotoField> {
    let (ledger, marking) = begun_bar_shoe();
    let job = photo_job(&head(&ledger, marking), marking, 0, form, String::new());
    match job {
        Ok((_, Job::Photo(wanted))) => Ok(wanted),
        Ok((_, other)) => panic!("{other:?}"),
        Err(wrong) => {
            assert!(wrong.text.len() > 20, "{}", wrong.text);
            Err(wrong.field)
        }
    }
}

/// A ruler's length counts with its two marks: 4 in are 101.6 mm. Without marks the worker is
/// asked all the same, and says what to mark.
#[test]
fn a_ruler_asks_for_a_length_and_two_marks() {
    let with = |length: &str, marks| {
        let ruler = PhotoForm {
            way: Way::Ruler,
            length: length.to_owned(),
            marks,
            ..form("9.2")
        };
        wanted(&ruler).map(|wanted| {
            assert_eq!((wanted.corners, wanted.thickness), (None, 9.2));
            wanted.scale
        })
    };
    let ends = [(10.0, 20.0), (900.0, 25.0)];
    match with("4 in", Some(ends.to_vec())) {
        Ok(Scale::Ruler { ends: told, mm }) => {
            assert!((mm - 101.6).abs() < 1e-9 && told == Some(ends), "{mm}");
        }
        other => panic!("{other:?}"),
    }
    let unmarked = with("100", None);
    assert!(matches!(unmarked, Ok(Scale::Ruler { ends: None, .. })));
    for wrong in ["", "long", "2 mm", "3 m"] {
        assert_eq!(with(wrong, None), Err(PhotoField::Length), "{wrong}");
    }
}

/// A scan is of a drawn outline, which has no thickness, whatever stands in that field.
#[test]
fn a_scan_asks_for_dots_per_inch_or_takes_the_files() {
    let with = |dots: &str| {
        let scan = PhotoForm {
            way: Way::Scan,
            dots: dots.to_owned(),
            ..form("no thickness")
        };
        wanted(&scan).map(|wanted| {
            assert!(wanted.is_drawn && wanted.thickness == 0.0);
            wanted.scale
        })
    };
    assert_eq!(with(" "), Ok(Scale::Scan(None)));
    assert_eq!(with("300"), Ok(Scale::Scan(Some(300.0))));
    assert_eq!(with("600 dpi"), Ok(Scale::Scan(Some(600.0))));
    for wrong in ["fine", "-300", "1", "NaN", "inf"] {
        assert_eq!(with(wrong), Err(PhotoField::Dots), "{wrong}");
    }
}

/// What stands beside a photo names the way; each has as many handles as it has names.
#[test]
fn each_way_is_named() {
    let (ledger, marking) = begun_bar_shoe();
    let head = head(&ledger, marking);
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let said: Vec<String> = WAYS
        .iter()
        .map(|(way, ..)| {
            assert_eq!(way.places().len(), way.at_first().len(), "{way:?}");
            let form = PhotoForm {
                way: *way,
                length: "100 mm".to_owned(),
                ..form("9.2")
            };
            photo_note(&head, &form, &file)
        })
        .collect();
    for (note, word) in said.iter().zip([
        "sheet A4",
        "sheet US Letter",
        "card",
        "ruler, 100 mm",
        "scan",
    ]) {
        assert!(note.contains(word), "{note}");
    }
    assert!(said[4].contains("drawn outline") && !said[4].contains("9.2"));
}

/// Readings are taken all the same, and whoever takes them is told that the outline is not.
#[test]
fn an_outline_that_cannot_be_kept_is_told_of() {
    let (ledger, marking) = begun_bar_shoe();
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let mut seen = shown();
    seen.traced.outer.truncate(3);
    let fills = rows_of(&ledger, marking);
    let taken = taking("", &file, None, &seen, &fills);
    assert!(
        taken.said.contains("outline is not kept") && taken.said.contains("has 3 places"),
        "{}",
        taken.said
    );
    let ledger = edited(ledger, marking, taken.edits.into());
    let facts = &ledger.marking(marking).unwrap().facts;
    assert!(facts.outlines.is_empty() && !facts.readings["width"].is_empty());
    let one = taking("", &file, None, &shown(), &fills[..1]);
    assert!(one.said.starts_with("1 reading is on"), "{}", one.said);
}

/// The worker ends after a large photo, as WebAssembly gives memory back in no other way.
#[test]
fn the_worker_ends_after_a_large_photo() {
    let ask = |size| {
        let (ledger, marking) = begun_bar_shoe();
        let head = head(&ledger, marking);
        let (topic, job) = photo_job(&head, marking, 0, &form(""), String::new()).unwrap();
        let mut queue = Queue::default();
        assert_eq!(queue.ask(topic.clone(), job), [Step::Start]);
        assert_eq!(queue.hear(&Said::Ready.write().unwrap()).len(), 1);
        let found = PhotoFound::Measured(Box::new(Shown { size, ..shown() }));
        let done = evenshod::job::Answer::Done(Outcome::Photo(Box::new(found)));
        let said = Said::About {
            id: 1,
            answer: done,
        };
        let steps = queue.hear(&said.write().unwrap());
        assert!(matches!(queue.state(&topic), Some(State::Done(_))));
        steps
    };
    assert_eq!(ask((1_600, 1_200)), []);
    assert_eq!(ask((4_000, 3_000)), [Step::End]);
}
