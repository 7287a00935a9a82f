use std::cmp::Reverse;

use super::{about, figure, number, plain_table, text};
use crate::chart::{Drawing, SmallCourse, small_course, small_courses};
use crate::progress::{CriterionCourse, Series, criterion_courses};
use crate::quantity::Marks;
use crate::records::Day;
use crate::sheet::document::{Cell, Table};

/// The criteria of one section.
#[derive(Debug, Clone, PartialEq)]
pub struct SectionShown {
    /// The section's name.
    pub heading: String,
    /// Its criteria, the one first in which there is most to win.
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
    /// What there is to win: `to win 1.3`; empty where nothing is, or nothing is known.
    pub to_win: String,
    /// The same exactly, as marks of the total.
    pub wins: Marks,
}

/// Every criterion as a small chart, by section. What there is most to win in comes first,
/// of sections as of criteria in them; of equal ones that which the rubric has first.
pub fn criteria_shown(series: &Series<'_>) -> Vec<SectionShown> {
    let sections = by_section(series);
    let days: Vec<Day> = series.pieces.iter().map(|made| made.day).collect();
    sections
        .iter()
        .filter_map(|one| section(one, &days))
        .collect()
}

/// The criteria section by section, as they are shown.
fn by_section(series: &Series<'_>) -> Vec<Vec<CriterionCourse>> {
    let courses = criterion_courses(series);
    let sections = courses.chunk_by(|one, next| one.section == next.section);
    let mut sections: Vec<Vec<CriterionCourse>> = sections.map(<[_]>::to_vec).collect();
    let to_win = |course: &CriterionCourse| course.to_win.unwrap_or(Marks::ZERO);
    for section in &mut sections {
        section.sort_by_key(|course| Reverse(to_win(course)));
    }
    sections.sort_by_key(|section| Reverse(Marks::sum(section.iter().map(to_win))));
    sections
}

/// The courses of one section over pieces of these days; `None` where there are none.
fn section(courses: &[CriterionCourse], days: &[Day]) -> Option<SectionShown> {
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
        criteria: courses.iter().map(|one| criterion(one, days)).collect(),
        heading,
    })
}

fn criterion(course: &CriterionCourse, days: &[Day]) -> CriterionShown {
    CriterionShown {
        drawing: drawn(course, days),
        latest: latest(course),
        to_win: to_win(course),
        wins: course.to_win.unwrap_or(Marks::ZERO),
        name: course.name.clone(),
    }
}

fn to_win(course: &CriterionCourse) -> String {
    let any = course.to_win.filter(|marks| !marks.0.is_zero());
    any.map_or_else(String::new, |marks| format!("to win {}", about(marks)))
}

/// The same as a table: the marks of each criterion, the oldest piece first.
pub fn criteria_table(series: &Series<'_>) -> Table {
    let rows = by_section(series).into_iter().flatten().map(|course| {
        let out_of = course.latest().map(|point| point.out_of.to_string());
        let to_win = course.to_win.map_or_else(|| "–".to_owned(), about);
        vec![
            Cell::text(course.name.clone()),
            Cell::text(piece_by_piece(&course)),
            figure(out_of.unwrap_or_default()),
            figure(to_win),
        ]
    });
    plain_table(
        "Marks of each criterion, piece by piece".to_owned(),
        vec![
            text("Criterion"),
            text("Marks, the oldest piece first"),
            number("Of"),
            number("To win a piece"),
        ],
        rows.collect(),
    )
}

fn drawn(course: &CriterionCourse, days: &[Day]) -> Drawing {
    let points = days.iter().zip(&course.points);
    let read = points.map(|(day, point)| match point {
        Some(point) => format!("{day}: {} of {}", point.marks, point.out_of),
        None => String::new(),
    });
    small_course(
        course.name.clone(),
        format!(
            "Marks, the oldest piece first: {}; the latest {}.",
            piece_by_piece(course),
            latest(course)
        ),
        &shares(course),
        &read.collect::<Vec<_>>(),
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
