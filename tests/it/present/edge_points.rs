//! Points that are put on the edge over a photo.

use evenshod::gauge::Shown;
use evenshod::job::Job;
use evenshod::present::photo::{
    PhotoFile, PhotoForm, Shows, doubtful_path, edge_point_name, next_edge_point, photo_job,
    photo_note,
};

use super::photo::{form, head, shown};
use crate::sheet::sample::begun_bar_shoe;

/// Two doubtful stretches of the outer edge, the second one longer.
fn doubtful() -> Shown {
    let short = (0..5).map(|place| (200.0 + 4.0 * f64::from(place), 150.0));
    let long = (0..9).map(|place| (450.0, 300.0 + 4.0 * f64::from(place)));
    Shown {
        unclear: short.chain(long).collect(),
        ..shown()
    }
}

#[test]
fn a_point_is_offered_where_the_edge_is_most_in_doubt() {
    let shown = doubtful();
    let size = shown.size;
    let first = next_edge_point(Some(&shown), size, &[]);
    assert_eq!(first, (450.0, 316.0));
    let second = next_edge_point(Some(&shown), size, &[first]);
    assert_eq!(second, (208.0, 150.0));
    // Then at the toe, and after that where no other one is near.
    let toe = next_edge_point(Some(&shown), size, &[first, second]);
    assert_eq!(toe, (300.0, 100.0));
    let last = next_edge_point(Some(&shown), size, &[first, second, toe]);
    assert_eq!(last, (300.0, 600.0));
    // Of a photo that is not measured nothing is known.
    assert_eq!(next_edge_point(None, (100, 60), &[]), (50.0, 30.0));
    assert_eq!(doubtful_path(&shown).matches('M').count(), 2);
    assert_eq!(edge_point_name(0, 2), "Point 1 of 2 on the edge");
}

/// The worker hears of them, and the note that stands beside the photo says how many there are;
/// of a drawing neither.
#[test]
fn points_go_to_the_worker_and_into_the_note() {
    let (ledger, marking) = begun_bar_shoe();
    let head = head(&ledger, marking);
    let file = PhotoFile {
        digest: "a".repeat(64),
        kept: "b".repeat(64),
    };
    let told = |edge_points: &[(f64, f64)], shows| {
        let form = PhotoForm {
            edge_points: edge_points.to_vec(),
            shows,
            ..form("9.2")
        };
        let job = photo_job(&head, marking, 1, &form, String::new());
        let Ok((_, Job::Photo(wanted))) = job else {
            panic!("{job:?}")
        };
        (wanted.edge_points, photo_note(&head, &form, &file))
    };
    let points = [(10.0, 20.5), (30.0, 40.0)];
    let (asked, note) = told(&points, Shows::Ground);
    assert_eq!(asked, points);
    assert!(
        note.contains("2 places of the edge put right by hand"),
        "{note}"
    );
    let (_, note) = told(&points[..1], Shows::Foot);
    assert!(
        note.contains("1 place of the edge put right by hand"),
        "{note}"
    );
    for (points, shows) in [(&points[..0], Shows::Ground), (&points[..], Shows::Drawing)] {
        let (asked, note) = told(points, shows);
        assert!(asked.is_empty() && !note.contains("by hand"), "{note}");
    }
}
