//! Which measure of a photo fills a reading.

use evenshod::piece::Feature;
use evenshod::rubric::{Rubric, read_rubric, shipped};

use super::sample::{read, said_of, with_criterion, with_named_criterion, with_root};

fn photos(rubric: &Rubric) -> Vec<(String, Option<Feature>)> {
    let slots = rubric.slots().into_iter();
    slots.map(|slot| (slot.id, slot.photo)).collect()
}

#[track_caller]
fn told(text: &str, wanted: &str) {
    let checked = read_rubric(text);
    let said: Vec<String> = said_of(&checked)
        .into_iter()
        .map(|found| format!("{}; {}", found.what, found.remedy))
        .collect();
    assert_eq!(said, [wanted], "in\n{text}");
    assert!(checked.rubric.is_none());
}

fn toleranced(keys: &str) -> String {
    with_named_criterion(&format!(
        "kind = \"toleranced\"\nbands = [{{ at_least = 2, marks = 4 }}]\n{keys}"
    ))
}

fn paired(keys: &str) -> String {
    with_named_criterion(&format!(
        "kind = \"paired\"\nbands = [{{ within = 2, marks = 4 }}]\n{keys}"
    ))
}

#[test]
fn a_criterion_names_it_for_its_reading() {
    for feature in Feature::ALL {
        let measures = match feature.is_angle() {
            true => "measures = \"angle\"\n",
            false => "",
        };
        let several = match feature.is_many() {
            true => "several_places = true\n",
            false => "",
        };
        let rubric = read(&toleranced(&format!(
            "{measures}{several}photo = \"{feature}\""
        )));
        assert_eq!(photos(&rubric), [("it".to_owned(), Some(feature))]);
    }
    assert_eq!(photos(&read(&toleranced(""))), [("it".to_owned(), None)]);
}

#[test]
fn a_pair_names_both_sides_by_one_word() {
    let rubric = read(&paired("photo = \"branch chord\""));
    let wanted = [
        ("it-left", Feature::BranchChordLeft),
        ("it-right", Feature::BranchChordRight),
    ];
    assert_eq!(
        photos(&rubric),
        wanted.map(|(id, feature)| (id.to_owned(), Some(feature)))
    );
}

#[test]
fn a_reading_of_its_own_names_it_and_every_shoe_has_one() {
    let rubric = read(&with_root(
        "[[shoes]]\nid = \"near\"\n[[shoes]]\nid = \"off\"\n[[readings]]\nid = \"web\"\nname = \
         \"Web\"\nphoto = \"web heel left\"\nseveral_places = true\n",
    ));
    let filled = Some(Feature::WebHeelLeft);
    assert_eq!(
        photos(&rubric),
        [
            ("near.web".to_owned(), filled),
            ("off.web".to_owned(), filled)
        ]
    );
}

#[test]
fn an_angle_and_a_length_are_not_mixed_up() {
    told(
        &toleranced("photo = \"bar back squareness\""),
        "`bar back squareness` of a photo is an angle, and this measures length (`photo` of \
         criterion `it`); write measures = \"angle\", or another word",
    );
    told(
        &toleranced("photo = \"toe radius\"\nmeasures = \"angle\""),
        "`toe radius` of a photo is a length, and this measures angle (`photo` of criterion \
         `it`); write measures = \"length\", or another word",
    );
}

#[test]
fn an_unknown_word_is_told_with_those_that_are_known() {
    let words: Vec<String> = Feature::ALL
        .iter()
        .map(|feature| format!("\"{feature}\""))
        .collect();
    told(
        &toleranced("photo = \"widest\""),
        &format!(
            "`widest` is not known here (`photo` of criterion `it`); use one of {}",
            words.join(", ")
        ),
    );
    told(
        &paired("photo = \"branch chord left\""),
        "`branch chord left` is not known here (`photo` of criterion `it`); use one of \"web toe \
         quarter\", \"web quarter\", \"web heel\", \"branch length\", \"branch chord\", \"fuller end\", \
         \"heel hole\"",
    );
}

#[test]
fn a_series_takes_what_a_shoe_has_several_of() {
    let series = |photo: &str| {
        with_named_criterion(&format!(
            "kind = \"spread\"\ncount = 4\nbands = [{{ at_most = 2, marks = 4 }}]\nphoto = \
             \"{photo}\""
        ))
    };
    let filled = Some(Feature::HoleSpacing);
    assert_eq!(
        photos(&read(&series("hole spacing"))),
        [("it".to_owned(), filled)]
    );
    told(
        &series("web toe"),
        "`web toe` is not known here (`photo` of criterion `it`); use one of \"fuller inset\", \
         \"fuller width\", \"hole inset\", \"hole spacing\"",
    );
}

#[test]
fn one_reading_takes_nothing_that_a_shoe_has_several_of() {
    told(
        &toleranced("photo = \"hole inset\""),
        "a photo has several of `hole inset`, and this is one reading (`photo` of criterion \
         `it`); write several_places = true, or another word",
    );
}

#[test]
fn it_stands_where_the_reading_is_described() {
    let with = |named: &str| {
        let criteria = "id = \"it\"\nname = \"It\"\nkind = \"toleranced\"\nreading = \"wide\"\n\
                        photo = \"overall width\"\nbands = [{ at_least = 2, marks = 4 }]\n";
        let named = format!("[[readings]]\nid = \"wide\"\nname = \"Wide\"\n{named}\n");
        with_criterion(criteria).replace("[piece]", &format!("{named}[piece]"))
    };
    read(&with("photo = \"overall width\""));
    told(
        &with(""),
        "the reading `wide` is described elsewhere; write photo there, and leave it out here",
    );
}

/// Where a shipped definition is what the gauge measures, and nowhere else.
#[test]
fn shipped_rubrics_name_what_a_photo_fills() {
    let named: Vec<String> = shipped()
        .iter()
        .map(|file| {
            let rubric = read_rubric(file.text).rubric.unwrap();
            let filled = photos(&rubric).into_iter();
            let filled: Vec<String> = filled
                .filter_map(|(id, photo)| Some(format!("{id} = {}", photo?)))
                .collect();
            format!("{}: {}", file.id, filled.join(", "))
        })
        .collect();
    let mut named = named;
    named.sort();
    assert_eq!(
        named,
        [
            "apprentice-self-check: width = overall width, nail-spacing = hole spacing",
            "concave-front-shoe: width = overall width",
            "egg-bar-shoe: width = overall width, length = overall length, weld-width = bar \
             width, nail-spacing = hole spacing, nail-inset = hole inset",
            "hind-shoe: width = overall width",
            "open-heeled-front-shoe: width = overall width, nail-spacing = hole spacing, nail-inset = \
             hole inset",
            "pair-of-fronts: near.width = overall width, off.width = overall width, near.nail-spacing \
             = hole spacing, off.nail-spacing = hole spacing, near.nail-inset = hole inset, \
             off.nail-inset = hole inset",
            "straight-bar-shoe: branches-left = branch chord left, branches-right = branch chord \
             right, width = overall width, length = overall length, bar-straight = bar back \
             straightness, bar-square = bar back squareness, bar-width = bar width, fuller-inset = \
             fuller inset, fuller-ends-left = fuller end left, fuller-ends-right = fuller end \
             right, nail-spacing = hole spacing, nail-inset = hole inset, nails-alike-left = heel \
             hole left, nails-alike-right = heel hole right",
        ]
    );
}
