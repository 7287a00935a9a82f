//! One shoe's outline laid over another's.

use evenshod::gauge::features::{Refused, Side};
use evenshod::gauge::over::{Edge, Edges, LaidOver, Part, Rigid, lay_over};
use evenshod::gauge::thinned;
use evenshod::present::over::asked_outline;
use evenshod::rubric::{read_rubric, shipped};
use kurbo::{Point, Vec2};
use proptest::prelude::*;
use serde::Deserialize;

type Ring = Vec<(f64, f64)>;

#[derive(Deserialize)]
struct Known {
    outer: Ring,
    inner: Vec<Ring>,
    frame: Lies,
}

#[derive(Deserialize)]
struct Lies {
    origin: (f64, f64),
    x_axis: (f64, f64),
    y_axis: (f64, f64),
}

impl Known {
    fn edges(&self) -> Edges {
        let ring = |ring: &Ring| {
            let own = |at: &(f64, f64)| {
                let from = Point::from(*at) - Point::from(self.frame.origin);
                let (x, y) = (Vec2::from(self.frame.x_axis), Vec2::from(self.frame.y_axis));
                Point::new(from.dot(x), from.dot(y))
            };
            ring.iter().map(own).collect()
        };
        Edges {
            outer: ring(&self.outer),
            inner: self.inner.iter().map(ring).collect(),
        }
    }
}

pub fn known() -> Vec<Edges> {
    let text = include_str!("../../data/gauge/outlines.json");
    let all: Vec<Known> = serde_json::from_str(text).unwrap();
    all.iter().map(Known::edges).collect()
}

/// What the shipped rubric with this id asks for.
fn asked(id: &str) -> Edges {
    let mut all = shipped()
        .iter()
        .map(|one| read_rubric(one.text).rubric.unwrap());
    let rubric = all.find(|rubric| rubric.id == id).unwrap();
    asked_outline(&rubric, None).unwrap().edges
}

fn each(edges: &Edges, change: impl Fn(Point) -> Point) -> Edges {
    let ring = |ring: &Vec<Point>| ring.iter().copied().map(&change).collect();
    Edges {
        outer: ring(&edges.outer),
        inner: edges.inner.iter().map(ring).collect(),
    }
}

fn furthest(laid: &LaidOver) -> f64 {
    laid.places().map(|off| off.by.abs()).fold(0.0, f64::max)
}

#[derive(Deserialize)]
struct Outside {
    shoe: usize,
    under: usize,
    turn: f64,
    shift: (f64, f64),
    rms: f64,
    before: f64,
}

/// `tests/data/over.json` is by `tests/reference/over.py`: a search by SciPy over distances to
/// every chord.
#[test]
fn scipy_finds_the_same_motion() {
    let text = include_str!("../../data/over.json");
    let outside: Vec<Outside> = serde_json::from_str(text).unwrap();
    assert_eq!(outside.len(), 4);
    let known = known();
    for one in outside {
        let laid = lay_over(&known[one.shoe], &known[one.under]).unwrap();
        let Rigid { turn, shift } = laid.motion;
        let off = shift - Vec2::from(one.shift);
        assert!(off.hypot() < 1e-3, "{shift:?} for {:?}", one.shift);
        assert!((turn - one.turn).abs() < 1e-5, "{turn} for {}", one.turn);
        assert!((laid.rms_before - one.before).abs() < 1e-6);
        // Either search may end in a hundredth of a thousandth of the other's.
        assert!(
            (laid.rms - one.rms).abs() < 1e-4,
            "{} for {}",
            laid.rms,
            one.rms
        );
    }
}

/// Steel that is 1 mm wider outside stands out by that there, and lies on the inner edge.
#[test]
fn a_wider_ring_stands_out_by_what_it_is_wider() {
    let ring = |radius: f64| -> Vec<Point> {
        let angles = (0..720).map(|place| (0.5 * f64::from(place)).to_radians());
        angles
            .map(|angle| Point::new(radius * angle.sin(), 60.0 - radius * angle.cos()))
            .collect()
    };
    let shoe = |outer: f64| Edges {
        outer: ring(outer),
        inner: vec![ring(40.0)],
    };
    let laid = lay_over(&shoe(61.0), &shoe(60.0)).unwrap();
    for (edge, wanted) in laid.edges.iter().zip([1.0, 0.0]) {
        assert!(edge.iter().all(|off| (off.by - wanted).abs() < 0.002));
    }
    // 383 places of 634 are 1 mm off.
    assert!(
        (laid.rms - (383.0_f64 / 634.0).sqrt()).abs() < 0.002,
        "{}",
        laid.rms
    );
    assert!((laid.share_within(0.5) - 251.0 / 634.0).abs() < 1e-9);
    assert_eq!(laid.share_within(1.1), 1.0);
    let back = lay_over(&shoe(60.0), &shoe(61.0)).unwrap();
    assert!((back.furthest_in().unwrap().by + 1.0).abs() < 0.002);
    let out = back.furthest_out().map_or(0.0, |off| off.by);
    assert!(out < 0.002, "{out}");
}

