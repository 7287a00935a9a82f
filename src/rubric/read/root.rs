use super::award::{read_award, read_moderation, read_time};
use super::criterion::{Common, read_criterion};
use super::impression::read_first_impression;
use super::lists::{
    read_causes, read_heats, read_instruments, read_qualification, read_readings, read_shoes,
    read_steps,
};
use super::piece::read_piece;
use super::table::{Ids, Table};
use crate::quantity::Unit;
use crate::rubric::model::{Rubric, Section};

const UNITS: &[(&str, Unit)] = &[("mm", Unit::Millimetre), ("in", Unit::Inch64)];

/// The whole file. Placeholders stand where something is missing; the errors
/// then keep the rubric from being used.
pub(super) fn read_root(root: &Table<'_>) -> Rubric {
    check_schema(root);
    let shoes = read_shoes(root);
    let piece_table = root.table("piece");
    if !root.has("piece") {
        root.missing("piece", "add [piece] with kind, stock and finished");
    }
    let heats = read_heats(root);
    let time = root.table("time").map(read_time);
    let piece_number = |path: &str| piece_table.as_ref().and_then(|piece| piece.number_at(path));
    let common = Common {
        shoes: &shoes,
        heats: &heats,
        time: time.as_ref(),
        piece_number: &piece_number,
    };
    let sections = read_sections(root, &common);
    let readings = read_readings(root, &shoes);
    if !root.has("version") {
        root.missing("version", "add a line such as version = \"1\"");
    }
    let rubric = Rubric {
        id: root.needed_id(),
        version: root.number_text("version").unwrap_or_default(),
        title: root.needed_text("title"),
        about: root.text_or_empty("about"),
        source: root.text_or_empty("source"),
        unit: root.word("unit", UNITS).unwrap_or(Unit::Millimetre),
        examiners: root.positive_count("examiners").unwrap_or(1),
        qualification: root.table("qualification").map(read_qualification),
        instruments: read_instruments(root),
        steps: read_steps(root),
        causes: read_causes(root),
        award: read_award(root),
        cautions: root
            .texts("cautions")
            .into_iter()
            .map(|(text, _)| text)
            .collect(),
        piece: read_piece(piece_table, &shoes),
        shoes,
        heats,
        time,
        readings,
        sections,
        moderation: root
            .table("moderation")
            .map(read_moderation)
            .unwrap_or_default(),
        first_impression: root.table("first_impression").map(read_first_impression),
    };
    root.refuse_unknown();
    rubric
}

fn check_schema(root: &Table<'_>) {
    if !root.has("schema") {
        root.missing("schema", "add the line schema = 1 at the top");
    } else if root.count("schema").is_some_and(|schema| schema != 1) {
        let remedy = "use schema = 1, or a newer Evenshod";
        root.error("schema", "this program reads schema 1 only", remedy);
    }
}

fn read_sections(root: &Table<'_>, common: &Common<'_>) -> Vec<Section> {
    let tables = root.tables("sections", "section");
    if tables.is_empty() {
        root.missing("sections", "add [[sections]] with [[sections.criteria]]");
    }
    let mut ids = Ids::new(root.source, "a section");
    let mut criterion_ids = Ids::new(root.source, "a criterion");
    let mut sections = Vec::new();
    for table in tables {
        let mut criteria = Vec::new();
        for criterion in table.tables("criteria", "criterion") {
            let span = criterion.span_of("id");
            let criterion = read_criterion(criterion, common);
            criterion_ids.add(&criterion.id, span);
            criteria.push(criterion);
        }
        if criteria.is_empty() {
            table.missing("criteria", "add [[sections.criteria]]");
        }
        let section = Section {
            id: table.needed_id(),
            name: table.needed_text("name"),
            weight: table.positive_marks("weight"),
            minimum: table.threshold("minimum"),
            cap: table.positive_marks("cap"),
            criteria,
        };
        ids.add(&section.id, table.span_of("id"));
        table.finish();
        sections.push(section);
    }
    sections
}
