use super::table::Table;
use crate::piece::{
    Bar, BarShape, Clip, ClipPlace, Finished, Foot, Fuller, FullerExtent, HeelShape, Heels,
    MadeShoe, NailHoles, PieceSpecification, Section, ShoeKind, Stock, Toe, ToeShape, Web,
};
use crate::quantity::{Angle, Dimension, Length};
use crate::rubric::model::Shoe;

const NOTHING: Length = Length::from_base(0);

/// The `[piece]` table; a blank piece where it is missing.
pub(super) fn read_piece(table: Option<Table<'_>>, shoes: &[Shoe]) -> PieceSpecification {
    let Some(table) = table else { return blank() };
    let faults_before = table.source.diagnostics.borrow().len();
    if !table.has("kind") {
        table.missing("kind", "add a line such as kind = \"straight bar\"");
    }
    let stock = read_stock(&table);
    let piece = PieceSpecification {
        kind: table
            .word("kind", ShoeKind::WORDS)
            .unwrap_or(ShoeKind::OpenHeeled),
        finished: read_finished(&table, &stock),
        toe: read_toe(&table),
        web: read_web(&table, stock.width),
        outer_fuller_by: table.length("outer_fuller_by").unwrap_or(NOTHING),
        heels: table.table("heels").map(read_heels),
        bar: table.table("bar").map(|bar| read_bar(bar, stock.thickness)),
        fuller: table.table("fuller").map(read_fuller),
        nails: table.table("nails").map(read_nails),
        clips: table
            .tables("clips", "clip")
            .into_iter()
            .map(read_clip)
            .collect(),
        stock,
    };
    check_rear(&table, &piece);
    if table.source.diagnostics.borrow().len() == faults_before {
        check_shape(&table, &piece, shoes);
    }
    table.finish();
    piece
}

/// Marking needs no drawing, so what cannot be drawn is no error.
fn check_shape(table: &Table<'_>, piece: &PieceSpecification, shoes: &[Shoe]) {
    let mut feet: Vec<Foot> = Vec::new();
    for shoe in shoes {
        let foot = shoe.drawn_foot();
        if !feet.contains(&foot) {
            feet.push(foot);
        }
    }
    for foot in feet {
        for fault in MadeShoe::of(piece, foot).err().unwrap_or_default() {
            let what = format!("the shoe is not drawn: {fault}");
            let remedy = "mend these sizes; a piece can be marked without its drawing";
            table.source.warn(table.span_of("kind"), what, remedy);
        }
    }
}

fn check_rear(table: &Table<'_>, piece: &PieceSpecification) {
    let shape = match piece.kind {
        ShoeKind::OpenHeeled => None,
        ShoeKind::StraightBar => Some(BarShape::Straight),
        ShoeKind::EggBar => Some(BarShape::Egg),
        ShoeKind::HeartBar => Some(BarShape::Heart),
    };
    match (shape, &piece.heels, &piece.bar) {
        (None, _, Some(_)) => {
            table.error(
                "bar",
                "an open-heeled shoe has no bar",
                "leave it out, or change kind",
            );
        }
        (None, None, None) => table.missing("heels", "add [piece.heels] with gap and shape"),
        (Some(_), Some(_), _) => {
            table.error(
                "heels",
                "a bar shoe has no free heels",
                "leave them out, or change kind",
            );
        }
        (Some(_), None, None) => table.missing("bar", "add [piece.bar] with width and gap"),
        (Some(shape), None, Some(bar)) if bar.shape != shape => {
            let what = format!(
                "the kind is {}, the bar has another form",
                piece.kind.word()
            );
            table.error("bar", what, format!("write shape = \"{}\"", shape.word()));
        }
        _ => {}
    }
}

fn blank() -> PieceSpecification {
    PieceSpecification {
        kind: ShoeKind::OpenHeeled,
        stock: blank_stock(),
        finished: Finished {
            width: NOTHING,
            length: NOTHING,
            thickness: NOTHING,
        },
        toe: blank_toe(),
        web: Web {
            toe: NOTHING,
            quarter: NOTHING,
            heel: NOTHING,
        },
        outer_fuller_by: NOTHING,
        heels: None,
        bar: None,
        fuller: None,
        nails: None,
        clips: Vec::new(),
    }
}

fn blank_stock() -> Stock {
    let (width, thickness, material) = (NOTHING, NOTHING, String::new());
    Stock {
        section: Section::Flat,
        width,
        thickness,
        length: None,
        material,
    }
}