#[test]
fn places_are_told_by_the_part_that_they_lie_on() {
    let told = |edges: &Edges, x: f64, y: f64| {
        let laid = lay_over(edges, edges).unwrap();
        let near = |off: &&evenshod::gauge::over::Off| off.at.distance(Point::new(x, y));
        let nearest = laid
            .places()
            .min_by(|one, other| near(one).total_cmp(&near(other)));
        nearest.unwrap().whereabouts
    };
    let bar = asked("straight-bar-shoe");
    let toe = told(&bar, 0.0, 0.0);
    assert_eq!((toe.part, toe.edge), (Part::Toe, Edge::Outer));
    assert_eq!(told(&bar, 0.0, 30.0).edge, Edge::Inner);
    let behind = told(&bar, 0.0, 200.0);
    assert_eq!((behind.part, behind.edge), (Part::Bar, Edge::Outer));
    let front = told(&bar, 0.0, 100.0);
    assert_eq!((front.part, front.edge), (Part::Bar, Edge::Inner));
    for (x, side) in [(-80.0, Side::Left), (80.0, Side::Right)] {
        let branch = told(&bar, x, 70.0);
        let Part::Branch(own, share) = branch.part else {
            panic!("{branch:?}");
        };
        assert_eq!((own, branch.edge), (side, Edge::Outer));
        assert!((0.4..0.7).contains(&share), "{share}");
    }
    let open = asked("open-heeled-front-shoe");
    for (x, side) in [(-60.0, Side::Left), (60.0, Side::Right)] {
        assert_eq!(told(&open, x, 200.0).part, Part::Heel(side));
        let inside = told(&open, x / 2.0, 70.0);
        assert_eq!(inside.edge, Edge::Inner, "{inside:?}");
    }
}

#[test]
fn what_is_no_shoe_is_refused() {
    let shoe = asked("straight-bar-shoe");
    let nothing = Edges::default();
    assert!(matches!(
        lay_over(&nothing, &shoe),
        Err(Refused::TooFew { .. })
    ));
    assert!(lay_over(&shoe, &nothing).is_err());
    let broken = each(&shoe, |_| Point::new(f64::NAN, 0.0));
    assert!(lay_over(&broken, &shoe).is_err());
}

fn coarse(edges: &Edges) -> Edges {
    Edges {
        outer: thinned(&edges.outer, 0.05),
        inner: edges.inner.iter().map(|ring| thinned(ring, 0.05)).collect(),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn a_moved_copy_comes_back(
        which in 0_usize..6,
        turn in -0.2_f64..0.2,
        x in -8.0_f64..8.0,
        y in -8.0_f64..8.0,
    ) {
        let shoe = &known()[which];
        let moved = Rigid { turn, shift: Vec2::new(x, y) };
        let under = each(shoe, |at| moved.of(at));
        let laid = lay_over(shoe, &under).unwrap();
        prop_assert!(furthest(&laid) < 0.01, "{} after {:?}", furthest(&laid), laid.motion);
        prop_assert!((laid.motion.turn - turn).abs() < 1e-4);
        prop_assert!((laid.motion.shift - moved.shift).hypot() < 0.01);
    }

    #[test]
    fn no_fit_ends_worse_than_it_began(
        one in 0_usize..6,
        other in 0_usize..6,
        turn in -1.5_f64..1.5,
        x in -60.0_f64..60.0,
        y in -60.0_f64..60.0,
    ) {
        // As few corners as a marking keeps.
        let known: Vec<Edges> = known().iter().map(coarse).collect();
        let moved = Rigid { turn, shift: Vec2::new(x, y) };
        let under = each(&known[other], |at| moved.of(at));
        let laid = lay_over(&known[one], &under).unwrap();
        prop_assert!(laid.rms <= laid.rms_before);
        let squares: Vec<f64> = laid.places().map(|off| off.by * off.by).collect();
        let rms = (squares.iter().sum::<f64>() / squares.len() as f64).sqrt();
        prop_assert!((rms - laid.rms).abs() < 1e-9);
    }
}
