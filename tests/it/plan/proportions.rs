use evenshod::piece::PieceSpecification;
use evenshod::plan::proportion::Stands;
use evenshod::plan::{Hoof, Inputs, Proportion, plan};

use super::sample::{bar, hind, length};

fn about(piece: &PieceSpecification, inputs: &Inputs, what: &str) -> Proportion {
    let found = plan(piece, inputs).proportions;
    let one = found.iter().find(|one| one.what == what);
    one.unwrap_or_else(|| panic!("{found:?}")).clone()
}

#[test]
fn the_shipped_bar_shoe_beside_the_handbook() {
    let (piece, inputs) = bar();
    let fuller = about(&piece, &inputs, "depth of the fuller");
    assert_eq!(fuller.rule, "two thirds of the thickness: 1/4 in");
    assert_eq!(fuller.stands, Stands::Keeps);
    let thick = about(&piece, &inputs, "thickness");
    assert_eq!(
        (thick.asked.as_str(), thick.stands),
        ("3/8 in", Stands::Differs)
    );
    let count = about(&piece, &inputs, "number of nail holes");
    assert_eq!((count.asked.as_str(), count.stands), ("6", Stands::Keeps));
    let apart = about(&piece, &inputs, "distance of nail holes");
    assert_eq!(
        (apart.rule.as_str(), apart.stands),
        ("1 in to 1 1/2 in", Stands::Keeps)
    );
    let last = about(&piece, &inputs, "last nail hole behind the toe");
    assert!(
        last.rule
            .contains("fore half of the shoe: 2 5/8 in at most"),
        "{last:?}"
    );
    let fit = about(&piece, &inputs, "past wall and heel, at most");
    assert_eq!(fit.rule, "75 % of the width of the stock: 9/16 in");
    assert_eq!((fit.asked.as_str(), fit.stands), ("", Stands::ForTheFit));
}

#[test]
fn a_hind_may_have_nails_to_two_thirds_and_its_clips_are_looked_at() {
    let (piece, inputs) = hind();
    let last = about(&piece, &inputs, "last nail hole behind the toe");
    assert!(last.rule.contains("fore two thirds"), "{last:?}");
    let clip = about(&piece, &inputs, "height of a clip");
    assert_eq!(clip.asked, "3/8 in, outer quarter");
    assert_eq!(clip.stands, Stands::Keeps);
}

#[test]
fn the_web_is_compared_where_the_wall_is_known() {
    let (piece, mut inputs) = bar();
    let has = |inputs: &Inputs| {
        let found = plan(&piece, inputs).proportions;
        found.iter().any(|one| one.what == "mean width of the web")
    };
    assert!(!has(&inputs));
    inputs.hoof = Some(Hoof {
        length: length("127"),
        width: length("124"),
        wall: Some(length("9.5")),
    });
    assert!(has(&inputs));
    let web = about(&piece, &inputs, "mean width of the web");
    assert_eq!(web.stands, Stands::Keeps, "{web:?}");
}

#[test]
fn too_many_nails_differ() {
    let (mut piece, inputs) = bar();
    let nails = piece.nails.as_mut().unwrap();
    (nails.outer, nails.inner) = (5, 4);
    let count = about(&piece, &inputs, "number of nail holes");
    assert_eq!(count.stands, Stands::Differs);
    assert!(count.source.contains("Axe"), "{count:?}");
}
