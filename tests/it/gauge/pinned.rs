//! Places of the edge that a person put right.

use evenshod::gauge::steel::{
    Followed, LAST, NEARER, Pin, evened, follow, of_lines, pins, through,
};
use evenshod::gauge::{Camera, Picture, View};
use kurbo::{Line, ParamCurveNearest as _, Point, Rect, Vec2};

use super::camera::camera;
use super::paint::{BarShoe, Look, Scene};

/// A patch as dark as steel that lies over the edge of the right branch and beyond it, in mm on
/// the plane of the ground face.
const SHADOW: Rect = Rect::new(30.0, -12.0, 46.0, 18.0);

fn scene() -> Scene {
    Scene {
        camera: Camera {
            focal: 900.0,
            centre: Point::new(349.5, 349.5),
            ..camera(400.0, (0.0, 0.0), 0.0, 0.0)
        },
        size: (700, 700),
        sheet: (210.0, 297.0),
        shoe: BarShoe {
            width: 84.0,
            length: 88.0,
            widest: 40.0,
            heels: 72.0,
            ..BarShoe::default()
        }
        .laid(Point::new(0.0, 0.0), 0.0),
        thickness: 10.0,
        look: Look {
            shadow: (0.0, (0.0, 0.0), 1.0),
            ..Look::default()
        },
    }
}

/// Its picture, with the patch or without.
fn picture(scene: &Scene, has_shadow: bool) -> Picture {
    let mut painted = scene.paint();
    for (index, pixel) in painted.pixels.chunks_exact_mut(3).enumerate() {
        let (x, y) = (index % painted.width, index / painted.width);
        let at = Point::new(x as f64, y as f64);
        let at = scene.camera.meets(at, scene.thickness).unwrap();
        if has_shadow && SHADOW.contains(at) {
            // As dark as the steel there, and as noisy.
            pixel.iter_mut().for_each(|code| *code = 76 + *code % 5);
        }
    }
    Picture::of(painted.width, painted.height, painted.pixels).unwrap()
}

fn view<'a>(picture: &'a Picture, scene: &'a Scene) -> View<'a> {
    View {
        picture,
        camera: &scene.camera,
        height: scene.thickness,
    }
}

/// Places on the plane, as a person marks them in the picture.
fn marked(picture: &Picture, scene: &Scene, by_hand: &[Point]) -> Vec<Pin> {
    let view = view(picture, scene);
    let pixels: Vec<Point> = by_hand.iter().map(|at| view.pixel(*at).unwrap()).collect();
    let pins = pins(&view, &pixels);
    assert_eq!(pins.len(), by_hand.len());
    pins
}

fn followed(picture: &Picture, scene: &Scene, guide: &[Point], by_hand: &[Point]) -> Followed {
    let view = view(picture, scene);
    let pins = marked(picture, scene, by_hand);
    let first = follow(&view, guide, false, NEARER, &pins, &|_| 0.0);
    follow(&view, &first.line, false, LAST, &pins, &|_| 0.0)
}

/// How far a place is from a closed line.
fn off(line: &[Point], at: Point) -> f64 {
    let each = line.iter().zip(line.iter().cycle().skip(1));
    let each = each.map(|(from, to)| Line::new(*from, *to).nearest(at, 1e-6).distance_sq);
    each.fold(f64::INFINITY, f64::min).sqrt()
}

/// The places of the outer edge under the patch, a little more at either end.
fn beside_shadow(line: &[Point]) -> impl Iterator<Item = Point> {
    let beside = SHADOW.inflate(8.0, 3.0);
    line.iter().copied().filter(move |at| beside.contains(*at))
}

/// How far a line lies off the truth there at worst.
fn worst(scene: &Scene, line: &[Point]) -> f64 {
    let each = beside_shadow(line).map(|at| off(&scene.shoe.outer, at));
    each.fold(0.0, f64::max)
}

/// The place of the outer edge so high on the right branch.
fn right_at(scene: &Scene, y: f64) -> Point {
    let right = scene.shoe.outer.iter().filter(|at| at.x > 0.0);
    let at = right.min_by(|a, b| (a.y - y).abs().total_cmp(&(b.y - y).abs()));
    *at.unwrap()
}

/// A guide as rough as a mask is: it goes round the patch.
fn rough(scene: &Scene) -> Vec<Point> {
    let far = [-9.0, 3.0, 15.0].map(|y| Pin {
        at: Point::new(SHADOW.x1, y),
        unsure: 1.0,
    });
    through(&scene.shoe.outer, &far)
}

