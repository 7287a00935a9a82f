//! A card beside a shoe, in painted pictures of which all is known.

use evenshod::gauge::scale::see;
use evenshod::gauge::sheet::{Seen, Sheet};
use evenshod::gauge::{Ask, Camera, Refused, Scale};
use kurbo::{Point, Vec2};
use nalgebra::Point3;

use super::{ask, camera, length, picture};
use crate::gauge::paint::{BarShoe, Look, Scene};

const SIZE: (usize, usize) = (1_200, 900);
/// Where the shoe lies beside the card, whose middle is the world's.
const BESIDE: Point = Point::new(110.0, 4.0);

fn scene(card: f64) -> Scene {
    let above = camera(SIZE, 900.0, 400.0, (0.06, -0.04));
    Scene {
        // So that the middle of the picture lies between card and shoe.
        camera: Camera {
            translation: above.translation - above.rotation.column(0) * 70.0,
            ..above
        },
        size: SIZE,
        sheet: Sheet::Card.size(),
        shoe: BarShoe::default().laid(BESIDE, 0.2),
        thickness: 10.0,
        look: Look {
            paper: card,
            bench: 0.7,
            falloff: 0.1,
            rounded: 3.18,
            ..Look::default()
        },
    }
}

fn by_card() -> Ask {
    Ask {
        scale: Scale::Sheet(Sheet::Card),
        focal: Some((900.0, 0.015)),
        ..ask()
    }
}

/// The sides of a card tell the camera, whether it is darker than the paper or brighter.
#[test]
fn a_card_is_found_beside_a_shoe() {
    for card in [0.2, 0.45] {
        let scene = scene(card);
        let seen = see(&picture(scene.paint()), &by_card()).unwrap();
        let found = Sheet::Card.corners();
        for corner in scene.corners() {
            let off = found.iter().map(|at| {
                let at = seen.camera.project(Point3::new(at.x, at.y, 0.0));
                (at.unwrap() - corner).hypot()
            });
            let off = off.fold(f64::INFINITY, f64::min);
            assert!(off < 0.5, "{off} px from {corner:?}");
        }
        assert_width(&scene, &seen);
    }
}

/// The width of the shoe beside the card, from places that are known in the picture, lies in its
/// interval, which is vaguer than by a sheet.
fn assert_width(scene: &Scene, seen: &Seen) {
    let ends = [-65.0, 65.0].map(|x| BESIDE + Vec2::new(x, 0.0));
    let pixels = ends.map(|at| {
        let seen = scene.camera.project(Point3::new(at.x, at.y, 10.0 - 0.76));
        seen.unwrap()
    });
    let (length, unsure) = length(seen, pixels, by_card().height());
    let off = length - 130.0;
    assert!(off.abs() < 2.0 * unsure, "{off}, u {unsure}");
    assert!((0.2..1.0).contains(&unsure), "{unsure}");
}

/// Where it cannot be told from the ground it is refused, and found once its corners are marked.
#[test]
fn a_card_as_bright_as_the_paper_is_marked_by_hand() {
    let scene = scene(0.69);
    let picture = picture(scene.paint());
    assert_eq!(see(&picture, &by_card()), Err(Refused::NoCard));
    let marked = Ask {
        corners: Some(scene.corners().map(|at| at + Vec2::new(0.6, -0.4))),
        ..by_card()
    };
    let seen = see(&picture, &marked).unwrap();
    let at = seen.camera.project(Point3::origin()).unwrap();
    let truth = scene.camera.project(Point3::origin()).unwrap();
    assert!((at - truth).hypot() < 1.2, "{at:?} for {truth:?}");
}
