//! Sizes that no shoe has: a message, no panic, and no long wait.

use evenshod::piece::{
    Bar, BarShape, Clip, ClipPlace, Foot, Fuller, FullerExtent, HeelShape, Heels, NailHoles,
    PieceSpecification, Section, ShoeKind, ToeShape,
};
use evenshod::plan::{Choice, Hoof, Inputs, Method, PastPiece, PlanFault, Sample, plan};
use evenshod::quantity::{Exact, Length, Mass, Unit};
use proptest::prelude::*;

use super::sample::bar;
use crate::piece::sample::open_shoe;

/// Any length: small, like a shoe's, huge, below zero.
fn any_length() -> impl Strategy<Value = Length> {
    prop_oneof![
        4 => 0_i64..400_000_000,
        1 => any::<i64>(),
        1 => Just(0),
        1 => Just(i64::MAX),
        1 => Just(i64::MIN),
    ]
    .prop_map(Length::from_base)
}

fn any_mass() -> impl Strategy<Value = Mass> {
    prop_oneof![0_i64..2_000_000_000, any::<i64>()].prop_map(Mass::from_base)
}

fn any_share() -> impl Strategy<Value = Exact> {
    (any::<i64>(), -5_i64..100).prop_map(|(above, below)| {
        Exact::fraction((above % 200).into(), below.into()).unwrap_or(Exact::ZERO)
    })
}

fn any_kind() -> impl Strategy<Value = ShoeKind> {
    prop::sample::select(ShoeKind::WORDS).prop_map(|(_, kind)| kind)
}

fn any_piece() -> impl Strategy<Value = PieceSpecification> {
    let sizes = prop::collection::vec(any_length(), 24);
    let words = (
        any_kind(),
        prop::sample::select(BarShape::WORDS),
        prop::sample::select(ToeShape::WORDS),
        prop::sample::select(HeelShape::WORDS),
        prop::sample::select(FullerExtent::WORDS),
        any::<(bool, bool, bool, bool)>(),
        any::<(u32, u32)>(),
        // How many sizes are left as a real shoe has them.
        0_usize..24,
    );
    (sizes, words).prop_map(
        |(mut sizes, (kind, bar, toe, heels, extent, has, nails, kept))| {
            let real = [
                20, 10, 300, 130, 135, 10, 65, 12, 5, 20, 20, 20, 18, 0, 60, 20, 10, 56, 25, 110,
                8, 6, 35, 25,
            ];
            for (size, real) in sizes.iter_mut().zip(real).take(kept) {
                *size = Length::from_base(real * 1_000_000);
            }
            let mut piece = open_shoe(130, 135);
            piece.kind = kind;
            piece.stock.section = if has.0 {
                Section::Flat
            } else {
                Section::Concave
            };
            piece.stock.width = sizes[0];
            piece.stock.thickness = sizes[1];
            piece.stock.length = has.1.then_some(sizes[2]);
            piece.finished.width = sizes[3];
            piece.finished.length = sizes[4];
            piece.finished.thickness = sizes[5];
            piece.toe.shape = toe.1;
            piece.toe.radius = has.2.then_some(sizes[6]);
            piece.toe.depth = Some(sizes[7]);
            piece.toe.edge = Some(sizes[8]);
            piece.toe.set_width = has.3.then_some(sizes[9]);
            piece.web.toe = sizes[10];
            piece.web.quarter = sizes[11];
            piece.web.heel = sizes[12];
            piece.outer_fuller_by = sizes[13];
            piece.heels = has.0.then_some(Heels {
                gap: sizes[14],
                shape: heels.1,
            });
            piece.bar = (!has.0 || kind != ShoeKind::OpenHeeled).then_some(Bar {
                shape: bar.1,
                width: sizes[15],
                thickness: sizes[16],
                gap: sizes[17],
                behind: has.1.then_some(sizes[15]),
                plate_length: has.2.then_some(sizes[14]),
                plate_width: has.3.then_some(sizes[17]),
            });
            piece.fuller = has.2.then_some(Fuller {
                extent: extent.1,
                start: sizes[18],
                end: sizes[19],
                inset: sizes[20],
                width: sizes[21],
                depth: sizes[21],
            });
            piece.nails = has.3.then(|| NailHoles {
                outer: nails.0 % 30,
                inner: nails.1,
                first: sizes[22],
                spacing: sizes[23],
                inset: sizes[20],
                pitch_toe: None,
                pitch_heel: None,
                nail: String::new(),
            });
            piece.clips = vec![Clip {
                place: ClipPlace::Toe,
                width: sizes[9],
                height: sizes[7],
                thickness: sizes[8],
            }];
            piece
        },
    )
}

fn any_past() -> impl Strategy<Value = PastPiece> {
    (any_kind(), any_length(), any_length(), any_length()).prop_map(|(kind, cut, width, length)| {
        PastPiece {
            kind,
            section: Section::Flat,
            stock_width: Length::from_base(20_000_000),
            stock_thickness: Length::from_base(10_000_000),
            is_fullered: true,
            cut,
            width,
            length,
        }
    })
}