#[test]
fn three_places_take_an_edge_off_a_shadow() {
    let scene = scene();
    let picture = picture(&scene, true);
    let guide = rough(&scene);
    let alone = followed(&picture, &scene, &guide, &[]);
    assert!(worst(&scene, &alone.line) > 2.5);
    let by_hand = [-12.0, 3.0, 18.0].map(|y| right_at(&scene, y));
    let led = followed(&picture, &scene, &guide, &by_hand);
    let worst = worst(&scene, &led.line);
    // As sure as a hand is in so small a picture, and a step from place to place.
    let hand = marked(&picture, &scene, &by_hand)
        .iter()
        .fold(0.0_f64, |most, pin| most.max(pin.unsure));
    assert!(hand < 0.75 && worst < hand + 0.1, "{worst} for {hand}");
    // It is settled, and no surer than a hand.
    let places = led.line.iter().zip(led.unsure.iter().zip(&led.likely));
    let under = places.filter(|(at, _)| SHADOW.inflate(8.0, -1.0).contains(**at));
    for (at, (unsure, likely)) in under {
        assert!(
            *unsure >= 0.6 && *likely >= -1.0,
            "{at:?}: {unsure} {likely}"
        );
    }
}

/// A place that a person marks on the line that was found leaves it as it is.
#[test]
fn places_on_the_found_line_change_nothing() {
    let scene = scene();
    let picture = picture(&scene, false);
    let found = once(&picture, &scene, &[]);
    let count = found.len();
    let by_hand = [0, 30, count / 3, count / 2].map(|place| found[place]);
    let led = once(&picture, &scene, &by_hand);
    for at in &led {
        assert!(off(&found, *at) < 0.1, "{at:?}: {}", off(&found, *at));
    }
}

fn once(picture: &Picture, scene: &Scene, by_hand: &[Point]) -> Vec<Point> {
    let view = View {
        picture,
        camera: &scene.camera,
        height: scene.thickness,
    };
    let pixels: Vec<Point> = by_hand.iter().map(|at| view.pixel(*at).unwrap()).collect();
    let guide = &scene.shoe.outer;
    let pins = pins(&view, &pixels);
    evened(&follow(&view, guide, false, LAST, &pins, &|_| 0.0).line)
}

fn pin(at: (f64, f64)) -> Pin {
    Pin {
        at: at.into(),
        unsure: 0.5,
    }
}

fn circle(radius: f64) -> Vec<Point> {
    let turns = (0..720).map(|place| std::f64::consts::TAU * f64::from(place) / 720.0);
    turns
        .map(|turn| Point::new(radius * turn.cos(), radius * turn.sin()))
        .collect()
}

/// Neighbours on the truth lead a line that lies off back to it; the far side stays.
#[test]
fn a_line_is_led_along_the_arc_through_neighbours() {
    let on_truth = [-0.4_f64, 0.0, 0.4].map(|turn| pin((50.0 * turn.cos(), 50.0 * turn.sin())));
    let led = through(&circle(56.0), &on_truth);
    for at in &led {
        let radius = at.to_vec2().hypot();
        if at.to_vec2().angle().abs() < 0.4 {
            assert!((radius - 50.0).abs() < 0.1, "{at:?}");
        }
        assert!(radius < 56.1 && (at.x > 0.0 || radius > 55.9), "{at:?}");
    }
    // One alone takes the line along to itself only.
    let led = through(&circle(56.0), &on_truth[1..2]);
    assert!(off(&led, on_truth[1].at) < 0.05);
    assert!(off(&led, Point::new(0.0, 56.0)) < 0.05);
    assert_eq!(through(&circle(56.0), &[]), circle(56.0));
}

#[test]
fn no_corner_is_cut_between_two_places() {
    let square = [(-40.0, -40.0), (40.0, -40.0), (40.0, 40.0), (-40.0, 40.0)].map(Point::from);
    let led = through(&square, &[pin((40.0, 32.0)), pin((32.0, 40.0))]);
    assert!(off(&led, Point::new(40.0, 40.0)) < 0.1);
}

/// A point belongs to the line that it is nearest to, and far from both to none.
#[test]
fn a_point_is_of_the_nearest_line_or_of_none() {
    let scene = scene();
    let lines = [scene.shoe.outer.clone(), scene.shoe.inner.clone()];
    let pin = |at: Point| Pin { at, unsure: 0.3 };
    let right = right_at(&scene, 3.0);
    let out = pin(right + Vec2::new(9.0, 0.0));
    let inner = pin(lines[1][0]);
    let of_each = of_lines(&[out, inner], &lines).unwrap();
    assert_eq!(of_each, [vec![out], vec![inner]]);
    let stray = pin(right + Vec2::new(60.0, 0.0));
    assert_eq!(of_lines(&[out, stray], &lines), Err(stray));
}
