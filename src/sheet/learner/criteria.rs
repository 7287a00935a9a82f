use super::{figure, number, plain_table, text};
use crate::chart::{Drawing, SmallCourse, small_course, small_courses};
use crate::progress::{CriterionCourse, Series, criterion_courses};
use crate::sheet::document::{Cell, Table};

/// The criteria of one section.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionShown {
    /// The section's name.
    pub heading: String,
    /// Its criteria, in the rubric's order.
    pub criteria: Vec<CriterionShown>,
    /// All of them in one drawing, to be saved.
    pub drawing: Drawing,
}

/// One criterion over the pieces of a series.
#[derive(Debug, Clone, PartialEq)]
pub struct CriterionShown {
    /// What people call it.
    pub name: String,
    /// Its marks, piece by piece.
    pub drawing: Drawing,
    /// The latest: `3 of 4`; a dash where there are none.
    pub latest: String,
}

/// Every criterion as a small chart, by section.
pub fn criteria_shown(series: &Series<'_>) -> Vec<SectionShown> {
    let courses = criterion_courses(series);
    let sections = courses.chunk_by(|one, next| one.section == next.section);
    sections.filter_map(section).collect()
}

/// The courses of one section; `None` where there are none.
fn section(courses: &[CriterionCourse]) -> Option<SectionShown> {
    let heading = courses.first()?.section.clone();
    let words = |course: &CriterionCourse| format!("{}: {}", course.name, latest(course));
    let described: Vec<String> = courses.iter().map(words).collect();
    let small: Vec<SmallCourse> = courses.iter().map(small).collect();
    Some(SectionShown {
        drawing: small_courses(
            heading.clone(),
            format!(
                "Marks of each criterion, the oldest piece first; the latest are {}.",
                described.join(", ")
            ),
            &small,
        ),
        criteria: courses.iter().map(criterion).collect(),
        heading,
    })
}

fn criterion(course: &CriterionCourse) -> CriterionShown {
    CriterionShown {
        drawing: drawn(course),
        latest: latest(course),
        name: course.name.clone(),
    }
}

/// The same as a table: the marks of each criterion, the oldest piece first.
pub fn criteria_table(series: &Series<'_>) -> Table {
    let rows = criterion_courses(series);
    let rows = rows.iter().map(|course| {
        let out_of = course.latest().map(|point| point.out_of.to_string());
        vec![
            Cell::text(course.name.clone()),
            Cell::text(piece_by_piece(course)),
            figure(out_of.unwrap_or_default()),
        ]
    });
    plain_table(
        "Marks of each criterion, piece by piece".to_owned(),
        vec![
            text("Criterion"),
            text("Marks, the oldest piece first"),
            number("Of"),
        ],
        rows.collect(),
    )
}

fn drawn(course: &CriterionCourse) -> Drawing {
    small_course(
        course.name.clone(),
        format!(
            "Marks, the oldest piece first: {}; the latest {}.",
            piece_by_piece(course),
            latest(course)
        ),
        &shares(course),
    )
}

fn small(course: &CriterionCourse) -> SmallCourse {
    SmallCourse {
        name: course.name.clone(),
        latest: latest(course),
        shares: shares(course),
    }
}

fn shares(course: &CriterionCourse) -> Vec<Option<f64>> {
    let points = course.points.iter();
    let shares = points.map(|point| point.map(|point| point.share.to_f64()));
    shares.collect()
}

/// `2, 2, –, 4`: a dash where there are no marks.
fn piece_by_piece(course: &CriterionCourse) -> String {
    let marks = course
        .points
        .iter()
        .map(|point| point.map_or_else(|| "–".to_owned(), |point| point.marks.to_string()));
    marks.collect::<Vec<_>>().join(", ")
}

fn latest(course: &CriterionCourse) -> String {
    course.latest().map_or_else(
        || "–".to_owned(),
        |point| format!("{} of {}", point.marks, point.out_of),
    )
}