fn any_inputs() -> impl Strategy<Value = Inputs> {
    let foot = prop::sample::select(Foot::WORDS);
    let choice = prop_oneof![
        Just(Choice::Usual),
        prop::sample::select(&Method::ALL[..]).prop_map(Choice::Method),
        any_length().prop_map(Choice::Own),
    ];
    let sizes = prop::collection::vec(any_length(), 8);
    let shares = (
        any_share(),
        any_share(),
        any::<u32>(),
        any_mass(),
        any::<(bool, bool)>(),
    );
    let past = prop::collection::vec(any_past(), 0..8);
    (foot, choice, sizes, shares, past).prop_map(|(foot, choice, sizes, shares, record)| {
        let (fuller_lengthens, scale_loss, heats, mass, has) = shares;
        Inputs {
            foot: foot.1,
            unit: Unit::Inch64,
            hoof: has.0.then_some(Hoof {
                length: sizes[0],
                width: sizes[1],
                wall: Some(sizes[2]),
            }),
            tape: Some(sizes[3]),
            between_heels: has.1.then_some(sizes[4]),
            lap: sizes[5],
            toe_bump: sizes[6],
            fuller_lengthens,
            scale_loss,
            heats: heats % 200,
            sample: has.1.then_some(Sample {
                length: sizes[7],
                mass,
            }),
            record,
            choice,
        }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn nothing_panics_and_what_comes_can_be_cut(piece in any_piece(), inputs in any_inputs()) {
        let found = plan(&piece, &inputs);
        for one in &found.answers {
            if let Some(length) = one.length {
                prop_assert!((50.0..=3_000.0).contains(&length.to_mm()), "{one:?}");
            }
        }
        if let Ok(layout) = &found.layout {
            for mark in &layout.marks {
                prop_assert!(mark.from_left.base() >= 0 && mark.from_left <= layout.length);
            }
        }
        if let Ok(shoe) = &found.masses.shoe {
            prop_assert!(shoe.base() > 0);
        }
    }

    #[test]
    fn sizes_alone_that_are_no_shoe_panic_neither(piece in any_piece()) {
        let (_, inputs) = bar();
        let _ = plan(&piece, &inputs);
    }
}

#[test]
fn a_size_that_is_none_is_named_with_its_place() {
    let (good, inputs) = bar();
    let said = |change: &dyn Fn(&mut PieceSpecification)| {
        let mut piece = good.clone();
        change(&mut piece);
        let found = plan(&piece, &inputs);
        found.layout.unwrap_err().to_string()
    };
    let zero = Length::from_base(0);
    assert_eq!(
        said(&|piece| piece.finished.width = zero),
        "the finished width is 0 mm; a plan takes 20 mm to 600 mm: change it in the piece"
    );
    assert_eq!(
        said(&|piece| piece.stock.thickness = Length::from_base(-9_525_000)),
        "the thickness of the stock is -9.525 mm; a plan takes 1 mm to 60 mm: change it in the \
         piece"
    );
    assert!(
        said(&|piece| piece.web.quarter = Length::from_base(i64::MAX))
            .starts_with("the web at the quarters is 9223372036854.775807 mm")
    );
    // What is of a shoe's size and does not go together is told too, most of it by the shape.
    let deep = said(&|piece| piece.fuller.as_mut().unwrap().depth = Length::from_base(9_525_000));
    assert!(
        deep.starts_with("a fuller 9.525 mm deep cuts through"),
        "{deep}"
    );
    let edge = said(&|piece| piece.toe.edge = Some(Length::from_base(9_600_000)));
    assert!(
        edge.starts_with("a rolled edge of 9.6 mm is thicker"),
        "{edge}"
    );
    let told = said(&|piece| piece.web.quarter = Length::from_base(70_000_000));
    assert!(told.contains("leaves no room in a width of"), "{told}");
}

#[test]
fn shares_and_heats_that_cannot_be_are_named() {
    let (piece, good) = bar();
    let said = |change: &dyn Fn(&mut Inputs)| {
        let mut inputs = good.clone();
        change(&mut inputs);
        match plan(&piece, &inputs).layout {
            Err(fault @ PlanFault::Contradicts { .. }) => fault.to_string(),
            other => panic!("{other:?}"),
        }
    };
    let half = Exact::fraction(1, 2).unwrap();
    assert!(said(&|inputs| inputs.scale_loss = half).contains("at most 100 heats"));
    assert!(said(&|inputs| inputs.heats = 101).contains("0 to 20 % a heat"));
    let minus = Exact::fraction(-1, 2).unwrap();
    assert!(said(&|inputs| inputs.fuller_lengthens = minus).contains("0 to 100 %"));
}
