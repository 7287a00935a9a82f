//! Ten shoes from pony to draught, made up here; common practice, no source.

use evenshod::piece::{
    Bar, BarShape, Clip, ClipPlace, Finished, Foot, Fuller, FullerExtent, HeelShape, Heels,
    NailHoles, PieceSpecification, Section, ShoeKind, Stock, Toe, ToeShape, Web,
};
use evenshod::quantity::Length;

/// A length in micrometres.
pub fn um(micrometres: i64) -> Length {
    Length::from_base(micrometres * 1_000)
}

/// A length in whole millimetres.
pub fn mm(millimetres: i64) -> Length {
    um(millimetres * 1_000)
}

/// A plain open-heeled shoe, `width` by `length` mm, of a web in proportion.
pub fn open_shoe(width: i64, length: i64) -> PieceSpecification {
    let web = um(width * 155);
    PieceSpecification {
        kind: ShoeKind::OpenHeeled,
        stock: Stock {
            section: Section::Flat,
            width: web,
            thickness: um(width * 75),
            length: None,
            material: "mild steel".to_owned(),
        },
        finished: Finished {
            width: mm(width),
            length: mm(length),
            thickness: um(width * 75),
        },
        toe: Toe {
            shape: ToeShape::Round,
            radius: None,
            depth: None,
            edge: None,
            set_width: None,
        },
        web: Web {
            toe: web,
            quarter: web,
            heel: um(width * 140),
        },
        outer_fuller_by: mm(0),
        heels: Some(Heels {
            gap: um(width * 430),
            shape: HeelShape::Square,
        }),
        bar: None,
        fuller: None,
        nails: None,
        clips: Vec::new(),
    }
}

/// Fuller and nail holes in proportion.
pub fn nailed(mut piece: PieceSpecification, width: i64) -> PieceSpecification {
    let inset = um(width * 61);
    piece.fuller = Some(Fuller {
        extent: FullerExtent::ThreeQuarter,
        start: um(width * 170),
        end: um(width * 900),
        inset,
        width: um(width * 48),
        depth: um(width * 48),
    });
    piece.nails = Some(NailHoles {
        outer: 4,
        inner: 3,
        first: um(width * 260),
        spacing: um(width * 190),
        inset,
        pitch_toe: None,
        pitch_heel: None,
        nail: "made up".to_owned(),
    });
    piece
}

/// A bar shoe of this form.
pub fn bar_shoe(kind: ShoeKind, width: i64, length: i64) -> PieceSpecification {
    let (shape, behind, plate) = match kind {
        ShoeKind::EggBar => (BarShape::Egg, Some(um(length * 120)), None),
        ShoeKind::HeartBar => {
            let plate = (um(length * 330), um(width * 260));
            (BarShape::Heart, None, Some(plate))
        }
        ShoeKind::StraightBar | ShoeKind::OpenHeeled => (BarShape::Straight, None, None),
    };
    let mut piece = nailed(open_shoe(width, length), width);
    piece.kind = kind;
    piece.heels = None;
    piece.bar = Some(Bar {
        shape,
        width: um(width * 145),
        thickness: um(width * 75),
        gap: um(width * 430),
        behind,
        plate_length: plate.map(|(length, _)| length),
        plate_width: plate.map(|(_, width)| width),
    });
    piece
}

/// Name, specification and foot of each.
pub fn ten() -> Vec<(&'static str, PieceSpecification, Foot)> {
    let clipped = |mut piece: PieceSpecification, places: &[ClipPlace]| {
        piece.clips = places
            .iter()
            .map(|place| Clip {
                place: *place,
                width: mm(22),
                height: mm(16),
                thickness: mm(4),
            })
            .collect();
        piece
    };
    let mut rolled = bar_shoe(ShoeKind::StraightBar, 130, 133);
    rolled.toe.shape = ToeShape::Rolled;
    rolled.toe.depth = Some(mm(12));
    rolled.outer_fuller_by = um(1_600);
    let mut set = nailed(open_shoe(126, 140), 126);
    set.toe.shape = ToeShape::Set;
    set.toe.set_width = Some(mm(24));
    let mut rounded = nailed(open_shoe(128, 134), 128);
    rounded.heels.as_mut().unwrap().shape = HeelShape::Rounded;
    let mut pencilled = nailed(open_shoe(122, 138), 122);
    pencilled.heels.as_mut().unwrap().shape = HeelShape::Pencilled;
    let mut full = nailed(open_shoe(140, 146), 140);
    full.fuller.as_mut().unwrap().extent = FullerExtent::Full;
    full.outer_fuller_by = mm(3);
    let quarter = [ClipPlace::OuterQuarter, ClipPlace::InnerQuarter];
    vec![
        ("pony", open_shoe(96, 100), Foot::NearFore),
        ("rounded", rounded, Foot::OffFore),
        ("pencilled", pencilled, Foot::NearHind),
        ("full", full, Foot::OffFore),
        ("set", clipped(set, &quarter), Foot::OffHind),
        ("straight", rolled, Foot::NearFore),
        ("egg", bar_shoe(ShoeKind::EggBar, 128, 150), Foot::NearFore),
        (
            "heart",
            bar_shoe(ShoeKind::HeartBar, 132, 136),
            Foot::OffFore,
        ),
        (
            "clipped",
            clipped(nailed(open_shoe(134, 138), 134), &[ClipPlace::Toe]),
            Foot::NearFore,
        ),
        ("draught", nailed(open_shoe(205, 212), 205), Foot::NearFore),
    ]
}
