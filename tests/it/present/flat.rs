//! Shoes that do not lie flat: clips and calks, what is asked about them, and what is left blank.

use evenshod::gauge::{Face, Hidden, Shown};
use evenshod::job::Job;
use evenshod::piece::{ClipPlace, Feature, Foot};
use evenshod::present::photo::{
    PhotoField, PhotoFile, PhotoForm, PhotoHead, Shows, WrongField, moved, photo_caution,
    photo_job, photo_note, photo_warnings,
};

use super::photo::{bar_shoe, form, head, shown};
use crate::sheet::sample::begun_bar_shoe;

fn clipped(clips: &[ClipPlace], foot: Option<Foot>) -> PhotoHead {
    let (ledger, marking) = begun_bar_shoe();
    PhotoHead {
        clips: clips.to_vec(),
        feet: foot
            .map(|foot| ("shoe".to_owned(), foot))
            .into_iter()
            .collect(),
        ..head(&ledger, marking)
    }
}

fn hidden(head: &PhotoHead, form: &PhotoForm) -> Result<Vec<Hidden>, WrongField> {
    let (_, marking) = begun_bar_shoe();
    let form = PhotoForm {
        outer_is_right: head.outer_is_right(None),
        ..form.clone()
    };
    let job = photo_job(head, marking, 0, &form, String::new())?;
    match job.1 {
        Job::Photo(wanted) => Ok(wanted.hidden),
        other => panic!("{other:?}"),
    }
}

fn showing(shows: Shows) -> PhotoForm {
    PhotoForm {
        shows,
        ..form("9.2")
    }
}

/// The field that is wrong, once its words say what to do.
fn refused(said: Result<Vec<Hidden>, WrongField>, says: &str) -> PhotoField {
    let wrong = said.unwrap_err();
    assert!(wrong.text.contains(says), "{}", wrong.text);
    wrong.field
}

#[test]
fn ground_side_up_clips_must_hang_over_an_edge() {
    let head = clipped(&[ClipPlace::Toe], None);
    let ground = showing(Shows::Ground);
    let said = refused(hidden(&head, &ground), "rests on its clips");
    assert_eq!(said, PhotoField::OverEdge);
    let over_edge = PhotoForm {
        is_over_edge: true,
        ..ground
    };
    assert_eq!(hidden(&head, &over_edge), Ok(vec![Hidden::Toe]));
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let note = photo_note(&head, &over_edge, &file);
    assert!(note.contains("over the edge of a board"), "{note}");
    assert_eq!(hidden(&head, &showing(Shows::Foot)), Ok(vec![Hidden::Toe]));
    assert_eq!(hidden(&head, &showing(Shows::Drawing)), Ok(Vec::new()));
    assert_eq!(hidden(&clipped(&[], None), &form("9.2")), Ok(Vec::new()));
}

/// The outer branch of a near shoe lies on the left, foot side seen. Of a foot that is not named
/// it may be either.
#[test]
fn a_quarter_clip_is_left_or_right_by_foot() {
    let foot = showing(Shows::Foot);
    let outer = [ClipPlace::OuterQuarter];
    let (left, right) = (vec![Hidden::LeftQuarter], vec![Hidden::RightQuarter]);
    let near = clipped(&outer, Some(Foot::NearHind));
    assert_eq!(hidden(&near, &foot), Ok(left.clone()));
    let off = clipped(&outer, Some(Foot::OffFore));
    assert_eq!(hidden(&off, &foot), Ok(right.clone()));
    let inner = clipped(&[ClipPlace::InnerQuarter], Some(Foot::OffFore));
    assert_eq!(hidden(&inner, &foot), Ok(left.clone()));
    let both = [left, right].concat();
    assert_eq!(hidden(&clipped(&outer, None), &foot), Ok(both));
}