fn blank_toe() -> Toe {
    Toe {
        shape: ToeShape::Round,
        radius: None,
        depth: None,
        edge: None,
        set_width: None,
    }
}

fn read_stock(piece: &Table<'_>) -> Stock {
    let Some(table) = piece.table("stock") else {
        piece.missing("stock", "add [piece.stock] with width and thickness");
        return blank_stock();
    };
    let stock = Stock {
        section: table
            .word("section", Section::WORDS)
            .unwrap_or(Section::Flat),
        width: table.needed_length("width"),
        thickness: table.needed_length("thickness"),
        length: table.length("length"),
        material: table
            .text("material")
            .unwrap_or_else(|| "mild steel".to_owned()),
    };
    table.finish();
    stock
}

fn read_finished(piece: &Table<'_>, stock: &Stock) -> Finished {
    let Some(table) = piece.table("finished") else {
        piece.missing("finished", "add [piece.finished] with width and length");
        return Finished {
            width: NOTHING,
            length: NOTHING,
            thickness: NOTHING,
        };
    };
    let finished = Finished {
        width: table.needed_length("width"),
        length: table.needed_length("length"),
        thickness: table.length("thickness").unwrap_or(stock.thickness),
    };
    table.finish();
    finished
}

fn read_toe(piece: &Table<'_>) -> Toe {
    let Some(table) = piece.table("toe") else {
        return blank_toe();
    };
    let toe = Toe {
        shape: table
            .word("shape", ToeShape::WORDS)
            .unwrap_or(ToeShape::Round),
        radius: table.length("radius"),
        depth: table.length("depth"),
        edge: table.length("edge"),
        set_width: table.length("set_width"),
    };
    table.finish();
    toe
}

fn read_web(piece: &Table<'_>, stock_width: Length) -> Web {
    let Some(table) = piece.table("web") else {
        return Web {
            toe: stock_width,
            quarter: stock_width,
            heel: stock_width,
        };
    };
    let web = Web {
        toe: table.length("toe").unwrap_or(stock_width),
        quarter: table.length("quarter").unwrap_or(stock_width),
        heel: table.length("heel").unwrap_or(stock_width),
    };
    table.finish();
    web
}

fn read_heels(table: Table<'_>) -> Heels {
    let heels = Heels {
        gap: table.needed_length("gap"),
        shape: table
            .word("shape", HeelShape::WORDS)
            .unwrap_or(HeelShape::Rounded),
    };
    table.finish();
    heels
}

fn read_bar(table: Table<'_>, stock_thickness: Length) -> Bar {
    let bar = Bar {
        shape: table
            .word("shape", BarShape::WORDS)
            .unwrap_or(BarShape::Straight),
        width: table.needed_length("width"),
        thickness: table.length("thickness").unwrap_or(stock_thickness),
        gap: table.needed_length("gap"),
        behind: table.length("behind"),
        plate_length: table.length("plate_length"),
        plate_width: table.length("plate_width"),
    };
    table.finish();
    bar
}

fn read_fuller(table: Table<'_>) -> Fuller {
    let fuller = Fuller {
        extent: table
            .word("extent", FullerExtent::WORDS)
            .unwrap_or(FullerExtent::ThreeQuarter),
        start: table.needed_length("start"),
        end: table.needed_length("end"),
        inset: table.needed_length("inset"),
        width: table.needed_length("width"),
        depth: table.needed_length("depth"),
    };
    if fuller.end < fuller.start {
        table.error(
            "end",
            "the fuller ends before it starts",
            "make end larger than start",
        );
    }
    table.finish();
    fuller
}

fn read_nails(table: Table<'_>) -> NailHoles {
    let angle = |key| {
        table
            .quantity(key, Dimension::Angle)
            .and_then(Angle::nearest)
    };
    let nails = NailHoles {
        outer: table.count("outer").unwrap_or(0),
        inner: table.count("inner").unwrap_or(0),
        first: table.needed_length("first"),
        spacing: table.needed_length("spacing"),
        inset: table.needed_length("inset"),
        pitch_toe: angle("pitch_toe"),
        pitch_heel: angle("pitch_heel"),
        nail: table.text_or_empty("nail"),
    };
    table.finish();
    nails
}

fn read_clip(table: Table<'_>) -> Clip {
    let clip = Clip {
        place: table
            .word("place", ClipPlace::WORDS)
            .unwrap_or(ClipPlace::Toe),
        width: table.needed_length("width"),
        height: table.needed_length("height"),
        thickness: table.needed_length("thickness"),
    };
    table.finish();
    clip
}