/// A clip at a quarter would take most of its branch over the edge of the sheet.
#[test]
fn a_quarter_clip_does_not_hang_over_an_edge() {
    let ground = PhotoForm {
        is_over_edge: true,
        ..showing(Shows::Ground)
    };
    for clips in [
        [ClipPlace::OuterQuarter, ClipPlace::InnerQuarter],
        [ClipPlace::Toe, ClipPlace::OuterQuarter],
    ] {
        let head = clipped(&clips, Some(Foot::NearHind));
        let said = refused(hidden(&head, &ground), "most of its branch");
        assert_eq!(said, PhotoField::OverEdge);
        assert!(photo_caution(&head)[0].ends_with("measure that by hand."));
    }
}

/// Of several shoes it is the foot of the one that is shown.
#[test]
fn a_pair_has_an_outer_side_each() {
    let pair = PhotoHead {
        feet: vec![
            ("left".to_owned(), Foot::NearFore),
            ("right".to_owned(), Foot::OffFore),
        ],
        ..clipped(&[ClipPlace::OuterQuarter], None)
    };
    assert_eq!(pair.outer_is_right(Some("left")), Some(true));
    assert_eq!(pair.outer_is_right(Some("right")), Some(false));
    let toe = PhotoHead {
        clips: vec![ClipPlace::Toe],
        ..pair
    };
    assert_eq!(
        toe.outer_is_right(Some("left")),
        None,
        "nothing asks for it"
    );
}

#[test]
fn calks_lie_ground_side_up_only() {
    let head = clipped(&[], None);
    let calks = |shows| PhotoForm {
        has_calks: true,
        ..showing(shows)
    };
    let ground = hidden(&head, &calks(Shows::Ground));
    assert_eq!(ground, Ok(vec![Hidden::Heels]));
    let said = refused(hidden(&head, &calks(Shows::Foot)), "stands on its calks");
    assert_eq!(said, PhotoField::Calks);
    assert_eq!(hidden(&head, &calks(Shows::Drawing)), Ok(Vec::new()));
}

/// A shoe with clips does not lie flat; of a concave one the inner edge lies lower.
#[test]
fn what_a_piece_asks_for_is_cautioned_of() {
    let flat = clipped(&[], None);
    assert!(photo_caution(&flat).is_empty());
    let both = PhotoHead {
        is_concave: true,
        ..clipped(&[ClipPlace::Toe], None)
    };
    let said = photo_caution(&both);
    assert!(
        said[0].contains("Foot side up") && said[1].contains("concave"),
        "{said:?}"
    );
}

#[test]
fn places_that_were_left_out_are_told_with_the_reason() {
    let seen = |face, hidden: &[Hidden]| Shown {
        face,
        hidden: hidden.to_vec(),
        ..shown()
    };
    let said = photo_warnings(&bar_shoe(), &seen(Face::Foot, &[Hidden::Toe]));
    assert!(said[0].contains("at the toe a clip stands off"), "{said:?}");
    let both = [Hidden::LeftQuarter, Hidden::Heels];
    let said = photo_warnings(&bar_shoe(), &seen(Face::Ground, &both));
    assert!(
        said[0].contains("left quarter a clip hangs") && said[0].contains("calks or studs"),
        "{said:?}"
    );
}

/// Holes that are moved by hand are told along the same hidden edge.
#[test]
fn what_is_told_along_a_hidden_edge_stays_blank() {
    let mut moves = evenshod::present::photo::Moves::default();
    moves.remove_hole(&shown(), 0);
    for hidden in Hidden::ALL {
        let seen = Shown {
            hidden: vec![hidden],
            ..shown()
        };
        let is_told = |feature: Feature| {
            let after = moved(&seen, &moves);
            after
                .measured
                .iter()
                .any(|one| one.feature == feature.word())
        };
        assert!(!is_told(Feature::HoleInset) && !is_told(Feature::HeelHoleLeft));
    }
    let under = |hidden: Hidden| {
        let all = Feature::ALL.into_iter();
        all.filter(|feature| hidden.is_under(*feature)).count()
    };
    assert_eq!(Hidden::ALL.map(under), [6, 4, 4, 2]);
}
